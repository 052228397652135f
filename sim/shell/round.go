package shell

import (
	"errors"
	"fmt"
	"math"
)

// Round closes a sheet along u: Step mm of cloth after the last grid line comes
// the first one again, turned and shifted. One set of a ruff whose sets are all
// alike is such a sheet, turned about the neck's axis by the room of a set; so is
// a tube (a turn by nothing).
type Round struct {
	// Step is the cloth between the last line and the turned first one, mm; > 0.
	Step float64
	// Turn is a rotation by rows, Shift in mm: the image of a point x is
	// Turn x + Shift.
	Turn  [9]float64
	Shift [3]float64
	// Planes are two unit vectors whose frames (as of mirror edges) Hold may name
	// by OfUStart and OfUEnd.
	Planes [2][3]float64
}

// Pair keeps a node clear of up to three others: of one, or of the place that
// three shares of a triangle's corners make. The gap (mm)
//
//	gap = Σ D·x(N) − Clear
//
// is pressed on like that of a Contact, energy Weight·φ(gap + Back). Nodes whose
// D is zero do not count.
type Pair struct {
	N            [4]int // node indices, those that count all different
	D            [4][3]float64
	Clear        float64
	Stiffness    float64 // k of doc.go, mN/mm, > 0
	Skin         float64 // w of doc.go, mm, > 0
	Weight, Back float64 // as of a Contact; Weight ≥ 0
}

// Gap returns the pair's gap in mm in a shape, before Back.
func (p *Pair) Gap(x []float64) float64 {
	g := -p.Clear
	for k, n := range p.N {
		g += p.D[k][0]*x[3*n] + p.D[k][1]*x[3*n+1] + p.D[k][2]*x[3*n+2]
	}
	return g
}

func (p *Pair) valid(nodes int) bool {
	sum := p.Clear + p.Back
	for i, n := range p.N {
		if n < 0 || n >= nodes {
			return false
		}
		for j := range i {
			if p.N[j] == n && p.counts(i) && p.counts(j) {
				return false
			}
		}
		sum += norm(p.D[i])
	}
	return finite(sum) && presses(p.Stiffness, p.Skin, p.Weight)
}

// presses reports whether a contact's numbers make one.
func presses(stiffness, skin, weight float64) bool {
	return stiffness > 0 && skin > 0 && weight >= 0 && finite(stiffness+skin+weight)
}

func (p *Pair) counts(k int) bool { return p.D[k] != [3]float64{} }

func (p *Pair) force(x []float64) (phi, d1, d2 float64) {
	g := p.Gap(x) + p.Back
	if g >= p.Skin {
		return 0, 0, 0
	}
	c := Contact{Stiffness: p.Stiffness, Skin: p.Skin}
	phi, d1, d2 = c.force(g)
	return p.Weight * phi, p.Weight * d1, p.Weight * d2
}

// evaluatePairs returns the energy of the pairs and, when grad is set, adds
// their gradient to s.g.
func (s *Solver) evaluatePairs(grad bool) (e float64) {
	for k := range s.sheet.Pairs {
		p := &s.sheet.Pairs[k]
		phi, d1, _ := p.force(s.x)
		e += phi
		if grad && d1 != 0 {
			s.pressPair(p, d1)
		}
	}
	return e
}

// pressPair adds the gradient of a pair whose φ′ is d1 to s.g.
func (s *Solver) pressPair(p *Pair, d1 float64) {
	for m, n := range p.N {
		for r := range 3 {
			s.g[3*n+r] += d1 * p.D[m][r]
		}
	}
}

func (s *Solver) assemblePairs(m *unknowns, b *Band) {
	for k := range s.sheet.Pairs {
		s.assemblePair(m, b, &s.sheet.Pairs[k])
	}
}

