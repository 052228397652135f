package known

import (
	"context"
	"errors"
	"fmt"

	"ruffwright/sim/window"
)

// taut are the rows of taut.csv in testdata/reference: a stick's diameter and the height
// of the strip's middle drawn taut round such sticks, mm.
var taut = [][2]float64{
	{10, 54.144670},
	{14, 51.714082},
	{18, 48.659607},
}

// Sticks are half sets formed on sticks as the ruffs' are, untucked, tucked at both edges
// and at one. Their outer edges stand as tall as a strip drawn taut round the sticks,
// within 1 mm: a snug strip's own stiffness keeps it a little off them, cloth stretches,
// and the folds of a tuck draw the edge in.
func Sticks() []Problem {
	var ps []Problem
	for _, row := range taut {
		for _, k := range []struct {
			sewn   string
			anchor window.Anchor
			tuck   float64
			band   float64
		}{{"untucked", window.Both, 0, 57}, {"tucked 9 mm, sewn at both edges", window.Both, 9, 40}, {"tucked 9 mm, sewn at the top edge", window.Top, 9, 30}} {
			ps = append(ps, Problem{
				Name: fmt.Sprintf("half set on sticks of %g mm, %s: height as formed", row[0], k.sewn), Source: "taut string round two circles (taut.csv)",
				Unit: "mm", Reference: row[1], Allowed: 1,
				Run: func(ctx context.Context) (float64, error) {
					d := window.DefaultDesign()
					d.Anchor, d.TuckTop_mm, d.TuckBottom_mm, d.BandHeight_mm, d.Stick_mm = k.anchor, k.tuck, k.tuck, k.band, row[0]
					w, err := window.Solve(ctx, d, window.Settings{SkipBow: true, SkipOther: true, SkipTangents: true}, nil)
					if err != nil {
						return 0, err
					}
					if !w.Converged() {
						return 0, errors.New("the half set did not come to rest")
					}
					nu, nv := len(w.U)-1, len(w.V)-1
					return w.Node(w.Formed, 0, nv)[2] - w.Node(w.Formed, nu, nv)[2], nil
				},
			})
		}
	}
	return ps
}
