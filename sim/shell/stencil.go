package shell

import "math"

// ghost is a node one cell outside an edge, the image of one inside.
type ghost struct {
	node   int32
	mirror bool
	image
}

// curve is a second difference D = Σ c x along one grid direction at one node,
// with energy ½ k |D|².
type curve struct {
	n     [3]int32
	c     [3]float64
	k     float64 // cloth, µJ·mm²
	kf    float64 // frozen part, µJ·mm²
	along uint8   // 0: u, 1: v
	node  int32
}

// edge is a grid edge with energy ½ k e², e = ½(|d|²·q − 1).
type edge struct {
	a, b int32
	q, k float64 // 1/h² and K h w
}

// cell is a quad's nodes 00, 10, 01, 11 with centred differences.
type cell struct {
	n      [4]int32
	cu, cv [4]float64
	cd     [4]float64 // x_uv
	ks, t0 float64    // G A, the frozen part's too, and the skew at which the two are at rest
	kt, kf float64    // 4 Bt A of cloth and of frozen part
	a0     float64    // kf κ₀; 0 for no frozen twist
}

// point is the five-node stencil of x_u, x_v and of the frozen moment
// D = Σ (kf κ₀) x_uu + (kf κ₀) x_vv at a node.
type point struct {
	n          [5]int32 // centre, u−, u+, v−, v+; absent ones repeat the centre with coefficient 0
	ca, cb, cd [5]float64
	node       int32
	live       bool
}

// slopes returns the weights of the first difference on unequal steps, second
// order, and of the second difference.
func slopes(hl, hr float64) (first, second [3]float64) {
	first = [3]float64{-hr / (hl * (hl + hr)), (hr - hl) / (hl * hr), hl / (hr * (hl + hr))}
	second = [3]float64{2 / (hl * (hl + hr)), -2 / (hl * hr), 2 / (hr * (hl + hr))}
	return
}

// tributary returns the width of grid line k.
func tributary(c []float64, k int) float64 {
	lo, hi := max(k-1, 0), min(k+1, len(c)-1)
	return (c[hi] - c[lo]) / 2
}

// yarn returns the width of sheet that the yarn along grid line k stands for:
// its tributary width, less a twelfth of the last cell beside a free edge, which
// goes to the line next to it (Gregory's first end correction of the trapezoidal
// rule). The bare rule's error ½K h²/12·(e²)′ sits at the ends. At mirrors e is
// even, a clamp's yarn is held, but along a free edge the strain of a curved
// sheet is large and varies: a panel bent to 160 mm sagged 2.7 % too little on
// 24 × 12 cells, with the correction 1.1 % (known.Panels).
func yarn(c []float64, k int, start, end EdgeKind) float64 {
	w, n := tributary(c, k), len(c)-1
	if n < 2 {
		return w
	}
	if first := (c[1] - c[0]) / 12; start == Free {
		switch k {
		case 0:
			w -= first
		case 1:
			w += first
		}
	}
	if last := (c[n] - c[n-1]) / 12; end == Free {
		switch k {
		case n:
			w -= last
		case n - 1:
			w += last
		}
	}
	return w
}

func (s *Solver) layStencils() {
	sh := &s.sheet
	nu, nv := len(sh.U)-1, len(sh.V)-1
	s.nu, s.nv, s.nodes = nu, nv, (nu+1)*(nv+1)
	s.ghosts = s.ghosts[:0]
	for k := range s.ghostAt {
		n := nv + 1
		if k >= 2 {
			n = nu + 1
		}
		s.ghostAt[k] = resized(s.ghostAt[k], n)
		s.layGhosts(k, n)
	}
	s.layCurves()
	s.layEdges()
	s.layCells()
	s.layPoints()
}

func (s *Solver) edgeOf(k int) *Edge {
	return [...]*Edge{&s.sheet.UStart, &s.sheet.UEnd, &s.sheet.VStart, &s.sheet.VEnd}[k]
}

