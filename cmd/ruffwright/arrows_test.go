package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
)

// The rooms of the house and the arrows between them. A room not listed here
// is refused: whoever adds one says here what it may lean on.

// room is what one package of the module may import.
type room struct {
	below   []string // rooms of the module, relative to it
	tests   []string // rooms that its tests alone may lean on
	outside []string // modules other than the standard library, by prefix
}

// pure are the rooms that read no clock, file, network or global.
func pure(dir string) bool {
	return under(dir, "geom") || under(dir, "sim")
}

var (
	geometry  = []string{"geom", "geom/curve", "geom/scheme", "geom/pleat", "geom/word"}
	mechanics = slices.Concat(geometry, []string{"sim/cloth", "sim/shell", "sim/measure", "sim/window"})
	result    = slices.Concat(geometry, []string{"geom/pattern", "geom/draw", "geom/figure", "sim", "sim/cloth", "sim/measure", "sim/check", "sim/check/compare", "sim/propose", "sim/matter", "sim/trial", "sim/paper", "assets"})
)

var rooms = map[string]room{
	"geom":          {outside: []string{"gonum.org/v1/gonum"}},
	"geom/word":     {},
	"geom/scheme":   {below: []string{"geom", "geom/word"}, outside: []string{"golang.org/x/text"}},
	"geom/curve":    {below: []string{"geom"}, outside: []string{"gonum.org/v1/gonum"}},
	"geom/pleat":    {below: []string{"geom", "geom/curve", "geom/scheme", "geom/word"}, outside: []string{"gonum.org/v1/gonum"}},
	"geom/pattern":  {below: geometry},
	"geom/picture":  {below: []string{"geom/word"}, outside: []string{"golang.org/x/image"}},
	"geom/portrait": {below: []string{"geom", "geom/word"}},
	"geom/light":    {below: []string{"geom"}},
	"geom/draw":     {below: []string{"geom", "geom/light", "geom/scheme", "geom/word"}, outside: []string{"github.com/fogleman/gg", "github.com/golang/freetype", "golang.org/x/image"}},
	"geom/figure":   {below: slices.Concat(geometry, []string{"geom/draw", "geom/light"})},

	"sim/cloth":         {below: []string{"geom", "geom/scheme", "geom/word"}, outside: []string{"gonum.org/v1/gonum"}},
	"sim/measure":       {},
	"sim/shell":         {below: []string{"geom"}, outside: []string{"gonum.org/v1/gonum"}},
	"sim/shell/known":   {below: []string{"geom", "geom/curve", "sim/shell", "sim/window"}, outside: []string{"gonum.org/v1/gonum"}},
	"sim/window":        {below: slices.Concat(geometry, []string{"sim/measure", "sim/cloth", "sim/shell"}), tests: []string{"sim/shell/known"}},
	"sim":               {below: mechanics},
	"sim/check":         {below: slices.Concat(geometry, []string{"geom/pattern", "sim", "sim/measure", "sim/cloth"})},
	"sim/matter":        {below: slices.Concat(geometry, []string{"sim", "sim/check", "sim/measure", "sim/window"})},
	"sim/propose":       {below: slices.Concat(geometry, []string{"geom/pattern", "sim", "sim/cloth", "sim/check", "sim/window"}), tests: []string{"assets"}},
	"sim/trial":         {below: slices.Concat(geometry, []string{"sim", "sim/cloth", "sim/window", "sim/check"})},
	"sim/check/compare": {below: slices.Concat(geometry, []string{"geom/pattern", "sim", "sim/measure", "sim/check"})},
	"sim/paper":         {below: slices.Concat(geometry, []string{"geom/pattern", "geom/draw", "geom/figure", "sim", "sim/measure", "sim/cloth", "sim/check", "sim/trial", "sim/paper/sheet"})},
	"sim/paper/sheet":   {below: []string{"geom/scheme", "geom/word", "geom/draw"}, outside: []string{"codeberg.org/go-pdf/fpdf", "rsc.io/qr"}, tests: []string{"geom", "geom/light"}},

	"assets": {},

	// The solver, a role of the page's program.
	"wasm/wire":    {below: slices.Concat(geometry, []string{"geom/figure", "sim", "sim/measure", "sim/check", "sim/matter"})},
	"wasm/port":    {},
	"wasm/solving": {below: slices.Concat(geometry, []string{"geom/figure", "sim", "sim/window", "sim/check", "sim/propose", "sim/trial", "sim/matter", "sim/shell/known", "wasm/wire"}), tests: []string{"assets"}},

	// The printing program: the same with the sheets.
	"wasm/printing": {below: slices.Concat(geometry, []string{"sim", "sim/paper", "wasm/wire"}), tests: []string{"assets", "sim/check", "geom/pattern", "wasm/solving"}},
	"wasm/opening":  {below: []string{"geom/picture", "geom/word", "wasm/wire"}},
	"wasm/press":    {below: []string{"wasm/opening", "wasm/port", "wasm/printing", "wasm/solving"}},

	// The stage's program: neither the drawing nor the page is linked into it.
	"wasm/pack":  {},
	"wasm/frame": {below: []string{"wasm/pack"}},
	"wasm/stage": {below: []string{"wasm/frame", "wasm/port"}, outside: []string{"github.com/hajimehoshi/ebiten/v2"}},

	// The page's program.
	"wasm/doc":         {},
	"wasm/page/screen": {below: []string{"geom/draw", "wasm/frame"}, outside: []string{"github.com/golang/freetype", "golang.org/x/image"}, tests: []string{"geom", "geom/light"}},
	"wasm/page/brush":  {below: []string{"geom/draw", "geom/light", "wasm/frame", "wasm/painting", "wasm/doc", "wasm/page/screen"}, tests: []string{"geom"}},
	"wasm/painting":    {below: []string{"geom", "geom/draw", "geom/light", "wasm/pack", "wasm/frame", "wasm/page/screen"}},
	"wasm/page/say":    {below: []string{"geom/scheme", "geom/word", "sim", "sim/check"}},
	"wasm/page/work":   {below: []string{"geom/scheme", "geom/word", "geom/pleat", "sim", "sim/check", "sim/check/compare", "wasm/wire", "wasm/page/say"}},
	"wasm/page/look":   {below: slices.Concat(geometry, []string{"geom/draw", "geom/figure", "geom/pattern", "sim", "sim/check", "sim/check/compare", "wasm/doc", "wasm/page/say", "wasm/page/screen"}), tests: []string{"assets", "geom/light", "sim/window"}},
	"wasm/page/grip":   {below: slices.Concat(geometry, []string{"geom/draw", "geom/figure", "wasm/doc", "wasm/page/say", "wasm/page/screen"})},
	"wasm/page/ask":    {below: []string{"geom/scheme", "geom/word", "geom/pleat", "geom/figure", "sim", "sim/check", "sim/matter", "wasm/wire", "wasm/doc", "wasm/page/say"}},
	"wasm/page/keep":   {below: []string{"geom/scheme", "wasm/doc", "wasm/page/say", "wasm/page/work"}},
	"wasm/page/teach":  {below: []string{"geom/scheme", "sim", "sim/check", "sim/measure", "assets", "wasm/doc", "wasm/page/say"}},
	"wasm/page/sheets": {below: []string{"geom/scheme", "wasm/wire", "wasm/doc", "wasm/page/say"}},
	"wasm/page/easel":  {below: []string{"geom/portrait", "geom/scheme", "geom/word", "sim/check", "wasm/wire", "wasm/doc", "wasm/page/say"}},
	"wasm/page/over":   {below: []string{"geom", "geom/draw", "geom/figure", "geom/light", "geom/pleat", "wasm/doc", "wasm/frame", "wasm/page/screen", "wasm/painting"}, tests: []string{"geom/portrait", "geom/scheme", "sim"}},
	"wasm/page/tell":   {below: []string{"geom/scheme", "geom/word", "geom/pattern", "geom/draw", "geom/figure", "sim", "sim/check", "sim/check/compare", "sim/matter", "sim/measure", "wasm/wire", "wasm/doc", "wasm/page/say", "wasm/page/work", "wasm/page/ask"}},
	"wasm/page":        {below: []string{"geom/draw", "geom/figure", "geom/scheme", "geom/word", "sim", "sim/check", "assets", "wasm/doc", "wasm/page/say", "wasm/page/work", "wasm/page/look", "wasm/page/brush", "wasm/page/easel", "wasm/page/grip", "wasm/page/over", "wasm/page/ask", "wasm/page/keep", "wasm/page/teach", "wasm/page/sheets", "wasm/page/tell"}, tests: []string{"wasm/wire", "geom/figure"}},
	"wasm/dom":         {below: slices.Concat(result, []string{"wasm/doc", "wasm/page"}), tests: []string{"sim/shell/known", "wasm/frame", "wasm/painting", "wasm/port", "wasm/opening", "wasm/page/look", "wasm/page/say", "wasm/printing", "wasm/solving", "wasm/wire"}},
	"wasm":             {below: slices.Concat(result, []string{"wasm/page", "wasm/page/say", "wasm/dom", "wasm/port", "wasm/solving", "wasm/painting"}), tests: []string{"wasm/wire"}},

	"cmd/disk":       {},
	"cmd/site":       {below: slices.Concat(result, []string{"wasm/page", "wasm/page/say", "cmd/disk"}), outside: []string{"github.com/kjk/lzma"}, tests: []string{"wasm/doc", "geom/portrait"}},
	"cmd/ruffwright": {below: slices.Concat(result, []string{"sim/window", "sim/shell/known", "sim/paper/sheet", "geom/picture", "geom/portrait", "cmd/disk", "cmd/site", "wasm/page"}), tests: []string{"geom/light"}},
}

