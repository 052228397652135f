// Package site builds the page into a folder that any host can serve, and
// serves that folder on this machine alone.
//
// The source is found from the working directory's go.mod: index.html is the
// page's text, wasm its program. What is built is never committed. Two builds
// of the same source by the same toolchain give the same bytes, whatever the
// folder.
package site

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// module is the first line of the go.mod that marks the source tree.
const module = "module ruffwright"

// ErrNoSource means that no source tree was found above the folder asked for.
var ErrNoSource = errors.New("the page is built from its source: run this inside a clone of ruffwright (the folder with its go.mod), or open a site built earlier by `ruffwright page OUT`")

// Root is the folder of ruffwright's go.mod at or above dir ("" = the working
// directory). The error is ErrNoSource when there is none.
func Root(dir string) (string, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	for {
		if first, err := firstLine(filepath.Join(dir, "go.mod")); err == nil && first == module {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", ErrNoSource
		}
		dir = up
	}
}

func firstLine(name string) (string, error) {
	f, err := os.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		if text := strings.TrimSpace(lines.Text()); text != "" && !strings.HasPrefix(text, "//") {
			return text, nil
		}
	}
	return "", fmt.Errorf("%s is empty", name)
}
