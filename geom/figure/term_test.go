package figure

import (
	"strings"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// TestTerms: every trade word has a drawing of its own, that lies on its sheet, has
// something marked in a colour, and is another than every other's; what it says is one
// sentence or two of at most 25 words.
func TestTerms(t *testing.T) {
	plan, err := pleat.NewPlan(scheme.First())
	if err != nil {
		t.Fatal(err)
	}
	folded, err := plan.Fold(32, 24)
	if err != nil {
		t.Fatal(err)
	}
	shape := folded.Shape
	seen := map[string]string{}
	for _, term := range Terms {
		d, err := term.Draw(plan, shape, draw.Light())
		if err != nil {
			t.Fatal(term.Name, err)
		}
		marked := false
		sheet := draw.Rect{Max: draw.Pt(d.Width_mm, d.Height_mm)}
		for _, it := range d.Items {
			p, ok := it.(draw.Path)
			if !ok {
				t.Errorf("%s: holds more than lines", term.Name)
			}
			pal := draw.Light()
			for _, c := range []any{pal.Madder, pal.Woad, pal.Walnut} {
				marked = marked || p.Stroke == c || p.Fill == c
			}
			for _, line := range p.Lines {
				for _, q := range line {
					if !(draw.Rect{Min: q, Max: q}).Inside(sheet.Grow(2)) {
						t.Fatalf("%s: %v lies off the sheet", term.Name, q)
					}
				}
			}
		}
		if !marked {
			t.Errorf("%s: nothing is marked", term.Name)
		}
		svg := string(d.SVG())
		svg = svg[strings.Index(svg, "<g"):]
		if other := seen[svg]; other != "" {
			t.Errorf("%s is drawn as %s", term.Name, other)
		}
		seen[svg] = term.Name
		sentences := strings.Split(strings.TrimSuffix(term.Says.In(word.English), "."), ". ")
		for _, s := range sentences {
			if n := len(strings.Fields(s)); n > 25 || len(sentences) > 2 {
				t.Errorf("%s: %d words in one of %d sentences: %s", term.Name, n, len(sentences), s)
			}
		}
	}
}
