package check

import (
	"math"

	"ruffwright/geom/curve"
	"ruffwright/geom/scheme"
)

// outerShort: a panel must at least span half a set's room at the outer edge.
func (v *view) outerShort() (seen, bool) {
	var s seen
	s.value = math.Inf(1)
	flat := false
	for _, m := range v.r.Folded.Half {
		if m.OuterStraight {
			flat = true
			if m.Panel_mm < s.value {
				s.value, s.limit = m.Panel_mm, m.PitchOuter_mm/2
			}
		}
	}
	if !flat {
		return seen{}, false
	}
	v.atPanels(&s, func(i int) bool { return v.r.Folded.Half[i].OuterStraight })
	s.says("Fold to fold is %s, but at the outer edge half a set has %s to span: the edge lies flat and pulls the ruff into a cone.", v.len(s.value), v.len(s.limit))
	v.offerFitted(&s)
	return s, true
}

// offerFitted offers the fold to fold length that gives the wanted height, with
// tucks that suit it where the old ones would not.
func (v *view) offerFitted(s *seen) {
	panel, err := curve.PanelForHeight(v.s.Ruff.Height, v.p.PitchOuter_mm/2)
	if err != nil {
		return
	}
	var tucks []Change
	with := ""
	if v.held() {
		top, bottom := v.tucks()
		slack := (panel - top - bottom) / v.straight()
		if slack < slackLeast || slack > slackMost {
			a, b, ok := v.tucksFor(panel, slackGood*v.straight())
			if !ok {
				return
			}
			tucks = []Change{toMM("pleat.tuck_top", a), toMM("pleat.tuck_bottom", b)}
			with = ", with tucks of " + v.len(a) + " at the top folds and " + v.len(b) + " at the bottom folds"
		}
	}
	if v.p.MarksOwn {
		f := panel / v.p.Panel_mm
		s.offer(append(tucks, v.marksTo(func(_ int, m scheme.Mark) scheme.Mark {
			m.Place *= f
			return m
		})), "Mark every fold anew, %s apart in the mean%s.", v.len(panel), with)
		return
	}
	s.offer(append(tucks, to("pleat.panel", "0")), "Fold every %s, fitted to the height of %s%s.", v.len(panel), v.len(v.s.Ruff.Height), with)
}

// height: what the closed form draws against what is wanted, or, once it is
// there, how high the solved ruff stands.
func (v *view) height() (seen, bool) {
	if v.measures() != nil {
		return v.heightSolved()
	}
	h, want := v.r.Folded.Mean.HeightOuter_mm, v.s.Ruff.Height
	s := seen{value: 100 * (h/want - 1), limit: viewerSees}
	if math.Abs(s.value) <= viewerSees || v.r.Folded.Mean.OuterStraight {
		return s, false
	}
	than := "taller"
	if s.value < 0 {
		than = "lower"
	}
	s.says("Folded every %s the sets stand %s high%s, %s %s than the %s you want.", v.len(v.p.Panel_mm), v.len(h), v.giveOrTake(), v.len(math.Abs(h-want)), than, v.len(want))
	v.offerFitted(&s)
	if t := tenth(h); v.allowed("ruff.height", t) {
		s.offer([]Change{toMM("ruff.height", t)}, "Take a ruff %s high.", v.len(t))
	}
	return s, true
}

// gaping: loops that do not come near their neighbours leave gaps between sets.
// Once the ruff is solved loopsSolved says it.
func (v *view) gaping() (seen, bool) {
	if v.measures() != nil {
		return seen{}, false
	}
	m := v.r.Folded.Mean
	loop := m.Loop_mm + v.s.Cloth.Thickness
	s := seen{value: 100 * loop / m.PitchOuter_mm, limit: loopClosed}
	if s.value >= loopClosed || m.OuterStraight {
		return s, false
	}
	s.says("At the outer edge a loop is %s wide where a set has %s: gaps of %s show between the sets.", v.len(m.Loop_mm), v.len(m.PitchOuter_mm), v.len(m.PitchOuter_mm-loop))
	// The number of sets at which the loops would be wide enough, at the same
	// fold to fold length or, where that is fitted, at the same height.
	ratio := closedRatio()
	panel := v.p.Panel_mm
	if v.p.PanelFitted {
		e, err := curve.NewElastica(1, ratio)
		if err != nil {
			return s, true
		}
		panel = v.s.Ruff.Height / e.Height()
	}
	around := v.p.Neckline_mm + 2*math.Pi*v.s.Ruff.Depth
	if _, n := v.fourfold(around / (2 * ratio * panel)); n > v.p.Sets {
		s.offer(v.setsTo(n), "Make %d sets: narrower at the outer edge, their loops nearly meet.", n)
	}
	return s, true
}

// closedRatio is the outer half pitch ÷ panel at which a free loop is as wide as
// loopClosed asks; the width ÷ pitch falls as the ratio grows. 40 halvings of an
// interval below 1 leave an error below 1e-12.
func closedRatio() float64 {
	a, b := curve.ContactRatio, 0.45
	for range 40 {
		mid := (a + b) / 2
		e, err := curve.NewElastica(1, mid)
		if err == nil && 100*e.LoopWidth()/(2*mid) >= loopClosed {
			a = mid
		} else {
			b = mid
		}
	}
	return a
}
