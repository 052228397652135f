package check

import (
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

var bowLaw = law{Rule: Rule{"bow", "The lower edge is not supported", Stop, bowMost, "mm", "moves at most, when the wearer bows 60°; to 8 it is to mend, over 8 it stops", judged, WhereOuter, FromMechanics},
	find: (*view).bow, parts: bowPart}

// bow asks whether anything but its weight holds the outer edge: gravity turns by
// 60° as the wearer bows.
func (v *view) bow() (seen, bool) {
	m := v.measures()
	_, doubt := Doubt(m)
	s := seen{value: m.Bow_mm, limit: bowMost}
	if !m.BowDone {
		s.severity = Note
		s.says("When the wearer bows the cloth did not come to rest in the solver: how firmly the lower edge is held is not known.")
		return s, v.bowTried()
	}
	swings := v.within(s.value, doubt)
	s.severity = milder(Mend, s.value-bowMost, doubt)
	switch {
	case MayBow(m):
		s.severity = Note
		s.says("When the wearer bows the outer edge swings by %s, give or take %s: whether it is held firm enough is not sure.", v.len(s.value), v.len(doubt))
		v.offerBoth(&s)
		v.offerTuckAndStarch(&s)
		return s, true
	case s.value <= bowMost:
		return s, false
	case s.value > bowStop:
		s.severity, s.limit = milder(Stop, s.value-bowStop, doubt), bowStop
	}
	if v.oneEdge() {
		v.onSupport(&s)
	}
	switch {
	case !v.oneEdge():
		s.says("Though both edges are sewn, the outer edge swings by %s when the wearer bows: so deep a ruff of this cloth is not held by its folds alone.", swings)
	case v.s.Support.Kind != scheme.NoSupport:
		s.says("Sewn at the %s only, the loops lie loose on what is under them: when the wearer bows they swing by %s.", edgeWord(v.p.Row.Edge()), swings)
	case v.unstarched():
		s.says("Sewn at the %s only, nothing but its weight holds %s: when the wearer bows it swings by %s.", edgeWord(v.p.Row.Edge()), v.looseEdge(), swings)
	default:
		s.says("Sewn at the %s only, starch alone holds %s: when the wearer bows it swings by %s.", edgeWord(v.p.Row.Edge()), v.looseEdge(), swings)
	}
	v.offerBoth(&s)
	v.offerTuckAndStarch(&s)
	v.offerSupport(&s)
	return s, true
}

// looseEdge is the part of the ruff that no stitch holds, as the solved outer edge
// lies to the sewn row.
func (v *view) looseEdge() word.Text {
	if m := v.measures(); (m.TopOuter_mm+m.BottomOuter_mm)/2 > v.sewnHeight() {
		return word.Say("what stands above the sewn row")
	}
	return word.Say("the lower edge")
}
