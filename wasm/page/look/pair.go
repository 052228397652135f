package look

import (
	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/sim"
	"ruffwright/sim/check/compare"
)

// both draws A and B on one camera, at one scale.
func (l *Look) both(opt figure.Options, stacked bool) (draw.Drawing, error) {
	ruffs := [2]*sim.Ruff{l.A, l.B}
	tones := l.tones(l.A, l.B)
	letters := [2]string{string(compare.First), string(compare.Second)}
	lens, zoom := draw.Lens(l.camera.Lens), 1.0
	if l.View.Turned {
		lens = draw.Lens{}
		if opt.Zoom > 0 {
			zoom = opt.Zoom
		}
	}
	var d [2]draw.Drawing
	paint := func(i int) (err error) {
		opt.Letter, opt.Tone, opt.Notes = letters[i], tones[i], nil
		if l.Hand != "" { // other notes would set the two apart by more than what differs
			opt.Notes = l.notesOf(l.Findings[i])
		}
		d[i], err = l.paintOf(l.View, i, ruffs[i], opt, &l.kept[1+i])
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
