package look

import "ruffwright/geom/draw"

// pixelsPerMM is how large a sheet's millimetre is on the stage, in CSS
// pixels: letters of 3 mm are then 11 pixels high.
const pixelsPerMM = 3.8

// leastSheet_mm is the smallest sheet that figure draws.
const leastSheet_mm = 80

func (l *Look) width() float64  { return max(1, l.size.width) }
func (l *Look) height() float64 { return max(1, l.size.height) }

// Resize takes the stage's "width height ratio".
func (l *Look) Resize(value string) {
	v, ok := threeOf(value)
	if !ok || min(v[0], v[1], v[2]) <= 0 || max(v[0], v[1], v[2]) >= 20000 {
		return
	}
	if s := (size{v[0], v[1], min(4, v[2])}); s != l.size {
		l.size, l.dirty = s, true
	}
}

// twoDrawn reports whether both are on the stage: the fold-through shows A's strip
// alone.
func (l *Look) twoDrawn() bool { return l.B != nil && !l.folding() }

// pane is the part of the stage that one ruff has, in CSS pixels: all of it, or
// half. The two stand beside each other or, where their letters are then larger,
// one above the other; on a narrow stage always.
func (l *Look) pane() (width, height float64, stacked bool) {
	w, h := l.width(), l.height()
	if !l.twoDrawn() {
		return w, h, false
	}
	const gap = draw.Gutter * pixelsPerMM
	half, low := max(1, (w-gap)/2), max(1, (h-gap)/2)
	fits := func(w, h float64) float64 { return min(pixelsPerMM, w/leastSheet_mm, h/leastSheet_mm) }
	if w < narrow || fits(w, low) > fits(half, h) {
		return w, low, true
	}
	return half, h, false
}

// narrow is a stage on which two ruffs never stand side by side, CSS pixels.
const narrow = 480

// inPane is a place of the stage as a place of the ruff's own part of it.
func (l *Look) inPane(at place) place {
	w, h, stacked := l.pane()
	if stacked && at.y > l.height()/2 {
		at.y -= l.height() - h
	}
	if l.twoDrawn() && !stacked && at.x > l.width()/2 {
		at.x -= l.width() - w
	}
	return at
}

// folding reports whether the stage shows the ruff on its way.
func (l *Look) folding() bool { return l.fold.at < wholeFold && l.View.Turned }
