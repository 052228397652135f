package check

import (
	"math"

	"ruffwright/sim/measure"
)

// atMarks notes marks that a finding speaks of, counted from 1 along the strip.
func (s *seen) atMarks(marks ...int) { s.at = append(s.at, marks...) }

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

// innerOf is the inner edge of a panel: what its tucks leave of it, mm.
func (v *view) innerOf(panel int) float64 {
	a, b := v.p.Marks[panel], v.p.Marks[panel+1]
	return b.Place_mm - a.Place_mm - a.Tuck_mm - b.Tuck_mm
}

// atWorst notes the panels whose inner edge is the shortest (least) or the longest,
// where marks are the maker's own and so differ.
func (v *view) atWorst(s *seen, least bool) {
	if !v.p.MarksOwn {
		return
	}
	worst := v.innerOf(0)
	for i := range v.p.Panels {
		if in := v.innerOf(i); in < worst == least && in != worst {
			worst = in
		}
	}
	v.atPanels(s, func(i int) bool { return math.Abs(v.innerOf(i)-worst) < 0.05 }) // what a hand cannot tell apart
}

// nearestMark is the number of the mark nearest to a place on the strip, mm.
func (v *view) nearestMark(mm float64) int {
	best := 0
	for i, m := range v.p.Marks {
		if math.Abs(m.Place_mm-mm) < math.Abs(v.p.Marks[best].Place_mm-mm) {
			best = i
		}
	}
	return best + 1
}
