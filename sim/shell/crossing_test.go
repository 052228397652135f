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
