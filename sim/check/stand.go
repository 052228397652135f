package check

import (
	"math"

	"ruffwright/geom/curve"
	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
)

// dent is how far the mark line of a fold lies inside its loop at the outer
// edge, mm: the shoulders' height less the mark's, the larger of a crest's and a
// trough's, over all panels.
func (v *view) dent() float64 {
	worst := 0.0
	h := v.r.Solved.Shape
	row := h.NV + 1
	for _, p := range h.Panels {
		if len(p.V) != (h.NU+1)*row {
			return 0
		}
		a, b := p.V[h.NV].Z, p.V[h.NU*row+h.NV].Z
		high, low := math.Max(a, b), math.Min(a, b)
		for i := range h.NU + 1 {
			z := p.V[i*row+h.NV].Z
			worst = math.Max(worst, math.Max(z-high, low-z))
		}
	}
	return worst
}

// dented: a deep tuck's inward fold can run on to the outer edge.
func (v *view) dented() (seen, bool) {
	m := v.measures()
	s := seen{limit: tenth(viewerSees / 100. * v.s.Ruff.Height)}
	if !v.tucked() || v.sunk() {
		return s, false
	}
	s.value = v.dent()
	if s.value <= s.limit {
		return s, false
	}
	s.says("The inward folds of the tucks run on to the outer edge: there every loop is dented like a heart, by %s, and from dent to dent it stands only %s high. Push each loop round on its stick before it dries; with shallower tucks it comes round by itself.",
		v.len(s.value), v.len(math.Abs(m.HeightOuter_mm)))
	v.offerShallower(&s)
	return s, true
}

// popped: a tuck is bistable and may stand outward.
func (v *view) popped() (seen, bool) {
	var s seen
	for _, m := range v.r.Solved.Sets {
		if m.Popped {
			s.value += float64(m.Panels)
		}
	}
	if s.value == 0 {
		return s, false
	}
	v.atSets(&s, func(m measure.Values) bool { return m.Popped })
	s.says("The cloth of the tucks stands outward between its stitches instead of going in, in %s of %d panels. Push it in with a needle while the cloth is damp; so stiff a cloth may come out again.",
		number(s.value, 0), v.p.Panels)
	v.offerLimper(&s)
	v.offerShallower(&s)
	return s, true
}

// heightSolved is the law of the height once the ruff is solved: the closed form
// is then only where it began. A ruff that sank or is dented is spoken of there.
func (v *view) heightSolved() (seen, bool) {
	h, want := v.measures().HeightOuter_mm, v.s.Ruff.Height
	s := seen{value: 100 * (h/want - 1), limit: viewerSees}
	if v.sunk() || v.dent() > viewerSees/100.*want || math.Abs(s.value) <= viewerSees {
		return s, false
	}
	if s.value < 0 {
		s.limit = -viewerSees
	}
	s.says("Folded every %s the sets settle at a height of %s, %s %s than the %s you want; by geometry alone it would be %s.",
		v.len(v.p.Panel_mm), v.len(h), v.len(math.Abs(h-want)), than(s.value, "taller", "lower"), v.len(want), v.len(v.r.Folded.Mean.HeightOuter_mm))
	v.offerFittedFrom(&s, h)
	if t := tenth(h); v.allowed("ruff.height", t) {
		v.offerHeight(&s, t)
	}
	return s, true
}

func than(x float64, more, less string) string {
	if x < 0 {
		return less
	}
	return more
}

// offerHeight offers to take the height t that the present panel gives.
func (v *view) offerHeight(s *seen, t float64) {
	c := []Change{toMM("ruff.height", t)}
	if p := math.Round(100*v.p.Panel_mm) / 100; v.p.PanelFitted && v.allowed("pleat.panel", p) {
		c = append(c, v.panelTo(p)...)
	}
	s.offer(c, "Take a ruff %s high.", v.len(t))
}

