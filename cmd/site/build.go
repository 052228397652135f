package site

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"ruffwright/assets"
	"ruffwright/wasm/page"
	"ruffwright/wasm/page/say"
)

// Options of a build. The zero value builds the tree of the working directory
// into the cache.
type Options struct {
	Source string // folder inside the source tree; "" = the working directory
	Out    string // folder of the site, made if missing; "" = a folder of the user's cache, kept for the next time

	Progress io.Writer // a line for each step that takes time; nil = silence
}

// Manifest lists what a build wrote.
type Manifest struct {
	Version int               `json:"version"` // of this manifest
	Files   map[string]string `json:"files"`   // what it is → its hashed name
	Sizes   map[string]int    `json:"bytes"`   // hashed name → bytes
}

// manifestName is written last: a folder without it is not a whole site.
const manifestName = "manifest.json"

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
	"ruffwright/sim/window", "ruffwright/sim/check", "ruffwright/sim/shell/known",
}

// wordyPress are those of the press beside them: they lay out and write, and wait
// for the solver and for the pictures' surfaces, which stay fast.
var wordyPress = []string{
	"archive/zip", "image/png", "rsc.io/qr", "rsc.io/qr/coding", "golang.org/x/image/font/sfnt",
	"codeberg.org/go-pdf/fpdf", "encoding/gob", "encoding/xml", "image/gif", "image/jpeg", "regexp", "regexp/syntax",
	"ruffwright/sim/paper", "ruffwright/wasm/printing",
}

