package check

import (
	"math"

	"ruffwright/geom/scheme"
)

// tucksFor gives tucks that leave an inner edge of length want to a panel, both
// changed by the same from what they are, as far as either can go; false where no
// tucks do. Folds that hang free and shall be sewn get tucks like the others.
func (v *view) tucksFor(panel, want float64) (top, bottom float64, ok bool) {
	a, b := v.tucks()
	if v.oneEdge() {
		a, b = a+b, a+b
	}
	total := panel - want
	if total < 0 {
		return 0, 0, false
	}
	top = tenth(math.Min(math.Max(a+(total-a-b)/2, 0), total))
	bottom = tenth(total - top)
	ok = v.allowed("pleat.tuck_top", top) && v.allowed("pleat.tuck_bottom", bottom) && math.Max(top, bottom) < panel/2
	return top, bottom, ok
}

// tucksWith gives the tucks to go with another panel where the present ones would
// leave a slack under least or over slackMost: such as leave the slack goal, and their
// depths for a sentence. None where the present ones will do; false where no tucks do.
func (v *view) tucksWith(panel, least, goal float64) (tucks []Change, said []any, ok bool) {
	top, bottom := v.tucks()
	slack := (panel - top - bottom) / v.straight()
	if !v.hasSlack() || slack >= least && slack <= slackMost {
		return nil, nil, true
	}
	a, b, ok := v.tucksFor(panel, goal*v.straight())
	return []Change{toMM("pleat.tuck_top", a), toMM("pleat.tuck_bottom", b)}, []any{v.len(a), v.len(b)}, ok
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
	words := "Make the tucks deeper: %s at the top folds, %s at the bottom folds."
	if want > inner {
		words = "Make the tucks shallower: %s at the top folds, %s at the bottom folds."
	}
	s.offer([]Change{toMM("pleat.tuck_top", a), toMM("pleat.tuck_bottom", b)}, words, v.len(a), v.len(b))
}

// offerTuckAndStarch offers, at one edge, a tuck of a fifth of the panel at the
// sewn folds together with starch.
func (v *view) offerTuckAndStarch(s *seen) {
	if !v.oneEdge() {
		v.offerStarch(s, math.Max(stiffUsual, 1.25*v.bend()))
		return
	}
	kind := v.p.Row.Kind()
	if v.sunk() && kind == scheme.Trough {
		return // nothing but a supporter holds up what stands on its inner edge
	}
	key, has := "pleat.tuck_top", v.p.Row.Tuck(kind)
	words, starched := "Tuck the top folds %s deep.", "Tuck the top folds %s deep, and starch until %s."
	if kind == scheme.Trough {
		key = "pleat.tuck_bottom"
		words, starched = "Tuck the bottom folds %s deep.", "Tuck the bottom folds %s deep, and starch until %s."
	}
	tuck := math.Round(v.p.Panel_mm / 5)
	bend, starch := v.stiffer(math.Max(stiffUsual, 1.25*v.bend()))
	deeper := tuck > has+0.5 && v.allowed(key, tuck) && v.p.Panel_mm-2*tuck > v.p.Pitch_mm/2
	switch {
	case deeper && starch:
		s.offer([]Change{toMM(key, tuck), toMM("starch.bend", bend)},
			starched, v.len(tuck), v.swatch(bend))
	case deeper:
		s.offer([]Change{toMM(key, tuck)}, words, v.len(tuck))
	case starch:
		v.offerStarch(s, bend)
	}
}

// offerShallower offers tucks of three quarters, with a band as high as the inner
// edge then reaches where both edges are sewn.
func (v *view) offerShallower(s *seen) {
	for _, f := range []float64{0.75, 0.5} {
		top, bottom := v.tucks()
		a, b := tenth(f*top), tenth(f*bottom)
		switch {
		case v.hasSlack():
			h := tenth(v.bandFor(v.p.Panel_mm-a-b, GoodSlack))
			s.offer([]Change{toMM("pleat.tuck_top", a), toMM("pleat.tuck_bottom", b), toMM("band.height", h)},
				"Make the tucks shallower, %s at the top folds and %s at the bottom folds, on a band %s high.", v.len(a), v.len(b), v.len(h))
		case v.oneEdge() && a > 0:
			s.offer([]Change{toMM("pleat.tuck_top", a)}, "Make the tucks shallower, %s.", v.len(a))
		case v.oneEdge() && b > 0:
			s.offer([]Change{toMM("pleat.tuck_bottom", b)}, "Make the tucks shallower, %s.", v.len(b))
		}
	}
}
