package known

import (
	"context"
	"math"

	"ruffwright/geom/curve"
	"ruffwright/sim/shell"
)

// Shape is a solved sheet with its rest grid, to be asked for any place.
type Shape struct {
	U, V   []float64
	X      []float64
	Result shell.Result
}

// At returns the position of the material point (u, v), cubic between nodes.
func (s Shape) At(u, v float64) (p [3]float64) {
	iu, wu := cubic(s.U, u)
	iv, wv := cubic(s.V, v)
	for a, i := range iu {
		for b, j := range iv {
			w := wu[a] * wv[b]
			for c := range p {
				p[c] += w * s.X[3*(i*len(s.V)+j)+c]
			}
		}
	}
	return
}

// cubic returns four grid lines around t and their Lagrange weights.
func cubic(c []float64, t float64) (k [4]int, w [4]float64) {
	n := len(c) - 1
	lo := 0
	for lo < n-1 && c[lo+1] < t {
		lo++
	}
	first := min(max(lo-1, 0), max(n-3, 0))
	for a := range 4 {
		k[a] = min(first+a, n)
		w[a] = 1
		for b := range 4 {
			if q := first + b; b != a && q <= n && first+a <= n {
				w[a] *= (t - c[q]) / (c[first+a] - c[q])
			}
		}
		if first+a > n {
			w[a] = 0
		}
	}
	return
}

// The material of the CalculiX cases: no Poisson effect, thickness 0.25 mm,
// E = 12B/h³, 100 g/m².
const ccxMass, ccxThickness = 100.0, 0.25

func ccxSheet(b float64) shell.Sheet {
	k := 12 * b / (ccxThickness * ccxThickness)
	return shell.Sheet{BendU: b, BendV: b, StretchU: k, StretchV: k, Shear: k / 2, Mass: ccxMass}
}

// PanelCase is a panel 60 × 70 mm, one 60 mm edge clamped in an arc of radius
// R mm in the vertical plane (Rims 1: the arc's ends point up, −1: down),
// otherwise free, under gravity: half of it with a mirror plane.
type PanelCase struct {
	Bend, R, Rims float64
	NU, NV        int // cells of the half
}

// Panel solves a PanelCase: bent first without weight (Shape g0), then with
// (g1).
func Panel(ctx context.Context, c PanelCase) (g0, g1 Shape, err error) {
	sh := ccxSheet(c.Bend)
	sh.U, sh.V = even(c.NU, 30), graded(c.NV, 70)
	sh.UStart = shell.Edge{Kind: shell.Mirror, Normal: [3]float64{1, 0, 0}}
	sh.VStart = shell.Edge{Kind: shell.Clamped, Tangent: [][3]float64{{0, 1, 0}}}
	for i := range sh.U {
		sh.Held = append(sh.Held, shell.Hold{I: i, J: 0, Axes: shell.All})
	}
	x := make([]float64, 3*sh.Nodes())
	for i, u := range sh.U {
		px, pz := u, 0.0
		if c.R < 1e6 {
			px, pz = c.R*math.Sin(u/c.R), c.Rims*c.R*(1-math.Cos(u/c.R))
		}
		for j, v := range sh.V {
			k := 3 * sh.Node(i, j)
			x[k], x[k+1], x[k+2] = px, v, pz
		}
	}
	return weighted(ctx, &sh, x)
}

// CorrugationCase is a sheet 60 (u) × V mm between mirror planes Chord apart,
// its edge v = 0 held in place and slope as half a period of the elastica,
// under gravity along −z, crest at u = 0.
type CorrugationCase struct {
	Bend, Chord, Depth float64
	NU, NV             int
}

// Corrugation solves a CorrugationCase without (g0) and with weight (g1).
func Corrugation(ctx context.Context, c CorrugationCase) (g0, g1 Shape, err error) {
	const l = 60.0
	e, err := curve.NewElastica(l, c.Chord)
	if err != nil {
		return g0, g1, err
	}
	sh := ccxSheet(c.Bend)
	sh.U, sh.V = even(c.NU, l), graded(c.NV, c.Depth)
	sh.UStart = shell.Edge{Kind: shell.Mirror, Normal: [3]float64{1, 0, 0}}
	sh.UEnd = shell.Edge{Kind: shell.Mirror, Normal: [3]float64{1, 0, 0}, Offset: c.Chord}
	sh.VStart = shell.Edge{Kind: shell.Clamped, Tangent: [][3]float64{{0, 1, 0}}}
	x := make([]float64, 3*sh.Nodes())
	for i, u := range sh.U {
		sh.Held = append(sh.Held, shell.Hold{I: i, J: 0, Axes: shell.All})
		p, _ := e.At(u)
		for j, v := range sh.V {
			k := 3 * sh.Node(i, j)
			x[k], x[k+1], x[k+2] = p.X, v, p.Y
		}
	}
	return weighted(ctx, &sh, x)
}

// weighted solves a sheet without weight (g0), then with it (g1).
func weighted(ctx context.Context, sh *shell.Sheet, x []float64) (g0, g1 Shape, err error) {
	r, err := solved(ctx, sh, x, shell.Settings{})
	if err != nil {
		return g0, g1, err
	}
	g0 = Shape{sh.U, sh.V, append([]float64(nil), x...), r}
	sh.Gravity = [3]float64{0, 0, -1}
	r, err = solved(ctx, sh, x, shell.Settings{})
	return g0, Shape{sh.U, sh.V, x, r}, err
}
