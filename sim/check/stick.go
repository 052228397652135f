package check

import "math"

// stickLeast: the thinnest common rod, 3 mm, and 1 mm of room for damp cloth.
// Common practice, no source.
const stickLeast = 4 // mm

var stickLaw = law{Rule: Rule{"stick", "No stick fits the loops", Mend, stickLeast, "mm", "at least, clear width of the loops: the thinnest rod and 1 mm", practice, WhereOuter, FromMechanics},
	find: (*view).stick, parts: shapePart}

// stick: the narrowest loops decide what they can be set over.
func (v *view) stick() (seen, bool) {
	s := seen{value: math.Inf(1), limit: stickLeast}
	for _, m := range v.r.Solved.Sets {
		s.value = math.Min(s.value, m.Loop_mm)
	}
	if s.value >= stickLeast || v.sunk() {
		return s, false
	}
	s.says("The loops are only %s wide inside: no stick goes in, and they can be set over a blunt needle or fine straw alone.", v.len(s.value))
	n, _ := v.fourfold(0.95 * float64(v.p.Sets) * math.Max(s.value, 1) / stickLeast)
	s.offer(v.setsTo(n), "Make %d sets, with wider loops.", n)
	return s, true
}
