package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"math"
	"path/filepath"
	"strconv"
	"strings"

	"ruffwright/cmd/disk"
	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/pattern"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

func viewNames() string {
	var names []string
	for _, v := range figure.Views {
		names = append(names, v.Name)
	}
	return strings.Join(names, ", ")
}

// The PNG's resolution, and the most pixels that a picture may have: 64 million
// take 256 MB to paint.
const (
	defaultDPI = 200
	maxDPI     = 1200
	maxPixels  = 64e6
)

// drawing is what draw's flags ask for.
type drawing struct {
	view, out        string
	width, height    string
	units            unitsFlag
	turn, tilt, zoom float64
	set, dpi         int
	dark, against    bool
	notes            bool
	over             bool

	how                 solving
	drawn, bowed, other bool
}

func drawVerb() verb {
	var from source
	var d drawing
	var list strings.Builder
	for _, v := range figure.Views {
		fmt.Fprintf(&list, "  %-6s %s\n", v.Name, v.Shows)
	}
	return verb{
		name: "draw", args: "[SCHEME]", most: 1,
		does: "draws the ruff as SVG or PNG",
		help: `
Draws one view of the ruff with its dimensions:

` + list.String() + `
The shape is the one in which the cloth comes to rest, solved. --bowed shows it
with the wearer bowing by 60° (in the hand, from the front and from the side both
bow, over a pale ghost of the ruff at rest), --other the other way in which it may
lie (where one edge is sewn). --drawn shows the closed form, at once: the cloth's outer and
inner edges as bent strips, without weight. The name's ending chooses SVG or PNG;
a file that is there already is left as it is, unless --over is given.`,
		flags: func(f *flag.FlagSet) {
			from.flags(f)
			d.how.flags(f)
			f.BoolVar(&d.drawn, "drawn", false, "the closed form, without solving the cloth")
			f.BoolVar(&d.bowed, "bowed", false, "as the wearer bows by 60°")
			f.BoolVar(&d.other, "other", false, "the other way in which it may lie")
			f.StringVar(&d.view, "view", "above", "`view`: "+viewNames())
			f.StringVar(&d.out, "out", "", "`file` to write, .svg or .png; - writes SVG to standard output")
			f.BoolVar(&d.over, "over", false, overHelp)
			f.StringVar(&d.width, "width", "", "sheet's width, a `length` of 80 to 1000 mm; 240 mm if not given")
			f.StringVar(&d.height, "height", "", "sheet's height, a `length` of 80 to 1000 mm; three quarters of the width if not given")
			f.Var(&d.units, "units", "`unit` of the dimensions: mm, cm or in")
			f.BoolVar(&d.dark, "dark", false, "the sheet by candle")
			f.BoolVar(&d.against, "against", false, "the ruff against the light: a window behind it")
			f.BoolVar(&d.notes, "notes", false, "point at what stops and what to mend; the sheet grows by the words")
			f.IntVar(&d.set, "mark-set", 0, "mark this `set`, 1 the first; the set that view set shows")
			f.IntVar(&d.dpi, "dpi", defaultDPI, "`pixels` an inch of a PNG, 20 to "+strconv.Itoa(maxDPI))
			f.Float64Var(&d.turn, "turn", 0, "in the hand: `degrees` about the upright axis, -360 to 360")
			f.Float64Var(&d.tilt, "tilt", 25, "in the hand: `degrees` of the eye's height, -90 to 90")
			f.Float64Var(&d.zoom, "zoom", 1, "in the hand: enlargement, a `factor` of 0.2 to 10")
		},
		run: from.run(func(j job, s scheme.Scheme) error { return d.run(j, s) }),
	}
}

// run draws and writes the picture.
func (d drawing) run(j job, s scheme.Scheme) error {
	opt, err := d.options()
	if err != nil {
		return err
	}
	view := figure.Named(d.view)
	if view == nil {
		return fmt.Errorf("--view %q: expected one of %s", d.view, viewNames())
	}
	if err := d.mayRun(opt); err != nil {
		return err
	}
	ruff, err := sim.Draw(s)
	if err != nil {
		return err
	}
	if d.set > ruff.Plan.Sets {
		return fmt.Errorf("--mark-set %d: the ruff has %d sets", d.set, ruff.Plan.Sets)
	}
	shape, err := d.shape(j, &ruff, view)
	if err != nil {
		return err
	}
	if solved := ruff.Solved; solved != nil && d.bowed {
		opt.Rest, opt.Bow_deg = &solved.Shape, sim.Bow_deg
	}
	if d.notes {
		opt.Notes = pointers(check.Find(ruff, d.units.Units))
	}
	if view.Strip {
		opt.Joins_mm = pattern.Joins(ruff.Plan)
	}
	picture, err := view.Draw(ruff.Plan, shape, opt)
	if err != nil {
		return err
	}
	if d.png() {
		var png bytes.Buffer
		if err := picture.PNG(&png, d.pxPerMM()); err != nil {
			return err
		}
		return disk.Write(d.out, png.Bytes())
	}
	if d.out == "-" {
		_, err = j.out.Write(picture.SVG())
		return err
	}
	return disk.Write(d.out, picture.SVG())
}

