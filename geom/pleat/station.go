package pleat

import "ruffwright/geom"

// span is a curve seen from above between two neighbouring folds: a quintic in
// the part of its arc length that agrees with the neckline, or with its parallel
// at some depth, in place, direction and curvature at both folds. Its error is
// h⁶/46080 times the sixth derivative of the place by the arc length (Hermite
// interpolation; about κ⁵): below 1e-3 mm for sets of 50 mm
// (TestSpanFollowsNeckline).
type span struct {
	c   [6]geom.Vec2
	end geom.Vec2 // what the powers sum to in all but the last bits
}

// newSpan joins the stations a and b of a neckline at a depth, h mm apart along
// the curve there. A parallel curve keeps the direction, and its radius grows by
// the depth.
func newSpan(a, b geom.Station, depth, h float64) span {
	begin, end := a.Pos.Add(a.Normal.Scale(depth)), b.Pos.Add(b.Normal.Scale(depth))
	s := span{end: end}
	// In t = arc/h: first and second derivatives at either end.
	d0, d1 := a.Tangent.Scale(h), b.Tangent.Scale(h)
	k0 := a.Normal.Scale(-h * h * a.Curvature / (1 + depth*a.Curvature))
	k1 := b.Normal.Scale(-h * h * b.Curvature / (1 + depth*b.Curvature))
	d := end.Sub(begin)
	s.c[0], s.c[1], s.c[2] = begin, d0, k0.Scale(0.5)
	s.c[3] = d.Scale(10).Sub(d0.Scale(6)).Sub(d1.Scale(4)).Sub(k0.Scale(1.5)).Add(k1.Scale(0.5))
	s.c[4] = d.Scale(-15).Add(d0.Scale(8)).Add(d1.Scale(7)).Add(k0.Scale(1.5)).Sub(k1)
	s.c[5] = d.Scale(6).Sub(d0.Scale(3)).Sub(d1.Scale(3)).Sub(k0.Scale(0.5)).Add(k1.Scale(0.5))
	return s
}

// at is the place at the part t of the span; 0 and 1 are exactly its folds.
func (s *span) at(t float64) geom.Vec2 {
	if t == 1 {
		return s.end
	}
	p := s.c[5]
	for k := 4; k >= 0; k-- {
		p = geom.Vec2{X: p.X*t + s.c[k].X, Y: p.Y*t + s.c[k].Y}
	}
	return p
}
