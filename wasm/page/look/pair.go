package look

import (
	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/pleat"
	"ruffwright/sim"
	"ruffwright/sim/check/compare"
)

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
