package shell

// add puts the block M = ∂²E/∂x_a∂x_c of virtual nodes a and c, rows a, into
// the band; for a ≠ c the transposed block is understood and not to be added.
func (m *unknowns) add(s *Solver, b *Band, a, c int32, h *[9]float64) {
	if int(a) < s.nodes && int(c) < s.nodes {
		pa, pc := m.plain[a], m.plain[c]
		if pa >= 0 && pc >= 0 {
			if pa == pc {
				for r := range 3 {
					q := b.index(int(pa)+r, int(pa))
					row := b.a[q : q+9 : q+9]
					for k := range r + 1 {
						row[4*k] += h[3*r+k]
					}
				}
				return
			}
			if pa < pc {
				t := transposed(*h)
				pa, pc, h = pc, pa, &t
			}
			for r := range 3 {
				q := b.index(int(pa)+r, int(pc))
				row := b.a[q : q+9 : q+9]
				row[0] += h[3*r]
				row[4] += h[3*r+1]
				row[8] += h[3*r+2]
			}
			return
		}
	}
	m.addSlow(s, b, a, c, *h)
}

// addSlow is add for ghosts, framed nodes and partly held nodes.
func (m *unknowns) addSlow(s *Solver, b *Band, a, c int32, h [9]float64) {
	same := a == c
	if int(a) >= s.nodes {
		g := &s.ghosts[int(a)-s.nodes]
		h = mul(transposed(g.s), h)
		a = g.node
	}
	if int(c) >= s.nodes {
		g := &s.ghosts[int(c)-s.nodes]
		h = mul(h, g.s)
		c = g.node
	}
	if f := m.frame[a]; f >= 0 {
		h = mul(s.frames[f], h)
	}
	if f := m.frame[c]; f >= 0 {
		h = mul(h, transposed(s.frames[f]))
	}
	if a == c && !same {
		t := transposed(h)
		for k := range h {
			h[k] += t[k]
		}
	}
	for r := range 3 {
		for k := range 3 {
			i, j := m.at[3*int(a)+r], m.at[3*int(c)+k]
			if i < 0 || j < 0 {
				continue
			}
			if a == c {
				if j <= i {
					b.Add(int(i), int(j), h[3*r+k])
				}
			} else {
				b.Add(int(max(i, j)), int(min(i, j)), h[3*r+k])
			}
		}
	}
}

func transposed(a [9]float64) [9]float64 {
	return [9]float64{a[0], a[3], a[6], a[1], a[4], a[7], a[2], a[5], a[8]}
}

func mul(a, b [9]float64) (r [9]float64) {
	for i := range 3 {
		for j := range 3 {
			r[3*i+j] = a[3*i]*b[j] + a[3*i+1]*b[3+j] + a[3*i+2]*b[6+j]
		}
	}
	return
}

// layBase assembles the constant part of the Hessian: bending and ½|D|² of the
// frozen part.
func (s *Solver) layBase(m *unknowns, b *Band) {
	b.Resize(m.n, m.kd)
	put := func(a, c int32, v float64) {
		m.add(s, b, a, c, &[9]float64{v, 0, 0, 0, v, 0, 0, 0, v})
	}
	for k := range s.curves {
		q := &s.curves[k]
		for i := range 3 {
			for j := range i + 1 {
				put(q.n[i], q.n[j], (q.k+q.kf)*q.c[i]*q.c[j])
			}
		}
	}
	for k := range s.cells {
		q := &s.cells[k]
		for i := range 4 {
			for j := range i + 1 {
				put(q.n[i], q.n[j], (q.kt+q.kf)*q.cd[i]*q.cd[j])
			}
		}
	}
}

