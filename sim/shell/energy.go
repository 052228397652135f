package shell

import "math"

// spread copies a shape into the extended array and sets the ghosts.
func (s *Solver) spread(shape []float64) {
	copy(s.x, shape[:3*s.nodes])
	s.reflect(s.x, true)
}

// reflect sets the ghosts of an extended array from its real nodes; constant
// parts only for positions, not for movements.
func (s *Solver) reflect(x []float64, positions bool) {
	for k := range s.ghosts {
		g := &s.ghosts[k]
		a := x[3*g.node : 3*g.node+3]
		b := x[3*(s.nodes+k) : 3*(s.nodes+k)+3]
		for r := range 3 {
			b[r] = g.s[3*r]*a[0] + g.s[3*r+1]*a[1] + g.s[3*r+2]*a[2]
			if positions {
				b[r] += g.c[r]
			}
		}
	}
}

// evaluate returns the energies of the shape in s.x and, when grad is set, puts
// the gradient with respect to every virtual node in s.g.
func (s *Solver) evaluate(grad bool) (e Energies) {
	x, g := s.x, s.g
	if grad {
		clear(g)
	}
	for k := range s.curves {
		q := &s.curves[k]
		d := s.bendOf(q)
		dd := 0.5 * dot3(d, d)
		e.Bend += q.k * dd
		e.Frozen += q.kf * dd
		if grad {
			w := q.k + q.kf
			for m, n := range q.n {
				c := w * q.c[m]
				y := g[3*n : 3*n+3 : 3*n+3]
				y[0] += c * d[0]
				y[1] += c * d[1]
				y[2] += c * d[2]
			}
		}
	}
	for k := range s.edges {
		q := &s.edges[k]
		a, b := x[3*q.a:3*q.a+3:3*q.a+3], x[3*q.b:3*q.b+3:3*q.b+3]
		d0, d1, d2 := b[0]-a[0], b[1]-a[1], b[2]-a[2]
		t := 0.5 * ((d0*d0+d1*d1+d2*d2)*q.q - 1)
		e.Stretch += 0.5 * q.k * t * t
		if grad {
			f := q.k * t * q.q
			a, b := g[3*q.a:3*q.a+3:3*q.a+3], g[3*q.b:3*q.b+3:3*q.b+3]
			a[0] -= f * d0
			a[1] -= f * d1
			a[2] -= f * d2
			b[0] += f * d0
			b[1] += f * d1
			b[2] += f * d2
		}
	}
	for k := range s.cells {
		q := &s.cells[k]
		a, b, d := s.gather4(q, &q.cu), s.gather4(q, &q.cv), s.gather4(q, &q.cd)
		t := dot3(a, b)
		dd := 0.5 * dot3(d, d)
		e.Shear += 0.5 * q.ks * t * t
		e.Bend += q.kt * dd
		e.Frozen += q.kf * dd
		f, w := q.ks*t, q.kt+q.kf
		var m [3][3]float64
		if q.a0 != 0 {
			if grad {
				e.Frozen -= q.a0 * moment(a, b, d, &m)
			} else {
				e.Frozen -= q.a0 * moment(a, b, d, nil)
			}
		}
		if grad {
			var pa, pb, pd [3]float64
			for r := range 3 {
				pa[r] = f*b[r] - q.a0*m[0][r]
				pb[r] = f*a[r] - q.a0*m[1][r]
				pd[r] = w*d[r] - q.a0*m[2][r]
			}
			for c, n := range q.n {
				cu, cv, cd := q.cu[c], q.cv[c], q.cd[c]
				y := g[3*n : 3*n+3 : 3*n+3]
				y[0] += cu*pa[0] + cv*pb[0] + cd*pd[0]
				y[1] += cu*pa[1] + cv*pb[1] + cd*pd[1]
				y[2] += cu*pa[2] + cv*pb[2] + cd*pd[2]
			}
		}
	}
	if s.sheet.Frozen != nil {
		e.Frozen += s.frozenConst
		for k := range s.points {
			p := &s.points[k]
			if !p.live {
				continue
			}
			a, b, d := s.gather5(p, &p.ca), s.gather5(p, &p.cb), s.gather5(p, &p.cd)
			if !grad {
				e.Frozen -= moment(a, b, d, nil)
				continue
			}
			var m [3][3]float64
			e.Frozen -= moment(a, b, d, &m)
			for c, n := range p.n {
				ca, cb, cd := p.ca[c], p.cb[c], p.cd[c]
				y := g[3*n : 3*n+3 : 3*n+3]
				y[0] -= ca*m[0][0] + cb*m[1][0] + cd*m[2][0]
				y[1] -= ca*m[0][1] + cb*m[1][1] + cd*m[2][1]
				y[2] -= ca*m[0][2] + cb*m[1][2] + cd*m[2][2]
			}
		}
	}
	gr := s.sheet.Gravity
	for n := range s.nodes {
		w := s.weight[n]
		y := x[3*n : 3*n+3 : 3*n+3]
		e.Gravity -= w * (gr[0]*y[0] + gr[1]*y[1] + gr[2]*y[2])
		if grad {
			z := g[3*n : 3*n+3 : 3*n+3]
			z[0] -= w * gr[0]
			z[1] -= w * gr[1]
			z[2] -= w * gr[2]
		}
	}
	for k := range s.touches {
		t := &s.touches[k]
		c := &s.sheet.Contacts[t.contact]
		y := x[3*t.node : 3*t.node+3 : 3*t.node+3]
		p := [3]float64{y[0], y[1], y[2]}
		gap := c.Gap(p) + t.back
		if !c.Tie && gap >= c.Skin {
			continue
		}
		phi, d1, _ := c.force(gap)
		e.Contact += t.weight * phi
		if grad {
			n, _, _, _ := c.gradient(p)
			z := g[3*t.node : 3*t.node+3 : 3*t.node+3]
			z[0] += t.weight * d1 * n[0]
			z[1] += t.weight * d1 * n[1]
			z[2] += t.weight * d1 * n[2]
		}
	}
	e.Contact += s.pressed(grad) + s.evaluatePairs(grad) + s.evaluateNear(grad)
	return e
}

