package shell_test

import (
	"context"
	"math"
	"testing"

	"ruffwright/sim/shell"
)

// TestStiffSheetFeelsItsWeight: a sheet 200 times as stiff as cloth still moves
// when its weight turns by 10°, and by what its tangent says, within a fiftieth;
// the tangent knows nothing of when a solve ends.
func TestStiffSheetFeelsItsWeight(t *testing.T) {
	sh, x := gutter(1, false)
	sh.BendU, sh.BendV = 200*sh.BendU, 200*sh.BendV
	rest(t, sh, x, shell.Settings{})
	s, err := shell.NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	sn, cs := math.Sincos(10 * math.Pi / 180)
	turned := [3]float64{0, sn, -cs}
	load, want := make([]float64, len(x)), make([]float64, len(x))
	for i := range sh.U {
		for j := range sh.V {
			w := shell.WeightPerArea(sh.Mass) * 5 * 7 // of a node's cell, mN
			if i == 0 || i == len(sh.U)-1 {
				w /= 2
			}
			if j == 0 || j == len(sh.V)-1 {
				w /= 2
			}
			for c := range 3 {
				load[3*sh.Node(i, j)+c] = w * (turned[c] - sh.Gravity[c])
			}
		}
	}
	if s.Response(x, load, want, shell.Symmetric) {
		t.Fatal("the stiffness is not positive definite")
	}
	s.SetGravity(turned)
	y := append([]float64(nil), x...)
	if r := s.Solve(context.Background(), y, shell.Settings{Warm: true}); r.Status != shell.Converged {
		t.Fatal(r.Status)
	}
	most, off := 0.0, 0.0
	for k := range y {
		most, off = max(most, math.Abs(want[k])), max(off, math.Abs(y[k]-x[k]-want[k]))
	}
	if most == 0 || off > most/50 {
		t.Errorf("moves up to %.3g mm otherwise than the %.3g mm of the tangent", off, most)
	}
}
