package known

import (
	"context"
	"fmt"
	"math"
)

const (
	panelSource       = "CalculiX 2.20, C3D20R (ccx_b.csv)"
	corrugationSource = "CalculiX 2.20, C3D20R (ccx_c.csv)"
)

// The product's grid for results, window.Fine (a test there holds them equal).
const fineNU, fineNV = 24, 12

// off returns the largest deviation of a coordinate over the stations, mm.
func off(s Shape, at []station) float64 {
	m := 0.0
	for _, q := range at {
		p := s.At(q[0], q[1])
		for c := range p {
			m = max(m, math.Abs(p[c]-q[2+c]))
		}
	}
	return m
}

// Panels are flat and curved panels under gravity. The refined runs (24 × 48
// cells of the half) must have every station within twice the reference's own
// mesh difference plus 0.02 mm; the product's 24 × 12 must have the sag within
// 2 %, or within 0.02 mm where it is below half a millimetre.
func Panels() []Problem {
	var ps []Problem
	for _, c := range []struct {
		r, rims  float64
		name     string
		mid, rim float64 // sag of the free edge at its middle and end
		at       []station
		mesh     float64 // the reference's own mesh difference
	}{
		{1e9, 1, "flat panel", 41.25983, 41.25983, stationsFlat, 0.02021},
		{160, 1, "panel in an arc of 160 mm, ends up", 0.86920, 0.96800, stationsR160, 0.00082},
		{80, 1, "panel in an arc of 80 mm, ends up", 0.18756, 0.30433, stationsR80, 0.00008},
		{80, -1, "panel in an arc of 80 mm, ends down", 0.31476, 0.38086, nil, 0},
		{20, 1, "panel in an arc of 20 mm, ends up", -0.01631, 0.07221, nil, 0},
	} {
		for k, ref := range []float64{c.mid, c.rim} {
			p := Problem{
				Name:   fmt.Sprintf("%s, %d × %d: sag of the free edge's %s", c.name, fineNU, fineNV, [...]string{"middle", "end"}[k]),
				Source: panelSource, Unit: "mm", Reference: ref, Allowed: 0.02,
				Run: func(ctx context.Context) (float64, error) {
					g0, g1, err := Panel(ctx, PanelCase{Bend: 50, R: c.r, Rims: c.rims, NU: fineNU, NV: fineNV})
					if err != nil {
						return 0, err
					}
					u := 30 * float64(k)
					return g0.At(u, 70)[2] - g1.At(u, 70)[2], nil
				},
			}
			if math.Abs(ref) > 0.5 {
				p.Relative = true
			}
			ps = append(ps, p)
		}
		if c.at != nil {
			ps = append(ps, Problem{
				Name:   c.name + ", 24 × 48: largest deviation of a station",
				Source: panelSource, Unit: "mm", Allowed: 2*c.mesh + 0.02, Slow: true,
				Run: func(ctx context.Context) (float64, error) {
					_, g1, err := Panel(ctx, PanelCase{Bend: 50, R: c.r, Rims: c.rims, NU: 24, NV: 48})
					if err != nil {
						return 0, err
					}
					return off(g1, c.at), nil
				},
			})
		}
	}
	return ps
}

// Corrugations are corrugated sheets between mirror planes, without and with
// gravity: stations of the refined 48 × 24 within twice the reference's own
// mesh difference plus 0.02 mm, sag at 24 × 12 within 2 % or 0.02 mm.
func Corrugations() []Problem {
	var ps []Problem
	for _, c := range []struct {
		d, v, crest, trough, mesh0, mesh1 float64
		at0, at1                          []station
	}{
		{15, 80, 0.024769, 0.024780, 0.00124, 0.00127, stations15G0, stations15G1},
		{59.5, 160, 1.467724, 1.436228, 0.00001, 0.00028, stations59G0, stations59G1},
	} {
		name := fmt.Sprintf("corrugated sheet, 60 mm over %g mm", c.d)
		for k, ref := range []float64{c.crest, c.trough} {
			p := Problem{
				Name:   fmt.Sprintf("%s, %d × %d: sag of the %s", name, fineNU, fineNV, [...]string{"crest", "trough"}[k]),
				Source: corrugationSource, Unit: "mm", Reference: ref, Allowed: 0.02,
				Run: func(ctx context.Context) (float64, error) {
					g0, g1, err := Corrugation(ctx, CorrugationCase{Bend: 50, Chord: c.d, Depth: c.v, NU: fineNU, NV: fineNV})
					if err != nil {
						return 0, err
					}
					u := 60 * float64(k)
					return g0.At(u, c.v)[2] - g1.At(u, c.v)[2], nil
				},
			}
			if ref > 0.5 {
				p.Relative = true
			}
			ps = append(ps, p)
		}
		for k, at := range [][]station{c.at0, c.at1} {
			ps = append(ps, Problem{
				Name:   fmt.Sprintf("%s, 48 × 24, %s gravity: largest deviation of a station", name, [...]string{"without", "with"}[k]),
				Source: corrugationSource, Unit: "mm", Allowed: 2*[...]float64{c.mesh0, c.mesh1}[k] + 0.02,
				Run: func(ctx context.Context) (float64, error) {
					g0, g1, err := Corrugation(ctx, CorrugationCase{Bend: 50, Chord: c.d, Depth: c.v, NU: 48, NV: 24})
					if err != nil {
						return 0, err
					}
					return off([...]Shape{g0, g1}[k], at), nil
				},
			})
		}
	}
	return ps
}
