package shell

import (
	"fmt"
	"math"
)

// Near keeps a node clear of a patch of the sheet's own triangles, or of their
// images. With d the distance to the nearest place of the patch
//
//	gap = d/2 − Clear
//
// is pressed on like that of a Contact: each of two layers presses as on a plane midway
// between them. The distance has no sign, so a node must not be let through (see
// Crossings). Which place is nearest is found anew at every evaluation; the Hessian
// leaves out how it moves.
type Near struct {
	Node int
	// Patch lists triangles by their corners (Sheet.Corner).
	Patch        [][3]int32
	Clear        float64 // half the thickness, mm, ≥ 0
	Stiffness    float64 // k of doc.go, mN/mm, > 0
	Skin         float64 // w of doc.go, mm, > 0
	Weight, Back float64 // as of a Contact; Weight ≥ 0
}

// layNear prepares the images: the sheet itself, its neighbours before and after.
func (s *Solver) layNear() {
	s.images = s.images[:0]
	if len(s.sheet.Near) == 0 {
		return
	}
	before, _ := s.sheet.beyond(0)
	after, _ := s.sheet.beyond(1)
	s.images = append(s.images, itself, before, after)
}

// placeCorners puts every node and its images where they are at s.x.
func (s *Solver) placeCorners() {
	s.corners = resized(s.corners, len(s.images)*s.nodes)
	for image := range s.images {
		g := &s.images[image]
		for n := range s.nodes {
			s.corners[image*s.nodes+n] = g.of([3]float64(s.x[3*n:]))
		}
	}
}

// clearOf reports that along one axis a triangle lies at least far from p.
func clearOf(p, a, b, c *[3]float64, far float64) bool {
	for r := range 3 {
		lo, hi := p[r]-far, p[r]+far
		if a[r] >= hi && b[r] >= hi && c[r] >= hi || a[r] <= lo && b[r] <= lo && c[r] <= lo {
			return true
		}
	}
	return false
}

// link writes the pair that stands for a Near at s.x, where the corners are, to
// first order; false if nothing is within the skin.
func (s *Solver) link(q *Near, p *Pair) bool {
	at := [3]float64(s.x[3*q.Node:])
	best := 2 * (q.Clear + q.Skin - q.Back)
	var share [3]float64
	tri := -1
	for k, t := range q.Patch {
		a, b, c := &s.corners[t[0]], &s.corners[t[1]], &s.corners[t[2]]
		if clearOf(&at, a, b, c, best) {
			continue
		}
		if b, d := nearest(at, *a, *b, *c); d < best {
			best, share, tri = d, b, k
		}
	}
	if tri < 0 || best < 1e-12 {
		return false
	}
	t := q.Patch[tri]
	dir := at
	for k, c := range t {
		z := &s.corners[c]
		for r := range 3 {
			dir[r] -= share[k] * z[r]
		}
	}
	for r := range 3 {
		dir[r] /= best
	}
	*p = facing(q.Node, dir, q.Clear)
	p.Stiffness, p.Skin, p.Weight, p.Back = q.Stiffness, q.Skin, q.Weight, q.Back
	for k, c := range t {
		if share[k] != 0 {
			p.face(int(c)%s.nodes, share[k], &s.images[int(c)/s.nodes], dir)
		}
	}
	return true
}

func (s *Solver) evaluateNear(grad bool) (e float64) {
	var p Pair
	s.placeCorners()
	for k := range s.sheet.Near {
		if !s.link(&s.sheet.Near[k], &p) {
			continue
		}
		phi, d1, _ := p.force(s.x)
		e += phi
		if grad {
			s.pressPair(&p, d1)
		}
	}
	return e
}

func (s *Solver) assembleNear(m *unknowns, b *Band) {
	var p Pair
	s.placeCorners()
	for k := range s.sheet.Near {
		if s.link(&s.sheet.Near[k], &p) {
			s.assemblePair(m, b, &p)
		}
	}
}

// widenNear calls widen for the nodes that each Near may couple.
func (s *Solver) widenNear(widen func(...int32)) {
	var list []int32
	for k := range s.sheet.Near {
		q := &s.sheet.Near[k]
		list = append(list[:0], int32(q.Node))
		for _, t := range q.Patch {
			for _, c := range t {
				list = append(list, c%int32(s.nodes))
			}
		}
		widen(list...)
	}
}

func (s *Sheet) validateNear() error {
	n := s.Nodes()
	corners := int32(n)
	if _, ok := s.beyond(0); ok {
		corners = 2 * int32(n)
	}
	if _, ok := s.beyond(1); ok {
		corners = 3 * int32(n)
	}
	for k := range s.Near {
		q := &s.Near[k]
		ok := q.Node >= 0 && q.Node < n && q.Clear >= 0 && finite(q.Clear+q.Back) && presses(q.Stiffness, q.Skin, q.Weight)
		for _, t := range q.Patch {
			ok = ok && min(t[0], t[1], t[2]) >= 0 && max(t[0], t[1], t[2]) < corners
		}
		if !ok {
			return fmt.Errorf("shell: Near[%d] = %+v; nodes are 0 to %d, corners 0 to %d, numbers must be finite, Stiffness and Skin > 0, Weight and Clear ≥ 0", k, *q, n-1, corners-1)
		}
	}
	return nil
}

// nearest returns the place of a triangle nearest to p, as shares of its corners,
// and the distance (Ericson, Real-Time Collision Detection, 2005, section 5.1.5).
func nearest(p, a, b, c [3]float64) (share [3]float64, dist float64) {
	ab, ac, ap := sub(b, a), sub(c, a), sub(p, a)
	d1, d2 := dot3(ab, ap), dot3(ac, ap)
	bp, cp := sub(p, b), sub(p, c)
	d3, d4 := dot3(ab, bp), dot3(ac, bp)
	d5, d6 := dot3(ab, cp), dot3(ac, cp)
	va, vb, vc := d3*d6-d5*d4, d5*d2-d1*d6, d1*d4-d3*d2
	switch {
	case d1 <= 0 && d2 <= 0:
		share = [3]float64{1, 0, 0}
	case d3 >= 0 && d4 <= d3:
		share = [3]float64{0, 1, 0}
	case d6 >= 0 && d5 <= d6:
		share = [3]float64{0, 0, 1}
	case vc <= 0 && d1 >= 0 && d3 <= 0:
		t := d1 / (d1 - d3)
		share = [3]float64{1 - t, t, 0}
	case vb <= 0 && d2 >= 0 && d6 <= 0:
		t := d2 / (d2 - d6)
		share = [3]float64{1 - t, 0, t}
	case va <= 0 && d4 >= d3 && d5 >= d6 && d4-d3+d5-d6 > 0:
		t := (d4 - d3) / (d4 - d3 + d5 - d6)
		share = [3]float64{0, 1 - t, t}
	case !(va+vb+vc > 0): // no area
		share = [3]float64{1, 0, 0}
	default:
		q := 1 / (va + vb + vc)
		share = [3]float64{va * q, vb * q, vc * q}
	}
	s := 0.0
	for r := range 3 {
		d := p[r] - share[0]*a[r] - share[1]*b[r] - share[2]*c[r]
		s += d * d
	}
	return share, math.Sqrt(s)
}
