package look

import (
	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/pleat"
	"ruffwright/sim"
	"ruffwright/sim/check/compare"
)

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

// pairNotes point at the finding in hand alone: others would take the room that two
// ruffs need, and set them at different places.
func (l *Look) pairNotes(i int) []figure.Note {
	switch {
	case l.Hand == "":
		return nil
	case i == 0:
		return l.notesOf(l.Findings[0])
	}
	return l.notesOf(l.Findings[1])
}

// both draws A and B on one camera, at one scale.
func (l *Look) both(opt figure.Options, stacked bool) (draw.Drawing, error) {
	ruffs := [2]*sim.Ruff{l.A, l.B}
	shapes := [2]pleat.Shape{l.shape(), l.posedOf(ruffs[1])}
	tones := l.tones(ruffs[0], ruffs[1])
	d := &l.pair // Beside copies what it takes: their memory serves again
	for i, letter := range []string{string(compare.First), string(compare.Second)} {
		if opt.Cells > 0 {
			opt.Cells = movingCells / 2
		}
		opt.Letter, opt.Tone = letter, tones[i]
		opt.Notes = l.pairNotes(i)
		opt.Again = &d[i]
		one, err := paintOf(l.View, &ruffs[i].Plan, shapes[i], opt)
		if err != nil {
			return one, err
		}
		d[i] = one
	}
	least := min(d[0].Scale, d[1].Scale)
	if l.View.Turned && opt.Zoom > 0 {
		least /= opt.Zoom
	}
	for i := range d {
		scale := d[i].Scale
		if l.View.Turned && opt.Zoom > 0 {
			scale /= opt.Zoom
		}
		if l.View.Strip || scale <= least*1.001 {
			continue
		}
		opt.Scale, opt.Letter, opt.Tone = least, d[i].Letter, tones[i]
		opt.Notes = l.pairNotes(i)
		opt.Again = &d[i]
		again, err := paintOf(l.View, &ruffs[i].Plan, shapes[i], opt)
		if err != nil {
			return again, err
		}
		d[i] = again
	}
	lens := draw.Lens(l.camera.Lens)
	if l.View.Turned {
		lens = draw.Lens{}
	}
	return draw.Beside(d[0], d[1], stacked, lens), nil
}