// foldGhosts adds the ghosts' gradient to the nodes they mirror.
func (s *Solver) foldGhosts() {
	for k := range s.ghosts {
		q := &s.ghosts[k]
		b := s.g[3*(s.nodes+k) : 3*(s.nodes+k)+3]
		a := s.g[3*q.node : 3*q.node+3]
		for r := range 3 {
			a[r] += q.s[r]*b[0] + q.s[3+r]*b[1] + q.s[6+r]*b[2]
		}
	}
}

// collect gathers the gradient in s.g (ghosts folded) into the unknowns' order.
func (m *unknowns) collect(s *Solver, r []float64) {
	for n := range s.nodes {
		f := m.frame[n]
		for c := range 3 {
			d := m.at[3*n+c]
			if d < 0 {
				continue
			}
			if f < 0 {
				r[d] = s.g[3*n+c]
			} else {
				q := &s.frames[f]
				r[d] = q[3*c]*s.g[3*n] + q[3*c+1]*s.g[3*n+1] + q[3*c+2]*s.g[3*n+2]
			}
		}
	}
}

// scatter turns a movement of the unknowns into movements of the nodes.
func (m *unknowns) scatter(s *Solver, r, p []float64) {
	for n := range s.nodes {
		f := m.frame[n]
		var v [3]float64
		for c := range 3 {
			d := m.at[3*n+c]
			if d < 0 {
				continue
			}
			if f < 0 {
				v[c] = r[d]
			} else {
				q := &s.frames[f]
				v[0] += q[3*c] * r[d]
				v[1] += q[3*c+1] * r[d]
				v[2] += q[3*c+2] * r[d]
			}
		}
		p[3*n], p[3*n+1], p[3*n+2] = v[0], v[1], v[2]
	}
}

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