// offerFittedFrom offers the panel that is longer or shorter by what the closed form
// takes for the height that lacks, with tucks that keep the slack. The solved
// height follows the panel nearly as the closed form's; 'fit' finds it exactly.
func (v *view) offerFittedFrom(s *seen, h float64) {
	half := v.p.PitchOuter_mm / 2
	want := v.s.Ruff.Height
	from, err1 := curve.PanelForHeight(h, half)
	goal, err2 := curve.PanelForHeight(want, half)
	panel := tenth(v.p.Panel_mm + goal - from)
	if err1 != nil || err2 != nil || !v.allowed("pleat.panel", panel) {
		return
	}
	c := v.panelTo(panel)
	if v.p.MarksOwn {
		c = []Change{v.marksTo(func(_ int, m scheme.Mark) scheme.Mark {
			m.Place = tenth(m.Place * panel / v.p.Panel_mm)
			return m
		})}
	}
	with := ""
	if v.held() {
		top, bottom := v.tucks()
		inner := panel - top - bottom
		if slack := inner / v.straight(); slack < v.goalSlack()-slackGood+slackLeast || slack > slackMost {
			a, b, ok := v.tucksFor(panel, v.goalSlack()*v.straight())
			if !ok {
				return
			}
			c = append(c[:1], toMM("pleat.tuck_top", a), toMM("pleat.tuck_bottom", b))
			with = ", with tucks of " + v.len(a) + " at the top folds and " + v.len(b) + " at the bottom folds"
		}
	}
	if v.p.MarksOwn {
		s.offer(c, "Mark every fold anew, %s apart in the mean%s.", v.len(panel), with)
		return
	}
	s.offer(c, "Fold every %s%s.", v.len(panel), with)
}

// depth: how far the outer edge stands out from the neckline against the depth
// wished, level or as a supporter slopes. A ruff that sank is spoken of there.
func (v *view) depth() (seen, bool) {
	m := v.measures()
	want := v.s.Ruff.Depth * math.Cos((m.Tilt_deg-v.beyondLevel(m))*math.Pi/180)
	s := seen{value: 100 * (m.Reach_mm/want - 1), limit: viewerSees}
	if v.sunk() || math.Abs(s.value) <= viewerSees {
		return s, false
	}
	if s.value < 0 {
		s.limit = -viewerSees
	}
	s.says("The outer edge stands %s out from the neck, %s %s than the %s of cloth would reach: in its folds it goes by a longer way.",
		v.len(m.Reach_mm), v.len(math.Abs(m.Reach_mm-want)), than(s.value, "farther", "less"), v.len(want))
	if s.value > 0 {
		s.says("The outer edge stands %s out from the neck, %s farther than the %s of cloth would reach level: the folds open toward it.",
			v.len(m.Reach_mm), v.len(m.Reach_mm-want), v.len(want))
	}
	if v.twoLines() {
		s.offer([]Change{to("pleat.lines", "1")}, "Sew one line only.")
	}
	if d := tenth(v.s.Ruff.Depth * want / m.Reach_mm); v.allowed("ruff.depth", d) {
		s.offer([]Change{toMM("ruff.depth", d)}, "Cut the strip for a depth of %s.", v.len(d))
	}
	return s, true
}

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
	if s.value < 0 {
		s.limit = -viewerSees
	}
	s.says("With a second stitch line %s out, the sets stand %s high, %s %s than one line gives by geometry.",
		v.len(v.s.Pleat.LineGap), v.len(h), v.len(math.Abs(h-one)), than(s.value, "taller", "lower"))
	for _, g := range []float64{v.s.Pleat.LineGap / 2, v.s.Pleat.LineGap / 4} {
		if g = tenth(g); v.allowed("pleat.line_gap", g) {
			s.offer([]Change{toMM("pleat.line_gap", g)}, "Sew the second line %s out.", v.len(g))
			break
		}
	}
	s.offer([]Change{to("pleat.lines", "1")}, "Sew one line only.")
	return s, true
}

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
	if n, _ := v.fourfold(0.95 * float64(v.p.Sets) * math.Max(s.value, 1) / stickLeast); n > 0 && n < v.p.Sets {
		s.offer(v.setsTo(n), "Make %d sets, with wider loops.", n)
	}
	return s, true
}
