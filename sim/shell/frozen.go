package shell

import "math"

// crease is the |x_u × x_v| below which a place counts as a sharp fold: it
// holds no frozen shape, because its normal means nothing.
const crease = 0.35

// shut is the same for the hinge of a Fold, whose normal halves the angle of its
// sides and means something until they lie on each other: at 0.1, folded to
// within 11° of flat, ε below takes 2 % of the moment. With 0.35 whole rows of a
// tuck lost their set or kept it as the mesh would have it.
const shut = 0.1

// blunt is ε in n̂ = m √(1 + ε²)/√(m² + ε²), m = x_u × x_v: a unit vector where
// the sheet is unstrained, to 0.04 % of |m| − 1, and no jump where a fold closes
// and m turns over. With a plain unit vector one fold in 300 random half sets
// went back and forth across that jump for ever.
const blunt = 0.02

var bluntScale = math.Sqrt(1 + blunt*blunt)

// moment returns f = D·n̂ for m = a × b and, where wanted, puts its gradient with
// respect to a, b and D into grad.
func moment(a, b, d [3]float64, wanted bool, grad *[3][3]float64) float64 {
	m := cross(a, b)
	l := math.Sqrt(dot3(m, m) + blunt*blunt)
	n := [3]float64{m[0] / l, m[1] / l, m[2] / l}
	f := dot3(d, n)
	if wanted {
		q := bluntScale / l
		g := [3]float64{q * (d[0] - f*n[0]), q * (d[1] - f*n[1]), q * (d[2] - f*n[2])}
		grad[0], grad[1] = cross(b, g), cross(g, a)
		grad[2] = [3]float64{bluntScale * n[0], bluntScale * n[1], bluntScale * n[2]}
	}
	return bluntScale * f
}

// blocks are second derivatives with respect to a, b and D, 3 × 3 by rows; that
// of D with D is zero.
type blocks struct{ aa, ab, ba, bb, ad, da, bd, db [9]float64 }

// momentHessian fills h with scale times the second derivatives of D·n̂.
//
// With m = a × b, l = √(m² + ε²), n = m/l, φ = D·n, g = (D − φn)/l, and but for
// the constant √(1 + ε²): f_mm = −(ngᵀ + gnᵀ + φ(I − nnᵀ)/l)/l,
// f_mD = (I − nnᵀ)/l, δm = δa×b + a×δb.
func momentHessian(a, b, d [3]float64, scale float64, h *blocks) {
	scale *= bluntScale
	m := cross(a, b)
	l := math.Sqrt(dot3(m, m) + blunt*blunt)
	n := [3]float64{m[0] / l, m[1] / l, m[2] / l}
	f := dot3(d, n)
	g := [3]float64{(d[0] - f*n[0]) / l, (d[1] - f*n[1]) / l, (d[2] - f*n[2]) / l}
	q := scale / l
	md := [9]float64{
		q * (1 - n[0]*n[0]), -q * n[0] * n[1], -q * n[0] * n[2],
		-q * n[1] * n[0], q * (1 - n[1]*n[1]), -q * n[1] * n[2],
		-q * n[2] * n[0], -q * n[2] * n[1], q * (1 - n[2]*n[2]),
	}
	p := f / l
	mm := [9]float64{
		-2*q*n[0]*g[0] - p*md[0], -q*(n[0]*g[1]+g[0]*n[1]) - p*md[1], -q*(n[0]*g[2]+g[0]*n[2]) - p*md[2],
		0, -2*q*n[1]*g[1] - p*md[4], -q*(n[1]*g[2]+g[1]*n[2]) - p*md[5],
		0, 0, -2*q*n[2]*g[2] - p*md[8],
	}
	mm[3], mm[6], mm[7] = mm[1], mm[2], mm[5]
	var ta, tb [9]float64
	crossRows(b, 1, &mm, &ta)  // ∂m/∂aᵀ mm
	crossRows(a, -1, &mm, &tb) // ∂m/∂bᵀ mm
	crossRows(b, 1, &md, &h.ad)
	crossRows(a, -1, &md, &h.bd)
	crossColumns(&ta, b, 1, &h.aa)
	crossColumns(&ta, a, -1, &h.ab)
	crossColumns(&tb, a, -1, &h.bb)
	// g·(δa × δb): δaᵀ(−[g]×)δb
	h.ab[1] += scale * g[2]
	h.ab[2] -= scale * g[1]
	h.ab[3] -= scale * g[2]
	h.ab[5] += scale * g[0]
	h.ab[6] += scale * g[1]
	h.ab[7] -= scale * g[0]
	h.ba, h.da, h.db = transposed(h.ab), transposed(h.ad), transposed(h.bd)
}

