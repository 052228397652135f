package check

import "math"

var clothStiffnessLaw = law{Rule: Rule{"cloth-stiffness", "The cloth is too limp or too stiff", Mend, droopMost, "mm", "sinks or springs up at most so far when the sticks come out; unstarched, also by its bob, lean and bow", judged, WhereWhole, FromMechanics},
	find: (*view).clothStiffness, parts: bowPart | tangentsPart}

// clothStiffness says where the cloth itself is at fault, from what was measured
// and without solving any other cloth: that would be sim.Need. Springing open by
// more than droopMost when the sticks come out is too stiff a cloth for its
// setting; sinking by as much is too limp a one; and unstarched cloth is too limp
// where something is over its limit that in solved half sets starch brought below
// it, as a note beside the finding that it causes: bob, the lean of untucked sets, the bow of tucked ones. The bow of untucked
// sets at one edge is not among them, for starch does not bring it below 2 mm.
func (v *view) clothStiffness() (seen, bool) {
	m := v.measures()
	folds, _ := Doubt(m)
	s := seen{value: m.Droop_mm, limit: droopMost, severity: milder(Mend, math.Abs(m.Droop_mm)-droopMost, folds)}
	switch {
	case v.sunk():
		return s, false // however stiff, so sewn it would sink
	case s.value > droopMost:
		s.says("The cloth is too limp for its setting: let go, the outer edge sinks by %s from where the sticks held it.", v.giveOrTake(s.value))
		v.offerSetting(&s)
		v.offerStarch(&s, math.Max(stiffUsual, 1.25*v.bend()))
		v.offerSupport(&s)
		return s, true
	case s.value < -droopMost:
		s.limit = -droopMost
		if v.unstarched() {
			s.says("The cloth is too stiff to lie in these folds unstarched: when the sticks come out it springs open, and the outer edge rises by %s.", v.giveOrTake(-s.value))
		} else {
			s.says("The cloth's own stiffness is more than its starch holds: when the sticks come out it springs open, and the outer edge rises by %s.", v.giveOrTake(-s.value))
		}
		v.offerSetting(&s)
		v.offerStarch(&s, math.Max(stiffUsual, 1.25*v.bend()))
		v.offerLimper(&s)
		return s, true
	}
	if !v.unstarched() {
		return s, false
	}
	for _, c := range []struct {
		value, limit float64
		judged       bool
		says         string
	}{
		{m.Vertical_mm_per_g, bobMost, m.VerticalStable, "Unstarched, this cloth is too limp: it is what lets the loops bob, by %s."},
		{m.Lateral_mm_per_g, leanMost, m.LateralStable && v.untucked(), "Unstarched, this cloth is too limp: it is what lets the loops lean, by %s."},
		{m.Bow_mm, bowMost, m.BowDone && v.tucked(), "Unstarched, this cloth is too limp: it is what lets the loops swing as the wearer bows, by %s."},
	} {
		if c.judged && c.value > c.limit {
			s.value, s.limit, s.severity = c.value, c.limit, Note // what it does is said elsewhere
			s.says(c.says, v.len(c.value))
			v.offerStarch(&s, stiffUsual)
			return s, true
		}
	}
	return s, false
}