// layGhosts fills ghostAt[k], the virtual node numbers along edge k, −1 if free.
func (s *Solver) layGhosts(k, n int) {
	if k < 2 && s.sheet.Round != nil {
		s.layTurned(k, n)
		return
	}
	e := s.edgeOf(k)
	for m := range n {
		s.ghostAt[k][m] = -1
		if e.Kind == Free {
			continue
		}
		c, at := [2][]float64{s.sheet.U, s.sheet.V}[k/2], 1 // the line inside
		h := c[1] - c[0]
		if k%2 == 1 {
			at = len(c) - 2
			h = c[at+1] - c[at]
		}
		inside := s.node(at, m)
		if k >= 2 {
			inside = s.node(m, at)
		}
		g := ghost{node: int32(inside), mirror: e.Kind == Mirror, image: itself}
		if e.Kind == Mirror {
			g.image = e.reflection()
		} else {
			t := e.Tangent[min(m, len(e.Tangent)-1)]
			for r := range 3 {
				g.c[r] = -2 * h * t[r]
			}
		}
		s.ghostAt[k][m] = int32(s.nodes + len(s.ghosts))
		s.ghosts = append(s.ghosts, g)
	}
}

func (s *Solver) node(i, j int) int { return i*(s.nv+1) + j }

// edgeNode returns the k-th node of edge e.
func (s *Solver) edgeNode(e, k int) int {
	switch e {
	case 0:
		return s.node(0, k)
	case 1:
		return s.node(s.nu, k)
	case 2:
		return s.node(k, 0)
	}
	return s.node(k, s.nv)
}

// line returns the three virtual nodes and the steps of the stencil through
// (i, j) along u or v; ok is false where a free edge cuts it.
func (s *Solver) line(i, j int, along uint8) (n [3]int32, hl, hr float64, ok bool) {
	c, k, last, m := s.sheet.U, i, s.nu, j
	before, after := s.ghostAt[0], s.ghostAt[1]
	step := s.nv + 1
	if along == 1 {
		c, k, last, m = s.sheet.V, j, s.nv, i
		before, after = s.ghostAt[2], s.ghostAt[3]
		step = 1
	}
	o := s.node(i, j)
	n[1] = int32(o)
	if k > 0 {
		n[0], hl = int32(o-step), c[k]-c[k-1]
	} else {
		n[0], hl = before[m], s.stepBeside(along, c[1]-c[0])
	}
	if k < last {
		n[2], hr = int32(o+step), c[k+1]-c[k]
	} else {
		n[2], hr = after[m], s.stepBeside(along, c[last]-c[last-1])
	}
	return n, hl, hr, n[0] >= 0 && n[2] >= 0
}

func twistOf(u, v, t float64) float64 {
	if t == 0 {
		return math.Sqrt(u*v) / 2
	}
	return max(t, 0)
}

func (s *Solver) layCurves() {
	sh := &s.sheet
	s.curves = s.curves[:0]
	for i := range s.nu + 1 {
		for j := range s.nv + 1 {
			a := sh.widthU(i) * tributary(sh.V, j) * times(sh.GradeU.Bend, i) * times(sh.GradeV.Bend, j)
			o := s.node(i, j)
			for along := range uint8(2) {
				n, hl, hr, ok := s.line(i, j, along)
				if !ok {
					continue
				}
				_, c := slopes(hl, hr)
				q := curve{n: n, c: c, along: along, node: int32(o)}
				f := a
				if along == 0 && sh.Fold != nil {
					f *= sh.Fold[o]
				}
				q.k = [2]float64{sh.BendU, sh.BendV}[along] * f
				if z := sh.Frozen; z != nil && !math.IsNaN([2][]float64{z.U, z.V}[along][o]) {
					q.kf = [2]float64{z.BendU, z.BendV}[along] * f
				}
				s.curves = append(s.curves, q)
			}
		}
	}
}

func (s *Solver) layEdges() {
	sh := &s.sheet
	s.edges = s.edges[:0]
	for i := range s.nu + 1 {
		for j := range s.nv + 1 {
			o := s.node(i, j)
			if i < s.nu || sh.Round != nil {
				h := sh.stepAfter(i)
				k := sh.StretchU * h * yarn(sh.V, j, sh.VStart.Kind, sh.VEnd.Kind) * series(sh.GradeU.Stretch, i) * times(sh.GradeV.Stretch, j)
				s.edges = append(s.edges, edge{int32(o), s.after(i, j), 1 / (h * h), k})
			}
			if j < s.nv {
				h := sh.V[j+1] - sh.V[j]
				w := sh.widthU(i)
				if sh.Round == nil {
					w = yarn(sh.U, i, sh.UStart.Kind, sh.UEnd.Kind)
				}
				s.edges = append(s.edges, edge{int32(o), int32(o + 1), 1 / (h * h), sh.StretchV * h * w * times(sh.GradeU.Stretch, i) * series(sh.GradeV.Stretch, j)})
			}
		}
	}
	s.strain = resized(s.strain, len(s.edges))
}