// mayRun gives an error where the picture could not be written, or would be too
// large, or two shapes are asked for.
func (d drawing) mayRun(o figure.Options) error {
	switch {
	case d.out == "":
		return usageError{"draw", "draw needs --out FILE.svg, --out FILE.png, or --out - for SVG on standard output"}
	case d.out != "-" && !d.png() && !strings.EqualFold(filepath.Ext(d.out), ".svg"):
		return fmt.Errorf("--out %q: expected a name that ends in .svg or .png", d.out)
	case d.out != "-":
		if err := mayWrite("--out", d.out, d.over); err != nil {
			return err
		}
	}
	if pixels := o.Width_mm * o.Height_mm * d.pxPerMM() * d.pxPerMM(); d.png() && pixels > maxPixels {
		return fmt.Errorf("--dpi %d: the picture would have %.0f million pixels, at most %.0f; choose a smaller sheet or fewer pixels an inch",
			d.dpi, pixels/1e6, maxPixels/1e6)
	}
	if (d.drawn && d.bowed) || (d.drawn && d.other) || (d.bowed && d.other) {
		return usageError{"draw", "--drawn, --bowed and --other are three shapes: choose one"}
	}
	return nil
}

// png reports whether a PNG is asked for, and not an SVG.
func (d drawing) png() bool { return strings.EqualFold(filepath.Ext(d.out), ".png") }

func (d drawing) pxPerMM() float64 { return float64(d.dpi) / 25.4 }

// shape solves the drawn ruff as far as the picture needs it, and gives the shape
// to draw. What cannot be solved is drawn in closed form, and that is said.
func (d drawing) shape(j job, r *sim.Ruff, view *figure.View) (pleat.Shape, error) {
	closed := r.Folded.Shape
	if d.drawn || view.Strip && !d.notes && !d.bowed && !d.other {
		return closed, nil
	}
	s := r.Plan.Scheme
	solved, err := d.how.solve(j, "", s, sim.Options{
		SkipBow: !d.bowed && !d.notes, SkipOther: !d.other && !d.notes, SkipTangents: !d.notes,
	})
	switch {
	case errors.Is(err, sim.ErrDesign) && (d.bowed || d.other):
		return closed, unsolvable(s, err)
	case errors.Is(err, sim.ErrDesign):
		fmt.Fprintln(j.err, "ruffwright: the cloth cannot be solved as these sets are planned (ruffwright check says why); drawn in closed form")
		return closed, nil
	case err != nil:
		return closed, err
	}
	*r = solved
	if !r.Solved.Converged() {
		fmt.Fprintln(j.err, "ruffwright: the cloth did not come to rest; drawn is a rough shape")
	}
	return d.posed(*r)
}

// posed is the one of the solved ruff's shapes that is asked for.
func (d drawing) posed(r sim.Ruff) (pleat.Shape, error) {
	switch s := r.Solved; {
	case d.bowed && s.Bowed == nil:
		return s.Shape, errors.New("--bowed: the bow test did not come to rest, there is no shape to draw")
	case d.bowed:
		return *s.Bowed, nil
	case d.other && !r.Plan.Row.OneEdge():
		return s.Shape, errors.New("--other: sewn at both edges a ruff lies in one way only; --other is for ruffs sewn at one edge")
	case d.other && s.Other == nil:
		return s.Shape, errors.New("--other: no other way to lie was found")
	case d.other:
		return *s.Other, nil
	default:
		return s.Shape, nil
	}
}

// options reads the flags that are numbers; all that is wrong is said at once.
func (d drawing) options() (figure.Options, error) {
	var o figure.Options
	var wrong []error
	length := func(name, text string, fallback float64) float64 {
		if text == "" {
			return fallback
		}
		mm, err := scheme.ParseLength(text, scheme.Millimetres)
		switch {
		case err != nil:
			wrong = append(wrong, fmt.Errorf("--%s: %w", name, err))
		case !(mm >= 80 && mm <= 1000):
			wrong = append(wrong, fmt.Errorf("--%s %s: expected 80 to 1000 mm", name, text))
		}
		return mm
	}
	number := func(name string, v, least, most float64) float64 {
		if !(v >= least && v <= most) { // NaN fails too
			wrong = append(wrong, fmt.Errorf("--%s %g: expected %g to %g", name, v, least, most))
		}
		return v
	}
	o.Width_mm = length("width", d.width, 240)
	o.Height_mm = length("height", d.height, math.Max(80, o.Width_mm*3/4))
	o.Units = d.units.Units
	o.Palette = draw.Light()
	if d.dark {
		o.Palette = draw.Dark()
	}
	o.Against = d.against
	o.Turn_deg = number("turn", d.turn, -360, 360)
	o.Tilt_deg = number("tilt", d.tilt, -90, 90)
	o.Zoom = number("zoom", d.zoom, 0.2, 10)
	if d.set < 0 {
		wrong = append(wrong, fmt.Errorf("--mark-set %d: expected 1 or more", d.set))
	}
	o.Set = d.set
	if d.dpi < 20 || d.dpi > maxDPI {
		wrong = append(wrong, fmt.Errorf("--dpi %d: expected 20 to %d", d.dpi, maxDPI))
	}
	return o, errors.Join(wrong...)
}

// pointers are the findings that a drawing points at: what stops, what to mend.
func pointers(found []check.Finding) []figure.Note {
	var notes []figure.Note
	for _, f := range found {
		if !f.Pending && (f.Severity == check.Stop || f.Severity == check.Mend) {
			notes = append(notes, figure.Note{Where: string(f.Where), At: f.At, Text: f.Sentence, Sign: figure.Sign(f.Severity)})
		}
	}
	return notes
}
