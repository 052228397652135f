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
	other, fold := "bottom", "bottom folds"
	if v.p.Row.Edge() == scheme.EdgeBottom {
		other = "top"
	}
	if v.p.Row.Kind() == scheme.Trough {
		fold = "top folds"
	}
	what := "Sew the " + fold + " as well, to the " + other + " edge"
	if (other == "top") != (fold == "top folds") {
		what = "Sew the top folds to the top edge and the bottom folds to the bottom edge"
	}
	if a, b, ok := v.tucksFor(v.p.Panel_mm, goal*v.straight()); ok {
		s.offer(append(base[:len(base):len(base)], toMM("pleat.tuck_top", a), toMM("pleat.tuck_bottom", b)),
			"%s, with tucks of %s at the top folds and %s at the bottom folds.", what, v.len(a), v.len(b))
	}
	h := tenth(sqrtOf(math.Pow(v.p.Panel_mm/goal, 2) - math.Pow(v.p.Pitch_mm/2, 2)))
	if v.allowed("band.height", h) {
		s.offer(append(base[:len(base):len(base)], to("pleat.tuck_top", "0"), to("pleat.tuck_bottom", "0"), toMM("band.height", h)),
			"%s, without tucks, on a band %s high.", what, v.len(h))
	}
}

// goalSlack is the mean slack at which the shortest panel has what lies clean.
func (v *view) goalSlack() float64 {
	least := v.p.Panel_mm
	for k := range v.p.Panels {
		least = math.Min(least, v.p.Row.Panel(k))
	}
	return slackGood + (v.p.Panel_mm-least)/v.straight()
}

// offerSewnAsWished offers to sew the other folds where those that are sewn turn
// the flaps against the wish.
func (v *view) offerSewnAsWished(s *seen) {
	if !v.oneEdge() || v.p.MarksOwn {
		return
	}
	sewn, word := scheme.Crest, "top folds"
	if v.s.Ruff.Flaps == scheme.Stand {
		sewn, word = scheme.Trough, "bottom folds"
	}
	if v.p.Row.Kind() != sewn {
		s.offer([]Change{to("pleat.sewn", string(sewn)+"s")}, "Sew the %s instead.", word)
	}
}
