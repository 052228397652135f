package draw

import "math"

// Handle is where a measure that is drawn is taken hold of, to change it: it goes
// straight, or round a middle.
type Handle struct {
	Field  string  // key of the field that it changes
	Value  float64 // at which it stands, in the field's unit
	At     Point   // its place on the sheet
	Along  Point   // how far At goes, sheet mm, when the field grows by one of its units
	Turn   float64 // or, where it is not 0, by how many radians it goes clockwise round About
	About  Point
	Number Rect // box of the measure's number; the zero box where it is not set
}

// By is by how much the field grows, in its unit, when the handle is pulled from one
// place of the sheet to another. A way round is told rightly up to half a turn.
func (h Handle) By(from, to Point) float64 {
	if h.Turn != 0 {
		a := math.Atan2(from.Y-h.About.Y, from.X-h.About.X)
		b := math.Atan2(to.Y-h.About.Y, to.X-h.About.X)
		return math.Remainder(b-a, 2*math.Pi) / h.Turn
	}
	square := h.Along.X*h.Along.X + h.Along.Y*h.Along.Y
	if !(square > 1e-12) { // it does not go at all
		return 0
	}
	return ((to.X-from.X)*h.Along.X + (to.Y-from.Y)*h.Along.Y) / square
}

// Stands is where the handle's place would be if the field stood at a value.
func (h Handle) Stands(value float64) Point {
	by := value - h.Value
	if h.Turn == 0 {
		return Point{h.At.X + by*h.Along.X, h.At.Y + by*h.Along.Y}
	}
	sin, cos := math.Sincos(by * h.Turn)
	x, y := h.At.X-h.About.X, h.At.Y-h.About.Y
	return Point{h.About.X + x*cos - y*sin, h.About.Y + x*sin + y*cos}
}

func (m move) handle(h Handle) Handle {
	h.At, h.About = m.at(h.At), m.at(h.About)
	h.Along = Point{h.Along.X * m.k, h.Along.Y * m.k}
	if h.Number != (Rect{}) {
		h.Number = Rect{m.at(h.Number.Min), m.at(h.Number.Max)}
	}
	return h
}
