package figure

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// Options says how a view is drawn. The zero value is a sound sheet.
type Options struct {
	Width_mm, Height_mm float64       // of the sheet, 80 to 1,000; 0 = 240 × 180
	Units               scheme.Units  // of the dimensions
	Language            word.Language // of what is said on it; zero = English
	Palette             draw.Palette  // zero = Light()
	Against             bool          // what is solid is seen against the light: a window stands behind it
	Notes               []Note        // what to point at
	Set                 int           // selected set, 1 the first; 0 = none (OneSet: the middle one)

	Tone *Tone // what the cloth is dyed by; nil = it is white. Flat has none

	// InHand: the shape is on its way from the strip laid flat. It is seen about
	// its own middle, as near as the finished ruff would be or up to twice as far;
	// what reaches farther is cut off.
	Row bool

	// Joins_mm is where pieces of the strip are joined, in mm from its first mark
	// (Flat): the pattern decides it. What lies beyond the marks is not drawn.
	Joins_mm []float64

	// InHand: turn about the upright axis in degrees (0 = the front faces the
	// eye), the eye's height in degrees (0 level, 90 from above, −90 from
	// below), and enlargement 0.2 to 10 (0 = 1, the whole ruff).
	Turn_deg, Tilt_deg, Zoom float64

	// Scale is the largest scale wanted, sheet mm for one mm of the ruff, before
	// Zoom; 0 = as large as the sheet takes. Two ruffs are drawn alike at the lesser
	// of the Scales of their Drawings. Laid flat a strip knows no scale.
	Scale float64

	// Letter names the drawing where it stands Beside another: "A", "B".
	Letter string

	// Kept, where it is given, keeps the scene of one drawing for the next: what is
	// seen again, only from elsewhere, is the same draw.Solid.Scene.
	Kept *Kept

	// Held, where it is given, keeps where the parts of the drawing lie, and has them stay.
	Held *Held

	// Moves says that the shape changes in place from drawing to drawing: nothing that
	// is made of it is kept.
	Moves bool

	// Rest is the ruff at rest, which the wearer's form is fitted to; nil: the shape
	// that is drawn. Bow_deg is how far the wearer bows, 0 to 90: form and ruff turn by
	// it together (InHand), over a pale ghost of Rest.
	Rest    *pleat.Shape
	Bow_deg float64

	// PanX_mm and PanY_mm are how far the ruff in the hand is moved to the right and up,
	// mm of the ruff.
	PanX_mm, PanY_mm float64

	// Plain draws what is solid as it is drawn while it moves: at once, in simple light.
	Plain bool

	// Signs shows notes by their signs alone: what they say stands elsewhere. Without
	// it the words hang below the sheet, which grows by them: the ruff stays as it is.
	Signs bool
}

// Note is something to point at: its sign, with a letter, is set at the place, and the
// words below the sheet.
type Note struct {
	Where string    // one of the Where constants
	Text  word.Text // shortened to fit
	Sign  Sign
	At    []int // numbers of the marks that it is about, counted from 1; none: the view chooses a place
}

// Sign says what kind of note it is; it sets dye and mark. The words are those
// of the findings' severities.
type Sign string

const (
	SignStop     Sign = "stop"     // madder, a cross
	SignMend     Sign = "mend"     // weld, a diamond
	SignNote     Sign = "note"     // walnut, a ring
	SignCaution  Sign = "caution"  // walnut, a triangle
	SignSelected Sign = "selected" // woad, a disc
)

// The places that a note can point at. A finding's place uses the same words.
const (
	WhereOuter   = "outer edge"
	WhereInner   = "inner edge"
	WhereBand    = "band"
	WhereOpening = "opening"
	WhereMarks   = "marks"
	WhereJoins   = "joins"
	WhereNeck    = "neck"
	WhereTucks   = "tucks"
	WhereFlaps   = "flaps"
	WhereStrip   = "strip"
	WhereChin    = "chin"
	WhereSupport = "support" // the collar or the supporter that the ruff rests on
	WhereWhole   = "ruff"    // the whole of it; unknown places are taken for it
)

// wheres are all of them.
var wheres = []string{WhereOuter, WhereInner, WhereBand, WhereOpening, WhereMarks, WhereJoins, WhereNeck, WhereTucks, WhereFlaps, WhereStrip, WhereChin, WhereSupport, WhereWhole}

// dye gives the colour of a sign and the word that goes with it.
func (s Sign) dye(p draw.Palette) (color.NRGBA, word.Text) {
	switch s {
	case SignStop:
		return p.Madder, word.Say("stop")
	case SignMend:
		return p.Weld, word.Say("mend")
	case SignSelected:
		return p.Woad, word.Say("selected")
	case SignCaution:
		return p.Walnut, word.Say("caution")
	}
	return p.Walnut, word.Say("note")
}

