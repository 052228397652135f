package check

import (
	"math"

	"ruffwright/geom/curve"
	"ruffwright/geom/scheme"
)

// straight is the distance between a fold sewn to the top edge and the next,
// sewn to the bottom edge, mm.
func (v *view) straight() float64 {
	return math.Hypot(v.s.Band.Height, v.p.Pitch_mm/2)
}

// held says whether both kinds of fold are sewn, so that there is a slack.
func (v *view) held() bool { return v.p.Slack > 0 }

// slackShort: the cloth between two sewn folds must reach.
func (v *view) slackShort() (seen, bool) {
	s := seen{limit: slackLeast}
	if !v.held() {
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

// slackLong: too much cloth between two sewn folds crumples.
func (v *view) slackLong() (seen, bool) {
	s := seen{value: v.p.SlackMost, limit: slackMost}
	if !v.held() || s.value <= slackMost {
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

// tucksFor gives tucks that leave an inner edge of length want to a panel, both
// changed by the same from what they are, as far as either can go; false where no
// tucks do.
func (v *view) tucksFor(panel, want float64) (top, bottom float64, ok bool) {
	a, b := v.tucks()
	total := panel - want
	if total < 0 {
		return 0, 0, false
	}
	top = tenth(math.Min(math.Max(a+(total-a-b)/2, 0), total))
	bottom = tenth(total - top)
	ok = v.allowed("pleat.tuck_top", top) && v.allowed("pleat.tuck_bottom", bottom) && math.Max(top, bottom) < panel/2
	return top, bottom, ok
}

// offerSlack offers tucks, band and panel that bring an inner edge of the given
// length to the slack that lies clean.
func (v *view) offerSlack(s *seen, inner float64) {
	v.offerTucks(s, inner, slackGood)
	if h := tenth(sqrtOf(math.Pow(inner/slackGood, 2) - math.Pow(v.p.Pitch_mm/2, 2))); v.allowed("band.height", h) {
		s.offer([]Change{toMM("band.height", h)}, "Make the band %s high.", v.len(h))
	}
	if !v.p.MarksOwn {
		v.offerPanel(s, tenth(v.p.Panel_mm+slackGood*v.straight()-inner))
	}
}

// offerTucks offers tucks that bring an inner edge of the given length to the
// slack goal.
func (v *view) offerTucks(s *seen, inner, goal float64) {
	want := goal * v.straight()
	top, bottom := v.tucks()
	a, b, ok := v.tucksFor(inner+top+bottom, want)
	if !ok {
		return
	}
	how := "deeper"
	if want > inner {
		how = "shallower"
	}
	s.offer([]Change{toMM("pleat.tuck_top", a), toMM("pleat.tuck_bottom", b)},
		"Make the tucks %s: %s at the top folds, %s at the bottom folds.", how, v.len(a), v.len(b))
}

// offerPanel offers another fold to fold length, and to take the height that it
// gives for the wanted one.
func (v *view) offerPanel(s *seen, panel float64) {
	e, err := curve.NewElastica(panel, v.p.PitchOuter_mm/2)
	if err != nil || v.p.MarksOwn {
		return
	}
	h := tenth(e.Height())
	if !v.allowed("pleat.panel", panel) || !v.allowed("ruff.height", h) {
		return
	}
	s.offer(append(v.panelTo(panel), toMM("ruff.height", h)),
		"Fold every %s and take a ruff %s high.", v.len(panel), v.len(h))
}

// offerLessRoom offers more sets, so that each takes less of the band.
func (v *view) offerLessRoom(s *seen) {
	inner := s.value * v.p.Pitch_mm / 2
	if _, n := v.fourfold(v.p.Neckline_mm / (2 * inner / slackGood)); n > 0 {
		s.offer(v.setsTo(n), "Make %d sets: each then takes less of the band.", n)
	}
}

// sqrtOf is the root of x, −1 where there is none (no length allows it).
func sqrtOf(x float64) float64 {
	if !(x > 0) {
		return -1
	}
	return math.Sqrt(x)
}

// layers is how many thicknesses of cloth stand side by side in one set where
// the sewn row is thickest: two for the fold, two more where its tuck is.
func (v *view) layers() int {
	n := 2
	for _, m := range v.p.Row {
		if m.Edge != scheme.EdgeNone && m.Tuck_mm > 0 {
			n = 4
		}
	}
	return n
}

// room is what part of a set's room at the neck its cloth takes up, in %.
func (v *view) room() float64 {
	return 100 * float64(v.layers()) * v.s.Cloth.Thickness / v.p.Pitch_mm
}

func (v *view) neckFull() (seen, bool) {
	s := seen{value: v.room(), limit: neckFull}
	if s.value <= neckFull {
		return s, false
	}
	s.says("%d layers of cloth %s thick are %s, but a set has only %s of the band: they do not fit, however tight they are pressed.",
		v.layers(), scheme.FormatLength(v.s.Cloth.Thickness, v.u), v.len(s.value*v.p.Pitch_mm/100), v.len(v.p.Pitch_mm))
	v.offerFewer(&s, neckCrowded)
	return s, true
}

func (v *view) neckCrowded() (seen, bool) {
	s := seen{value: v.room(), limit: neckCrowded}
	if s.value <= neckCrowded || s.value > neckFull {
		return s, false
	}
	s.says("At the neck %d layers of cloth fill %s %% of a set's room of %s: the sets wedge each other open, and the needle hardly gets through.",
		v.layers(), number(s.value, 0), v.len(v.p.Pitch_mm))
	v.offerFewer(&s, neckCrowded)
	return s, true
}

// offerFewer offers so few sets that the cloth takes at most limit % of the room.
func (v *view) offerFewer(s *seen, limit float64) {
	n, _ := v.fourfold(v.p.Neckline_mm * limit / 100 / (float64(v.layers()) * v.s.Cloth.Thickness))
	if n > 0 && n < v.p.Sets {
		s.offer(v.setsTo(n), "Make %d sets.", n)
	}
}

// loopsCrowded: an inner loop that reaches into its neighbour's room has to give
// way. Only where both edges are sewn; hanging loops touch at the neck in any
// full ruff, and that holds them.
func (v *view) loopsCrowded() (seen, bool) {
	s := seen{limit: loopsOutside}
	if !v.held() || v.r.Folded.Mean.InnerStraight {
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
	for goal := slackGood; goal > slackLeast; goal -= 0.005 {
		e, err := curve.NewSewnElastica(goal*v.straight(), half, v.s.Band.Height)
		if err == nil && 100*e.Overlap()/half <= loopsOutside/2. {
			v.offerTucks(&s, v.p.Slack*v.straight(), goal)
			break
		}
	}
	return s, true
}
