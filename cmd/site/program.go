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

// kernels are the packages that do the counting, for the solver and for what is drawn.
// In all others nothing is inlined: that takes a tenth off a program's compressed size.
var kernels = []string{"math", "ruffwright/geom", "ruffwright/geom/light", "ruffwright/sim/shell"}

// terse are the flags that keep all packages small but those.
func terse(pkgs ...string) []string {
	flags := []string{"-gcflags=all=-l"}
	for _, pkg := range pkgs {
		flags = append(flags, "-gcflags="+pkg+"=")
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
