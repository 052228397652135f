package check

import (
	"math"

	"ruffwright/geom/curve"
	"ruffwright/sim/measure"
)

// loopClosed: solved loops stand open at 0.77 of their room and touch at 0.92
// and more (solved half sets of this project).
const loopClosed = 77 // % of the room for a set at the outer edge

var gapingLaw = law{Rule: Rule{"gaping", "Loops do not meet", Note, loopClosed, "%", "at least, of the room for a set at the outer edge", solved + ": open at 0.77, touching from 0.92", WhereOuter, FromGeometry},
	find: (*view).gaping}

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

var loopsSolvedLaw = law{Rule: Rule{"loops-solved", "Loops do not meet as they really stand", Note, loopClosed, "%", "at least, of the room for a set at the outer edge; 70 for tucked sets", solved, WhereOuter, FromMechanics},
	find: (*view).loopsSolved, parts: shapePart}

// loopTucked is the same for tucked sets, whose narrower loops keep to 70 to 85
// of their room however near they stand (solved half sets of this project).
const loopTucked = 70 // % of the room for a set at the outer edge

// loopsSolved: where the loops do not meet, gaps show. It takes the place of
// 'gaping', which draws them in closed form. A ruff that sank is spoken of there.
func (v *view) loopsSolved() (seen, bool) {
	loop, room := 0.0, 1.0
	worst := math.Inf(1)
	meet := true
	for _, m := range v.r.Solved.Sets {
		l := m.Loop_mm + v.s.Cloth.Thickness
		if m.PitchOuter_mm > 0 && l/m.PitchOuter_mm < worst {
			loop, room, worst = l, m.PitchOuter_mm, l/m.PitchOuter_mm
		}
		meet = meet && m.LoopsMeet
	}
	s := seen{value: 100 * loop / room, limit: loopClosed}
	if v.tucked() {
		s.limit = loopTucked
	}
	if s.value >= s.limit || meet || v.sunk() || v.dent() > viewerSees/100.*v.s.Ruff.Height {
		return s, false
	}
	v.atSets(&s, func(m measure.Values) bool {
		return m.PitchOuter_mm > 0 && (m.Loop_mm+v.s.Cloth.Thickness)/m.PitchOuter_mm < worst+0.001 // a thousandth of the room is not seen
	})
	s.says("At the outer edge the narrower loops are %s wide where a set has %s: gaps of %s show between the sets.",
		v.len(loop-v.s.Cloth.Thickness), v.len(room), v.len(room-loop))
	// Of the same fold to fold length, loops keep about their width when the sets
	// come nearer to each other.
	if _, n := v.fourfold(1.1 * float64(v.p.Sets) * s.limit / s.value); n > v.p.Sets {
		c := v.setsTo(n)
		if panel := tenth(v.p.Panel_mm); v.p.PanelFitted && v.allowed("pleat.panel", panel) {
			c = append(c, v.panelTo(panel)...)
		}
		s.offer(c, "Make %d sets of the same cloth each: narrower at the outer edge, their loops nearly meet.", n)
	}
	return s, true
}
