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
		skew[k] = dot3(s.gather4(q, &q.cu), s.gather4(q, &q.cv))
	}
	return largest
}

// lag moves the lagged strains towards the linear prediction e + e′p of the
// step p (an extended array of movements) taken from s.x, by the share a.
func (s *Solver) lag(p []float64, a float64) {
	x := s.x
	for k := range s.edges {
		q := &s.edges[k]
		t, dt := 0.0, 0.0
		for r := range int32(3) {
			d := x[3*q.b+r] - x[3*q.a+r]
			t += d * d
			dt += d * (p[3*q.b+r] - p[3*q.a+r])
		}
		s.strain[k] += a * (0.5*(t*q.q-1) + dt*q.q - s.strain[k])
	}
	for k := range s.cells {
		q := &s.cells[k]
		var xu, xv, pu, pv [3]float64
		for c, n := range q.n {
			for r := range int32(3) {
				xu[r] += q.cu[c] * x[3*n+r]
				xv[r] += q.cv[c] * x[3*n+r]
				pu[r] += q.cu[c] * p[3*n+r]
				pv[r] += q.cv[c] * p[3*n+r]
			}
		}
		s.skew[k] += a * (dot3(xu, xv) + dot3(pu, xv) + dot3(xu, pv) - s.skew[k])
	}
}

// foresee returns the energy of stretch and shear in the lagged strains that a
// step of length a along p from x predicts, and the largest difference of an
// edge's strain at its end from the prediction.
func (s *Solver) foresee(x, p []float64, a float64) (energy, miss float64) {
	b := min(a, 1)
	for k := range s.edges {
		q := &s.edges[k]
		t, dt, pp := 0.0, 0.0, 0.0
		for r := range int32(3) {
			d, v := x[3*q.b+r]-x[3*q.a+r], p[3*q.b+r]-p[3*q.a+r]
			t += d * d
			dt += d * v
			pp += v * v
		}
		e := 0.5 * (t*q.q - 1)
		l := s.strain[k] + b*(e+dt*q.q-s.strain[k])
		energy += 0.5 * q.k * l * l
		miss = max(miss, math.Abs(e+a*dt*q.q+0.5*a*a*pp*q.q-l))
	}
	for k := range s.cells {
		q := &s.cells[k]
		var xu, xv, pu, pv [3]float64
		for c, n := range q.n {
			for r := range int32(3) {
				xu[r] += q.cu[c] * x[3*n+r]
				xv[r] += q.cv[c] * x[3*n+r]
				pu[r] += q.cu[c] * p[3*n+r]
				pv[r] += q.cv[c] * p[3*n+r]
			}
		}
		l := s.skew[k] + b*(dot3(xu, xv)+dot3(pu, xv)+dot3(xu, pv)-s.skew[k])
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

// lagFrom is lag for a step taken from the shape x.
func (s *Solver) lagFrom(x, p []float64, a float64) {
	keep := s.x
	s.x = x
	s.lag(p, a)
	s.x = keep
}
