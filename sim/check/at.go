package check

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
)

// atMarks notes marks that a finding speaks of, counted from 1 along the strip.
func (s *seen) atMarks(marks ...int) { s.at = append(s.at, marks...) }

// onSupport notes that a finding speaks of what the ruff rests on, where it rests on
// anything.
func (v *view) onSupport(s *seen) {
	if v.s.Support.Kind != scheme.NoSupport {
		s.where = WhereSupport
	}
}

// atPanels notes the marks at both ends of the panels that a finding speaks of;
// nothing where it speaks of every panel, or of none.
func (v *view) atPanels(s *seen, speaks func(panel int) bool) {
	var at []int
	n := 0
	for i := range v.p.Panels {
		if !speaks(i) {
			continue
		}
		n++
		for _, m := range []int{i + 1, i + 2} {
			if len(at) == 0 || at[len(at)-1] < m {
				at = append(at, m)
			}
		}
	}
	if n > 0 && n < v.p.Panels {
		s.at = at
	}
}

// atSets notes the panels of the solved half sets that a finding speaks of.
func (v *view) atSets(s *seen, speaks func(measure.Values) bool) {
	r := v.r.Solved
	if r == nil || len(r.Of) != v.p.Panels {
		return
	}
	v.atPanels(s, func(i int) bool { return speaks(r.Sets[r.Of[i]]) })
}

// atWorst notes the panels whose inner edge is the shortest (least) or the longest,
// where they differ.
func (v *view) atWorst(s *seen, least bool) {
	if v.p.Row.Regular() {
		return
	}
	worst := v.p.Row.Inner(0)
	for i := range v.p.Panels {
		if in := v.p.Row.Inner(i); in < worst == least && in != worst {
			worst = in
		}
	}
	v.atPanels(s, func(i int) bool { return math.Abs(v.p.Row.Inner(i)-worst) < 0.05 }) // what a hand cannot tell apart
}

// nearestMark is the number of the mark nearest to a place on the strip, mm.
func (v *view) nearestMark(mm float64) int {
	best := 0
	for i, m := range v.p.Row {
		if math.Abs(m.Place_mm-mm) < math.Abs(v.p.Row[best].Place_mm-mm) {
			best = i
		}
	}
	return best + 1
}