func (s *Solver) assemblePair(m *unknowns, b *Band, p *Pair) {
	var h [9]float64
	_, _, d2 := p.force(s.x)
	if d2 == 0 {
		return
	}
	// wider than the band: the blocks on the diagonal, enlarged so that they bound
	// the whole (Cauchy and Schwarz)
	rough, lo, hi, count := false, int32(math.MaxInt32), int32(-1), 0.0
	for i, n := range p.N {
		if !p.counts(i) {
			continue
		}
		count++
		for c := range 3 {
			if d := m.at[3*n+c]; d >= 0 {
				lo, hi = min(lo, d), max(hi, d)
			}
		}
	}
	if int(hi-lo) > m.kd {
		rough = true
		d2 *= count
	}
	for i := range p.N {
		for j := range i + 1 {
			if !p.counts(i) || !p.counts(j) || rough && i != j {
				continue
			}
			for r := range 9 {
				h[r] = d2 * p.D[i][r/3] * p.D[j][r%3]
			}
			m.add(s, b, int32(p.N[i]), int32(p.N[j]), &h)
		}
	}
}

func (s *Sheet) validateRound() error {
	if err := s.validateNear(); err != nil {
		return err
	}
	for k := range s.Pairs {
		if p := &s.Pairs[k]; !p.valid(s.Nodes()) {
			return fmt.Errorf("shell: Pairs[%d] = %+v; N must be different nodes of %d, the rest finite, Stiffness and Skin > 0, Weight ≥ 0", k, *p, s.Nodes())
		}
	}
	r := s.Round
	if r == nil {
		return nil
	}
	ok := r.Step > 0 && finite(r.Step+norm(r.Shift)) && len(s.U) > 2
	for k, v := range mul(transposed(r.Turn), r.Turn) {
		if k%4 == 0 {
			v--
		}
		ok = ok && math.Abs(v) < 1e-9
	}
	for _, n := range r.Planes {
		ok = ok && math.Abs(norm(n)-1) < 1e-9
	}
	if !ok || s.UStart.Kind != Free || s.UEnd.Kind != Free || s.VStart.Kind == Mirror || s.VEnd.Kind == Mirror {
		return fmt.Errorf("shell: Round = %+v; Step must be > 0, Turn a rotation, Planes of length 1, U at least 3 lines, the edges along u free and no other a mirror", *r)
	}
	return nil
}

// length is the cloth's length along u, closing step included.
func (s *Sheet) length() float64 {
	l := s.U[len(s.U)-1] - s.U[0]
	if s.Round != nil {
		l += s.Round.Step
	}
	return l
}

// cells is the number of quads.
func (s *Sheet) cells() int {
	n := len(s.U) - 1
	if s.Round != nil {
		n++
	}
	return n * (len(s.V) - 1)
}

// stepAfter is the step from grid line i to the next.
func (s *Sheet) stepAfter(i int) float64 {
	if i+1 < len(s.U) {
		return s.U[i+1] - s.U[i]
	}
	return s.Round.Step
}

// widthU is the tributary width of grid line i.
func (s *Sheet) widthU(i int) float64 {
	if s.Round == nil {
		return tributary(s.U, i)
	}
	before := s.Round.Step
	if i > 0 {
		before = s.U[i] - s.U[i-1]
	}
	return (before + s.stepAfter(i)) / 2
}

// layTurned fills ghostAt[k] of a round sheet: before the first line the last
// one turned back, after the last line the first one turned.
func (s *Solver) layTurned(k, n int) {
	r := s.sheet.Round
	for m := range n {
		g := ghost{s: r.Turn, c: r.Shift}
		if k == 0 {
			g = s.turnedBack()
		}
		g.node = int32(s.node((1-k)*s.nu, m))
		s.ghostAt[k][m] = int32(s.nodes + len(s.ghosts))
		s.ghosts = append(s.ghosts, g)
	}
}

// stepBeside is the step to a ghost: the closing one of a round sheet, else the
// one inside the edge.
func (s *Solver) stepBeside(along uint8, inside float64) float64 {
	if along == 0 && s.sheet.Round != nil {
		return s.sheet.Round.Step
	}
	return inside
}

// after returns the virtual node that follows (i, j) along u.
func (s *Solver) after(i, j int) int32 {
	if i < s.nu {
		return int32(s.node(i+1, j))
	}
	return s.ghostAt[1][j]
}

