package check

import "math"

var secondLineLaw = law{Rule: Rule{"second-line", "The second stitch line changes the height", Note, viewerSees, "%", "at most, either way, of the height that one line gives by geometry", practice, WhereInner, FromMechanics},
	find: (*view).secondLine, parts: shapePart, when: (*view).twoLines}

// secondLine holds the solved height against the closed form's, which knows one
// stitch line.
func (v *view) secondLine() (seen, bool) {
	one := v.r.Folded.Mean.HeightOuter_mm
	s := seen{limit: viewerSees}
	if !(one > 0) || v.sunk() {
		return s, false
	}
	h := v.measures().HeightOuter_mm
	s.value = 100 * (h/one - 1)
	if math.Abs(s.value) <= viewerSees {
		return s, false
	}
	s.limit = math.Copysign(viewerSees, s.value)
	s.says(than(s.value, "With a second stitch line %s out, the sets stand %s high, %s taller than one line gives by geometry.",
		"With a second stitch line %s out, the sets stand %s high, %s lower than one line gives by geometry."),
		v.len(v.s.Pleat.LineGap), v.len(h), v.len(math.Abs(h-one)))
	for _, g := range []float64{v.s.Pleat.LineGap / 2, v.s.Pleat.LineGap / 4} {
		if g = tenth(g); v.allowed("pleat.line_gap", g) {
			s.offer([]Change{toMM("pleat.line_gap", g)}, "Sew the second line %s out.", v.len(g))
			break
		}
	}
	s.offer([]Change{to("pleat.lines", "1")}, "Sew one line only.")
	return s, true
}
