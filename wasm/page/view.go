package page

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/pattern"
	"ruffwright/geom/pleat"
	"ruffwright/sim/check"
	"ruffwright/wasm/page/say"
)

// size of the stage.
type size struct{ width, height, ratio float64 } // CSS pixels; device pixels per CSS pixel

// pixelsPerMM is how large a sheet's millimetre is on the stage, in CSS
// pixels: letters of 3 mm are then 11 pixels high.
const pixelsPerMM = 3.8

// leastSheet_mm is the smallest sheet that figure draws.
const leastSheet_mm = 80

func (p *Page) width() float64  { return max(1, p.size.width) }
func (p *Page) height() float64 { return max(1, p.size.height) }

// resize takes "width height ratio".
func (p *Page) resize(value string) {
	fields := strings.Fields(value)
	if len(fields) != 3 {
		return
	}
	var v [3]float64
	for i, f := range fields {
		x, err := strconv.ParseFloat(f, 64)
		if err != nil || !(x > 0 && x < 20000) {
			return
		}
		v[i] = x
	}
	if s := (size{v[0], v[1], min(4, v[2])}); s != p.size {
		p.size, p.dirty = s, true
	}
}

// Picture draws the view for a stage of width by height CSS pixels, and says
// how large a sheet's millimetre is there. It takes back the memory of the
// drawing that it gave before.
func (p *Page) Picture() (d draw.Drawing, lens Lens, pixelPerMM float64, err error) {
	width, height, stacked := p.pane()
	pixelPerMM = min(pixelsPerMM, width/leastSheet_mm, height/leastSheet_mm)
	opt := figure.Options{
		Width_mm:  min(1000, max(leastSheet_mm, width/pixelPerMM)),
		Height_mm: min(1000, max(leastSheet_mm, height/pixelPerMM)),
		Units:     p.units, Palette: p.palette(), Notes: p.notesOf(p.findings),
		Cells: p.cells(), Turn_deg: p.camera.Turn_deg, Tilt_deg: p.camera.Tilt_deg, Zoom: p.camera.Zoom,
	}
	if p.twoDrawn() {
		d, err = p.both(opt, stacked)
		return d, home.Lens, pixelPerMM, err
	}
	opt.Again = &p.drawing
	d, err = paint(p.view, p, opt)
	p.drawing = d
	lens = p.camera.Lens
	if p.view.Turned {
		lens = home.Lens
	}
	return d, lens, pixelPerMM, err
}

// viewLabel is what the view is called, viewHelp how to move in it.
func (p *Page) viewLabel() string { return say.Theirs(p.view.Label) }
func (p *Page) viewHelp() string {
	if p.view.Turned {
		return say.Word("viewhelp.turned")
	}
	return say.Word("viewhelp.lens", "tells", say.Theirs(p.view.Tells))
}

// paint draws one view of the page's ruff: the solved shape where there is one.
func paint(v *figure.View, p *Page, opt figure.Options) (draw.Drawing, error) {
	if v.Turned && p.folding() {
		shape, turn := p.foldShape()
		opt.Row, opt.Notes = true, nil
		opt.Turn_deg += turn
		return v.Draw(p.ruff.Plan, shape, opt)
	}
	opt.Tone = p.tone(0, &p.ruff)
	return paintOf(v, &p.ruff.Plan, p.shape(), opt)
}

// paintOf draws one view of any ruff, with the joins that the pattern decides.
func paintOf(v *figure.View, of *pleat.Plan, shape pleat.Shape, opt figure.Options) (draw.Drawing, error) {
	if v.Strip {
		opt.Joins_mm = pattern.Joins(*of)
	}
	return v.Draw(*of, shape, opt)
}

// turnsTo brings the place of a finding before the reader: the ruff as it is, in a
// view that shows the place, turned so that it faces the eye.
func (p *Page) turnsTo(id string) {
	i := slices.IndexFunc(p.findings, func(f check.Finding) bool { return f.ID == id })
	if i < 0 {
		return
	}
	f := p.findings[i]
	p.unfolds()
	if strip := figure.Named("flat"); slices.Contains(p.view.Lacks, string(f.Where)) && !slices.Contains(strip.Lacks, string(f.Where)) {
		p.view = strip
	}
	p.camera.Lens = home.Lens
	p.camera.Turn_deg = home.Turn_deg // where places without marks of their own face the eye
	if shape := p.posed(); len(f.At) > 0 && len(shape.Panels) > 0 {
		m := min(f.At[0]-1, len(shape.Panels)-1)
		v := shape.Panels[m].V[shape.NV]
		p.camera.Turn_deg = math.Atan2(v.X, -v.Y) * 180 / math.Pi // the front, −y, faces the eye at 0
	}
}

// notesOf point at the finding in hand, else at everything that stops or needs
// mending.
func (p *Page) notesOf(findings []check.Finding) []figure.Note {
	var out []figure.Note
	for _, f := range findings {
		if f.Pending || p.hand != "" && f.ID != p.hand || p.hand == "" && f.Severity != check.Stop && f.Severity != check.Mend {
			continue
		}
		out = append(out, figure.Note{Where: string(f.Where), At: f.At, Text: f.Sentence, Sign: figure.Sign(f.Severity)})
	}
	return out
}

// held says in words how the reader holds the ruff.
func (p *Page) held() string {
	if !p.view.Turned {
		return say.Word("held.lens", "times", fmt.Sprintf("%.3g", p.camera.Lens.Scale))
	}
	turn := int(math.Round(p.camera.Turn_deg))
	side := "held.right"
	if turn < 0 {
		turn, side = -turn, "held.left"
	}
	return say.Word(side, "turn", turn, "tilt", int(math.Round(p.camera.Tilt_deg)), "times", fmt.Sprintf("%.3g", p.camera.Zoom))
}

// Ratio is the stage's device pixels per CSS pixel.
func (p *Page) Ratio() float64 { return p.size.ratio }
