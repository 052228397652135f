package sim

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/cloth"
	"ruffwright/sim/window"
)

// ErrDesign is wrapped by the errors of schemes whose half sets have no mechanics.
// With it they wrap a scheme.Error that names the fields and, but for own marks, a
// Misfit that names the reason.
var ErrDesign = errors.New("these sets cannot be solved")

// Misfit is why a half set has no mechanics; its kinds are those of package window.
type Misfit = window.Misfit

const (
	TucksLong   = window.TucksLong
	TuckDeep    = window.TuckDeep
	GapWide     = window.GapWide
	NoWave      = window.NoWave
	NoOuterWave = window.NoOuterWave
	StickThick  = window.StickThick
	TooShort    = window.TooShort
)

// Design is the half set that stands for the ruff r, of the neckline's mean
// curvature. Where it or the most curved half set of the ruff has no mechanics, the
// error wraps ErrDesign. Only the plan of r is read.
func Design(r Ruff) (window.Design, error) {
	p := r.Plan
	s := p.Scheme
	sheet, err := cloth.FromScheme(s)
	if err != nil {
		return window.Design{}, err
	}
	d := window.Design{
		Panel_mm:        p.Panel_mm,
		Width_mm:        s.Ruff.Depth,
		Pitch_mm:        p.Pitch_mm,
		Kappa_1pmm:      2 * math.Pi / p.Neckline_mm,
		BandHeight_mm:   s.Band.Height,
		BendU_uNm:       sheet.BendU_uNm,
		BendV_uNm:       sheet.BendV_uNm,
		FrozenU_uNm:     sheet.FrozenU_uNm,
		FrozenV_uNm:     sheet.FrozenV_uNm,
		FrozenShear_Npm: sheet.FrozenShear_Npm,
		Quality:         s.Starch.Quality,
		Stick_mm:        s.Starch.Stick, StickTip_mm: s.Starch.Tip, StickReach_mm: min(s.Starch.Reach, s.Ruff.Depth),
		Hung:         s.Starch.Dry == scheme.Hung,
		Mass_gm2:     sheet.Mass_gm2,
		Thickness_mm: sheet.Thickness_mm,
	}
	if err := sew(&d, p.Row); err != nil {
		return d, fmt.Errorf("%w: %w", ErrDesign, err)
	}
	d.LineGap_mm = s.Pleat.Catch // what a stitch holds farther out is held like by a second line
	if s.Pleat.Lines == 2 {
		d.LineGap_mm = s.Pleat.LineGap
	}
	if s.Support.Kind != scheme.NoSupport {
		d.Support = true
		d.SupportDrop_mm, d.SupportSlope_deg = s.Support.Drop, s.Support.Slope
	}
	curved := d
	curved.Kappa_1pmm = slices.Max(p.Curvatures())
	for _, half := range []window.Design{d, curved} {
		if err := half.Validate(); err != nil {
			return d, refused(err, p)
		}
	}
	return d, nil
}

// sew puts into the half set what the row says is sewn: it stands for regular sets,
// and of folds that differ it is sewn as most of their kind.
func sew(d *window.Design, r pleat.Row) error {
	crest, trough := r.Sewn(scheme.Crest), r.Sewn(scheme.Trough)
	d.TuckTop_mm, d.TuckBottom_mm = r.Tuck(scheme.Crest), r.Tuck(scheme.Trough)
	d.Anchor = map[scheme.Edge]window.Anchor{scheme.EdgeTop: window.Top, scheme.EdgeBottom: window.Bottom}[r.Edge()]
	switch {
	case crest == scheme.EdgeTop && trough == scheme.EdgeBottom:
		d.Anchor = window.Both
	case crest == scheme.EdgeNone && trough != scheme.EdgeNone:
		d.Sewn = window.Troughs
	case crest == scheme.EdgeNone || trough != scheme.EdgeNone:
		return scheme.Error{
			Field: "pleat.marks", Value: word.Say("most top folds sewn to %q, most bottom folds to %q", crest, trough),
			Why:     word.Say("is a way of sewing that cannot be solved"),
			Allowed: word.Say("top folds to the top and bottom folds to the bottom edge, or one kind of fold to one edge"),
		}
	}
	return nil
}

// misfit is a window.Misfit in the scheme's own fields.
type misfit struct {
	in scheme.Error
	of window.Misfit
}

