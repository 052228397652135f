package site

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// program is how the page's program is compiled: the same bytes from any
// folder, without names for a debugger.
func program(ctx context.Context, root, pkg, out string, flags ...string) error {
	args := append([]string{"build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w -buildid=", "-o", out}, flags...)
	build := exec.CommandContext(ctx, "go", append(args, pkg)...)
	build.Dir = root
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=", "GOEXPERIMENT=")
	if text, err := build.CombinedOutput(); err != nil {
		return failed("go build "+pkg, text, err)
	}
	return nil
}

// wordy are the packages of the solver's program that read and write text, or
// only set up what sim/shell solves. Nothing is inlined in them: that takes 6 % off
// the program's compressed size, and no time off a solve.
var wordy = []string{
	"bufio", "bytes", "compress/flate", "context", "encoding/base64", "encoding/binary", "encoding/json", "fmt",
	"internal/poll", "internal/strconv", "io/fs", "os", "reflect", "sort", "strconv", "strings", "syscall", "time",
	"unicode", "unicode/utf8", "golang.org/x/text/unicode/norm", "ruffwright/geom/pattern", "ruffwright/geom/scheme",
	"ruffwright/sim/window", "ruffwright/sim/check", "ruffwright/sim/shell/known", "ruffwright/geom", "ruffwright/geom/curve",
	"ruffwright/geom/pleat", "ruffwright/geom/word", "ruffwright/sim", "ruffwright/sim/cloth", "ruffwright/sim/measure",
	"ruffwright/wasm/port", "ruffwright/wasm/solving", "errors", "hash/crc32", "sync", "gonum.org/v1/gonum/mathext",
}

// wordyPress are those of the press beside them: they lay out and write, and wait
// for the solver and for the pictures' surfaces, which stay fast.
var wordyPress = []string{
	"archive/zip", "image/png", "rsc.io/qr", "rsc.io/qr/coding", "golang.org/x/image/font/sfnt",
	"codeberg.org/go-pdf/fpdf", "encoding/gob", "encoding/xml", "image/gif", "image/jpeg", "regexp", "regexp/syntax",
	"ruffwright/sim/paper", "ruffwright/sim/paper/sheet", "ruffwright/wasm/printing", "ruffwright/geom/draw", "ruffwright/geom/figure",
	"compress/lzw", "compress/zlib", "encoding/hex", "path/filepath", "golang.org/x/text/encoding", "golang.org/x/text/encoding/charmap",
}

// terse are the flags that keep the packages small.
func terse(pkgs ...string) []string {
	flags := make([]string, len(pkgs))
	for i, pkg := range pkgs {
		flags[i] = "-gcflags=" + pkg + "=-l"
	}
	return flags
}

// execJS is the toolchain's own glue for its programs.
func execJS(ctx context.Context, root string) ([]byte, error) {
	env := exec.CommandContext(ctx, "go", "env", "GOROOT")
	env.Dir = root
	text, err := env.CombinedOutput()
	if err != nil {
		return nil, failed("go env", text, err)
	}
	return os.ReadFile(filepath.Join(strings.TrimSpace(string(text)), "lib", "wasm", "wasm_exec.js"))
}

// failed words the failure of a command with the first lines of what it said.
func failed(what string, text []byte, err error) error {
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	if len(lines) > 12 {
		lines = append(lines[:12], "…")
	}
	if errors.Is(err, exec.ErrNotFound) {
		return fmt.Errorf("%s: the Go toolchain is needed to build the page and is not on the PATH", what)
	}
	return fmt.Errorf("%s: %w\n%s", what, err, strings.Join(lines, "\n"))
}
