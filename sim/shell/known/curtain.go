package known

import (
	"context"

	"ruffwright/sim/shell"
)

// curtain is a sheet hung in its own plane between two upright edges that are held,
// with the ruffs' stretch and shear stiffness: it sinks by shear, q (u L − u²)/(2G) at
// u for the weight q, the same on every line. In the middle that is q L²/(8G).
const (
	curtainLength_mm = 60.0
	curtainShear_Npm = 60.0
	curtainMass_gm2  = 100.0
)

// Curtains are sheets that shear alone lets down.
func Curtains() []Problem {
	return []Problem{{
		Name:   "sheet hung in its own plane between two held edges, 24 × 12: its middle sinks",
		Source: "shear of a plate, q L²/(8G)",
		Unit:   "mm", Reference: shell.WeightPerArea(curtainMass_gm2) * curtainLength_mm * curtainLength_mm / (8 * curtainShear_Npm),
		Allowed: 0.002, Relative: true,
		Run: curtainSinks,
	}}
}

func curtainSinks(ctx context.Context) (float64, error) {
	const l, deep = curtainLength_mm, 75.0
	sh := &shell.Sheet{
		U: even(fineNU, l), V: even(fineNV, deep),
		// Hardly stiff against bending, which counts in the plane too; stiff against stretch:
		// its upright lines sink as they are.
		BendU: 0.1, BendV: 0.1, StretchU: 1e5, StretchV: 1e5, Shear: curtainShear_Npm,
		Mass: curtainMass_gm2, Gravity: [3]float64{0, 0, -1},
	}
	x := make([]float64, 3*sh.Nodes())
	for i, u := range sh.U {
		for j, v := range sh.V {
			k := 3 * sh.Node(i, j)
			x[k], x[k+2] = u, -v
			if i == 0 || i == fineNU {
				sh.Held = append(sh.Held, shell.Hold{I: i, J: j, Axes: shell.All})
			}
		}
	}
	_, err := solved(ctx, sh, x, shell.Settings{})
	k := 3*sh.Node(fineNU/2, fineNV/2) + 2
	return -sh.V[fineNV/2] - x[k], err
}
