package check

import (
	"math"

	"ruffwright/geom/curve"
)

// loopsOutside is how far an inner loop may reach into its neighbour's room
// before it must give way, as a part of half a set's room. Judgement, no source.
const loopsOutside = 10 // %

var loopsCrowdedLaw = law{Rule: Rule{"loops-crowded", "Loops push each other at the inner edge", Note, loopsOutside, "%", "at most, of half the room for a set", judged, WhereInner, FromGeometry},
	find: (*view).loopsCrowded}

// loopsCrowded: an inner loop that reaches into its neighbour's room has to give
// way. Only where both edges are sewn; hanging loops touch at the neck in any
// full ruff, and that holds them.
func (v *view) loopsCrowded() (seen, bool) {
	s := seen{limit: loopsOutside}
	if !v.hasSlack() || v.r.Folded.Mean.InnerStraight {
		return s, false
	}
	out := 0.
	for _, m := range v.r.Folded.Half {
		out = math.Max(out, m.InnerOutside_mm)
	}
	half := v.p.Pitch_mm / 2
	s.value = 100 * out / half
	if s.value <= loopsOutside {
		return s, false
	}
	s.says("At the inner edge the loops want %s more than the %s that half a set has: they push each other, and some will give way more than others.", v.len(out), v.len(half))
	// The most slack at which the loops stay well inside the limit.
	for goal := GoodSlack; goal > slackLeast; goal -= 0.005 {
		e, err := curve.NewSewnElastica(goal*v.straight(), half, v.s.Band.Height)
		if err == nil && 100*e.Overlap()/half <= loopsOutside/2. {
			v.offerTucks(&s, v.p.Slack*v.straight(), goal)
			break
		}
	}
	return s, true
}
