package look

import (
	"fmt"
	"math"
	"slices"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/pattern"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/screen"
)

// Picture draws the view for a stage of width by height CSS pixels, and says
// how large a sheet's millimetre is there.
func (l *Look) Picture() (d draw.Drawing, lens Lens, pixelPerMM float64, err error) {
	return l.picture(false, true)
}

// picture is Picture, plain as it is drawn while it moves, and with notes by their signs
// alone, as on the page, or with their words.
func (l *Look) picture(plain, signs bool) (d draw.Drawing, lens Lens, pixelPerMM float64, err error) {
	width, height, stacked := l.pane()
	pixelPerMM = l.pixels()
	camera := l.led()
	opt := figure.Options{
		Width_mm:  min(1000, max(leastSheet_mm, width/pixelPerMM)),
		Height_mm: min(1000, max(leastSheet_mm, height/pixelPerMM)),
		Language:  say.Language(), Units: l.Units, Palette: l.palette(), Against: l.lit() == Against, Notes: l.notesOf(l.Findings[0]), Signs: signs,
		Turn_deg: camera.Turn_deg, Tilt_deg: camera.Tilt_deg, Zoom: camera.Zoom, PanX_mm: camera.PanX_mm, PanY_mm: camera.PanY_mm, Plain: plain,
	}
	if l.twoDrawn() {
		d, err = l.both(opt, stacked)
		l.scale = d.Scale / camera.Zoom
		return d, home.Lens, pixelPerMM, err
	}
	d, err = l.paint(l.View, opt, &l.kept[0])
	l.scale = d.Scale / camera.Zoom
	lens = l.camera.Lens
	if l.View.Turned {
		lens = home.Lens
	}
	return d, lens, pixelPerMM, err
}

// pixels is how many CSS pixels of the stage a sheet's millimetre takes.
func (l *Look) pixels() float64 {
	width, height, _ := l.pane()
	return min(pixelsPerMM, width/leastSheet_mm, height/leastSheet_mm)
}

// Seen is the drawing, plain as it is while it moves or in full, and how it lies on the
// stage.
func (l *Look) Seen(plain bool) (draw.Drawing, screen.Place, error) {
	d, lens, pixelPerMM, err := l.picture(plain, true)
	// As large as the canvas, in whole pixels.
	side := func(css float64) int { return max(1, int(math.Floor(max(1, css)*l.size.ratio))) }
	return d, screen.On(side(l.size.width), side(l.size.height), pixelPerMM*l.size.ratio*lens.Scale, draw.Point{X: lens.X * d.Width_mm, Y: lens.Y * d.Height_mm}), err
}

// Label is what the view is called, ViewHelp how to move in it.
func (l *Look) Label() string { return say.In(l.View.Label) }
func (l *Look) ViewHelp() string {
	if l.View.Turned {
		return say.Text("Drag to turn, with Shift or two fingers to move it. To come nearer pinch, press on the drawing and then scroll, or scroll with Ctrl. Keys: arrows turn, with Shift they move it, + and − come nearer and go back, Home returns, Escape leaves.")
	}
	return say.Text("%s Pinch, + or, after a press on the drawing, scroll to come nearer, then drag or use the arrows; Home returns, Escape leaves.", say.In(l.View.Tells))
}

// paint draws one view of the ruff at hand: the solved shape where there is one.
func (l *Look) paint(v *figure.View, opt figure.Options, kept *figure.Kept) (draw.Drawing, error) {
	if v.Turned && l.folding() {
		shape, turn := l.foldShape()
		opt.Row, opt.Notes = true, nil
		opt.Turn_deg += turn
		rest := l.posed()
		opt.Rest = &rest
		return v.Draw(l.A.Plan, shape, opt)
	}
	opt.Tone = l.tone(0, l.A)
	return l.paintOf(v, 0, l.A, opt, kept)
}

// paintOf draws one view of A (0) or B (1), with the joins that the pattern decides, and
// on a wearer who bows or stands.
func (l *Look) paintOf(v *figure.View, side int, of *sim.Ruff, opt figure.Options, kept *figure.Kept) (draw.Drawing, error) {
	if v.Strip {
		opt.Joins_mm = pattern.Joins(of.Plan)
	}
	if of.Solved != nil {
		opt.Rest, opt.Bow_deg = &of.Solved.Shape, l.bow(of)
	}
	opt.Kept, opt.Moves, opt.Held = kept, l.settling.going, &l.stays[side]
	return v.Draw(of.Plan, l.shape(side, of), opt)
}

// turnsTo brings the place of a finding before the reader: the ruff as it is, in a
// view that shows the place, turned so that it faces the eye.
func (l *Look) turnsTo(id string) {
	i := slices.IndexFunc(l.Findings[0], func(f check.Finding) bool { return f.ID == id })
	if i < 0 {
		return
	}
	f := l.Findings[0][i]
	l.unfolds()
	for _, other := range []*figure.View{figure.Named("flat"), figure.Named("hand")} {
		if slices.Contains(l.View.Lacks, string(f.Where)) && !slices.Contains(other.Lacks, string(f.Where)) {
			l.View = other
		}
	}
	c := &l.camera
	c.Lens, c.PanX_mm, c.PanY_mm, c.Tilt_deg = home.Lens, 0, 0, home.Tilt_deg
	l.settling.camera = [2]Camera{}
	switch shape := l.posed(); {
	case len(f.At) > 0 && len(shape.Panels) > 0:
		m := min(f.At[0]-1, len(shape.Panels)-1)
		v := shape.Panels[m].V[shape.NV]
		c.Turn_deg = math.Atan2(v.X, -v.Y) * 180 / math.Pi // the front, −y, faces the eye at 0
	case string(f.Where) == figure.WhereOpening, string(f.Where) == figure.WhereChin:
		c.Turn_deg = home.Turn_deg
	case string(f.Where) == figure.WhereSupport:
		c.Tilt_deg = underTilt_deg
	}
}

// underTilt_deg is how the ruff is held so that what it rests on is seen.
const underTilt_deg = -12

// notesOf point at the finding in hand, else at everything that stops or needs
// mending.
func (l *Look) notesOf(findings []check.Finding) []figure.Note {
	var out []figure.Note
	for _, f := range findings {
		if l.Veiled || f.Pending || l.Hand != "" && f.ID != l.Hand || l.Hand == "" && f.Severity != check.Stop && f.Severity != check.Mend {
			continue
		}
		out = append(out, figure.Note{Where: string(f.Where), At: f.At, Text: f.Sentence, Sign: figure.Sign(f.Severity)})
	}
	return out
}

// held says in words how the reader holds the ruff.
func (l *Look) held() string {
	if !l.View.Turned {
		return say.Text("Enlarged %s times.", fmt.Sprintf("%.3g", l.camera.Lens.Scale))
	}
	turn := int(math.Round(l.camera.Turn_deg))
	held := "Turned %d degrees to the right, seen from %d degrees above, enlarged %s times."
	if turn < 0 {
		turn, held = -turn, "Turned %d degrees to the left, seen from %d degrees above, enlarged %s times."
	}
	said := say.Text(held, turn, int(math.Round(l.camera.Tilt_deg)), fmt.Sprintf("%.3g", l.camera.Zoom))
	if x, y := l.camera.PanX_mm, l.camera.PanY_mm; x != 0 || y != 0 {
		said += say.Text(" Moved %s to the right and %s up.", say.Length(math.Round(x), l.Units), say.Length(math.Round(y), l.Units))
	}
	return said
}
