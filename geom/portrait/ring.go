package portrait

import (
	"math"

	"ruffwright/geom"
)

// ring is a circle seen in perspective: the ruff's outer edge. Lengths are in px at the
// distance of its middle.
//
// Of a circle of radius R whose plane makes the angle t with the line of sight, seen from
// D, the point at the angle θ (a quarter turn: the nearest) appears at
//
//	x = R cos θ / (1 − k sin θ),  y = R sin t sin θ / (1 − k sin θ),  k = R cos t / D.
//
// That is an ellipse with half axes a = R/√(1 − k²) and b = R sin t/(1 − k²), b·k nearer
// than the circle's middle. So R, t and every place on the plane follow from a, b and D.
type ring struct {
	middle     geom.Vec2 // image of the circle's middle
	right      geom.Vec2 // unit vectors: along the major axis,
	near       geom.Vec2 // and across it, to the nearer side
	radius     float64
	sin, cos   float64 // of t
	k          float64
	distance   float64
	seenCentre geom.Vec2
	a, b       float64
}

// newRing reads a ring off its ellipse, from the distance px of the eye to its middle.
// nearBelow: the nearer side is the lower one.
func newRing(e ellipse, distance float64, nearBelow bool) ring {
	r := ring{right: e.major, near: geom.Vec2{X: -e.major.Y, Y: e.major.X}, distance: distance, seenCentre: e.centre, a: e.a, b: e.b}
	if (r.near.Y > 0) != nearBelow {
		r.near = r.near.Scale(-1)
	}
	for range 12 { // k changes R and t by its square: each round gains that
		root := math.Sqrt(1 - r.k*r.k)
		r.sin = min(e.b/e.a*root, 1)
		r.cos = math.Sqrt((1 - r.sin) * (1 + r.sin))
		r.radius = e.a * root
		r.k = min(r.radius*r.cos/distance, 0.9)
	}
	r.middle = e.centre.Sub(r.near.Scale(e.b * r.k))
	return r
}

// place gives where on the ring's plane a point of the picture lies: to the right, and
// towards the eye, px from the middle.
func (r ring) place(p Point) geom.Vec2 {
	q := p.vec().Sub(r.middle)
	y := q.Dot(r.near)
	y /= r.sin + y*r.cos/r.distance
	return geom.Vec2{X: q.Dot(r.right) * (1 - y*r.cos/r.distance), Y: y}
}

// upright gives the length of a line that stands square on the plane at the ring's edge
// and reaches as far above it as below, px. A point so far above the plane, n, over the
// place Y appears at y = (Y sin t − n cos t) / (1 − (Y cos t + n sin t) / D): of a front seen
// from above, what stands up comes nearer as well.
func (r ring) upright(l Line) float64 {
	foot := r.place(Point{(l.From[0] + l.To[0]) / 2, (l.From[1] + l.To[1]) / 2}).Y
	above := func(p Point) float64 {
		y := p.vec().Sub(r.middle).Dot(r.near)
		return (foot*r.sin - y*(1-foot*r.cos/r.distance)) / (r.cos - y*r.sin/r.distance)
	}
	return math.Abs(above(l.To) - above(l.From))
}

// angle is where on the circle a point of its edge lies, radians.
func (r ring) angle(p Point) float64 {
	q := p.vec().Sub(r.seenCentre)
	u := geom.Vec2{X: q.Dot(r.right) / r.a, Y: q.Dot(r.near) / r.b}.Unit()
	return math.Atan2(u.Y+r.k, u.X*math.Sqrt(1-r.k*r.k))
}

// share is the part of the circle between two points of its edge, by the shorter way.
func (r ring) share(from, to Point) float64 {
	d := math.Abs(r.angle(to)-r.angle(from)) / (2 * math.Pi)
	return min(d, 1-d)
}