// browsers are the rooms that may import syscall/js: the page's document, and
// the line between the page and its worker.
var browsers = []string{"wasm/dom", "wasm/port"}

// testsOnly are the modules that tests alone may lean on, in every room.
var testsOnly = []string{
	"pgregory.net/rapid", "gonum.org/v1/gonum", "github.com/rogpeppe/go-internal",
	"github.com/chromedp/", "github.com/coder/websocket", "github.com/pdfcpu/pdfcpu", "golang.org/x/image", "golang.org/x/text",
}

// unclean are the packages of the standard library that a pure room does not
// import: files, network, process, log. (fmt reaches os too; what counts is
// what the room itself asks for.)
var unclean = []string{
	"embed", "expvar", "flag", "io/ioutil", "log", "net", "os", "path/filepath",
	"plugin", "syscall", "testing", "unsafe", "crypto/rand",
}

// impure are the functions of otherwise harmless packages that read the clock
// or a global source of chance, or turn a switch of the whole process. Seeds are
// arguments: rand.New(rand.NewPCG(...)).
var impure = map[string][]string{
	"runtime":       {"GC", "GOMAXPROCS", "NumGoroutine", "ReadMemStats", "SetFinalizer", "AddCleanup"},
	"runtime/debug": {"SetGCPercent", "SetMemoryLimit", "SetMaxStack", "SetMaxThreads", "SetPanicOnFault", "FreeOSMemory", "WriteHeapDump"},
	"time":          {"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker"},
	"math/rand": {"Seed", "Int", "Intn", "Int31", "Int31n", "Int63", "Int63n", "Uint32", "Uint64",
		"Float32", "Float64", "NormFloat64", "ExpFloat64", "Perm", "Shuffle", "Read"},
	"math/rand/v2": {"Int", "IntN", "Int32", "Int32N", "Int64", "Int64N", "Uint", "UintN", "Uint32", "Uint32N",
		"Uint64", "Uint64N", "N", "Float32", "Float64", "NormFloat64", "ExpFloat64", "Perm", "Shuffle"},
}

