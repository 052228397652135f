package look

import (
	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/pleat"
	"ruffwright/sim"
	"ruffwright/sim/check/compare"
)

// both draws A and B on one camera, at one scale.
func (l *Look) both(opt figure.Options, stacked bool) (draw.Drawing, error) {
	ruffs := [2]*sim.Ruff{l.A, l.B}
	shapes := [2]pleat.Shape{l.shape(), l.posedOf(l.B)}
	tones := l.tones(l.A, l.B)
	letters := [2]string{string(compare.First), string(compare.Second)}
	if opt.Cells > 0 {
		opt.Cells = movingCells / 2
	}
	lens, zoom := draw.Lens(l.camera.Lens), 1.0
	if l.View.Turned {
		lens = draw.Lens{}
		if opt.Zoom > 0 {
			zoom = opt.Zoom
		}
	}
	d := &l.pair // Beside copies what it takes: their memory serves again
	paint := func(i int) (err error) {
		opt.Letter, opt.Tone, opt.Notes, opt.Again = letters[i], tones[i], nil, &d[i]
		if l.Hand != "" { // other notes would take the room that two ruffs need, and set them at different places
			opt.Notes = l.notesOf(l.Findings[i])
		}
		one, err := paintOf(l.View, &ruffs[i].Plan, shapes[i], opt)
		if err == nil {
			d[i] = one
		}
		return err
	}
	for i := range d {
		if err := paint(i); err != nil {
			return draw.Drawing{}, err
		}
	}
	opt.Scale = min(d[0].Scale, d[1].Scale) / zoom
	for i := range d {
		if !l.View.Strip && d[i].Scale/zoom > opt.Scale*1.001 {
			if err := paint(i); err != nil {
				return draw.Drawing{}, err
			}
		}
	}
	return draw.Beside(d[0], d[1], stacked, lens), nil
}
