package shell

import (
	"fmt"
	"math"
)

// image is a map x → s x + c that carries a sheet onto its neighbour: the
// reflection in a mirror edge, or the turn that closes a round sheet. The stencils go
// on over an edge by ghosts, and contact is that of a node with a place of an image
// (Pair, Near).
type image struct {
	s [9]float64
	c [3]float64
}

// itself is the image that is the sheet.
var itself = image{s: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}}

// of returns the image of a point.
func (g *image) of(x [3]float64) [3]float64 {
	p := apply(g.s, x)
	return [3]float64{p[0] + g.c[0], p[1] + g.c[1], p[2] + g.c[2]}
}

// inverse returns the map back; s is orthogonal.
func (g *image) inverse() (b image) {
	b.s = transposed(g.s)
	b.c = apply(b.s, g.c)
	for k := range b.c {
		b.c[k] = -b.c[k]
	}
	return
}

// reflection is the map of a mirror edge.
func (e *Edge) reflection() image {
	g := itself
	for r := range 3 {
		for k := range 3 {
			g.s[3*r+k] -= 2 * e.Normal[r] * e.Normal[k]
		}
		g.c[r] = 2 * e.Offset * e.Normal[r]
	}
	return g
}

// beyond returns the map onto the neighbour beyond UStart (0) or UEnd (1); false
// if the sheet has none there.
func (s *Sheet) beyond(end int) (g image, ok bool) {
	e := [2]*Edge{&s.UStart, &s.UEnd}[end]
	switch {
	case s.Round != nil:
		if g = (image{s: s.Round.Turn, c: s.Round.Shift}); end == 0 {
			g = g.inverse()
		}
	case e.Kind == Mirror:
		g = e.reflection()
	default:
		return itself, false
	}
	return g, true
}

// Round closes a sheet along u: Step mm of cloth after the last grid line comes
// the first one again, turned and shifted.
type Round struct {
	// Step is the cloth between the last line and the turned first one, mm; > 0.
	Step float64
	// Turn is a rotation by rows, Shift in mm: the image of a point x is
	// Turn x + Shift.
	Turn  [9]float64
	Shift [3]float64
}

func (s *Sheet) validateRound() error {
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
	if !ok || s.UStart.Kind != Free || s.UEnd.Kind != Free || s.VStart.Kind == Mirror || s.VEnd.Kind == Mirror {
		return fmt.Errorf("shell: Round = %+v; Step must be > 0, Turn a rotation, U at least 3 lines, the edges along u free and no other a mirror", *r)
	}
	return nil
}

// Corner numbers node (i, j) for Pair and Near, i counted on past the ends of u
// into the images there, at most as many lines as the sheet has: a node's own
// index, plus Nodes() in the image beyond UStart, plus 2·Nodes() in that beyond
// UEnd. ok is false beyond a free edge.
func (s *Sheet) Corner(i, j int) (corner int, ok bool) {
	n := len(s.U)
	if i >= 0 && i < n {
		return s.Node(i, j), true
	}
	end := 0
	if i >= n {
		end = 1
	}
	if _, ok := s.beyond(end); !ok {
		return 0, false
	}
	if s.Round != nil {
		i = (i + n) % n
	} else if i = -i; end == 1 {
		i += 2 * (n - 1)
	}
	return (end+1)*s.Nodes() + s.Node(i, j), true
}

// place returns where a corner is in a shape, mm.
func (s *Sheet) place(x []float64, corner int) [3]float64 {
	n := s.Nodes()
	p := [3]float64(x[3*(corner%n):])
	if end := corner/n - 1; end >= 0 {
		g, _ := s.beyond(end)
		p = g.of(p)
	}
	return p
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
	g, _ := s.sheet.beyond(k)
	for m := range n {
		s.ghostAt[k][m] = int32(s.nodes + len(s.ghosts))
		s.ghosts = append(s.ghosts, ghost{node: int32(s.node((1-k)*s.nu, m)), image: g})
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

func apply(m [9]float64, v [3]float64) [3]float64 {
	return [3]float64{m[0]*v[0] + m[1]*v[1] + m[2]*v[2], m[3]*v[0] + m[4]*v[1] + m[5]*v[2], m[6]*v[0] + m[7]*v[1] + m[8]*v[2]}
}
