package known

import (
	"context"
	"fmt"
	"math"

	"ruffwright/sim/shell"
)

// arcs is the starch, as a multiple of the cloth's rigidity, and how far in mm the
// tip sinks from the formed arc: testdata/reference/arc.csv.
var arcs = [][2]float64{{0, 83.455574496}, {5, 17.113805336}, {30, 2.369176157}}

// Arcs are strips formed to an arc of 40 mm, starched and let go under their weight:
// how far the tip of 60 mm sinks, within 0.1 %.
func Arcs() []Problem {
	var ps []Problem
	for _, c := range arcs {
		ps = append(ps, Problem{
			Name:   fmt.Sprintf("strip formed to an arc, starch %g × the cloth, 64 segments: its tip sinks", c[0]),
			Source: "heavy elastica with a curvature of its own (arc.csv)",
			Unit:   "mm", Reference: c[1], Allowed: 0.001, Relative: true,
			Run: func(ctx context.Context) (float64, error) { return ArcSinks(ctx, c[0], 64) },
		})
	}
	return ps
}

// ArcSinks returns how far in mm the tip of a strip sinks that was formed to an arc
// with its ends up, clamped level, frozen with starch times the cloth's rigidity and
// let go under its weight, on n segments.
func ArcSinks(ctx context.Context, starch float64, n int) (float64, error) {
	const b, l, r = 15.3, 60.0, 40.0
	sh := &shell.Sheet{
		U: even(n, l), V: []float64{0, l / 4}, BendU: b, BendV: b,
		// so stiff that the strain is below 1e-6
		StretchU: 1e7 * b / (l * l), StretchV: 1e7 * b / (l * l), Shear: 1e4 * b / (l * l), Mass: 100,
		UStart: shell.Edge{Kind: shell.Clamped, Tangent: [][3]float64{{1, 0, 0}}},
		Held:   []shell.Hold{{I: 0, J: 0, Axes: shell.All}, {I: 0, J: 1, Axes: shell.All}},
	}
	x := make([]float64, 3*sh.Nodes())
	for i, u := range sh.U {
		for j, v := range sh.V {
			k := 3 * sh.Node(i, j)
			x[k], x[k+1], x[k+2] = r*math.Sin(u/r), v, r*(1-math.Cos(u/r))
		}
	}
	tip := 3*sh.Node(n, 0) + 2
	formed := x[tip]
	if starch > 0 {
		s, err := shell.NewSolver(sh)
		if err != nil {
			return 0, err
		}
		sh.Frozen = s.Freeze(x, starch*b, starch*b, 0, 0, 1)
	}
	sh.Gravity = [3]float64{0, 0, -1}
	_, err := solved(ctx, sh, x, shell.Settings{StepCap: l / 4})
	return formed - x[tip], err
}
