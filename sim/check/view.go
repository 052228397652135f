package check

import (
	"math"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
)

// view is a ruff as the rules look at it.
type view struct {
	r sim.Ruff
	p *pleat.Plan
	s scheme.Scheme // filled
	u scheme.Units
}

// Length is a length for a sentence (scheme.Rounded); in inches what is less than their
// mark is said exactly.
func Length(mm float64, u scheme.Units) word.Text {
	if r := scheme.Rounded(mm, u); u != scheme.Inches || r != 0 {
		mm = r
	}
	return scheme.Length(mm, u)
}

func (v *view) len(mm float64) word.Text { return Length(mm, v.u) }

// Number is a number for a sentence with at most n decimals.
func Number(x float64, n int) word.Number {
	f := math.Pow(10, float64(n))
	return word.Number{Value: math.Round(x*f)/f + 0, Decimals: n, Short: true} // + 0: no −0
}

// straight is the distance between a fold sewn to the top edge and the next,
// sewn to the bottom edge, mm.
func (v *view) straight() float64 {
	return math.Hypot(v.s.Band.Height, v.p.Pitch_mm/2)
}

// hasSlack says whether both kinds of fold are sewn, so that there is a slack.
func (v *view) hasSlack() bool   { return v.p.Slack > 0 }
func (v *view) oneEdge() bool    { return v.p.Row.OneEdge() }
func (v *view) tucked() bool     { return v.p.Row.Tucked() }
func (v *view) untucked() bool   { return !v.tucked() }
func (v *view) ownMarks() bool   { return v.p.MarksOwn }
func (v *view) limpTucks() bool  { return v.tucked() && v.unstarched() }
func (v *view) twoLines() bool   { return v.s.Pleat.Lines == 2 }
func (v *view) aboutNeck() bool  { return v.s.Wearer.Part != scheme.Wrist }
func (v *view) unstarched() bool { return v.s.Starch.Bend == 0 }
func (v *view) starched() bool   { return !v.unstarched() }

// sewnHeight is the height of the sewn row over the band's bottom edge where one edge is
// sewn, mm.
func (v *view) sewnHeight() float64 { return v.p.Edge_mm(v.p.Row.Edge()) }

// tucks are the tuck depths at top and at bottom folds, mm; 0 where those hang free.
func (v *view) tucks() (top, bottom float64) {
	return v.p.Row.Tuck(scheme.Crest), v.p.Row.Tuck(scheme.Trough)
}

// bend is the bending length of the cloth along the strip as it hangs, starched
// or not, mm.
func (v *view) bend() float64 {
	own := v.s.Cloth.BendWeft
	if v.s.Strip.Along == scheme.Warp {
		own = v.s.Cloth.BendWarp
	}
	return math.Max(own, v.s.Starch.Bend)
}
