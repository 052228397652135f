package paper

import (
	"math"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/sim/paper/sheet"
)

// lineAt is a straight line of a page, left or upper end first, to a thousandth of a mm.
type lineAt struct{ x0, y0, x1, y1 float64 }

func thousandth(v float64) float64 { return math.Round(v*1000) / 1000 }

// linesOf gives the straight lines of a width on a page.
func linesOf(p *sheet.Page, width float64) []lineAt {
	near := thousandth
	var out []lineAt
	for _, it := range p.Items {
		if path, ok := it.(draw.Path); ok && path.Width_mm == width && !path.Closed {
			for _, l := range path.Lines {
				out = append(out, lineAt{near(l[0].X), near(l[0].Y), near(l[1].X), near(l[1].Y)})
			}
		}
	}
	return out
}

// TestTuckAcrossEdge: of a tuck's bracket that an edge of the tape cuts, each tape
// shows its own part, open at the edge.
func TestTuckAcrossEdge(t *testing.T) {
	const top = 50.0
	left := func(x float64) lineAt { return lineAt{x, top, x, top + 3.4} }
	base := func(a, b float64) lineAt { return lineAt{a, top + 3.4, b, top + 3.4} }
	for _, c := range []struct {
		what string
		a, b float64
		want []lineAt
	}{
		{"whole", 200, 210, []lineAt{left(20), left(30), base(20, 30)}},
		{"over the far edge", 365, 375, []lineAt{left(185), base(185, 190)}},
		{"over the near edge", 175, 185, []lineAt{left(5), base(0, 5)}},
		{"from edge to edge", 180, 370, []lineAt{left(0), left(190), base(0, 190)}},
		{"none", 200, 200, []lineAt{base(20, 20)}},
	} {
		p := &sheet.Page{}
		tileTuck(p, sheet.Tile{From_mm: 180, To_mm: 370}, c.a, c.b, top)
		got := linesOf(p, 0.3)
		if len(got) != len(c.want) {
			t.Errorf("%s: %v, want %v", c.what, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s: %v, want %v", c.what, got[i], c.want[i])
			}
		}
	}
}

// TestTucksOnTapes: every tape shows, of every tuck, the part that lies on it, at its
// place.
func TestTucksOnTapes(t *testing.T) {
	for _, u := range []scheme.Units{scheme.Millimetres, scheme.Inches} {
		j, err := newJob(input(t, []string{"pleat.tuck_top", "8", "pleat.tuck_bottom", "8"}, u))
		if err != nil {
			t.Fatal(err)
		}
		across := 0
		for i, tile := range sheet.Tiles(j.Ruff.Plan.Marked_mm, u) {
			p := &sheet.Page{}
			j.tileMarks(p, tile, 0)
			bases := map[lineAt]bool{}
			for _, l := range linesOf(p, 0.3) {
				if l.y0 == l.y1 {
					bases[l] = true
				}
			}
			for _, r := range j.table.Rows {
				a, b := r.TuckA.Exact_mm, r.TuckB.Exact_mm
				if !r.Tucked || b < tile.From_mm+0.01 || a > tile.To_mm-0.01 {
					continue
				}
				if a < tile.From_mm || b > tile.To_mm {
					across++
				}
				want := lineAt{thousandth(max(a, tile.From_mm) - tile.From_mm), 3.4, thousandth(min(b, tile.To_mm) - tile.From_mm), 3.4}
				if !bases[want] {
					t.Errorf("%v, tape %d: no bracket of the tuck from %.2f to %.2f at %v", u, i+1, a, b, want)
				}
				delete(bases, want)
			}
			if len(bases) > 0 {
				t.Errorf("%v, tape %d: brackets of no tuck at %v", u, i+1, bases)
			}
		}
		if across < 4 {
			t.Errorf("%v: %d tucks lie across an edge: nothing is tried here", u, across)
		}
	}
}
