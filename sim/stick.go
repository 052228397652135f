package sim

import (
	"slices"

	"ruffwright/geom/curve"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim/window"
)

// Sticks are what the sets of a plan dry on, in mm.
type Sticks struct {
	Own_mm   float64 // thickness on which the narrowest set stands as tall as its own free loops
	Given_mm float64 // thickness that the scheme names; 0: it names none, and Own_mm counts
	Tip_mm   float64 // thickness at the inner end that the scheme names; 0: none
	Reach_mm float64 // from the outer edge in
	p        pleat.Plan
}

// NewSticks gives the sticks of a plan; false where its sets dry hung up.
func NewSticks(p pleat.Plan) (Sticks, bool) {
	s := p.Scheme
	q := Sticks{Given_mm: s.Starch.Stick, Tip_mm: s.Starch.Tip, Reach_mm: min(s.Starch.Reach, s.Ruff.Depth), p: p}
	if q.Reach_mm == 0 {
		q.Reach_mm = window.StickReach * s.Ruff.Depth
	}
	q.Own_mm = window.OwnStick(p.Panel_mm, window.Room_mm(p.Pitch_mm/2, slices.Min(p.Curvatures()), s.Ruff.Depth), s.Cloth.Thickness)
	return q, s.Starch.Dry != scheme.Hung
}

// Height_mm is how tall the sets stand, drawn snugly over sticks so thick: plane geometry
// of a strip round two rods (curve.TautHeight) at the mean room of a set. An error says
// that such sticks do not fit.
func (q Sticks) Height_mm(thick_mm float64) (float64, error) {
	return curve.TautHeight(q.p.Panel_mm, q.p.PitchOuter_mm/2, (thick_mm+q.p.Scheme.Cloth.Thickness)/2)
}
