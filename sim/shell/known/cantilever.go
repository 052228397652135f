package known

import (
	"context"
	"fmt"
	"math"

	"ruffwright/sim/shell"
)

// cantilevers is l/c and the chord's droop angle in degrees of the heavy
// elastica clamped level, c = (B/w)^⅓: testdata/reference/cantilever.csv,
// shooting and collocation that agree to 1e-12.
var cantilevers = [][2]float64{
	{0.5, 0.895123779126}, {1, 7.10029237486}, {1.5, 22.175632361}, {2, 41.4873025594},
	{2.5, 56.8920764223}, {3, 66.9587757256}, {3.5, 73.2329391059}, {4, 77.1907139079},
}

// Cantilevers are Peirce's cantilever strips at 64 segments: the angle below
// the level of the chord from clamp to tip, within 0.03°.
func Cantilevers() []Problem {
	var ps []Problem
	for _, c := range cantilevers {
		ps = append(ps, Problem{
			Name:   fmt.Sprintf("cantilever l/c = %g, 64 segments: chord angle", c[0]),
			Source: "heavy elastica by shooting and collocation (cantilever.csv)",
			Unit:   "°", Reference: c[1], Allowed: 0.03,
			Run: func(ctx context.Context) (float64, error) { return CantileverAngle(ctx, c[0], 64) },
		})
	}
	return ps
}

// CantileverAngle returns the chord's droop angle in degrees of a strip clamped
// level whose overhang is ratio times its bending length, on n segments.
func CantileverAngle(ctx context.Context, ratio float64, n int) (float64, error) {
	const b, mass = 15.0, 100.0
	l := ratio * math.Cbrt(b/shell.WeightPerArea(mass))
	// stretch so stiff that the strain is below 1e-6
	sh := &shell.Sheet{
		U: even(n, l), V: []float64{0, l / 4}, BendU: b, BendV: b,
		StretchU: 1e7 * b / (l * l), StretchV: 1e7 * b / (l * l), Shear: 1e4 * b / (l * l),
		Mass: mass, Gravity: [3]float64{0, 0, -1},
		UStart: shell.Edge{Kind: shell.Clamped, Tangent: [][3]float64{{1, 0, 0}}},
		Held:   []shell.Hold{{I: 0, J: 0, Axes: shell.All}, {I: 0, J: 1, Axes: shell.All}},
	}
	x := make([]float64, 3*sh.Nodes())
	for i, u := range sh.U {
		for j, v := range sh.V {
			k := 3 * sh.Node(i, j)
			x[k], x[k+1] = u, v
		}
	}
	if _, err := solved(ctx, sh, x, shell.Settings{StepCap: l / 4}); err != nil {
		return 0, err
	}
	k := 3 * sh.Node(n, 0)
	return math.Atan2(-x[k+2], x[k]) * 180 / math.Pi, nil
}
