package shell

// spread copies a shape into the extended array, sets the ghosts and lowers the levels
// to 0.
func (s *Solver) spread(shape []float64) {
	copy(s.x, shape[:3*s.nodes])
	s.reflect(s.x, true)
	clear(s.levels(s.x))
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
// the gradient with respect to every virtual node in s.g. Its parts add to e one
// after the other: the order of the sums is part of the result's last bits.
func (s *Solver) evaluate(grad bool) (e Energies) {
	if grad {
		clear(s.g)
	}
	s.evaluateCurves(&e, grad)
	s.evaluateEdges(&e, grad)
	s.evaluateCells(&e, grad)
	if s.sheet.Frozen != nil {
		s.evaluateMoments(&e, grad)
	}
	s.evaluateWeight(&e, grad)
	s.evaluateTouches(&e, grad)
	e.Contact += s.pressed(grad) + s.evaluatePairs(grad) + s.evaluateNear(grad) + s.evaluateSticks(grad)
	return e
}

// evaluateCurves adds bending along the grid lines, and ½|D|² of the frozen part.
func (s *Solver) evaluateCurves(e *Energies, grad bool) {
	g, bend, frozen := s.g, e.Bend, e.Frozen
	for k := range s.curves {
		q := &s.curves[k]
		d := s.gather(q.n[:], q.c[:])
		dd := 0.5 * dot3(d, d)
		bend += q.k * dd
		frozen += q.kf * dd
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
	e.Bend, e.Frozen = bend, frozen
}

// evaluateEdges adds stretch.
func (s *Solver) evaluateEdges(e *Energies, grad bool) {
	x, g, stretch := s.x, s.g, e.Stretch
	for k := range s.edges {
		q := &s.edges[k]
		a, b := x[3*q.a:3*q.a+3:3*q.a+3], x[3*q.b:3*q.b+3:3*q.b+3]
		d0, d1, d2 := b[0]-a[0], b[1]-a[1], b[2]-a[2]
		t := 0.5 * ((d0*d0+d1*d1+d2*d2)*q.q - 1)
		stretch += 0.5 * q.k * t * t
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
	e.Stretch = stretch
}

// evaluateCells adds shear and twist, and the twist of the frozen part.
func (s *Solver) evaluateCells(e *Energies, grad bool) {
	g := s.g
	e.Shear += s.shearConst
	for k := range s.cells {
		q := &s.cells[k]
		a, b, d := s.gather(q.n[:], q.cu[:]), s.gather(q.n[:], q.cv[:]), s.gather(q.n[:], q.cd[:])
		t := dot3(a, b) - q.t0
		dd := 0.5 * dot3(d, d)
		e.Shear += 0.5 * q.ks * t * t
		e.Bend += q.kt * dd
		e.Frozen += q.kf * dd
		f, w := q.ks*t, q.kt+q.kf
		var m [3][3]float64
		if q.a0 != 0 {
			e.Frozen -= q.a0 * moment(a, b, d, grad, &m)
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
}

// evaluateMoments adds −κ₀ D·n̂ of the frozen part at nodes, and its constant.
func (s *Solver) evaluateMoments(e *Energies, grad bool) {
	g := s.g
	e.Frozen += s.frozenConst
	for k := range s.points {
		p := &s.points[k]
		if !p.live {
			continue
		}
		a, b, d := s.gather(p.n[:], p.ca[:]), s.gather(p.n[:], p.cb[:]), s.gather(p.n[:], p.cd[:])
		var m [3][3]float64
		if e.Frozen -= moment(a, b, d, grad, &m); !grad {
			continue
		}
		for c, n := range p.n {
			ca, cb, cd := p.ca[c], p.cb[c], p.cd[c]
			y := g[3*n : 3*n+3 : 3*n+3]
			y[0] -= ca*m[0][0] + cb*m[1][0] + cd*m[2][0]
			y[1] -= ca*m[0][1] + cb*m[1][1] + cd*m[2][1]
			y[2] -= ca*m[0][2] + cb*m[1][2] + cd*m[2][2]
		}
	}
}

// evaluateWeight adds gravity.
func (s *Solver) evaluateWeight(e *Energies, grad bool) {
	x, g, gr := s.x, s.g, s.sheet.Gravity
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
}

// evaluateTouches adds contact at nodes.
func (s *Solver) evaluateTouches(e *Energies, grad bool) {
	x, g := s.x, s.g
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
