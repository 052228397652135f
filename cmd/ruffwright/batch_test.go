package main

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode"

	"pgregory.net/rapid"
)

// production is a list of n wearers, saved on disk. Of each the fields in none are 0.
func production(t testing.TB, n int, none ...string) string {
	t.Helper()
	var b strings.Builder
	b.WriteString(strings.Join(append([]string{"name,wearer.girth,ruff.sets"}, none...), ",") + "\n")
	zero := strings.Repeat(",0", len(none))
	for i := range n {
		fmt.Fprintf(&b, "Townsman %d,%d mm,%d%s\n", i%(n-1), 360+3*i, 36+4*(i%3), zero)
	}
	b.WriteString("The Ferryman,1,40" + zero + "\n")
	file := filepath.Join(t.TempDir(), "wearers.csv")
	if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// tree is every file below a folder.
func tree(t *testing.T, dir string) map[string][]byte {
	t.Helper()
	files := map[string][]byte{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		name, _ := filepath.Rel(dir, path)
		files[name], err = os.ReadFile(path)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// TestBatchOrder: however many are made at a time, the same bytes are written and
// the same is said.
func TestBatchOrder(t *testing.T) {
	const wearers = 3
	file := production(t, wearers, "pleat.tuck_top", "pleat.tuck_bottom") // solved sooner without
	var first map[string][]byte
	var said string
	for _, jobs := range []string{"1", "4"} {
		dir := filepath.Join(t.TempDir(), "made")
		code, out, complaint := typed(t, "", "batch", file, "--out", dir, "--jobs", jobs, "--grid", "coarse", "--date", "2026-05-04")
		if code != exitStops || !strings.HasPrefix(out, "3 wearers of 4 made") || !strings.Contains(complaint, "line 5, wearer.girth: 1 mm") {
			t.Fatalf("jobs %s: exit code %d, %s%s", jobs, code, out, complaint)
		}
		files := tree(t, dir)
		if first == nil {
			first, said = files, complaint
			if len(files) != wearers*3+4 || files[filepath.Join("Townsman-0-2", "sheets.pdf")] == nil {
				t.Fatalf("%d files", len(files))
			}
			continue
		}
		if complaint != said || len(files) != len(first) {
			t.Errorf("jobs %s: %d files and %q, 1 job made %d and %q", jobs, len(files), complaint, len(first), said)
		}
		for name, text := range first {
			if !bytes.Equal(files[name], text) {
				t.Errorf("jobs %s: %s differs", jobs, name)
			}
		}
	}
}

// TestBatchStops: ctrl-C ends a batch at once; what was made until then is whole,
// and no table tells of a production that is not.
func TestBatchStops(t *testing.T) {
	file := production(t, 60)
	dir := filepath.Join(t.TempDir(), "made")
	ctx, cancel := context.WithTimeout(t.Context(), 1500*time.Millisecond)
	defer cancel()
	var out, complaint bytes.Buffer
	began := time.Now()
	code := run(job{ctx, strings.NewReader(""), &out, &complaint, func(string) string { return "" }},
		[]string{"batch", file, "--out", dir, "--grid", "finest", "--jobs", "2"})
	if code != exitBad || complaint.String() != "ruffwright: stopped\n" || out.Len() > 0 {
		t.Errorf("exit code %d, %q, %q", code, complaint.String(), out.String())
	}
	if took := time.Since(began); took > 15*time.Second {
		t.Errorf("took %v to stop", took)
	}
	files := tree(t, dir)
	for name, text := range files {
		if filepath.Dir(name) == "." && name != leftName {
			t.Errorf("%s was written", name)
		}
		if strings.HasSuffix(name, ".pdf") && !bytes.HasSuffix(bytes.TrimSpace(text), []byte("%%EOF")) {
			t.Errorf("%s is not whole", name)
		}
	}
	if len(files) > 60*3 {
		t.Error("all were made: the test tells nothing")
	}
}

// TestBatchCannotWrite: a folder that cannot be written ends the batch with what the
// disk says.
func TestBatchCannotWrite(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "made")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "Townsman-1"), nil, 0o644); err != nil { // a file where a folder should be
		t.Fatal(err)
	}
	code, out, complaint := typed(t, "", "batch", production(t, 5), "--out", dir, "--over", "--drawn", "--jobs", "2")
	if code != exitBad || out != "" || !strings.Contains(complaint, "Townsman-1") {
		t.Errorf("exit code %d, %q, %q", code, out, complaint)
	}
}

// TestFolderNames: any name gives one that stays in its folder, is not too long, and
// is given once.
func TestFolderNames(t *testing.T) {
	names := folders{}
	for _, c := range [][2]string{
		{"The Cooper", "The-Cooper"}, {"the cooper", "the-cooper-2"}, {"The Cooper-2", "The-Cooper-2-2"}, {"The Cooper", "The-Cooper-3"},
		{"The Cooper's wife", "The-Coopers-wife"}, {"../../etc", "etc"}, {"..", "wearer"}, {"", "wearer-2"}, {`C:\nul`, "C-nul"},
		{"CON", "wearer-CON"}, {"com1", "wearer-com1"}, {"Édouard  Fährmann", "Édouard-Fährmann"}, {"摩擦", "摩擦"}, {"-rf", "rf"}, {".hidden", "hidden"},
		{strings.Repeat("a", 300), strings.Repeat("a", 80)}, {strings.Repeat("é", 300), strings.Repeat("é", 40)},
	} {
		if got := names.name(c[0], "wearer"); got != c[1] {
			t.Errorf("%q gives %q, want %q", c[0], got, c[1])
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		names, given := folders{}, map[string]bool{}
		for _, called := range rapid.SliceOf(rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"a", "A", "a-2", "A 2", "a-2-2", "nul", "\xff"}))).Draw(t, "names") {
			got := names.name(called, "wearer")
			low := strings.ToLower(got)
			switch {
			case got == "" || len(got) > 100 || !filepath.IsLocal(got) || strings.ContainsAny(got, `/\:*?"<>|.`) || strings.HasPrefix(got, "-"):
				t.Fatalf("%q gives %q", called, got)
			case given[low]:
				t.Fatalf("%q gives %q a second time", called, got)
			case strings.ContainsFunc(got, unicode.IsControl):
				t.Fatalf("%q gives %q", called, got)
			}
			given[low] = true
		}
	})
}

// BenchmarkBatch makes 24 wearers, one at a time and two.
func BenchmarkBatch(b *testing.B) {
	file := production(b, 24)
	for _, jobs := range []string{"1", "2"} {
		b.Run(jobs, func(b *testing.B) {
			for b.Loop() {
				dir := filepath.Join(b.TempDir(), "made")
				var out, complaint bytes.Buffer
				if code := run(job{context.Background(), strings.NewReader(""), &out, &complaint, func(string) string { return "" }},
					[]string{"batch", file, "--out", dir, "--jobs", jobs}); code != exitStops {
					b.Fatal(complaint.String())
				}
			}
		})
	}
}
