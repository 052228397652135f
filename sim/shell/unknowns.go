package shell

import "math"

// unknowns numbers the free components of the nodes.
type unknowns struct {
	at    []int32 // 3 per node, −1 if held
	plain []int32 // first of three unknowns in x, y, z, or −1
	frame []int16 // −1: x, y, z
	n, kd int
}

// number lays out the unknowns: of shapes that are symmetric about the mirror
// planes, or (anti) of movements that are antisymmetric about them.
func (s *Solver) number(m *unknowns, anti bool) {
	m.at = resized(m.at, 3*s.nodes)
	m.plain = resized(m.plain, s.nodes)
	m.frame = resized(m.frame, s.nodes)
	clear(m.at)
	for n := range m.frame {
		m.frame[n] = -1
	}
	s.holdMirrors(m, anti)
	for _, h := range s.sheet.Held {
		if n := s.node(h.I, h.J); h.In != [3]float64{} && m.frame[n] < 0 {
			m.frame[n] = s.frameOf(h.In)
		}
		m.hold(s.node(h.I, h.J), h.Axes)
	}
	k := int32(0)
	for q := range s.nodes {
		n := s.inOrder(q)
		m.plain[n] = -1
		if m.frame[n] < 0 && m.at[3*n] == 0 && m.at[3*n+1] == 0 && m.at[3*n+2] == 0 {
			m.plain[n] = k
		}
		for c := range 3 {
			if m.at[3*n+c] >= 0 {
				m.at[3*n+c] = k
				k++
			}
		}
	}
	m.n = int(k)
	s.measureBand(m)
}

// hold takes directions of a node out of the unknowns.
func (m *unknowns) hold(node int, a Axes) {
	for c := range 3 {
		if a&(1<<c) != 0 {
			m.at[3*node+c] = -1
		}
	}
}

// holdMirrors gives the nodes on mirror planes their frame, and holds there what
// symmetric or antisymmetric movements do not do.
func (s *Solver) holdMirrors(m *unknowns, anti bool) {
	axes := First
	if anti {
		axes = Second | Third
	}
	for e := range 4 {
		if s.edgeOf(e).Kind != Mirror {
			continue
		}
		f := s.frameOf(s.edgeOf(e).Normal)
		for k := range s.ghostAt[e] {
			n := s.edgeNode(e, k)
			m.frame[n] = f
			m.hold(n, axes)
		}
	}
}

// measureBand sets m.kd: the widest apart that any stencil's unknowns are numbered.
func (s *Solver) measureBand(m *unknowns) {
	m.kd = 0
	widen := func(nodes ...int32) { m.kd = max(m.kd, s.spanned(m, nodes)) }
	for k := range s.curves {
		n := s.curves[k].n
		widen(n[0], n[1], n[2])
	}
	for k := range s.cells {
		n := s.cells[k].n
		widen(n[0], n[1], n[2], n[3])
	}
	for k := range s.sheet.Pairs {
		p := &s.sheet.Pairs[k]
		n := [4]int32{int32(p.N[0]), int32(p.N[0]), int32(p.N[0]), int32(p.N[0])}
		for q := range n {
			if p.counts(q) {
				n[q] = int32(p.N[q])
			}
		}
		widen(n[0], n[1], n[2], n[3])
	}
	for k := range s.sheet.Spots {
		n := s.sheet.Spots[k].n
		widen(n[0], n[1], n[6], n[7])
	}
	if s.sheet.Frozen != nil {
		for k := range s.points {
			if s.points[k].live {
				n := s.points[k].n
				widen(n[0], n[1], n[2], n[3], n[4])
			}
		}
	}
	// Layers that face each other are few lines apart; those that slid farther are
	// coupled roughly (assemblePair) rather than widen the band for all.
	natural := m.kd
	s.widenNear(widen)
	m.kd = min(m.kd, natural+natural/2)
}

// spanned returns how far apart the unknowns of some nodes are numbered; a ghost
// counts as the node it mirrors.
func (s *Solver) spanned(m *unknowns, nodes []int32) int {
	lo, hi := int32(math.MaxInt32), int32(-1)
	for _, v := range nodes {
		if int(v) >= s.nodes {
			v = s.ghosts[int(v)-s.nodes].node
		}
		for c := range int32(3) {
			if d := m.at[3*v+c]; d >= 0 {
				lo, hi = min(lo, d), max(hi, d)
			}
		}
	}
	if hi < 0 {
		return 0
	}
	return int(hi - lo)
}

// collect gathers the gradient in s.g (ghosts folded) into the unknowns' order, and
// that by the levels behind them where r has room for it.
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
	copy(r[m.n:], s.levels(s.g))
}

// scatter turns a movement of the unknowns, and of the levels, into movements of the
// nodes.
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
	if len(r) > m.n {
		copy(s.levels(p), r[m.n:])
	}
}
