package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestVerifySeesWrongs plants wrongs in the solver, one at a time, and runs the list
// of verify on each: at least one problem must be outside. The tree stays as it is;
// go test reads the changed file through an overlay.
func TestVerifySeesWrongs(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles the solver for every wrong")
	}
	for _, c := range []struct{ name, file, right, wrong string }{
		{"starch removed", "sim/window/solve.go", "return d.FrozenU_uNm > 0 || d.FrozenV_uNm > 0 }", "return d.FrozenU_uNm < 0 }"},
		{"starch set flat", "sim/window/solve.go", "c.Design.FrozenShear_Npm, c.Design.Quality)", "c.Design.FrozenShear_Npm, 0)"},
		{"relief of contact removed", "sim/window/solve.go", "s.f.setBack(sh, c.Formed)", ""},
		{"half set's gravity reversed", "sim/window/solve.go", "var upright = [3]float64{0, 0, -1}", "var upright = [3]float64{0, 0, 1}"},
		{"half set's gravity doubled", "sim/window/solve.go", "var upright = [3]float64{0, 0, -1}", "var upright = [3]float64{0, 0, -2}"},
		{"bowed the other way", "sim/window/bow.go", "return [3]float64{side * sn * b,", "return [3]float64{-side * sn * b,"},
		{"sticks not pressed apart", "sim/window/stick.go", "pull := t.firm *", "pull := 1e-6 * t.firm *"},
		{"free edge's correction dropped", "sim/shell/stencil.go", "if n < 2 {\n\t\treturn w", "if n > 0 {\n\t\treturn w"},
		{"shear ten times as stiff", "sim/shell/stencil.go", "ks: sh.Shear * area", "ks: 10 * sh.Shear * area"},
	} {
		t.Run(c.name, func(t *testing.T) {
			out := listWith(t, c.file, c.right, c.wrong)
			outside := regexp.MustCompile(`(?m)^ +--- FAIL: TestKnown/(.*) \(`).FindAllStringSubmatch(out, -1)
			if len(outside) == 0 {
				t.Fatalf("all of the list is within what is allowed:\n%s", out)
			}
			t.Logf("%d problems outside, among them %s", len(outside), strings.ReplaceAll(outside[0][1], "_", " "))
		})
	}
}

// listWith runs the list of verify, less its slow problems, on the solver with one
// file changed, and gives what go test says.
func listWith(t *testing.T, file, right, wrong string) string {
	t.Helper()
	path, err := filepath.Abs(filepath.Join("../..", file))
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(string(text), right); n != 1 {
		t.Fatalf("%s has %q %d times; the wrong is planted where it stands once", file, right, n)
	}
	dir := t.TempDir()
	changed, list := filepath.Join(dir, filepath.Base(file)), filepath.Join(dir, "overlay.json")
	if err := os.WriteFile(changed, []byte(strings.Replace(string(text), right, wrong, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	overlay, err := json.Marshal(map[string]any{"Replace": map[string]string{path: changed}})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(list, overlay, 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("go", "test", "-vet=off", "-short", "-run", "^TestKnown$", "-overlay", list, "./sim/shell/known")
	cmd.Dir = "../.."
	out, _ := cmd.CombinedOutput() // it is meant to fail; a solver that does not compile has no problem outside
	return string(out)
}