// terse are the flags that keep the packages small.
func terse(pkgs ...string) []string {
	flags := make([]string, len(pkgs))
	for i, pkg := range pkgs {
		flags[i] = "-gcflags=" + pkg + "=-l"
	}
	return flags
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

// Build builds the site and returns its folder. A site already in the cache
// for the same source and toolchain is returned as it is. Options.Out must be
// empty, missing, or a site built earlier: nothing else is overwritten.
func Build(ctx context.Context, opt Options) (string, error) {
	cached, err := found(ctx, opt)
	if err != nil || opt.Out == "" {
		return cached, err
	}
	return opt.Out, publish(cached, opt.Out)
}

// found is the cache's site for the source of opt, built where it is not there.
func found(ctx context.Context, opt Options) (string, error) {
	root, err := Root(opt.Source)
	if err != nil {
		return "", err
	}
	if opt.Progress == nil {
		opt.Progress = io.Discard
	}
	return cachedBuild(ctx, root, opt.Progress)
}

// cachedBuild returns the cache's site for the source at root, building it if
// it is not there.
func cachedBuild(ctx context.Context, root string, progress io.Writer) (string, error) {
	base, err := os.UserCacheDir()
	if err != nil {
		base = os.TempDir()
	}
	base = filepath.Join(base, "ruffwright")
	version, err := toolchain(ctx, root)
	if err != nil {
		return "", err
	}
	key, err := sourceKey(root, version)
	if err != nil {
		return "", err
	}
	dir := filepath.Join(base, "site-"+key)
	if whole(dir) {
		now := time.Now()
		os.Chtimes(dir, now, now) // in use: see forget; if it fails, it only looks old
		return dir, nil
	}
	fmt.Fprintln(progress, "building the page's programs (the first time takes a minute or two)")
	if err := os.MkdirAll(base, 0o755); err != nil {
		return "", err
	}
	fresh, err := os.MkdirTemp(base, "building-")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(fresh)
	if err := os.Chmod(fresh, 0o755); err != nil {
		return "", err
	}
	if err := compile(ctx, root, fresh); err != nil {
		return "", err
	}
	if err := os.Rename(fresh, dir); err != nil && !whole(dir) { // another build may have been first
		return "", err
	}
	forget(base, 6)
	return dir, nil
}

// toolchain is the version of the Go that will build.
func toolchain(ctx context.Context, root string) (string, error) {
	env := exec.CommandContext(ctx, "go", "env", "GOVERSION")
	env.Dir = root
	text, err := env.CombinedOutput()
	if err != nil {
		return "", failed("go env", text, err)
	}
	return strings.TrimSpace(string(text)), nil
}

// sourceRooms are the parts of the tree that reach the site.
var sourceRooms = []string{"go.mod", "go.sum", "index.html", "assets", "geom", "sim", "wasm", "cmd/site"}

// sourceKey names the source by its content: every file of sourceRooms that a
// build may read, tests and test data left out.
func sourceKey(root, version string) (string, error) {
	sum := sha256.New()
	fmt.Fprintln(sum, "site 1", version)
	for _, part := range sourceRooms {
		err := filepath.WalkDir(filepath.Join(root, part), func(name string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if d.IsDir() {
				if d.Name() == "testdata" {
					return fs.SkipDir
				}
				return nil
			}
			if strings.HasSuffix(name, "_test.go") {
				return nil
			}
			text, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			rel, err := filepath.Rel(root, name)
			if err != nil {
				return err
			}
			fmt.Fprintf(sum, "%s %d %x\n", filepath.ToSlash(rel), len(text), sha256.Sum256(text))
			return nil
		})
		if err != nil {
			return "", err
		}
	}
	return hex.EncodeToString(sum.Sum(nil))[:16], nil
}

// whole reports whether dir holds a finished site.
func whole(dir string) bool {
	m, err := ReadManifest(dir)
	if err != nil {
		return false
	}
	for name, size := range m.Sizes {
		if at, err := os.Stat(filepath.Join(dir, name)); err != nil || at.Size() != int64(size) {
			return false
		}
	}
	return true
}

// ReadManifest reads the manifest of the site in dir.
func ReadManifest(dir string) (Manifest, error) {
	var m Manifest
	text, err := os.ReadFile(filepath.Join(dir, manifestName))
	if err != nil {
		return m, err
	}
	if err := json.Unmarshal(text, &m); err != nil {
		return m, fmt.Errorf("%s: %w", manifestName, err)
	}
	if m.Version != 1 || m.Files["page"] == "" {
		return m, fmt.Errorf("%s: not a site of this version", manifestName)
	}
	return m, nil
}

// forget keeps the sites of the cache that were used last, and what was used
// within a day: somebody may be serving it. It removes the others.
func forget(base string, keep int) {
	sites, err := filepath.Glob(filepath.Join(base, "site-*"))
	if err != nil || len(sites) <= keep {
		return
	}
	age := func(name string) int64 {
		if at, err := os.Stat(name); err == nil {
			return at.ModTime().UnixNano()
		}
		return 0
	}
	slices.SortFunc(sites, func(a, b string) int { return int(min(1, max(-1, age(a)-age(b)))) })
	for _, old := range sites[:len(sites)-keep] {
		if time.Since(time.Unix(0, age(old))) > 24*time.Hour {
			os.RemoveAll(old)
			os.Remove(packedName(old))
		}
	}
}

// compile writes the whole site into the empty folder dir.
func compile(ctx context.Context, root, dir string) error {
	m := Manifest{Version: 1, Files: map[string]string{}, Sizes: map[string]int{}}
	write := func(what, stem, ext string, text []byte) error {
		name := stem + ext
		if stem != "index" && stem != "offline" { // these two are asked for by name
			name = fmt.Sprintf("%s.%x", stem, sha256.Sum256(text))
			name = name[:len(stem)+1+12] + ext
		}
		m.Files[what], m.Sizes[name] = name, len(text)
		return os.WriteFile(filepath.Join(dir, name), text, 0o644)
	}

	for _, own := range []struct {
		what, pkg, stem string
		flags           []string
	}{
		{"program", "./wasm", "ruffwright", nil},
		{"solver", "./wasm/worker", "solver", terse(wordy...)},
		{"press", "./wasm/press", "press", terse(slices.Concat(wordy, wordyPress)...)},
	} {
		built := filepath.Join(dir, "program.tmp")
		if err := program(ctx, root, own.pkg, built, own.flags...); err != nil {
			return err
		}
		text, err := os.ReadFile(built)
		if err != nil {
			return err
		}
		if err := os.Remove(built); err != nil {
			return err
		}
		if err := write(own.what, own.stem, ".wasm", text); err != nil {
			return err
		}
	}
	text, err := execJS(ctx, root)
	if err != nil {
		return err
	}
	if err := write("exec", "wasm_exec", ".js", text); err != nil {
		return err
	}
	for _, own := range []struct{ what, stem, ext string }{{"style", "page", ".css"}, {"loader", "loader", ".js"}, {"worker", "worker", ".js"}} {
		text, ok := assets.PageFile(own.stem + own.ext)
		if !ok {
			return fmt.Errorf("assets has no page file %s", own.stem+own.ext)
		}
		if err := write(own.what, own.stem, own.ext, text); err != nil {
			return err
		}
	}
	if err := write("notices", "notices", ".txt", []byte(assets.Notices)); err != nil {
		return err
	}
	start, err := page.Start()
	if err != nil {
		return fmt.Errorf("the page's start: %w", err)
	}
	for _, picture := range start.Pictures {
		if err := write("picture "+picture.Name, "start-"+picture.Name, ".jpg", picture.JPEG); err != nil {
			return err
		}
	}
	source, err := os.ReadFile(filepath.Join(root, "index.html"))
	if err != nil {
		return err
	}
	text, err = assemble(source, start, m.Files)
	if err != nil {
		return fmt.Errorf("index.html: %w", err)
	}
	if err := write("page", "index", ".html", text); err != nil {
		return err
	}
	text, err = offline(dir, m)
	if err != nil {
		return err
	}
	if err := write("offline", "offline", ".js", text); err != nil {
		return err
	}
	list, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, manifestName), append(list, '\n'), 0o644)
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

