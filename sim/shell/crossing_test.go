package shell

import (
	"math"
	"testing"
)

// TestCrossings: a strip along a lemniscate passes through itself where the curve
// does, and nowhere once its two branches lie apart in width.
func TestCrossings(t *testing.T) {
	strip := func(lift float64) (*Sheet, []float64) {
		sh := &Sheet{V: []float64{0, 1, 2}}
		var x []float64
		for i := range 41 {
			u := (float64(i) + 0.5) * 2 * math.Pi / 41
			sh.U = append(sh.U, u)
			for _, v := range sh.V {
				q := 1 + math.Pow(math.Sin(u), 2)
				x = append(x, 10*math.Cos(u)/q, 10*math.Sin(u)*math.Cos(u)/q, v+lift*math.Sin(u))
			}
		}
		return sh, x
	}
	sh, x := strip(0)
	list := sh.Crossings(x, 0)
	for _, c := range list {
		if u := sh.U[c.I]; math.Abs(math.Cos(u)) > 0.2 || math.Abs(math.Cos(sh.U[c.AtI])) > 0.2 {
			t.Errorf("crossing %+v at u = %.2f", c, u)
		}
	}
	if len(list) == 0 {
		t.Error("no crossing found")
	}
	if n := len(sh.Crossings(x, 10)); n != 0 {
		t.Errorf("%d crossings deeper than the grid", n)
	}
	if sh, x = strip(1.5); len(sh.Crossings(x, 0)) != 0 {
		t.Error("two branches 3 mm apart are said to cross")
	}
}

// TestPierced: an edge that goes through a cell is seen in either of the cell's two
// triangles, as deep as its nearer end lies beyond, and not beside the cell.
func TestPierced(t *testing.T) {
	for at, want := range map[float64]int{0.25: 1, 0.75: 1, 1.25: 0} {
		sh := &Sheet{U: lines01(5), V: lines01(1)}
		x := []float64{0, 0, 0, 0, 1, 0, 1, 0, 0, 1, 1, 0}
		for _, z := range []float64{-50, -60, -70} { // a wall down from the cell's far side
			x = append(x, 1, 0, z, 1, 1, z)
		}
		x = append(x, at, at, -2, at, at, 1)
		n := 0
		for _, c := range sh.Crossings(x, 0.5) {
			if c.I == 5 { // the upright edge at the end of the strip
				if n++; c.AtI != 0 || c.Deep_mm != 1 {
					t.Errorf("through (%g, %g): %+v", at, at, c)
				}
			}
		}
		if n != want {
			t.Errorf("through (%g, %g): %d crossings, want %d", at, at, n, want)
		}
	}
}

// TestAbove: what lies on a cone that rises outward has no gap, and above it one that
// is measured at right angles.
func TestAbove(t *testing.T) {
	c := Above([2]float64{-3, 1}, 20, 7, math.Pi/6)
	for _, up := range []float64{-2, 0, 4} {
		p := [3]float64{-3 + 24*0.6, 1 + 24*0.8, 7 + 4*math.Tan(math.Pi/6) + up}
		if g := c.Gap(p); math.Abs(g-up*math.Cos(math.Pi/6)) > 1e-12 {
			t.Errorf("%g mm above the cone: gap %.6g mm", up, g)
		}
	}
}