// inOrder returns the node that is numbered q-th. The lines of a round sheet are
// folded together, 0, nu, 1, nu − 1, …: neighbours on the ring are then two lines
// apart and the half-bandwidth only doubles.
func (s *Solver) inOrder(q int) int {
	if s.sheet.Round == nil {
		return q
	}
	i, j := q/(s.nv+1), q%(s.nv+1)
	if i%2 == 0 {
		return s.node(i/2, j)
	}
	return s.node(s.nu-i/2, j)
}

// Unfold returns the whole of which a sheet between two mirror planes, UStart and
// UEnd, is half: the sheet and its image in UEnd's plane, closed round by the
// turn that one mirror after the other makes. Every such whole repeated without
// end is the same ring that the mirrors make, but free to leave their symmetry
// for anything that repeats.
//
// Contact with a mirror plane becomes contact of each node with its own image, in
// the direction of the plane's normal and at half their distance (Pair): while
// the whole is symmetric that is the same, energy for energy. While all lean
// alike it is what keeps neighbours apart as long as images stay side by side;
// where one slides along the other by more than their loops are round, it is
// not. Nodes on the mirrors' own planes have no such contact: they are their own
// images.
//
// The energies of the whole are twice the half's to rounding, and the shape of
// rest is the same (TestUnfolded).
func (s *Sheet) Unfold() (*Sheet, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	if s.UStart.Kind != Mirror || s.UEnd.Kind != Mirror || s.VStart.Kind == Clamped || s.VEnd.Kind == Clamped {
		return nil, errors.New("shell: only a sheet between two mirror planes along u, free along v, unfolds")
	}
	for k := range s.Contacts {
		if s.Contacts[k].Between {
			return nil, fmt.Errorf("shell: Contacts[%d] acts between nodes; only contact at nodes unfolds", k)
		}
	}
	nu, nv := len(s.U)-1, len(s.V)-1
	w := *s
	w.UStart, w.UEnd = Edge{}, Edge{}
	first, last := s.U[0], s.U[nu]
	w.U = make([]float64, 2*nu)
	for i := range w.U {
		if w.U[i] = s.U[min(i, nu)]; i > nu {
			w.U[i] = 2*last - s.U[2*nu-i]
		}
	}
	m0, c0 := reflection(&s.UStart)
	m1, c1 := reflection(&s.UEnd)
	// x → M1 x + c1 first undoes nothing of the half's own place: the image of a
	// point in UStart's plane, then in UEnd's, is one whole further on
	r := &Round{Step: s.U[1] - first, Turn: mul(m1, m0), Planes: [2][3]float64{s.UStart.Normal, s.UEnd.Normal}}
	r.Shift = apply(m1, c0)
	for k := range 3 {
		r.Shift[k] += c1[k]
	}
	w.Round = r
	// half gives the node of the half that (i, j) of the whole is, or is the image of.
	half := func(i, j int) int { return s.Node(min(i, 2*nu-i), j) }
	nodes := func(of []float64, double bool) []float64 {
		if of == nil {
			return nil
		}
		to := make([]float64, w.Nodes())
		for i := range w.U {
			for j := range w.V {
				v := of[half(i, j)]
				if double && (i == 0 || i == nu) {
					v *= 2
				}
				to[w.Node(i, j)] = v
			}
		}
		return to
	}
	w.Held = nil
	for _, h := range s.Held {
		w.Held = append(w.Held, h)
		if h.I > 0 && h.I < nu {
			if h.In == Own && h.Axes != All {
				return nil, fmt.Errorf("shell: Held node (%d, %d) keeps some of x, y, z, which its image cannot name", h.I, h.J)
			}
			h.I = 2*nu - h.I
			w.Held = append(w.Held, h)
		}
	}
	for k := range w.Held {
		if h := &w.Held[k]; h.In == Own && h.Axes != All { // on a fold line: its own frame is the mirror's
			h.In = OfUStart
			if h.I == nu {
				h.In = OfUEnd
			}
		}
	}
	w.Fold = nodes(s.Fold, false)
	if z := s.Frozen; z != nil {
		q := *z
		q.U, q.V, q.UV = nodes(z.U, false), nodes(z.V, false), make([]float64, 2*nu*nv)
		for i := range 2 * nu {
			for j := range nv {
				if i < nu {
					q.UV[i*nv+j] = z.UV[i*nv+j]
				} else {
					q.UV[i*nv+j] = -z.UV[(2*nu-1-i)*nv+j]
				}
			}
		}
		w.Frozen = &q
	}
	fast := make([]bool, s.Nodes()) // held on every axis: no contact
	for _, h := range s.Held {
		fast[s.Node(h.I, h.J)] = fast[s.Node(h.I, h.J)] || h.Axes == All
	}
	w.Contacts = nil
	for k := range s.Contacts {
		c := s.Contacts[k]
		edge, sign := s.mirrorOf(&c)
		if edge == nil {
			if c.Weight == nil {
				c.Weight = make([]float64, s.Nodes())
				for n := range c.Weight {
					c.Weight[n] = 1
				}
			}
			c.Weight, c.Back = nodes(c.Weight, true), nodes(c.Back, false)
			w.Contacts = append(w.Contacts, c)
			continue
		}
		for i := 1; i < nu; i++ {
			for j := range s.V {
				n := s.Node(i, j)
				a := w.Node(i, j)
				p := Pair{N: [4]int{a, w.Node(2*nu-i, j), a, a}, Stiffness: c.Stiffness, Skin: c.Skin, Weight: 2, Clear: c.Clear - sign*edge.Offset}
				if c.Weight != nil {
					p.Weight *= c.Weight[n]
				}
				if c.Back != nil {
					p.Back = c.Back[n]
				}
				if p.Weight == 0 || fast[n] {
					continue
				}
				d := c.Normal
				if edge == &s.UStart { // the image there is the other node, turned back
					d = apply(r.Turn, c.Normal)
					p.Clear -= dot3(d, r.Shift) / 2
				}
				for q := range 3 {
					p.D[0][q], p.D[1][q] = c.Normal[q]/2, -d[q]/2
				}
				w.Pairs = append(w.Pairs, p)
			}
		}
	}
	return &w, nil
}

