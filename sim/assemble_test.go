package sim

import (
	"math"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
	"ruffwright/sim/window"
)

// TestBowedAround: when the wearer bows, the sets in front hang by the front's test,
// those behind by the back's, and those at the sides stay. Both tests are made up:
// every node goes up by 1 mm in front and by 2 mm behind.
func TestBowedAround(t *testing.T) {
	r := solve(t, scheme.Default(), Options{Grid: window.Coarse, SkipBow: true, SkipOther: true, SkipTangents: true})
	for _, h := range r.Solved.Halves {
		h.BowedFront, h.BowedBack = append([]float64(nil), h.Shape...), append([]float64(nil), h.Shape...)
		for k := 2; k < len(h.Shape); k += 3 {
			h.BowedFront[k]++
			h.BowedBack[k] += 2
		}
	}
	// Around a round neck every node is as far out as in its half set.
	for i, p := range r.Solved.Shape.Panels {
		h := r.Solved.Halves[r.Solved.Of[i]]
		rows := len(h.V)
		for n := range p.V {
			k, j := n/rows, n%rows
			if r.Plan.Row[i].Fold == scheme.Trough {
				k = len(h.U) - 1 - k
			}
			q := h.Node(h.Shape, k, j)
			if off := math.Hypot(p.V[n].X, p.V[n].Y) - math.Hypot(1/h.Design.Kappa_1pmm+q[0], q[1]); math.Abs(off) > 0.05 {
				t.Fatalf("panel %d node (%d, %d): %.3f mm further out than in its half set", i, k, j, off)
			}
		}
	}
	assemble(r.Plan, r.Solved)
	seen := [2]bool{}
	for i, p := range r.Solved.Bowed.Panels {
		way := arcsOf(r.Plan)[i].way // outward; y is the wearer's back
		up := p.V[0].Z - r.Solved.Shape.Panels[i].V[0].Z
		want := math.Pow(math.Max(0, -way.Y), 2) + 2*math.Pow(math.Max(0, way.Y), 2)
		// join shares the fold with a neighbour, whose own way is a little other
		if math.Abs(up-want) > 0.15 {
			t.Errorf("panel %d, outward (%.2f, %.2f): %.3f mm up, want %.3f", i, way.X, way.Y, up, want)
		}
		seen[0] = seen[0] || way.Y < -0.9
		seen[1] = seen[1] || way.Y > 0.9
	}
	if !seen[0] || !seen[1] {
		t.Error("no panel in front or behind")
	}
}

// TestTotalsOfTheSolved: a ruff at rest is as wide as its cloth reaches, any other as
// its strip is deep.
func TestTotalsOfTheSolved(t *testing.T) {
	r, err := Draw(scheme.Default())
	if err != nil {
		t.Fatal(err)
	}
	drawn := r.Totals().OuterBreadth_mm
	r.Solved = &Solved{Sets: make([]measure.Values, 1), Ruff: measure.Values{Converged: true, Reach_mm: r.Plan.Scheme.Ruff.Depth - 10}}
	if got := r.Totals().OuterBreadth_mm; math.Abs(got-(drawn-20)) > 1e-9 {
		t.Errorf("%g mm at rest, drawn %g", got, drawn)
	}
	r.Solved.Ruff.Converged = false
	if got := r.Totals().OuterBreadth_mm; got != drawn {
		t.Errorf("%g mm restless, drawn %g", got, drawn)
	}
}

// TestFitJump: where the height jumps over the wanted one between panels that need no
// third, there is no answer, unless one of the two is near.
func TestFitJump(t *testing.T) {
	for height, found := range map[float64]bool{43.9: false, 44.1: true} {
		f := fitting{out: Fitted{Wanted_mm: 45, Height_mm: height}}
		err := f.narrow(tried{50, height}, tried{50.05, 52})
		if (err == nil) != found || err != nil && !strings.Contains(err.Error(), "panels of 50.00 and 50.05 mm the solved height jumps from 43.9 to 52.0 mm") {
			t.Errorf("from %g mm: %v", height, err)
		}
	}
}
