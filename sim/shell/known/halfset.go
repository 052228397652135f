package known

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sync"

	"ruffwright/sim/window"
)

const halfSetSource = "CalculiX 2.20, C3D20R (ccx_d.csv)"

// halfSets are the rows of ccx_d.csv in testdata/reference of 24 × 20 elements: starch
// as a multiple of the cloth's rigidity, areal mass and stretch stiffness, and by how
// much the crest and the trough of the outer edge sink in mm when the half set is let
// go, upright, and with gravity turned by 60° to the front and to the back.
var halfSets = []halfSet{
	{0, 100, 23000, [3][2]float64{{1.21115, 1.35659}, {-3.67706, -4.16809}, {0.64675, 0.85635}}},
	{5, 300, 92000, [3][2]float64{{0.90454, 0.90344}, {-3.69998, -3.99359}, {0.54843, 0.56028}}},
	{30, 1000, 92000, [3][2]float64{{0.76939, 0.74534}, {-3.70118, -3.90734}, {0.47914, 0.44743}}},
}

type halfSet struct {
	starch      float64
	mass_gm2    float64
	stretch_Npm float64 // the shear stiffness is half of it
	sinks       [3][2]float64
}

// design is the half set: no tuck, sewn at its crest alone, on a straight band.
func (h *halfSet) design() window.Design {
	d := window.DefaultDesign()
	d.Panel_mm, d.Width_mm, d.Pitch_mm, d.Kappa_1pmm = 60, 75, 24, 0
	d.Anchor, d.Sewn, d.TuckTop_mm, d.TuckBottom_mm = window.Top, window.Crests, 0, 0
	d.BendU_uNm, d.BendV_uNm = 15.3, 15.3
	d.FrozenU_uNm, d.FrozenV_uNm = 15.3*h.starch, 15.3*h.starch
	d.Mass_gm2 = h.mass_gm2
	return d
}

func (h *halfSet) solve(ctx context.Context, d window.Design, bows bool) (*window.Window, error) {
	w, err := window.Solve(ctx, d, window.Settings{
		Grid: window.Grid{NU: fineNU, NV: fineNV}, Stretch_Npm: h.stretch_Npm, Shear_Npm: h.stretch_Npm / 2,
		SkipBow: !bows, SkipOther: true, SkipTangents: true,
	}, nil)
	if err != nil {
		return nil, err
	}
	if !w.Converged() || bows && !w.BowDone {
		return nil, errors.New("the half set did not come to rest")
	}
	return w, nil
}

// HalfSets are untucked half sets made as the ruffs' are, formed, frozen and let go by
// the same code, with a membrane as stiff as the other program's. They hang from one
// stitch: the outer edge's crest and trough sink within 3 %, and rise within 3 % when
// the wearer bows by 60°. That is what the meshes leave: at a single stitch they matter
// more than elsewhere, and both programs have cells of 2.5 mm there.
func HalfSets() []Problem {
	var ps []Problem
	for k := range halfSets {
		h := &halfSets[k]
		shapes := h.once()
		for c, end := range [...]string{"crest", "trough"} {
			up, front, back := h.sinks[0][c], h.sinks[1][c], h.sinks[2][c]
			name := fmt.Sprintf("half set hung at one point, starch %g × the cloth, %d × %d: ", h.starch, fineNU, fineNV)
			add := func(what string, ref float64, of func(s *hung) float64) {
				ps = append(ps, Problem{
					Name: name + what, Source: halfSetSource, Unit: "mm", Reference: ref, Allowed: 0.03, Relative: true,
					Run: func(ctx context.Context) (float64, error) {
						s, err := shapes(ctx)
						if err != nil {
							return 0, err
						}
						return of(s), nil
					},
				})
			}
			add("its outer "+end+" sinks", up, func(s *hung) float64 { return s.formed[c] - s.shape[c] })
			add("bowed 60° to the front, its outer "+end+" rises", up-front, func(s *hung) float64 { return s.front[c] - s.shape[c] })
			add("bowed 60° to the back, its outer "+end+" has sunk", back, func(s *hung) float64 { return s.formed[c] - s.back[c] })
		}
	}
	return append(ps, relief())
}

// hung is the height of the outer edge's crest and trough in mm, in four shapes.
type hung struct{ formed, shape, front, back [2]float64 }

// once returns what solves the half set the first time that it is asked for, and then
// knows: six problems ask about one solve.
func (h *halfSet) once() func(context.Context) (*hung, error) {
	var known *hung
	var lock sync.Mutex
	return func(ctx context.Context) (*hung, error) {
		lock.Lock()
		defer lock.Unlock()
		if known != nil {
			return known, nil
		}
		w, err := h.solve(ctx, h.design(), true)
		if err != nil {
			return nil, err
		}
		known = &hung{outer(w, w.Formed), outer(w, w.Shape), outer(w, w.BowedFront), outer(w, w.BowedBack)}
		return known, nil
	}
}

// outer is the height of the outer edge's crest and trough in mm.
func outer(w *window.Window, shape []float64) [2]float64 {
	return [2]float64{w.Node(shape, 0, fineNV)[2], w.Node(shape, fineNU, fineNV)[2]}
}

// relief is a half set whose loops press on each other while they are formed. Frozen
// so, and hardly heavy, it stays as it was formed: the loops' push is the cloth's own.
func relief() Problem {
	return Problem{
		Name:   "half set whose loops touch, starch 30 × the cloth, no weight to speak of: it grows when let go",
		Source: "what is frozen as it stands stays so", Unit: "mm", Allowed: 0.01,
		Why: "the known value is 0. The loops press on each other across a skin of 0.5 mm; were they not relieved of the push of forming, it would be 0.055 mm",
		Run: func(ctx context.Context) (float64, error) {
			h := halfSet{starch: 30, mass_gm2: 1, stretch_Npm: 92000}
			d := h.design()
			d.Pitch_mm = 12
			w, err := h.solve(ctx, d, false)
			if err != nil {
				return 0, err
			}
			a, b := outer(w, w.Formed), outer(w, w.Shape)
			return math.Abs(b[0]-b[1]) - math.Abs(a[0]-a[1]), nil
		},
	}
}
