package check

import "math"

var outerShortLaw = law{Rule: Rule{"outer-short", "Fold to fold is too short for the outer edge", Stop, 0, "mm", "at least half the room for a set at the outer edge", geometry, WhereOuter, FromGeometry},
	find: (*view).outerShort}

// outerShort: a panel must at least span half a set's room at the outer edge.
func (v *view) outerShort() (seen, bool) {
	var s seen
	s.value = math.Inf(1)
	flat := false
	for _, m := range v.r.Folded.Half {
		if m.OuterStraight {
			flat = true
			if m.Panel_mm < s.value {
				s.value, s.limit = m.Panel_mm, m.PitchOuter_mm/2
			}
		}
	}
	if !flat {
		return seen{}, false
	}
	v.atPanels(&s, func(i int) bool { return v.r.Folded.Half[i].OuterStraight })
	s.says("Fold to fold is %s, but at the outer edge half a set has %s to span: the edge lies flat and pulls the ruff into a cone.", v.len(s.value), v.len(s.limit))
	v.offerFitted(&s)
	return s, true
}