func (s *Solver) layCells() {
	sh := &s.sheet
	s.cells = s.cells[:0]
	bt := twistOf(sh.BendU, sh.BendV, sh.Twist)
	s.shearConst = 0
	for i := range sh.cells() / s.nv {
		for j := range s.nv {
			hu, hv := sh.stepAfter(i), sh.V[j+1]-sh.V[j]
			o := int32(s.node(i, j))
			bend := mean(sh.GradeU.Bend, i) * mean(sh.GradeV.Bend, j)
			area := hu * hv * series(sh.GradeU.Stretch, i) * series(sh.GradeV.Stretch, j)
			a, b, d := 1/(2*hu), 1/(2*hv), 1/(hu*hv)
			q := cell{
				n:  [4]int32{o, s.after(i, j), o + 1, s.after(i, j+1)},
				cu: [4]float64{-a, a, -a, a},
				cv: [4]float64{-b, -b, b, b},
				cd: [4]float64{d, -d, -d, d},
				ks: sh.Shear * area,
				kt: 4 * bt * hu * hv * bend,
			}
			if z := sh.Frozen; z != nil {
				if k := z.UV[i*s.nv+j]; !math.IsNaN(k) {
					q.kf = 4 * twistOf(z.BendU, z.BendV, z.Twist) * hu * hv * bend
					q.a0 = q.kf * k
				}
				s.freezeSkew(&q, z.Shear*area, i*s.nv+j)
			}
			s.cells = append(s.cells, q)
		}
	}
	s.skew = resized(s.skew, len(s.cells))
}

// freezeSkew adds the frozen part, of stiffness set, to the shear of the k-th cell. Two
// springs at rest at 0 and at γ₀ are one at rest between them, and a constant.
func (s *Solver) freezeSkew(q *cell, set float64, k int) {
	if !(set > 0) || math.IsNaN(s.sheet.Frozen.Skew[k]) {
		return
	}
	own, skew := q.ks, s.sheet.Frozen.Skew[k]
	q.ks = own + set
	q.t0 = set * skew / q.ks
	s.shearConst += 0.5 * own * set / q.ks * skew * skew
}

// layPoints builds the stencils of the normal at nodes and, where something is
// frozen, of the frozen moment; frozenConst collects ½ kf κ₀².
func (s *Solver) layPoints() {
	sh := &s.sheet
	s.points = resized(s.points, s.nodes)
	for i := range s.nu + 1 {
		for j := range s.nv + 1 {
			o := s.node(i, j)
			p := point{node: int32(o)}
			for k := range p.n {
				p.n[k] = int32(o)
			}
			for along := range uint8(2) {
				n, hl, hr, ok := s.line(i, j, along)
				c := &p.ca
				if along == 1 {
					c = &p.cb
				}
				lo, hi := 1+2*along, 2+2*along
				switch {
				case ok:
					f, _ := slopes(hl, hr)
					if along == 0 && sh.Fold != nil && sh.Fold[o] < 1 {
						// across a fold the normal halves the angle of its two sides: weighted
						// as the slope of a smooth curve it would turn with the steps' ratio
						f = [3]float64{-0.5 / hl, 0.5/hl - 0.5/hr, 0.5 / hr}
					}
					p.n[lo], p.n[hi] = n[0], n[2]
					c[lo], c[0], c[hi] = f[0], c[0]+f[1], f[2]
				case n[0] < 0: // free edge before: one-sided
					p.n[hi] = n[2]
					c[0], c[hi] = -1/hr, 1/hr
				default:
					p.n[lo] = n[0]
					c[lo], c[0] = -1/hl, 1/hl
				}
			}
			s.points[o] = p
		}
	}
	s.frozenConst = 0
	z := sh.Frozen
	if z == nil {
		return
	}
	for k := range s.curves {
		q := &s.curves[k]
		if q.kf == 0 {
			continue
		}
		kappa := z.V[q.node]
		lo := 3
		if q.along == 0 {
			kappa, lo = z.U[q.node], 1
		}
		p := &s.points[q.node]
		m := q.kf * kappa
		p.cd[lo] += m * q.c[0]
		p.cd[0] += m * q.c[1]
		p.cd[lo+1] += m * q.c[2]
		p.live = p.live || m != 0
		s.frozenConst += 0.5 * m * kappa
	}
	for k := range s.cells {
		q := &s.cells[k]
		if q.kf > 0 {
			s.frozenConst += 0.5 * q.a0 * z.UV[k]
		}
	}
}
