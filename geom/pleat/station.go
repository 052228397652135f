package pleat

import "ruffwright/geom"

// span is the neckline between two neighbouring folds, as a quintic in the arc
// length that agrees with it in place, tangent and curvature at both. Its error
// is h⁶/46080 times the sixth derivative of the place (Hermite interpolation;
// about κ⁵): under 1e-4 mm for the widest sets the scheme allows
// (TestSpanFollowsNeckline). Outside the span the neckline itself is asked.
type span struct {
	neckline geom.Neckline
	from, h  float64 // mm along the neckline
	c        [6]geom.Vec2
	ends     [2]frame
}

// frame is a place of the neckline and the direction away from the neck.
type frame struct{ pos, out geom.Vec2 }

// newSpan joins the stations a and b, h mm apart along the neckline n.
func newSpan(n geom.Neckline, a, b geom.Station, from, h float64) span {
	s := span{neckline: n, from: from, h: h}
	s.ends = [2]frame{{a.Pos, a.Normal}, {b.Pos, b.Normal}}
	// In t = s/h: value, first and second derivative at either end.
	d0, d1 := a.Tangent.Scale(h), b.Tangent.Scale(h)
	k0, k1 := a.Normal.Scale(-a.Curvature*h*h), b.Normal.Scale(-b.Curvature*h*h)
	d := b.Pos.Sub(a.Pos)
	s.c[0], s.c[1], s.c[2] = a.Pos, d0, k0.Scale(0.5)
	s.c[3] = d.Scale(10).Sub(d0.Scale(6)).Sub(d1.Scale(4)).Sub(k0.Scale(1.5)).Add(k1.Scale(0.5))
	s.c[4] = d.Scale(-15).Add(d0.Scale(8)).Add(d1.Scale(7)).Add(k0.Scale(1.5)).Sub(k1)
	s.c[5] = d.Scale(6).Sub(d0.Scale(3)).Sub(d1.Scale(3)).Sub(k0.Scale(0.5)).Add(k1.Scale(0.5))
	return s
}

// at is the frame at the part t of the span, 0 and 1 being its folds.
func (s *span) at(t float64) frame {
	switch {
	case t == 0:
		return s.ends[0]
	case t == 1:
		return s.ends[1]
	case t < 0 || t > 1:
		st := s.neckline.At(s.from + t*s.h)
		return frame{st.Pos, st.Normal}
	}
	p, v := s.c[5], geom.Vec2{}
	for k := 4; k >= 0; k-- {
		v = geom.Vec2{X: v.X*t + p.X, Y: v.Y*t + p.Y}
		p = geom.Vec2{X: p.X*t + s.c[k].X, Y: p.Y*t + s.c[k].Y}
	}
	v = v.Unit()
	return frame{p, geom.Vec2{X: v.Y, Y: -v.X}}
}
