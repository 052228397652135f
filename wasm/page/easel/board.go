package easel

import (
	"math"

	"ruffwright/geom/portrait"
)

// board is one picture as it is looked at.
type board struct {
	name       string
	wide, high float64        // its own size, px; 0: there is no picture
	times      float64        // its own px for each that is shown, 1 or more
	scale      float64        // CSS pixels for one of its own px
	corner     portrait.Point // what lies in the pad's upper left corner, px
}

// mostScale is the closest look: so many CSS pixels for a px that is shown.
const mostScale = 40

// fit shows all of the picture.
func (b *board) fit(pad spot) {
	if b.wide == 0 || pad.x <= 0 || pad.y <= 0 {
		return
	}
	b.scale = b.least(pad)
	b.settle(pad)
}

// least is the scale at which all of it is seen.
func (b *board) least(pad spot) float64 { return min(pad.x/b.wide, pad.y/b.high) }

// settle keeps the picture on the pad: in the middle where it is smaller.
func (b *board) settle(pad spot) {
	for i, of := range [2][2]float64{{pad.x, b.wide}, {pad.y, b.high}} {
		seen := of[0] / b.scale
		if seen >= of[1] {
			b.corner[i] = (of[1] - seen) / 2
		} else {
			b.corner[i] = min(max(b.corner[i], 0), of[1]-seen)
		}
	}
}

// zoom enlarges about a place of the pad.
func (b *board) zoom(factor float64, at, pad spot) {
	if b.wide == 0 || b.scale == 0 || !(factor > 0) {
		return
	}
	still := b.under(at)
	least := b.least(pad)
	b.scale = min(max(b.scale*factor, least), max(mostScale/b.times, least))
	b.corner = portrait.Point{still[0] - at.x/b.scale, still[1] - at.y/b.scale}
	b.settle(pad)
}

// shift moves the picture by CSS pixels.
func (b *board) shift(x, y float64, pad spot) {
	if b.wide == 0 || b.scale == 0 {
		return
	}
	b.corner[0] -= x / b.scale
	b.corner[1] -= y / b.scale
	b.settle(pad)
}

// under is what of the picture lies under a place of the pad, px.
func (b *board) under(at spot) portrait.Point {
	return portrait.Point{b.corner[0] + at.x/b.scale, b.corner[1] + at.y/b.scale}
}

// seen is where on the pad a point of the picture lies.
func (b *board) seen(p portrait.Point) spot {
	return spot{(p[0] - b.corner[0]) * b.scale, (p[1] - b.corner[1]) * b.scale}
}

// inside is the point of the picture nearest to a point, to a hundredth of a px.
func (b *board) inside(p portrait.Point) portrait.Point {
	in := func(x, most float64) float64 { return math.Round(100*min(max(x, 0), most)) / 100 }
	return portrait.Point{in(p[0], b.wide), in(p[1], b.high)}
}

// Lies is how the fitted outer edge lies on the pad, CSS pixels, with the pad's size and the
// device pixels for one of these; ok is whether there is one to be seen.
func (e *Easel) Lies() (l portrait.Lying, width, height, ratio float64, ok bool) {
	b := &e.boards[source]
	if e.got == nil || e.on != source || b.scale == 0 || e.ratio == 0 {
		return l, 0, 0, 0, false
	}
	l = e.got.Lies
	at := b.seen(l.Middle)
	l.Middle = portrait.Point{at.x, at.y}
	l.Radius_px, l.Distance_px = l.Radius_px*b.scale, l.Distance_px*b.scale
	return l, e.pad.x, e.pad.y, e.ratio, true
}
