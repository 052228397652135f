package paper

import (
	"encoding/xml"
	"math"
	"strings"
	"testing"
)

// TestPieces: a plotter's pieces have the washed sizes, make the strip, and carry
// every mark.
func TestPieces(t *testing.T) {
	type group struct {
		ID    string `xml:"id,attr"`
		Paths []struct {
			D string `xml:"d,attr"`
		} `xml:"path"`
	}
	for _, c := range cases() {
		in := input(t, c.set, c.u)
		pieces, err := Pieces(in)
		if err != nil {
			t.Fatal(err)
		}
		sum, strips, marks := 0.0, 0, 0
		for _, p := range pieces {
			var s struct {
				Width   string  `xml:"width,attr"`
				Height  string  `xml:"height,attr"`
				ViewBox string  `xml:"viewBox,attr"`
				Groups  []group `xml:"g"`
			}
			if err := xml.Unmarshal(p.SVG, &s); err != nil {
				t.Fatalf("%s: %v", p.Name, err)
			}
			if s.Width != trim(p.Wide_mm, 3).String()+"mm" || s.Height != trim(p.High_mm, 3).String()+"mm" || s.ViewBox != "0 0 "+trim(p.Wide_mm, 3).String()+" "+trim(p.High_mm, 3).String() {
				t.Errorf("%s: %s × %s, viewBox %s", p.Name, s.Width, s.Height, s.ViewBox)
			}
			if len(s.Groups) != 5 || s.Groups[0].ID != "cut" || len(s.Groups[0].Paths) != 1 {
				t.Errorf("%s: no single cut line", p.Name)
			}
			if strings.HasPrefix(p.Name, "strip ") {
				sum += p.Wide_mm
				strips++
				marks += len(s.Groups[3].Paths)
			}
		}
		st := in.Pattern.Strip
		want := st.Length_mm
		for _, j := range in.Pattern.Cut.Joins {
			want += j.Consumes_mm
		}
		if strips != len(in.Pattern.Cut.Pieces) || math.Abs(sum-want) > 1e-6 {
			t.Errorf("%s: %d strips of %.3f mm, want %d of %.3f", c.name, strips, sum, len(in.Pattern.Cut.Pieces), want)
		}
		if marks < len(in.Ruff.Plan.Row) {
			t.Errorf("%s: %d mark lines for %d marks", c.name, marks, len(in.Ruff.Plan.Row))
		}
	}
}
