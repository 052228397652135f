package check

import (
	"math"

	"ruffwright/geom/scheme"
)

// offerBoth offers to sew the folds that hang to the other edge of the band: with
// tucks that leave the inner edge the slack that lies clean, and without tucks on
// a band as high as that takes.
func (v *view) offerBoth(s *seen) {
	if !v.oneEdge() {
		return
	}
	keys := []string{"pleat.anchor", "pleat.marks"}
	if !v.p.MarksOwn {
		keys = keys[:1]
	}
	base := asIn(v.s.SewnTo(scheme.EdgeTop, scheme.EdgeBottom), keys...)
	goal := v.goalSlack()
	// Where the sewn folds hang from the edge of their kind, the others go to theirs.
	tucked := "Sew the top folds to the top edge and the bottom folds to the bottom edge. Tuck the top folds by %s, the bottom folds by %s."
	plain := "Sew the top folds to the top edge and the bottom folds to the bottom edge, without tucks, on a band %s high."
	switch kind, edge := v.p.Row.Kind(), v.p.Row.Edge(); {
	case kind == scheme.Trough && edge == scheme.EdgeBottom:
		tucked = "Sew the top folds as well, to the top edge, with tucks of %s at the top folds and %s at the bottom folds."
		plain = "Sew the top folds as well, to the top edge, without tucks, on a band %s high."
	case kind == scheme.Crest && edge != scheme.EdgeBottom:
		tucked = "Sew the bottom folds as well, to the bottom edge, with tucks of %s at the top folds and %s at the bottom folds."
		plain = "Sew the bottom folds as well, to the bottom edge, without tucks, on a band %s high."
	}
	if a, b, ok := v.tucksFor(v.p.Panel_mm, goal*v.straight()); ok {
		s.offer(append(base[:len(base):len(base)], toMM("pleat.tuck_top", a), toMM("pleat.tuck_bottom", b)),
			tucked, v.len(a), v.len(b))
	}
	h := tenth(v.bandFor(v.p.Panel_mm, goal))
	s.offer(append(base[:len(base):len(base)], to("pleat.tuck_top", "0"), to("pleat.tuck_bottom", "0"), toMM("band.height", h)),
		plain, v.len(h))
}

// goalSlack is the mean slack at which the shortest panel has what lies clean.
func (v *view) goalSlack() float64 {
	least := v.p.Panel_mm
	for k := range v.p.Panels {
		least = math.Min(least, v.p.Row.Panel(k))
	}
	return GoodSlack + (v.p.Panel_mm-least)/v.straight()
}

// offerSewnAsWished offers to sew the other folds where those that are sewn turn
// the flaps against the wish.
func (v *view) offerSewnAsWished(s *seen) {
	if !v.oneEdge() || v.p.MarksOwn {
		return
	}
	sewn, words := scheme.Crest, "Sew the top folds instead."
	if v.s.Ruff.Flaps == scheme.Stand {
		sewn, words = scheme.Trough, "Sew the bottom folds instead."
	}
	if v.p.Row.Kind() != sewn {
		s.offer([]Change{to("pleat.sewn", string(sewn)+"s")}, words)
	}
}
