package figure

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
)

var update = flag.Bool("update", false, "write the golden drawings anew")

var number = regexp.MustCompile(`-?\d+(\.\d+)?`)

// lines is the SVG without the pictures within: what they show is held by the tests
// of surfaces and depth, and their bytes belong to the PNG writer.
func lines(d draw.Drawing) []byte {
	d.Items = slices.DeleteFunc(slices.Clone(d.Items), func(it draw.Item) bool { _, ok := it.(draw.Solid); return ok })
	return d.SVG()
}

// Golden drawings, as text: words and order exactly, numbers of mm to 0.02, the
// finest line's tenth part, since floats differ in their last bits between
// targets and each is rounded to 0.001.
func TestGolden(t *testing.T) {
	plan, shape := design{"golden", "sound", []string{"ruff.sets", "12", "ruff.depth", "30"}, 8, 4}.make(t)
	opt := Options{Width_mm: 92, Height_mm: 120, Units: scheme.Centimetres, Notes: longNotes()[:2], Joins_mm: []float64{1336.98}}
	for _, v := range Views {
		if v.Name != "set" && v.Name != "flat" && v.Name != "side" {
			continue
		}
		d, err := v.Draw(plan, shape, opt)
		if err != nil {
			t.Fatal(err)
		}
		got := string(lines(d))
		file := filepath.Join("testdata", v.Name+".svg")
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if g, w := number.ReplaceAllString(got, "#"), number.ReplaceAllString(string(want), "#"); g != w {
			at := 0
			for at < len(g) && at < len(w) && g[at] == w[at] {
				at++
			}
			t.Errorf("%s differs from %s at %q; -update writes it anew", v.Name, file, g[at:min(len(g), at+60)])
			continue
		}
		gs, ws := number.FindAllString(got, -1), number.FindAllString(string(want), -1)
		for i := range gs {
			a, _ := strconv.ParseFloat(gs[i], 64)
			b, _ := strconv.ParseFloat(ws[i], 64)
			if math.Abs(a-b) > 0.02 {
				t.Errorf("%s: number %d is %s, want %s", v.Name, i, gs[i], ws[i])
				break
			}
		}
	}
}