// entries are the names that may stand at the top of the tree.
var entries = []string{
	"cmd", "wasm", "geom", "sim", "assets", "testdata", "index.html",
	"go.mod", "go.sum", "README.md", "DEVELOPERS.md", "LICENSE", ".ci", ".gitignore", ".gitattributes", ".git",
	".github", ".golangci.yml", ".editorconfig",
}

const (
	ebitenModule = "github.com/hajimehoshi/ebiten"
	browser      = "syscall/js"
)

func under(dir, top string) bool { return dir == top || strings.HasPrefix(dir, top+"/") }

// goFile is one Go file of the module.
type goFile struct {
	dir, name string // "geom/pleat", "plan.go"
	file      *ast.File
}

func (s goFile) test() bool { return strings.HasSuffix(s.name, "_test.go") }
func (s goFile) js() bool {
	return strings.HasSuffix(s.name, "_js.go") || strings.HasSuffix(s.name, "_js_test.go")
}

// complaints reads every Go file of the tree, whatever target it is built for,
// and returns one line for each arrow that points the wrong way.
func complaints(tree fs.FS) ([]string, error) {
	var found []string
	say := func(s goFile, format string, a ...any) {
		found = append(found, path.Join(s.dir, s.name)+": "+fmt.Sprintf(format, a...))
	}
	fset := token.NewFileSet()
	sources, err := goFilesOf(tree, fset)
	if err != nil {
		return nil, err
	}
	said := sayers(sources)
	reached := false // the browser, by any room
	packages := map[string][]goFile{}
	for _, s := range sources {
		packages[s.dir] = append(packages[s.dir], s)
		r, known := rooms[s.dir]
		if !known {
			say(s, "room %s has no arrows in arrows_test.go", s.dir)
			continue
		}
		for _, spec := range s.file.Imports {
			imported, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return nil, err
			}
			reached = reached || imported == browser
			for _, why := range s.against(r, imported) {
				say(s, "%s", why)
			}
		}
		if !s.test() && !slices.Contains(sewnRooms, s.dir) {
			for _, read := range sewnReads(s.file) {
				say(s, "takes %s of a scheme: ask the row what is sewn", read)
			}
		}
		if !s.test() {
			for _, why := range s.misplaced(said) {
				say(s, "%s", why)
			}
		}
		if pure(s.dir) && !s.test() {
			for _, name := range impureCalls(s.file) {
				say(s, "%s is pure and calls %s", s.dir, name)
			}
		}
	}
	if !reached {
		found = append(found, "no room imports syscall/js: the page does not reach its browser")
	}
	for dir, list := range packages {
		if pure(dir) {
			found = append(found, globalsWritten(fset, list)...)
		}
	}
	top, err := fs.ReadDir(tree, ".")
	if err != nil {
		return nil, err
	}
	for _, e := range top {
		if !slices.Contains(entries, e.Name()) {
			found = append(found, "top level: "+e.Name()+" is not on the design card")
		}
	}
	slices.Sort(found)
	return found, nil
}

