package check

import (
	"math"

	"ruffwright/sim"
)

var driftLaw = law{Rule: Rule{"drift", "Marks drift along the strip", Mend, 0, "mm", "at most one fold to fold length, either way", practice, WhereMarks, FromHand},
	find: (*view).drift}

// drift: marks stepped off one from the next run away together.
func (v *view) drift() (seen, bool) {
	all := v.s.Hand.Drift * float64(v.p.Sets)
	s := seen{value: all, limit: v.p.Panel_mm}
	if math.Abs(all) <= s.limit {
		return s, false
	}
	s.atMarks(len(v.p.Row))
	s.says(than(all, "Marked one from the next, %s out at each set, the last mark lies %s beyond its end: more than one fold to fold length.",
		"Marked one from the next, %s out at each set, the last mark lies %s short of its end, with cloth left over: more than one fold to fold length."),
		v.len(math.Abs(v.s.Hand.Drift)), v.len(math.Abs(all)))
	s.offer([]Change{to("hand.drift", "0")}, "Measure every mark from one end, or use the marking tape.")
	return s, true
}

var markingLaw = law{Rule: Rule{"marking", "Marking errors will show", Mend, viewerSees, "%", "at most, of the height", practice, WhereMarks, FromHand},
	find: (*view).marking}

// marking: errors of single marks make sets of different height (sim.HandHeight).
func (v *view) marking() (seen, bool) {
	h := v.r.Folded.Mean.HeightOuter_mm
	spread := sim.HandHeight * v.s.Hand.Error
	s := seen{value: 100 * spread / h, limit: viewerSees}
	if !(h > 0) || s.value <= viewerSees {
		return s, false
	}
	s.says("Marks out by %s make sets whose heights differ by about %s, %s %% of the height: a viewer sees that from %s on.",
		v.len(v.s.Hand.Error), v.len(spread), Number(s.value, 0), v.len(viewerSees*h/100))
	if e := math.Floor(10*viewerSees*h/100/sim.HandHeight) / 10; e > 0 {
		s.offer([]Change{toMM("hand.error", e)}, "Mark to %s: with the marking tape and a hard pencil.", v.len(e))
	}
	return s, true
}
