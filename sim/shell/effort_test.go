package shell

import (
	"context"
	"math"
	"testing"
)

// strip is a strip of n cells, mm long, 4 mm wide, clamped level, of a mass in g/m².
func strip(n int, mm, bend, mass float64) (*Sheet, []float64) {
	sh := &Sheet{V: []float64{0, 4}, BendU: bend, BendV: bend, StretchU: 1e5, StretchV: 1e5, Shear: 1e3, Mass: mass, Gravity: [3]float64{0, 0, -1},
		UStart: Edge{Kind: Clamped, Tangent: [][3]float64{{1, 0, 0}}}, Held: []Hold{{Axes: All}, {J: 1, Axes: All}}}
	for k := range n + 1 {
		sh.U = append(sh.U, mm*float64(k)/float64(n))
	}
	x := make([]float64, 3*sh.Nodes())
	for i, u := range sh.U {
		for j, v := range sh.V {
			copy(x[3*sh.Node(i, j):], []float64{u, v, 0})
		}
	}
	return sh, x
}

// TestEffort: how many factorisations a solve takes at most, which each aid of the
// step keeps low: trust, foresight, lengthening, corrections, damping, the blend. More
// than these is a step back; with fewer, write the new number here.
func TestEffort(t *testing.T) {
	for _, q := range []struct {
		name string
		most int
		of   func() (*Sheet, []float64)
		set  Settings
	}{
		{"cantilever, stiff", 2, func() (*Sheet, []float64) { return strip(32, 30, 200, 100) }, Settings{}},
		{"cantilever, limp", 13, func() (*Sheet, []float64) { return strip(32, 120, 5, 100) }, Settings{}},
		{"cantilever, limp, downhill", 600, func() (*Sheet, []float64) { return strip(32, 60, 5, 100) }, Settings{Downhill: true, MaxIterations: 2000}},
		{"cantilever, short steps", 50, func() (*Sheet, []float64) { return strip(32, 60, 5, 100) }, Settings{StepCap: 3}},
		{"no corrections", 11, func() (*Sheet, []float64) { return strip(32, 60, 5, 100) }, Settings{Corrections: -1}},
		{"upright, falls over", 38, func() (*Sheet, []float64) {
			sh, x := strip(32, 60, 5, 100)
			sh.Gravity = [3]float64{-1, 0, -0.02}
			return sh, x
		}, Settings{}},
		{"onto a table", 11, func() (*Sheet, []float64) {
			sh, x := strip(32, 60, 5, 100)
			c := Plane([3]float64{0, 0, 1}, -8)
			c.Stiffness, c.Skin = 5, 0.3
			sh.Contacts = []Contact{c}
			return sh, x
		}, Settings{}},
		{"all at once", 8, func() (*Sheet, []float64) { return everything(1) }, Settings{}},
		{"all at once, closed", 35, func() (*Sheet, []float64) { return ring(1) }, Settings{MaxIterations: 1000}},
	} {
		sh, x := q.of()
		s, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		r := s.Solve(context.Background(), x, q.set)
		t.Logf("%s: %v, %d factorisations, %d steps", q.name, r.Status, r.Iterations, r.Steps)
		if r.Status != Converged || r.Iterations > q.most || math.IsNaN(r.Energy.Total()) {
			t.Errorf("%s: %v after %d factorisations, %d are enough", q.name, r.Status, r.Iterations, q.most)
		}
	}
}
