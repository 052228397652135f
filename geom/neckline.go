package geom

import (
	"fmt"
	"math"
)

// The largest girth, and the range of breadth ÷ depth, that NewNeckline takes.
// They are far wider than any neck's (design range 100 to 640 mm and 0.5 to
// 2): they only keep the arithmetic away from overflow.
const (
	maxGirth = 1e6
	minRatio = 1e-3
	maxRatio = 1e3
)

// Neckline is the closed curve along which the band lies, seen from above: an
// ellipse of given girth.
//
// Frame: +x to the wearer's left, +y to the wearer's back, +z up
// (right-handed). Arc length s starts at the centre front, under the chin, at
// (0, −depth/2), where the band opens, and grows counter-clockwise seen from
// above: front, wearer's left, back, wearer's right, front.
type Neckline struct {
	girth float64
	e     ellipse
	tall  bool // the depth is the longer axis
}

// Station is one place on a neckline.
type Station struct {
	S         float64 // arc length from the centre front, mm, in [0, girth)
	Pos       Vec2    // mm
	Tangent   Vec2    // unit direction of growing S
	Normal    Vec2    // unit, away from the neck
	Curvature float64 // 1/mm, always positive
}

// NewNeckline returns the ellipse whose perimeter is girth (mm, ease
// included; above 0, up to 1e6) and whose breadth (wearer's left to right) is
// ratio times its depth (front to back; 1e-3 to 1e3).
//
// The perimeter of semi-axes A ≥ B is 4·A·E(m), m = 1 − B²/A², with E the
// complete elliptic integral of the second kind; relative error below 1e-15,
// held by TestEllipseReference.
func NewNeckline(girth, ratio float64) (Neckline, error) {
	if !(girth > 0 && girth <= maxGirth) {
		return Neckline{}, fmt.Errorf("geom: neckline: girth is %g mm, want above 0 and up to %g mm", girth, float64(maxGirth))
	}
	if !(ratio >= minRatio && ratio <= maxRatio) {
		return Neckline{}, fmt.Errorf("geom: neckline: ratio (breadth ÷ depth) is %g, want %g to %g", ratio, minRatio, float64(maxRatio))
	}
	tall := ratio < 1
	if tall {
		ratio = 1 / ratio
	}
	e := newEllipse(1, 1/ratio)
	e = newEllipse(girth/(4*e.quarter), girth/(4*e.quarter)/ratio)
	return Neckline{girth: girth, e: e, tall: tall}, nil
}

// Girth returns the perimeter, mm.
func (n Neckline) Girth() float64 { return n.girth }

// Breadth returns the axis from the wearer's left to right, mm.
func (n Neckline) Breadth() float64 {
	if n.tall {
		return 2 * n.e.b
	}
	return 2 * n.e.a
}

// Depth returns the axis from front to back, mm.
func (n Neckline) Depth() float64 {
	if n.tall {
		return 2 * n.e.a
	}
	return 2 * n.e.b
}

// At returns the station at arc length s (mm, taken modulo the girth). An s
// that is not finite counts as 0; the zero Neckline gives the zero Station.
//
// The place is within 1e-14 of the longer axis of the one whose arc length is
// s (TestEllipseReference, TestNecklineArc).
func (n Neckline) At(s float64) Station {
	if n.girth == 0 {
		return Station{}
	}
	if !finite(s) {
		s = 0
	}
	s = math.Mod(s, n.girth)
	if s < 0 {
		s += n.girth
	}
	if s >= n.girth {
		s = 0
	}
	// Fold into the quarter that begins at the front; d is the arc length
	// from the front or the back, whichever is nearer.
	quarter := n.girth / 4
	d, right, back := s, false, false
	if d > 2*quarter {
		d, right = n.girth-d, true
	}
	if d > quarter {
		d, back = 2*quarter-d, true
	}
	// From the front or back vertex: p.X along the breadth from the
	// middle, p.Y towards the vertex; the same components for the tangent.
	var p, t Vec2
	var k float64
	if n.tall {
		// The front is on the longer axis; the ellipse counts from the shorter.
		q, u, kq := n.e.at(quarter - d)
		p, t, k = Vec2{q.Y, q.X}, Vec2{-u.Y, -u.X}, kq
	} else {
		p, t, k = n.e.at(d)
	}
	st := Station{S: s, Pos: Vec2{p.X, -p.Y}, Tangent: Vec2{t.X, -t.Y}, Curvature: k}
	if back {
		st.Pos.Y, st.Tangent.X = -st.Pos.Y, -st.Tangent.X
	}
	if right {
		st.Pos.X, st.Tangent.Y = -st.Pos.X, -st.Tangent.Y
	}
	st.Normal = Vec2{st.Tangent.Y, -st.Tangent.X}
	return st
}

// Stations returns n stations at equal arc length, the i-th at i·girth/n, the
// first at the centre front; nil for n < 1.
func (n Neckline) Stations(count int) []Station {
	if count < 1 {
		return nil
	}
	out := make([]Station, count)
	for i := range out {
		out[i] = n.At(n.girth * float64(i) / float64(count))
	}
	return out
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