// mirrorOf returns the mirror edge whose plane a contact is parallel to, and
// whether its normal is the edge's (1) or against it (−1); nil for none.
func (s *Sheet) mirrorOf(c *Contact) (*Edge, float64) {
	if c.Radial != 0 || c.Tie {
		return nil, 0
	}
	for _, e := range []*Edge{&s.UStart, &s.UEnd} {
		if d := dot3(e.Normal, c.Normal); math.Abs(d) > 1-1e-9 {
			return e, math.Copysign(1, d)
		}
	}
	return nil, 0
}

// UnfoldShape returns the shape of the whole that Unfold makes, from the half's.
func (s *Sheet) UnfoldShape(shape []float64) []float64 {
	nu, nv := len(s.U)-1, len(s.V)-1
	m, c := reflection(&s.UEnd)
	x := make([]float64, 3*2*nu*(nv+1))
	copy(x, shape)
	for i := nu + 1; i < 2*nu; i++ {
		for j := range nv + 1 {
			p := apply(m, [3]float64(shape[3*s.Node(2*nu-i, j):]))
			for r := range 3 {
				x[3*s.Node(i, j)+r] = p[r] + c[r]
			}
		}
	}
	return x
}

// reflection is the map x → M x + c of a mirror edge.
func reflection(e *Edge) (m [9]float64, c [3]float64) {
	m = [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}
	for r := range 3 {
		for k := range 3 {
			m[3*r+k] -= 2 * e.Normal[r] * e.Normal[k]
		}
		c[r] = 2 * e.Offset * e.Normal[r]
	}
	return
}

func apply(m [9]float64, v [3]float64) [3]float64 {
	return [3]float64{m[0]*v[0] + m[1]*v[1] + m[2]*v[2], m[3]*v[0] + m[4]*v[1] + m[5]*v[2], m[6]*v[0] + m[7]*v[1] + m[8]*v[2]}
}
