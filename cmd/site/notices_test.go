package site

import (
	"bytes"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"ruffwright/assets"
)

var update = flag.Bool("update", false, "write assets/notices.txt anew")

// shipped is what is given away: the page's programs, and the command for the systems
// that it is built for.
var shipped = []struct{ os, arch, pkg string }{
	{"js", "wasm", "./wasm"}, {"js", "wasm", "./wasm/stage"}, {"js", "wasm", "./wasm/press"},
	{"linux", "amd64", "./cmd/ruffwright"}, {"darwin", "arm64", "./cmd/ruffwright"}, {"windows", "amd64", "./cmd/ruffwright"},
}

// linked is a module that is linked into what is shipped.
type linked struct {
	path, version, dir string
	packages           []string // the folders of those of its packages that are linked
}

// goTool runs go in the source tree.
func goTool(t *testing.T, env []string, args ...string) string {
	t.Helper()
	root, err := Root("")
	if err != nil {
		t.Fatal(err)
	}
	command := exec.CommandContext(t.Context(), "go", args...)
	command.Dir, command.Env = root, append(os.Environ(), env...)
	var says bytes.Buffer
	command.Stderr = &says
	out, err := command.Output()
	if err != nil {
		t.Fatalf("go %s: %v\n%s", strings.Join(args, " "), err, says.String())
	}
	return strings.TrimSpace(string(out))
}

// modules lists what is linked into what is shipped, by path; the tests' own modules
// are not among them.
func modules(t *testing.T) []*linked {
	t.Helper()
	var all []*linked
	for _, s := range shipped {
		form := `{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}} {{.Dir}} {{$.Dir}}{{end}}{{end}}`
		for line := range strings.Lines(goTool(t, []string{"GOOS=" + s.os, "GOARCH=" + s.arch}, "list", "-deps", "-f", form, s.pkg)) {
			words := strings.Fields(line)
			if len(words) != 4 {
				continue
			}
			at := slices.IndexFunc(all, func(m *linked) bool { return m.path == words[0] })
			if at < 0 {
				at = len(all)
				all = append(all, &linked{path: words[0], version: words[1], dir: words[2]})
			}
			if m := all[at]; !slices.Contains(m.packages, words[3]) {
				m.packages = append(m.packages, words[3])
			}
		}
	}
	slices.SortFunc(all, func(a, b *linked) int { return strings.Compare(a.path, b.path) })
	return all
}

// licence are the names of texts that must go with what they speak of.
var licence = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents)|-licen[cs]e$`)

// licences gives the files of a module that must go with it, below its folder: those
// beside its linked packages and in the folders above them, those in folders kept for
// licences, and what the fonts come with.
func (m *linked) licences(t *testing.T) []string {
	t.Helper()
	folders := []string{"licenses", "THIRD_PARTY_LICENSES"}
	for _, p := range m.packages {
		rel, err := filepath.Rel(m.dir, p)
		if err != nil {
			t.Fatal(err)
		}
		for dir := filepath.ToSlash(rel); ; dir = path.Dir(dir) {
			folders = append(folders, dir)
			if dir == "." {
				break
			}
		}
		if strings.Contains(p, "/gofont/") { // the fonts say it in a folder beside
			folders = append(folders, "font/gofont/ttfs")
		}
	}
	slices.Sort(folders)
	var names []string
	for _, dir := range slices.Compact(folders) {
		entries, err := os.ReadDir(filepath.Join(m.dir, filepath.FromSlash(dir)))
		if err != nil {
			continue // not every module has such folders
		}
		for _, e := range entries {
			kept := path.Base(dir) == "licenses" && e.Name() != "gpl.txt" // of FreeType's two the other is chosen
			fonts := path.Base(dir) == "ttfs" && e.Name() == "README"
			if e.Type().IsRegular() && (licence.MatchString(e.Name()) || kept || fonts) {
				names = append(names, path.Join(dir, e.Name()))
			}
		}
	}
	return names
}

// notices makes the text: Go, whose library and wasm_exec.js are in all of it, then
// each module. What has no licence is told.
func notices(t *testing.T) (text string, without []string) {
	t.Helper()
	var b strings.Builder
	b.WriteString("ruffwright is made of the following. Each part comes under its own licence, which is\nprinted below it. Portions of this software are copyright © 2016 The FreeType Project\n(www.freetype.org). All rights reserved.\n")
	put := func(title string, dir string, files []string) {
		fmt.Fprintf(&b, "\n\n%s\n%s\n%s\n", strings.Repeat("=", 80), title, strings.Repeat("=", 80))
		for _, f := range files {
			licence, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(f)))
			if err != nil {
				t.Fatal(err)
			}
			words := strings.TrimSpace(strings.ReplaceAll(string(licence), "\r\n", "\n"))
			if words == "" {
				without = append(without, title+", "+f+" is empty")
			}
			fmt.Fprintf(&b, "\n-- %s --\n\n%s\n", f, words)
		}
		if len(files) == 0 {
			without = append(without, title)
		}
	}
	root, _ := Root("")
	put("ruffwright", root, []string{"LICENSE"})
	put("Go, its standard library, and wasm_exec.js", goTool(t, nil, "env", "GOROOT"), []string{"LICENSE", "PATENTS"})
	for _, m := range modules(t) {
		put(m.path+" "+m.version, m.dir, m.licences(t))
	}
	return b.String(), without
}

// TestNotices: the licences that are given away are those of what is linked, each at
// its version of go.mod; none is without.
func TestNotices(t *testing.T) {
	t.Parallel()
	text, without := notices(t)
	for _, w := range without {
		t.Errorf("no licence was found for %s: it may not be given away", w)
	}
	root, err := Root("")
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(filepath.Join(root, "assets", "notices.txt"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if assets.Notices != text {
		t.Error("assets/notices.txt is not what is linked: go test ./cmd/site -run TestNotices -update")
	}
	for _, part := range []string{"Go, its standard library", "hajimehoshi/ebiten", "Apache License", "go-pdf/fpdf", "fogleman/gg", "gonum.org", "rsc.io/qr",
		"golang/freetype", "The FreeType Project LICENSE", "Bigelow & Holmes", "golang.org/x/image", "golang.org/x/text"} {
		if !strings.Contains(text, part) {
			t.Errorf("nothing is said of %s", part)
		}
	}
	for _, tests := range []string{"chromedp", "pdfcpu", "rapid"} {
		if strings.Contains(text, tests) {
			t.Errorf("%s is the tests' and not linked", tests)
		}
	}
}

// TestNoLicence: a module that brings no licence is noticed.
func TestNoLicence(t *testing.T) {
	dir := t.TempDir()
	m := &linked{path: "harbour.example/m", dir: dir, packages: []string{filepath.Join(dir, "a", "b")}}
	for _, name := range []string{"README.md", "a/b/b.go", "c/LICENSE"} { // that of a package that is not linked counts for nothing
		at := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(at, []byte("x"), fs.FileMode(0o644)); err != nil {
			t.Fatal(err)
		}
	}
	if got := m.licences(t); len(got) != 0 {
		t.Errorf("found %q", got)
	}
	if err := os.WriteFile(filepath.Join(dir, "a", "COPYING"), []byte("x"), 0o644); err != nil {
		t.Fatal(err)
	}
	if got := m.licences(t); !slices.Equal(got, []string{"a/COPYING"}) {
		t.Errorf("found %q", got)
	}
}