// against says what of the room's arrows one import of the file runs against.
func (s goFile) against(r room, imported string) (why []string) {
	say := func(format string, a ...any) { why = append(why, fmt.Sprintf(format, a...)) }
	if imported == browser && !slices.Contains(browsers, s.dir) {
		say("imports syscall/js, which only %s may", strings.Join(browsers, " and "))
	}
	if strings.HasPrefix(imported, ebitenModule) && !s.js() {
		say("imports Ebiten, which only files ending _js.go may")
	}
	first, _, _ := strings.Cut(imported, "/")
	below, own := strings.CutPrefix(imported, "ruffwright/")
	switch {
	case own:
		itself := s.test() && below == s.dir
		helps := s.test() && (strings.HasPrefix(below, "testdata/") || slices.Contains(r.tests, below))
		if !itself && !helps && !slices.Contains(r.below, below) {
			say("%s imports %s, against the arrows", s.dir, below)
		}
	case strings.Contains(first, "."):
		allowed := func(prefix string) bool { return strings.HasPrefix(imported, prefix) }
		if !slices.ContainsFunc(r.outside, allowed) && !(s.test() && slices.ContainsFunc(testsOnly, allowed)) {
			say("%s imports %s, which is not among its dependencies", s.dir, imported)
		}
	case pure(s.dir) && !s.test():
		if imported == browser || slices.ContainsFunc(unclean, func(u string) bool { return under(imported, u) }) {
			say("%s is pure and imports %s", s.dir, imported)
		}
	}
	return why
}