func (m misfit) Error() string   { return m.in.Error() }
func (m misfit) Unwrap() []error { return []error{m.in, m.of} }

// designFields are the scheme's fields behind those of a half set.
var designFields = map[string]string{
	"Panel_mm": "pleat.panel", "Width_mm": "ruff.depth", "Pitch_mm": "pleat.pitch", "Kappa_1pmm": "wearer.ratio",
	"BandHeight_mm": "band.height", "TuckTop_mm": "pleat.tuck_top", "TuckBottom_mm": "pleat.tuck_bottom",
	"LineGap_mm": "pleat.line_gap", "BendU_uNm": "cloth.bend_warp, cloth.bend_weft", "BendV_uNm": "cloth.bend_warp, cloth.bend_weft",
	"FrozenU_uNm": "starch.bend", "FrozenV_uNm": "starch.bend", "FrozenShear_Npm": "starch.shear", "Quality": "starch.quality", "Stick_mm": "starch.stick", "StickTip_mm": "starch.tip", "StickReach_mm": "starch.reach", "Mass_gm2": "cloth.mass",
	"Thickness_mm": "cloth.thickness", "SupportDrop_mm": "support.drop", "SupportSlope_deg": "support.slope",
}

// refused says in the scheme's fields what the half set's own check said.
func refused(err error, p pleat.Plan) error {
	var of window.Misfit
	if !errors.As(err, &of) {
		return err
	}
	n := func(x float64) word.Number { return word.Number{Value: x, Decimals: 3, Short: true} }
	mm := func(x float64) word.Text { return word.Say("%s mm", n(x)) }
	depth := word.Key("ruff.depth")
	e := scheme.Error{Field: designFields[of.Field], Value: word.Say("%s", n(of.Value))}
	switch of.Kind {
	case window.TucksLong:
		e.Field, e.Value = "pleat.tuck_top, pleat.tuck_bottom", word.Say("%s together", mm(of.Value))
		e.Why, e.Allowed = word.Say("take up too much of the %s between two folds", mm(p.Panel_mm)), word.Say("together at most %s", mm(of.Most))
	case window.TuckDeep:
		e.Value = mm(of.Value)
		e.Why, e.Allowed = word.Say("is too deep a tuck for %s %s", depth, mm(p.Scheme.Ruff.Depth)), word.Say("at most %s", mm(of.Most))
	case window.GapWide:
		e.Value = mm(of.Value)
		if p.Scheme.Pleat.Lines != 2 {
			e.Field = "pleat.catch"
			e.Why, e.Allowed = word.Say("holds too much of %s %s still", depth, mm(p.Scheme.Ruff.Depth)), word.Say("at most %s", mm(of.Most))
			break
		}
		e.Why, e.Allowed = word.Say("holds too much of %s %s between two stitch lines", depth, mm(p.Scheme.Ruff.Depth)), word.Say("at most %s", mm(of.Most))
	case window.NoWave:
		e.Field, e.Value = "pleat.panel", mm(p.Panel_mm)
		e.Why, e.Allowed = word.Say("less the tucks lies flat over the %s of the band that a set takes", mm(of.Value)), word.Say("a longer one, shallower tucks or more sets")
	case window.NoOuterWave:
		e.Field, e.Value = "pleat.panel", mm(p.Panel_mm)
		e.Why, e.Allowed = word.Say("lies flat over the %s that a set takes at the outer edge", mm(of.Value)), word.Say("at least %s", mm(of.Value/of.Most*p.Panel_mm))
	case window.StickThick:
		e.Value = mm(of.Value)
		e.Why, e.Allowed = word.Say("is too thick a stick for the loops"), word.Say("at most %s", mm(of.Most))
	case window.TooShort:
		e.Field, e.Value = "pleat.panel", mm(p.Panel_mm)
		e.Why, e.Allowed = word.Say("less the tucks does not reach from edge to edge of the band"), word.Say("at least %s", mm(p.Panel_mm+p.InnerPanel_mm*(1/of.Value-1)))
	default:
		e.Why, e.Allowed = word.Say("is more or less than the solver takes"), word.Say("%s to %s", n(of.Least), n(of.Most))
	}
	return fmt.Errorf("%w: %w", ErrDesign, misfit{e, of})
}
