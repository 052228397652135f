package check

import "math"

var depthLaw = law{Rule: Rule{"depth", "The depth is off", Mend, viewerSees, "%", "at most, either way, of ruff.depth", practice, WhereOuter, FromMechanics},
	find: (*view).depth, parts: shapePart}

// depth: how far the outer edge stands out from the neckline against the depth
// wished, level or as a supporter slopes. A ruff that sank is spoken of there.
func (v *view) depth() (seen, bool) {
	m := v.measures()
	want := v.s.Ruff.Depth * math.Cos((m.Tilt_deg-v.beyondLevel(m))*math.Pi/180)
	s := seen{value: 100 * (m.Reach_mm/want - 1), limit: viewerSees}
	if v.sunk() || math.Abs(s.value) <= viewerSees {
		return s, false
	}
	s.limit = math.Copysign(viewerSees, s.value)
	s.says(than(s.value, "The outer edge stands %s out from the neck, %s farther than the %s of cloth would reach: in its folds it goes by a longer way.",
		"The outer edge stands %s out from the neck, %s less than the %s of cloth would reach: in its folds it goes by a longer way."),
		v.len(m.Reach_mm), v.len(math.Abs(m.Reach_mm-want)), v.len(want))
	if s.value > 0 {
		s.says("The outer edge stands %s out from the neck, %s farther than the %s of cloth would reach level: the folds open toward it.",
			v.len(m.Reach_mm), v.len(m.Reach_mm-want), v.len(want))
	}
	if v.twoLines() {
		s.offer([]Change{to("pleat.lines", "1")}, "Sew one line only.")
	}
	d := tenth(v.s.Ruff.Depth * want / m.Reach_mm)
	s.offer([]Change{toMM("ruff.depth", d)}, "Cut the strip for a depth of %s.", v.len(d))
	return s, true
}