// crossRows puts s [v]× m into r.
func crossRows(v [3]float64, s float64, m, r *[9]float64) {
	x, y, z := s*v[0], s*v[1], s*v[2]
	r[0], r[1], r[2] = y*m[6]-z*m[3], y*m[7]-z*m[4], y*m[8]-z*m[5]
	r[3], r[4], r[5] = z*m[0]-x*m[6], z*m[1]-x*m[7], z*m[2]-x*m[8]
	r[6], r[7], r[8] = x*m[3]-y*m[0], x*m[4]-y*m[1], x*m[5]-y*m[2]
}

// crossColumns puts m (s [v]×)ᵀ into r.
func crossColumns(m *[9]float64, v [3]float64, s float64, r *[9]float64) {
	x, y, z := s*v[0], s*v[1], s*v[2]
	r[0], r[1], r[2] = y*m[2]-z*m[1], z*m[0]-x*m[2], x*m[1]-y*m[0]
	r[3], r[4], r[5] = y*m[5]-z*m[4], z*m[3]-x*m[5], x*m[4]-y*m[3]
	r[6], r[7], r[8] = y*m[8]-z*m[7], z*m[6]-x*m[8], x*m[7]-y*m[6]
}

// row puts the derivatives with respect to one node's coefficients into ra, rb,
// rd: what is to be multiplied with the other node's coefficients of a, b, D.
func (h *blocks) row(a, b, d float64, ra, rb, rd *[9]float64) {
	for k := range ra {
		ra[k] = a*h.aa[k] + b*h.ba[k] + d*h.da[k]
		rb[k] = a*h.ab[k] + b*h.bb[k] + d*h.db[k]
		rd[k] = a*h.ad[k] + b*h.bd[k]
	}
}

// Freeze returns the shape's signed curvatures and skews times quality (1 keeps the shape, 0
// makes the frozen part flat) as a frozen part of the given rigidities in µN·m (twist
// as in Frozen) and shear stiffness in N/m, measured by the stencils of the energy. Sharp folds are marked as
// creases. Only the grid and the edges of the solver's sheet are used.
func (s *Solver) Freeze(shape []float64, bendU, bendV, twist, shear, quality float64) *Frozen {
	f := &Frozen{BendU: bendU, BendV: bendV, Twist: twist, Shear: shear,
		U: make([]float64, s.nodes), V: make([]float64, s.nodes), UV: make([]float64, len(s.cells)), Skew: make([]float64, len(s.cells))}
	s.spread(shape)
	for k := range s.points {
		p := &s.points[k]
		m := cross(s.gather(p.n[:], p.ca[:]), s.gather(p.n[:], p.cb[:]))
		limit := crease
		if s.sheet.Fold != nil && s.sheet.Fold[k] < 1 {
			limit = shut
		}
		if norm(m) < limit {
			f.U[k], f.V[k] = math.NaN(), math.NaN()
		}
	}
	for k := range s.curves {
		q := &s.curves[k]
		p := &s.points[q.node]
		v := quality * moment(s.gather(p.n[:], p.ca[:]), s.gather(p.n[:], p.cb[:]), s.gather(q.n[:], q.c[:]), false, nil)
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
		a, b, d := s.gather(q.n[:], q.cu[:]), s.gather(q.n[:], q.cv[:]), s.gather(q.n[:], q.cd[:])
		if norm(cross(a, b)) < crease {
			f.UV[k], f.Skew[k] = math.NaN(), math.NaN()
			continue
		}
		f.Skew[k] = quality * dot3(a, b)
		f.UV[k] = quality * moment(a, b, d, false, nil)
	}
	return f
}

// gather is the sum of the places of the nodes n, each times its c.
func (s *Solver) gather(n []int32, c []float64) (r [3]float64) {
	c = c[:len(n)]
	for k, n := range n {
		w := c[k]
		x := s.x[3*n : 3*n+3 : 3*n+3]
		r[0] += w * x[0]
		r[1] += w * x[1]
		r[2] += w * x[2]
	}
	return
}