const (
	minSheet_mm, maxSheet_mm = 80, 1000
	maxScale                 = 6 // sheet mm per mm of the ruff: the smallest still look small
	maxNotes                 = 6 // that a sheet points at; more would hide the ruff
)

func bad(field string, value any, allowed string, with ...any) error {
	return scheme.Error{Field: field, Value: word.Say("%v", value), Why: word.Say("cannot be drawn"), Allowed: word.Say(allowed, with...)}
}

func (o Options) filled() (Options, error) {
	if o.Width_mm == 0 && o.Height_mm == 0 {
		o.Width_mm, o.Height_mm = 240, 180
	}
	for _, f := range []struct {
		name      string
		v, lo, hi float64
	}{
		{"Width_mm", o.Width_mm, minSheet_mm, maxSheet_mm},
		{"Height_mm", o.Height_mm, minSheet_mm, maxSheet_mm},
		{"Turn_deg", o.Turn_deg, -1e6, 1e6},
		{"Tilt_deg", o.Tilt_deg, -90, 90},
		{"Zoom", o.Zoom, 0, 10},
		{"Scale", o.Scale, 0, 1e6},
		{"Bow_deg", o.Bow_deg, 0, 90},
		{"PanX_mm", o.PanX_mm, -1e5, 1e5},
		{"PanY_mm", o.PanY_mm, -1e5, 1e5},
		{"Set", float64(o.Set), 0, 1e6},
	} {
		if !(f.v >= f.lo && f.v <= f.hi) { // NaN fails too
			return o, bad(f.name, f.v, "%g to %g", f.lo, f.hi)
		}
	}
	for _, x := range o.Joins_mm {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return o, bad("Joins_mm", x, "places in mm")
		}
	}
	o.Palette = cmp.Or(o.Palette, draw.Light())
	o.Zoom = max(cmp.Or(o.Zoom, 1), 0.2)
	o.Notes = slices.Clone(o.Notes)
	for i, n := range o.Notes {
		if !slices.Contains(wheres, n.Where) {
			o.Notes[i].Where = WhereWhole
		}
		o.Notes[i].At = slices.DeleteFunc(slices.Clone(n.At), func(m int) bool { return m < 1 })
	}
	return o, nil
}

// most is the largest scale that a view may take.
func (o Options) most() float64 { return min(cmp.Or(o.Scale, maxScale), maxScale) }

// checkShape refuses what cannot be drawn: an empty shape, one whose panels do
// not fit its grid or the plan, and nodes that are not finite.
func checkShape(plan pleat.Plan, shape pleat.Shape) error {
	if err := checkPlan(plan); err != nil {
		return err
	}
	if shape.NU < 1 || shape.NV < 1 {
		return bad("grid of the shape", min(shape.NU, shape.NV), "at least 1 × 1 cells")
	}
	if len(shape.Panels) < 2 || len(shape.Panels) != plan.Panels {
		return bad("panels of the shape", len(shape.Panels), "the plan's %d, at least 2", plan.Panels)
	}
	want, reach := (shape.NU+1)*(shape.NV+1), 0.0
	for k, p := range shape.Panels {
		if len(p.V) != want {
			return bad("nodes of a panel", len(p.V), "%d, as in panel %d", want, k)
		}
		for i, v := range p.V {
			if !(math.Abs(v.X)+math.Abs(v.Y)+math.Abs(v.Z) < 1e5) {
				return bad("shape", v, "places below 100 m, as in panel %d, node %d", k, i)
			}
			reach = max(reach, math.Abs(v.X), math.Abs(v.Y))
		}
	}
	if reach < 1 {
		return bad("reach of the shape", reach, "at least 1 mm from the middle of the neck")
	}
	return nil
}

func checkPlan(plan pleat.Plan) error {
	if len(plan.Row) != plan.Panels+1 || plan.Panels < 2 {
		return bad("marks of the plan", len(plan.Row), "one more than panels, at least 3")
	}
	for _, f := range []struct {
		name string
		v    float64
	}{
		{"neckline", plan.Neckline.Girth()}, {"band height", plan.Scheme.Band.Height},
		{"depth", plan.Scheme.Ruff.Depth}, {"strip", plan.Marked_mm},
	} {
		if !(f.v > 0 && f.v < 1e6) {
			return bad(f.name, f.v, "above 0 mm")
		}
	}
	return nil
}
