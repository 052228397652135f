package main

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	_ "image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/rogpeppe/go-internal/testscript"

	"ruffwright/assets"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"ruffwright": main})
}

// moduleRoot is the folder of go.mod above the test's own.
func moduleRoot(t *testing.T) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the test")
		}
		dir = up
	}
}

// TestScripts runs the command as a user types it: one script a behaviour.
func TestScripts(t *testing.T) {
	root := moduleRoot(t)
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(env *testscript.Env) error {
			env.Setenv("SOURCE", root)
			// Builds share the caches of the user who runs the tests.
			for _, name := range []string{"GOCACHE", "GOMODCACHE", "GOPATH", "GOPROXY", "GOFLAGS"} {
				value, err := exec.Command("go", "env", name).Output()
				if err != nil {
					return err
				}
				env.Setenv(name, strings.TrimSpace(string(value)))
			}
			cache, err := os.UserCacheDir()
			env.Setenv("XDG_CACHE_HOME", cache)
			return err
		},
		Condition: func(name string) (bool, error) {
			if name == "slow" { // scripts that compile the page
				return !testing.Short(), nil
			}
			return false, fmt.Errorf("unknown condition %q", name)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits":  exits,
			"isjson": isJSON,
			"issvg":  isSVG,
			"ispng":  isPNG,
			"ispdf":  isPDF,
			"fill":   fill,
			"demos":  everyDemo,
		},
	})
}

// exits CODE COMMAND...: runs the command and expects this very exit code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
	if want == exitBad && ts.ReadFile("stdout") != "" {
		ts.Fatalf("bad input wrote to standard output")
	}
	if strings.Contains(ts.ReadFile("stderr"), "goroutine ") {
		ts.Fatalf("it panicked")
	}
}

// isjson FILE [KEY VALUE]...: the file (or stdout) is one JSON value, whose
// keys (a.b, list.0.c) hold these values.
func isJSON(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args)%2 != 1 {
		ts.Fatalf("usage: isjson FILE [KEY VALUE]...")
	}
	var v any
	if err := json.Unmarshal([]byte(ts.ReadFile(args[0])), &v); err != nil {
		ts.Fatalf("%s: %v", args[0], err)
	}
	for i := 1; i < len(args); i += 2 {
		if got := fmt.Sprint(at(v, strings.Split(args[i], "."))); got != args[i+1] {
			ts.Fatalf("%s is %s, want %s", args[i], got, args[i+1])
		}
	}
}

// at follows a path of keys and indices into a JSON value; nil where it ends.
func at(v any, path []string) any {
	for _, step := range path {
		switch x := v.(type) {
		case map[string]any:
			v = x[step]
		case []any:
			i, err := strconv.Atoi(step)
			if err != nil || i < 0 || i >= len(x) {
				return nil
			}
			v = x[i]
		default:
			return nil
		}
	}
	return v
}

// issvg FILE: well-formed XML whose root is svg, sized in mm, with something in
// it.
func isSVG(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: issvg FILE")
	}
	text := ts.ReadFile(args[0])
	d := xml.NewDecoder(strings.NewReader(text))
	elements := 0
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		ts.Check(err)
		if start, ok := token.(xml.StartElement); ok {
			if elements == 0 && start.Name.Local != "svg" {
				ts.Fatalf("the root is %s, not svg", start.Name.Local)
			}
			elements++
		}
	}
	if elements < 5 || len(text) < 2000 {
		ts.Fatalf("the drawing has %d elements, %d bytes: it is empty", elements, len(text))
	}
	if !strings.Contains(text[:min(len(text), 400)], "mm\"") {
		ts.Fatalf("the drawing has no size in mm")
	}
}

// ispng FILE WIDTH HEIGHT: a picture of that size, give or take a pixel of
// rounding, with more than a ground in it.
func isPNG(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: ispng FILE WIDTH HEIGHT")
	}
	picture, format, err := image.Decode(bytes.NewReader([]byte(ts.ReadFile(args[0]))))
	ts.Check(err)
	size := picture.Bounds().Size()
	for i, got := range []int{size.X, size.Y} {
		want, err := strconv.Atoi(args[1+i])
		ts.Check(err)
		if got < want-1 || got > want+1 {
			ts.Fatalf("the %s is %v pixels, want %s × %s", format, size, args[1], args[2])
		}
	}
	ground := picture.At(0, 0)
	inked := 0
	for y := range size.Y {
		for x := range size.X {
			if picture.At(x, y) != ground {
				inked++
			}
		}
	}
	if share := float64(inked) / float64(size.X*size.Y); share < 0.005 {
		ts.Fatalf("the picture is blank: %.4f of it is drawn", share)
	}
}

// ispdf FILE WIDE HIGH TEXT...: a PDF that pdfcpu reads, every page of that size in
// mm, every page with a bookmark of its own, each text in some bookmark.
func isPDF(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 3 {
		ts.Fatalf("usage: ispdf FILE WIDE HIGH TEXT...")
	}
	api.DisableConfigDir()
	file := strings.NewReader(ts.ReadFile(args[0]))
	sizes, err := api.PageDims(file, nil)
	ts.Check(err)
	for i, size := range sizes {
		for k, got := range []float64{size.Width, size.Height} {
			want, err := strconv.ParseFloat(args[1+k], 64)
			ts.Check(err)
			if math.Abs(got*25.4/72-want) > 0.05 { // PDF units are written with two decimals
				ts.Fatalf("page %d is %.2f × %.2f mm, want %s × %s", i+1, size.Width*25.4/72, size.Height*25.4/72, args[1], args[2])
			}
		}
	}
	marks, err := api.Bookmarks(file, nil)
	ts.Check(err)
	if len(marks) != len(sizes) || len(marks) < 9 {
		ts.Fatalf("%d pages, %d bookmarks", len(sizes), len(marks))
	}
	for _, text := range args[3:] {
		if !slices.ContainsFunc(marks, func(b pdfcpu.Bookmark) bool { return strings.Contains(b.Title, text) }) {
			ts.Fatalf("no page is called %q", text)
		}
	}
}

// fill FILE BYTES TEXT: a file of that many bytes that begins with the text.
func fill(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: fill FILE BYTES TEXT")
	}
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	text := args[2] + strings.Repeat(" ", max(0, n-len(args[2])))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o644))
}

// everyDemo COMMAND...: runs the command with each demo's name as its last
// argument; none may fail but by an answer.
func everyDemo(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: demos COMMAND...")
	}
	for _, name := range assets.Demos() {
		err := ts.Exec(args[0], append(args[1:len(args):len(args)], name)...)
		var exit *exec.ExitError
		if err != nil && !(errors.As(err, &exit) && exit.ExitCode() == exitStops) {
			ts.Fatalf("demo %s: %v", name, err)
		}
		if ts.ReadFile("stderr") != "" {
			ts.Fatalf("demo %s: it complains", name)
		}
	}
}

// TestScriptsAreWhole: a script that the runner would not see, for its name,
// tests nothing.
func TestScriptsAreWhole(t *testing.T) {
	all, err := filepath.Glob("testdata/script/*")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range all {
		if !strings.HasSuffix(name, ".txt") {
			t.Errorf("%s is no script: name it .txt", name)
		}
	}
	if len(all) < 10 {
		t.Errorf("%d scripts", len(all))
	}
}