// goFilesOf parses every Go file outside testdata and hidden folders.
func goFilesOf(tree fs.FS, fset *token.FileSet) ([]goFile, error) {
	var list []goFile
	err := fs.WalkDir(tree, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name := d.Name()
		if d.IsDir() {
			if p != "." && (name == "testdata" || name == "node_modules" || strings.HasPrefix(name, ".") || strings.HasPrefix(name, "_")) {
				return fs.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(name, ".go") {
			return nil
		}
		text, err := fs.ReadFile(tree, p)
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(fset, p, text, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		list = append(list, goFile{path.Dir(p), name, file})
		return nil
	})
	return list, err
}

// tracked hides from the top level what git ignores (a built site, a binary),
// where the tree is a git clone; an unpacked archive has nothing to hide.
type tracked struct {
	fs.FS
	ignored []string
}

func (t tracked) ReadDir(name string) ([]fs.DirEntry, error) {
	list, err := fs.ReadDir(t.FS, name)
	if name == "." {
		list = slices.DeleteFunc(list, func(e fs.DirEntry) bool { return slices.Contains(t.ignored, e.Name()) })
	}
	return list, err
}

func ignoredAtTop(dir string) []string {
	list := exec.Command("git", "status", "--porcelain", "--ignored", "--untracked-files=normal", "--", ".")
	list.Dir = dir
	out, err := list.Output()
	if err != nil {
		return nil
	}
	var names []string
	for line := range strings.Lines(string(out)) {
		if name, ok := strings.CutPrefix(strings.TrimSpace(line), "!! "); ok {
			names = append(names, strings.TrimSuffix(name, "/"))
		}
	}
	return names
}

// TestArrows holds the whole tree to the arrows, for native and js/wasm alike.
func TestArrows(t *testing.T) {
	dir := moduleRoot(t)
	found, err := complaints(tracked{os.DirFS(dir), ignoredAtTop(dir)})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range found {
		t.Error(c)
	}
}

// TestArrowsCanFail runs the same check over small bad trees, each a txtar
// archive whose comment lists exactly the complaints that it must draw.
func TestArrowsCanFail(t *testing.T) {
	bad, err := filepath.Glob("testdata/arrows/*.txtar")
	if err != nil || len(bad) == 0 {
		t.Fatalf("no bad trees: %v", err)
	}
	for _, name := range bad {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txtar"), func(t *testing.T) {
			archive, err := txtar.ParseFile(name)
			if err != nil {
				t.Fatal(err)
			}
			tree := fstest.MapFS{}
			for _, f := range archive.Files {
				tree[f.Name] = &fstest.MapFile{Data: f.Data}
			}
			found, err := complaints(tree)
			if err != nil {
				t.Fatal(err)
			}
			var want []string
			for line := range strings.Lines(string(archive.Comment)) {
				if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
					want = append(want, line)
				}
			}
			slices.Sort(want)
			if !slices.Equal(found, want) {
				t.Errorf("got\n  %s\nwant\n  %s", strings.Join(found, "\n  "), strings.Join(want, "\n  "))
			}
		})
	}
}

// TestNativeWithoutEbiten: no native build or test links Ebiten, whatever the
// path: it would need X11's headers. The js/wasm program does link it, which
// shows that the look-up sees it at all.
func TestNativeWithoutEbiten(t *testing.T) {
	deps := func(env ...string) []string {
		list := exec.Command("go", "list", "-deps", "-test", "./...")
		list.Dir = moduleRoot(t)
		list.Env = append(os.Environ(), env...)
		out, err := list.Output()
		if err != nil {
			t.Fatalf("go list: %v", err)
		}
		return strings.Split(strings.TrimSpace(string(out)), "\n")
	}
	isEbiten := func(p string) bool { return strings.HasPrefix(p, ebitenModule) }
	if native := deps(); slices.ContainsFunc(native, isEbiten) {
		t.Error("a native build links Ebiten")
	}
	if js := deps("GOOS=js", "GOARCH=wasm"); !slices.ContainsFunc(js, isEbiten) {
		t.Error("the js/wasm build does not link Ebiten: the page has no stage, or this test looks at the wrong thing")
	}
}
