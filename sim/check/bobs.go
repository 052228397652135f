package check

var bobsLaw = law{Rule: Rule{"bobs", "The ruff bobs", Stop, bobMost, "mm", "at most, for its own weight once more", judged, WhereWhole, FromMechanics},
	find: (*view).bobs, parts: tangentsPart}

// bobs: a ruff that its own weight once more would bend far down trembles with
// every step. Of one that sank sinks speaks.
func (v *view) bobs() (seen, bool) {
	m := v.measures()
	s := seen{value: m.Vertical_mm_per_g, limit: bobMost}
	if !m.VerticalStable || s.value <= bobMost || v.sunk() {
		return s, false
	}
	s.says("It bobs with every step: its own weight once more would bring the outer edge down by %s.", v.len(s.value))
	v.offerBoth(&s)
	v.offerSetting(&s)
	v.offerTuckAndStarch(&s)
	v.offerSupport(&s)
	return s, true
}