// assemble fills the page's source: each mark `<!-- fill NAME -->` in it gives
// way to what was built, the notice for an unbuilt page is taken out, and the
// names of files become the hashed ones. A mark that is missing or left over
// is an error.
func assemble(source []byte, start page.Started, files map[string]string) ([]byte, error) {
	text := source
	if from, to := bytes.Index(text, []byte("<!-- unbuilt -->")), bytes.Index(text, []byte("<!-- /unbuilt -->")); from >= 0 && to > from {
		text = slices.Concat(text[:from], text[to+len("<!-- /unbuilt -->"):])
	} else {
		return nil, errors.New("the notice for an unbuilt page is not marked")
	}
	spoken, err := say.Fill(string(text)) // before anything else comes in
	if err != nil {
		return nil, err
	}
	text = []byte(strings.Replace(spoken, `<html lang="en">`, `<html lang="`+say.Language()+`">`, 1))
	replace := func(old, new string) error {
		if bytes.Count(text, []byte(old)) != 1 {
			return fmt.Errorf("%q must stand once, and stands %d times", old, bytes.Count(text, []byte(old)))
		}
		text = bytes.Replace(text, []byte(old), []byte(new), 1)
		return nil
	}
	for name, html := range start.HTML {
		err = errors.Join(err, replace("<!-- fill "+name+" -->", html))
	}
	err = errors.Join(err,
		replace(`href="assets/page/page.css"`, `href="`+files["style"]+`"`),
		replace(`href="assets/notices.txt"`, `href="`+files["notices"]+`"`),
		replace(`<!-- fill program -->`, `<script defer src="`+files["exec"]+`"></script>
<script defer src="`+files["loader"]+`" data-program="`+files["program"]+`" data-exec="`+files["exec"]+`" data-worker="`+files["worker"]+`" data-solver="`+files["solver"]+`" data-press="`+files["press"]+`" data-offline="offline.js"></script>
<link rel="preload" as="fetch" crossorigin href="`+files["program"]+`">`))
	for _, picture := range start.Pictures {
		err = errors.Join(err, replace("start-"+picture.Name+".jpg", files["picture "+picture.Name]))
	}
	if err != nil {
		return nil, err
	}
	if at := bytes.Index(text, []byte("<!-- fill ")); at >= 0 {
		return nil, fmt.Errorf("nothing fills %q", text[at:min(at+40, len(text))])
	}
	return text, nil
}