// assemble puts the Hessian at s.x into b: base plus stretch with the lagged
// strains, skew, frozen moments and contact. theta = 0 is the full Hessian, 1
// drops what may be indefinite: compression's geometric part, the geometric
// part of shear, the frozen moments' and the obstacles' curvature.
func (s *Solver) assemble(m *unknowns, base, b *Band, theta float64, anti bool) {
	b.CopyFrom(base)
	x := s.x
	keep := 1 - theta
	var h [9]float64
	for k := range s.edges {
		q := &s.edges[k]
		d0, d1, d2 := x[3*q.b]-x[3*q.a], x[3*q.b+1]-x[3*q.a+1], x[3*q.b+2]-x[3*q.a+2]
		l := s.strain[k]
		if l < 0 {
			l *= keep
		}
		f := q.k * q.q * q.q
		g := q.k * q.q * l
		h = [9]float64{f*d0*d0 + g, f * d0 * d1, f * d0 * d2, f * d1 * d0, f*d1*d1 + g, f * d1 * d2, f * d2 * d0, f * d2 * d1, f*d2*d2 + g}
		m.add(s, b, q.a, q.a, &h)
		m.add(s, b, q.b, q.b, &h)
		for r := range h {
			h[r] = -h[r]
		}
		m.add(s, b, q.b, q.a, &h)
	}
	var w blocks
	var ra, rb, rd [9]float64
	for k := range s.cells {
		q := &s.cells[k]
		xu, xv := s.gather(q.n[:], q.cu[:]), s.gather(q.n[:], q.cv[:])
		frozen := keep > 0 && q.a0 != 0
		if frozen {
			momentHessian(xu, xv, s.gather(q.n[:], q.cd[:]), -keep*q.a0, &w)
		}
		geo := keep * q.ks * s.skew[k]
		for i := range 4 {
			gi := [3]float64{q.cu[i]*xv[0] + q.cv[i]*xu[0], q.cu[i]*xv[1] + q.cv[i]*xu[1], q.cu[i]*xv[2] + q.cv[i]*xu[2]}
			for r := range gi {
				gi[r] *= q.ks
			}
			if frozen {
				w.row(q.cu[i], q.cv[i], q.cd[i], &ra, &rb, &rd)
			}
			for j := range i + 1 {
				g := geo * (q.cu[i]*q.cv[j] + q.cv[i]*q.cu[j])
				cu, cv, cd := q.cu[j], q.cv[j], q.cd[j]
				g0, g1, g2 := cu*xv[0]+cv*xu[0], cu*xv[1]+cv*xu[1], cu*xv[2]+cv*xu[2]
				h = [9]float64{gi[0]*g0 + g, gi[0] * g1, gi[0] * g2, gi[1] * g0, gi[1]*g1 + g, gi[1] * g2, gi[2] * g0, gi[2] * g1, gi[2]*g2 + g}
				if frozen {
					for k := range h {
						h[k] += cu*ra[k] + cv*rb[k] + cd*rd[k]
					}
				}
				m.add(s, b, q.n[i], q.n[j], &h)
			}
		}
	}
	if s.sheet.Frozen != nil && keep > 0 {
		s.assemblePoints(m, b, keep)
	}
	s.assembleContact(m, b, keep, anti)
	s.assemblePresses(m, b, keep, anti)
	s.assemblePairs(m, b)
	s.assembleNear(m, b)
	if !anti {
		s.assembleSticks(m, b, keep)
	}
}

func (s *Solver) assemblePoints(m *unknowns, b *Band, keep float64) {
	var w blocks
	var h, ra, rb, rd [9]float64
	for k := range s.points {
		p := &s.points[k]
		if !p.live {
			continue
		}
		momentHessian(s.gather(p.n[:], p.ca[:]), s.gather(p.n[:], p.cb[:]), s.gather(p.n[:], p.cd[:]), -keep, &w)
		for i := range 5 {
			ai, bi, di := p.ca[i], p.cb[i], p.cd[i]
			if ai == 0 && bi == 0 && di == 0 {
				continue
			}
			w.row(ai, bi, di, &ra, &rb, &rd)
			for j := range i + 1 {
				aj, bj, dj := p.ca[j], p.cb[j], p.cd[j]
				if aj == 0 && bj == 0 && dj == 0 {
					continue
				}
				for k := range h {
					h[k] = aj*ra[k] + bj*rb[k] + dj*rd[k]
				}
				m.add(s, b, p.n[i], p.n[j], &h)
			}
		}
	}
}

func (s *Solver) assembleContact(m *unknowns, b *Band, keep float64, anti bool) {
	var h [9]float64
	for k := range s.touches {
		t := &s.touches[k]
		c := &s.sheet.Contacts[t.contact]
		if anti && c.Image {
			continue
		}
		y := s.x[3*t.node : 3*t.node+3 : 3*t.node+3]
		p := [3]float64{y[0], y[1], y[2]}
		gap := c.Gap(p) + t.back
		if !c.Tie && gap >= c.Skin {
			continue
		}
		c.stiffness(p, gap, t.weight, keep, &h)
		m.add(s, b, t.node, t.node, &h)
	}
}

// stiffness sets h to weight times the second derivatives of φ at p, where the
// gap is gap; of the part that the surface's curvature makes, keep.
func (c *Contact) stiffness(p [3]float64, gap, weight, keep float64, h *[9]float64) {
	_, d1, d2 := c.force(gap)
	n, rx, ry, r := c.gradient(p)
	d2 *= weight
	for i := range 3 {
		for j := range 3 {
			h[3*i+j] = d2 * n[i] * n[j]
		}
	}
	if c.Radial != 0 && r > 0 {
		g := keep * weight * d1 * c.Radial / r
		h[0] += g * ry * ry
		h[1] -= g * rx * ry
		h[3] -= g * rx * ry
		h[4] += g * rx * rx
	}
}
