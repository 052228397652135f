package shell

import "math"

// crease is the |x_u × x_v| below which a place counts as a sharp fold: it
// holds no frozen shape, because its normal means nothing.
const crease = 0.35

// blunt is ε in n̂ = m √(1 + ε²)/√(m² + ε²), m = x_u × x_v: a unit vector where
// the sheet is unstrained, to 0.04 % of |m| − 1, and no jump where a fold closes
// and m turns over. With a plain unit vector one fold in 300 random half sets
// went back and forth across that jump for ever.
const blunt = 0.02

var bluntScale = math.Sqrt(1 + blunt*blunt)

// moment returns f = D·n̂ and, where wanted, its gradient with respect to a, b
// and D, for m = a × b.
func moment(a, b, d [3]float64, grad *[3][3]float64) float64 {
	m := cross(a, b)
	l := math.Sqrt(dot3(m, m) + blunt*blunt)
	n := [3]float64{m[0] / l, m[1] / l, m[2] / l}
	f := dot3(d, n)
	if grad != nil {
		q := bluntScale / l
		g := [3]float64{q * (d[0] - f*n[0]), q * (d[1] - f*n[1]), q * (d[2] - f*n[2])}
		grad[0], grad[1] = cross(b, g), cross(g, a)
		grad[2] = [3]float64{bluntScale * n[0], bluntScale * n[1], bluntScale * n[2]}
	}
	return bluntScale * f
}

// momentHessian fills h, 9 × 9 by rows over (a, b, D), with scale times the
// second derivatives of D·n̂.
//
// With m = a × b, l = √(m² + ε²), n = m/l, φ = D·n, g = (D − φn)/l, and but for
// the constant √(1 + ε²): f_mm = −(ngᵀ + gnᵀ + φ(I − nnᵀ)/l)/l,
// f_mD = (I − nnᵀ)/l, δm = δa×b + a×δb.
func momentHessian(a, b, d [3]float64, scale float64, h *[81]float64) {
	*h = [81]float64{}
	scale *= bluntScale
	m := cross(a, b)
	l := math.Sqrt(dot3(m, m) + blunt*blunt)
	n := [3]float64{m[0] / l, m[1] / l, m[2] / l}
	f := dot3(d, n)
	g := [3]float64{(d[0] - f*n[0]) / l, (d[1] - f*n[1]) / l, (d[2] - f*n[2]) / l}
	var mm, md [3][3]float64
	for r := range 3 {
		for c := range 3 {
			e := -n[r] * n[c]
			if r == c {
				e++
			}
			md[r][c] = scale * e / l
			mm[r][c] = -scale * (n[r]*g[c] + g[r]*n[c] + f*e/l) / l
		}
	}
	// columns of δm for unit changes of a and b
	ja := [3][3]float64{{0, -b[2], b[1]}, {b[2], 0, -b[0]}, {-b[1], b[0], 0}}
	jb := [3][3]float64{{0, a[2], -a[1]}, {-a[2], 0, a[0]}, {a[1], -a[0], 0}}
	for r := range 3 {
		ta := [3]float64{dot3(ja[r], mm[0]), dot3(ja[r], mm[1]), dot3(ja[r], mm[2])}
		tb := [3]float64{dot3(jb[r], mm[0]), dot3(jb[r], mm[1]), dot3(jb[r], mm[2])}
		for c := range 3 {
			h[9*r+c] = dot3(ta, ja[c])
			h[9*r+3+c] = dot3(ta, jb[c])
			h[9*(3+r)+3+c] = dot3(tb, jb[c])
			h[9*r+6+c] = dot3(ja[r], md[c])
			h[9*(3+r)+6+c] = dot3(jb[r], md[c])
		}
	}
	// g·(δa × δb): δaᵀ(−[g]×)δb
	h[9*0+3+1] += scale * g[2]
	h[9*0+3+2] -= scale * g[1]
	h[9*1+3+0] -= scale * g[2]
	h[9*1+3+2] += scale * g[0]
	h[9*2+3+0] += scale * g[1]
	h[9*2+3+1] -= scale * g[0]
	for r := range 9 {
		for c := range r {
			h[9*r+c] = h[9*c+r]
		}
	}
}

// Freeze returns the shape's signed curvatures times quality as a frozen part
// of the given rigidities in µN·m (twist as in Frozen), measured by the same
// stencils that the energy uses. quality 1 keeps the shape whole, 0 makes the
// frozen part flat. Sharp folds, |x_u × x_v| < 0.35, are marked as creases.
// Only the grid, edges and ghost conditions of the solver's sheet are used.
func (s *Solver) Freeze(shape []float64, bendU, bendV, twist, quality float64) *Frozen {
	f := &Frozen{BendU: bendU, BendV: bendV, Twist: twist,
		U: make([]float64, s.nodes), V: make([]float64, s.nodes), UV: make([]float64, len(s.cells))}
	s.spread(shape)
	for k := range s.points {
		p := &s.points[k]
		m := cross(s.gather5(p, &p.ca), s.gather5(p, &p.cb))
		if norm(m) < crease {
			f.U[k], f.V[k] = math.NaN(), math.NaN()
		}
	}
	for k := range s.curves {
		q := &s.curves[k]
		p := &s.points[q.node]
		v := quality * moment(s.gather5(p, &p.ca), s.gather5(p, &p.cb), s.bendOf(q), nil)
		dst := f.V
		if q.along == 0 {
			dst = f.U
		}
		if !math.IsNaN(dst[q.node]) {
			dst[q.node] = v
		}
	}
	for k := range s.cells {
		q := &s.cells[k]
		a, b, d := s.gather4(q, &q.cu), s.gather4(q, &q.cv), s.gather4(q, &q.cd)
		if norm(cross(a, b)) < crease {
			f.UV[k] = math.NaN()
			continue
		}
		f.UV[k] = quality * moment(a, b, d, nil)
	}
	return f
}

func (s *Solver) gather5(p *point, c *[5]float64) (r [3]float64) {
	for k, n := range p.n {
		w := c[k]
		x := s.x[3*n : 3*n+3 : 3*n+3]
		r[0] += w * x[0]
		r[1] += w * x[1]
		r[2] += w * x[2]
	}
	return
}

func (s *Solver) gather4(q *cell, c *[4]float64) (r [3]float64) {
	for k, n := range q.n {
		w := c[k]
		x := s.x[3*n : 3*n+3 : 3*n+3]
		r[0] += w * x[0]
		r[1] += w * x[1]
		r[2] += w * x[2]
	}
	return
}

func (s *Solver) bendOf(q *curve) (r [3]float64) {
	for k, n := range q.n {
		w := q.c[k]
		x := s.x[3*n : 3*n+3 : 3*n+3]
		r[0] += w * x[0]
		r[1] += w * x[1]
		r[2] += w * x[2]
	}
	return
}
