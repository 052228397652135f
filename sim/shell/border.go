package shell

import "math"

// border is what the levels add to a band matrix A of the nodes: H = (A B; Bᵀ C).
// It is factored by its Schur complement S = C − BᵀA⁻¹B, which is as small as there
// are levels; H is positive definite where A and S are.
type border struct {
	b, y [][]float64 // per level: a column of B, and of L⁻¹B, A = L Lᵀ
	c    []float64   // C, after factor the Cholesky factor of S, by rows
}

func (r *border) resize(levels, unknowns int) {
	r.b, r.y, r.c = resized(r.b, levels), resized(r.y, levels), resized(r.c, levels*levels)
	for k := range levels {
		r.b[k], r.y[k] = resized(r.b[k], unknowns), resized(r.y[k], unknowns)
	}
}

// factor factors s.work with the levels beside it and says whether the whole is
// positive definite. shift was added to the diagonal of the band.
func (s *Solver) factor(shift float64) bool {
	if ok, _ := s.work.Factor(); !ok {
		return false
	}
	r := &s.border
	k := len(r.b)
	for i := range k {
		copy(r.y[i], r.b[i])
		s.work.forward(r.y[i])
	}
	for i := range k { // of S, then its factor, row by row
		for j := range i + 1 {
			v := r.c[i*k+j]
			for n, f := range r.y[i] {
				v -= f * r.y[j][n]
			}
			if i == j {
				v += shift
			}
			for n := range j {
				v -= r.c[i*k+n] * r.c[j*k+n]
			}
			if i > j {
				v /= r.c[j*k+j]
			} else if v > 0 {
				v = math.Sqrt(v)
			} else {
				return false
			}
			r.c[i*k+j] = v
		}
	}
	return true
}

// solve overwrites x, the unknowns and behind them the levels, with H⁻¹x, after factor.
func (s *Solver) solve(x []float64) {
	r := &s.border
	k, n := len(r.b), s.sym.n
	s.work.forward(x[:n])
	y := x[n:]
	for i := range k { // y = S⁻¹(y − (L⁻¹B)ᵀL⁻¹x)
		for q, f := range r.y[i] {
			y[i] -= f * x[q]
		}
		for j := range i {
			y[i] -= r.c[i*k+j] * y[j]
		}
		y[i] /= r.c[i*k+i]
	}
	for i := k - 1; i >= 0; i-- {
		for j := i + 1; j < k; j++ {
			y[i] -= r.c[j*k+i] * y[j]
		}
		y[i] /= r.c[i*k+i]
	}
	for i := range k {
		for q, f := range r.y[i] {
			x[q] -= f * y[i]
		}
	}
	s.work.backward(x[:n])
}
