package shell

import "math"

// measureStrains sets the current strain of every edge and skew of every cell.
func (s *Solver) measureStrains(strain, skew []float64) (largest float64) {
	x := s.x
	for k := range s.edges {
		q := &s.edges[k]
		t := 0.0
		for r := range int32(3) {
			d := x[3*q.b+r] - x[3*q.a+r]
			t += d * d
		}
		t = 0.5 * (t*q.q - 1)
		strain[k] = t
		largest = max(largest, math.Abs(t))
	}
	for k := range s.cells {
		q := &s.cells[k]
		skew[k] = dot3(s.gather(q.n[:], q.cu[:]), s.gather(q.n[:], q.cv[:])) - q.t0
	}
	return largest
}

// onEdge returns an edge's strain e in the shape x, and for a movement p the products
// d·p and p·p: by d·p/h² + ½ p·p/h² the strain changes.
func onEdge(q *edge, x, p []float64) (e, dp, pp float64) {
	t := 0.0
	for r := range int32(3) {
		d, v := x[3*q.b+r]-x[3*q.a+r], p[3*q.b+r]-p[3*q.a+r]
		t += d * d
		dp += d * v
		pp += v * v
	}
	return 0.5 * (t*q.q - 1), dp, pp
}

// inCell returns a cell's skew in the shape x, foreseen to first order after p.
func inCell(q *cell, x, p []float64) float64 {
	var xu, xv, pu, pv [3]float64
	for c, n := range q.n {
		for r := range int32(3) {
			xu[r] += q.cu[c] * x[3*n+r]
			xv[r] += q.cv[c] * x[3*n+r]
			pu[r] += q.cu[c] * p[3*n+r]
			pv[r] += q.cv[c] * p[3*n+r]
		}
	}
	return dot3(xu, xv) + dot3(pu, xv) + dot3(xu, pv) - q.t0
}

// lag moves the lagged strains towards the linear prediction e + e′p of the step p
// (an extended array of movements) taken from the shape x, by the share a.
func (s *Solver) lag(x, p []float64, a float64) {
	for k := range s.edges {
		q := &s.edges[k]
		e, dp, _ := onEdge(q, x, p)
		s.strain[k] += a * (e + dp*q.q - s.strain[k])
	}
	for k := range s.cells {
		s.skew[k] += a * (inCell(&s.cells[k], x, p) - s.skew[k])
	}
}

// foresee returns the energy of stretch and shear in the lagged strains that a
// step of length a along p from x predicts, and the largest difference of an
// edge's strain at its end from the prediction.
func (s *Solver) foresee(x, p []float64, a float64) (energy, miss float64) {
	b := min(a, 1)
	for k := range s.edges {
		q := &s.edges[k]
		e, dp, pp := onEdge(q, x, p)
		l := s.strain[k] + b*(e+dp*q.q-s.strain[k])
		energy += 0.5 * q.k * l * l
		miss = max(miss, math.Abs(e+a*dp*q.q+0.5*a*a*pp*q.q-l))
	}
	for k := range s.cells {
		q := &s.cells[k]
		l := s.skew[k] + b*(inCell(q, x, p)-s.skew[k])
		energy += 0.5 * q.ks * l * l
	}
	return
}

// membrane returns the energy of stretch and shear in the lagged strains.
func (s *Solver) membrane() (energy float64) {
	for k := range s.edges {
		energy += 0.5 * s.edges[k].k * s.strain[k] * s.strain[k]
	}
	for k := range s.cells {
		energy += 0.5 * s.cells[k].ks * s.skew[k] * s.skew[k]
	}
	return
}
