package check

import "math"

var slackShortLaw = law{Rule: Rule{"slack-short", "The inner edge does not reach from fold to fold", Stop, slackLeast, "", "at least", geometry, WhereTucks, FromGeometry},
	find: (*view).slackShort}

// slackShort: the cloth between two sewn folds must reach.
func (v *view) slackShort() (seen, bool) {
	s := seen{limit: slackLeast}
	if !v.hasSlack() {
		// Folds that hang: the inner edge must still span half a set's room.
		inner := math.Inf(1)
		for i := range v.p.Panels {
			inner = math.Min(inner, v.p.Row.Inner(i))
		}
		half := v.p.Pitch_mm / 2
		s.value = inner / half
		if s.value >= slackLeast {
			return s, false
		}
		v.atWorst(&s, true)
		s.says("Between two folds the inner edge is %s long, but half a set takes %s of the band: it cannot reach.", v.len(inner), v.len(half))
		v.offerLessRoom(&s)
		return s, true
	}
	s.value = v.p.SlackLeast
	if s.value >= slackLeast {
		return s, false
	}
	straight := v.straight()
	inner := s.value * straight
	v.atWorst(&s, true)
	s.says("Between the sewn folds lie %s of cloth, but a top fold and the next bottom fold are %s apart on the band: it cannot reach, by %s.",
		v.len(inner), v.len(straight), v.len(straight-inner))
	v.offerSlack(&s, inner)
	return s, true
}

var slackLongLaw = law{Rule: Rule{"slack-long", "Too much cloth between the sewn folds", Mend, slackMost, "", "at most", solved + ": clean to 1.2, crumpled over 1.3", WhereTucks, FromGeometry},
	find: (*view).slackLong}

// slackLong: too much cloth between two sewn folds crumples.
func (v *view) slackLong() (seen, bool) {
	s := seen{value: v.p.SlackMost, limit: slackMost}
	if !v.hasSlack() || s.value <= slackMost {
		return s, false
	}
	straight := v.straight()
	inner := s.value * straight
	v.atWorst(&s, false)
	s.says("Between the sewn folds lie %s of cloth for the %s from a top fold to the next bottom fold: the inner edge crumples, each set its own way.",
		v.len(inner), v.len(straight))
	v.offerSlack(&s, inner)
	return s, true
}

// offerSlack offers tucks, band and panel that bring an inner edge of the given
// length to the slack that lies clean.
func (v *view) offerSlack(s *seen, inner float64) {
	v.offerTucks(s, inner, GoodSlack)
	h := tenth(v.bandFor(inner, GoodSlack))
	s.offer([]Change{toMM("band.height", h)}, "Make the band %s high.", v.len(h))
	if !v.p.MarksOwn {
		v.offerPanel(s, tenth(v.p.Panel_mm+GoodSlack*v.straight()-inner))
	}
}

// offerLessRoom offers more sets, so that each takes less of the band.
func (v *view) offerLessRoom(s *seen) {
	inner := s.value * v.p.Pitch_mm / 2
	if _, n := v.fourfold(v.p.Neckline_mm / (2 * inner / GoodSlack)); n > 0 {
		s.offer(v.setsTo(n), "Make %d sets: each then takes less of the band.", n)
	}
}
