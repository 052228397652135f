package known

import (
	"context"
	"fmt"
)

const (
	panelSource       = "CalculiX 2.20, C3D20R (ccx_b.csv)"
	corrugationSource = "CalculiX 2.20, C3D20R (ccx_c.csv)"
)

// The product's grid for results, window.Fine (a test there holds them equal).
const fineNU, fineNV = 24, 12

// sag is how far the material point (u, v) sinks under the weight, within the share
// of it that is allowed.
func sag(name, of, source string, ref, allowed, u, v float64, solve func(context.Context) (g0, g1 Shape, err error)) Problem {
	return Problem{
		Name:   fmt.Sprintf("%s, %d × %d: sag of the %s", name, fineNU, fineNV, of),
		Source: source, Unit: "mm", Reference: ref, Allowed: allowed, Relative: true,
		Run: func(ctx context.Context) (float64, error) {
			g0, g1, err := solve(ctx)
			if err != nil {
				return 0, err
			}
			return g0.At(u, v)[2] - g1.At(u, v)[2], nil
		},
	}
}

// whyStations is the Why of problems that compare all stations of a case at once.
const whyStations = "the known value is 0: twice by how much the other program's own meshes differ, and 0.02 mm for the mesh of this one"

// Panels are flat and curved panels under gravity: they sag within 2 %. The refined runs (24 × 48
// cells of the half) must have every station within twice the reference's own
// mesh difference plus 0.02 mm.
func Panels() []Problem {
	var ps []Problem
	for _, c := range []struct {
		r, rims  float64
		name     string
		mid, rim float64 // sag of the free edge at its middle and end
		deck     string  // of the stations
		mesh     float64 // the reference's own mesh difference
	}{
		{1e9, 1, "flat panel", 41.25983, 41.25983, "b_B50_R1e+09_up_f", 0.02021},
		{160, 1, "panel in an arc of 160 mm, ends up", 0.86920, 0.96800, "b_B50_R160_up_f", 0.00082},
		{80, 1, "panel in an arc of 80 mm, ends up", 0.18756, 0.30433, "b_B50_R80_up_x", 0.00008},
		{80, -1, "panel in an arc of 80 mm, ends down", 0.31476, 0.38086, "", 0},
		{20, 1, "panel in an arc of 20 mm, ends up", -0.01631, 0.07221, "", 0},
	} {
		for k, ref := range []float64{c.mid, c.rim} {
			ps = append(ps, sag(c.name, "free edge's "+[...]string{"middle", "end"}[k], panelSource, ref, 0.02, 30*float64(k), 70, func(ctx context.Context) (g0, g1 Shape, err error) {
				return Panel(ctx, PanelCase{Bend: 50, R: c.r, Rims: c.rims, NU: fineNU, NV: fineNV})
			}))
		}
		if c.deck != "" {
			ps = append(ps, Problem{
				Name:   c.name + ", 24 × 48: largest deviation of a station",
				Source: panelSource, Unit: "mm", Allowed: 2*c.mesh + 0.02, Why: whyStations, Slow: true,
				Run: func(ctx context.Context) (float64, error) {
					_, g1, err := Panel(ctx, PanelCase{Bend: 50, R: c.r, Rims: c.rims, NU: 24, NV: 48})
					if err != nil {
						return 0, err
					}
					return off(g1, c.deck, panelU)
				},
			})
		}
	}
	return ps
}

// Corrugations are corrugated sheets between mirror planes, without and with
// gravity: they sag within 3 %, stations of the refined 48 × 24 within twice the reference's own
// mesh difference plus 0.02 mm.
func Corrugations() []Problem {
	var ps []Problem
	for _, c := range []struct {
		d, v, crest, trough, mesh0, mesh1 float64
		deck                              string
	}{
		{15, 80, 0.024769, 0.024780, 0.00124, 0.00127, "c_ela15_B50_V80_m"},
		{59.5, 160, 1.467724, 1.436228, 0.00001, 0.00028, "c_ela59.5_B50_V160_m"},
	} {
		name := fmt.Sprintf("corrugated sheet, 60 mm over %g mm", c.d)
		for k, ref := range []float64{c.crest, c.trough} {
			ps = append(ps, sag(name, [...]string{"crest", "trough"}[k], corrugationSource, ref, 0.03, 60*float64(k), c.v, func(ctx context.Context) (g0, g1 Shape, err error) {
				return Corrugation(ctx, CorrugationCase{Bend: 50, Chord: c.d, Depth: c.v, NU: fineNU, NV: fineNV})
			}))
		}
		for k, mesh := range []float64{c.mesh0, c.mesh1} {
			ps = append(ps, Problem{
				Name:   fmt.Sprintf("%s, 48 × 24, %s gravity: largest deviation of a station", name, [...]string{"without", "with"}[k]),
				Source: corrugationSource, Unit: "mm", Allowed: 2*mesh + 0.02, Why: whyStations,
				Run: func(ctx context.Context) (float64, error) {
					g0, g1, err := Corrugation(ctx, CorrugationCase{Bend: 50, Chord: c.d, Depth: c.v, NU: 48, NV: 24})
					if err != nil {
						return 0, err
					}
					return off([...]Shape{g0, g1}[k], fmt.Sprintf("%s,g%d", c.deck, k), corrugationU)
				},
			})
		}
	}
	return ps
}
