package known

import (
	"context"
	"fmt"
	"math"

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
	r, err := solved(ctx, &sh, x, shell.Settings{})
	if err != nil {
		return g0, g1, err
	}
	g0 = Shape{sh.U, sh.V, append([]float64(nil), x...), r}
	sh.Gravity = [3]float64{0, 0, -1}
	r, err = solved(ctx, &sh, x, shell.Settings{})
	return g0, Shape{sh.U, sh.V, x, r}, err
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
	px, pz, err := elasticaCurve(c.Chord/l, c.NU)
	if err != nil {
		return g0, g1, err
	}
	sh := ccxSheet(c.Bend)
	sh.U, sh.V = even(c.NU, l), graded(c.NV, c.Depth)
	sh.UStart = shell.Edge{Kind: shell.Mirror, Normal: [3]float64{1, 0, 0}}
	sh.UEnd = shell.Edge{Kind: shell.Mirror, Normal: [3]float64{1, 0, 0}, Offset: c.Chord}
	sh.VStart = shell.Edge{Kind: shell.Clamped, Tangent: [][3]float64{{0, 1, 0}}}
	x := make([]float64, 3*sh.Nodes())
	for i := range sh.U {
		sh.Held = append(sh.Held, shell.Hold{I: i, J: 0, Axes: shell.All})
		for j, v := range sh.V {
			k := 3 * sh.Node(i, j)
			x[k], x[k+1], x[k+2] = l*px[i], v, l*pz[i]
		}
	}
	r, err := solved(ctx, &sh, x, shell.Settings{})
	if err != nil {
		return g0, g1, err
	}
	g0 = Shape{sh.U, sh.V, append([]float64(nil), x...), r}
	sh.Gravity = [3]float64{0, 0, -1}
	r, err = solved(ctx, &sh, x, shell.Settings{})
	return g0, Shape{sh.U, sh.V, x, r}, err
}

// elasticaCurve returns n+1 equally spaced points of half a period of length 1
// from crest to trough, for the chords listed in elasticaModuli: the angle
// obeys θ″ = −4K² sin θ, integrated by Runge–Kutta of order 4 to 1e-12.
func elasticaCurve(chord float64, n int) (x, z []float64, err error) {
	m, p := 0.0, 0.0
	for _, e := range elasticaModuli {
		if math.Abs(e[0]-chord) < 1e-9 {
			m, p = e[1], e[2]
		}
	}
	if m == 0 {
		return nil, nil, fmt.Errorf("chord %v of the length is not among the known elasticas", chord)
	}
	x, z = make([]float64, n+1), make([]float64, n+1)
	y := [4]float64{0, math.Sqrt(4 * p * m), 0, 0} // θ, θ′, x, z
	rate := func(y [4]float64) [4]float64 {
		s, c := math.Sincos(y[0])
		return [4]float64{y[1], -p * s, c, -s}
	}
	sub := (4000 + n - 1) / n
	h := 1 / float64(n*sub)
	for i := 1; i <= n; i++ {
		for range sub {
			a := rate(y)
			b := rate(plus(y, a, h/2))
			c := rate(plus(y, b, h/2))
			d := rate(plus(y, c, h))
			for k := range y {
				y[k] += h / 6 * (a[k] + 2*b[k] + 2*c[k] + d[k])
			}
		}
		x[i], z[i] = y[2], y[3]
	}
	return x, z, nil
}

func plus(y, d [4]float64, h float64) [4]float64 {
	for k := range y {
		y[k] += h * d[k]
	}
	return y
}

// elasticaModuli is chord, modulus m and end force P·L²/B = 4K(m)² of the
// corrugated cases' edges (mpmath, 25 digits).
var elasticaModuli = [][3]float64{
	{0.25, 0.661694286584109680, 16.3615039313197317},
	{59.5 / 60, 0.008324634641315147, 9.91092146016909603},
}
