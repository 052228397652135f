package check

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/sim/cloth"
)

// offerBoth offers to sew the folds that hang to the other edge of the band: with
// tucks that leave the inner edge the slack that lies clean, and without tucks on
// a band as high as that takes.
func (v *view) offerBoth(s *seen) {
	if !v.oneEdge() {
		return
	}
	keys := []string{"pleat.anchor", "pleat.marks"}
	if !v.p.MarksOwn {
		keys = keys[:1]
	}
	base := asIn(v.s.SewnTo(scheme.EdgeTop, scheme.EdgeBottom), keys...)
	goal := v.goalSlack()
	other, fold := "bottom", "bottom folds"
	if v.p.Row.Edge() == scheme.EdgeBottom {
		other = "top"
	}
	if v.p.Row.Kind() == scheme.Trough {
		fold = "top folds"
	}
	what := "Sew the " + fold + " as well, to the " + other + " edge"
	if (other == "top") != (fold == "top folds") {
		what = "Sew the top folds to the top edge and the bottom folds to the bottom edge"
	}
	if a, b, ok := v.tucksFor(v.p.Panel_mm, goal*v.straight()); ok {
		s.offer(append(base[:len(base):len(base)], toMM("pleat.tuck_top", a), toMM("pleat.tuck_bottom", b)),
			"%s, with tucks of %s at the top folds and %s at the bottom folds.", what, v.len(a), v.len(b))
	}
	h := tenth(sqrtOf(math.Pow(v.p.Panel_mm/goal, 2) - math.Pow(v.p.Pitch_mm/2, 2)))
	if v.allowed("band.height", h) {
		s.offer(append(base[:len(base):len(base)], to("pleat.tuck_top", "0"), to("pleat.tuck_bottom", "0"), toMM("band.height", h)),
			"%s, without tucks, on a band %s high.", what, v.len(h))
	}
}

// goalSlack is the mean slack at which the shortest panel has what lies clean.
func (v *view) goalSlack() float64 {
	least := v.p.Panel_mm
	for k := range v.p.Panels {
		least = math.Min(least, v.p.Row.Panel(k))
	}
	return slackGood + (v.p.Panel_mm-least)/v.straight()
}

// limper is the cloth that remedies name where the maker's is too stiff.
const limper = "cotton lawn"

// offerLimper offers a cloth that bends more easily.
func (v *view) offerLimper(s *seen) {
	c, ok := scheme.ClothNamed(limper)
	if !ok || math.Max(v.s.Cloth.BendWarp, v.s.Cloth.BendWeft) < 1.2*math.Max(c.BendWarp, c.BendWeft) {
		return
	}
	s.offer([]Change{to("cloth.name", limper), to("cloth.mass", "0"), to("cloth.thickness", "0"), to("cloth.bend_warp", "0"), to("cloth.bend_weft", "0")},
		"Take a limper cloth, such as %s.", limper)
}

// offerSewnAsWished offers to sew the other folds where those that are sewn turn
// the flaps against the wish.
func (v *view) offerSewnAsWished(s *seen) {
	if !v.oneEdge() || v.p.MarksOwn {
		return
	}
	sewn, word := scheme.Crest, "top folds"
	if v.s.Ruff.Flaps == scheme.Stand {
		sewn, word = scheme.Trough, "bottom folds"
	}
	if v.p.Row.Kind() != sewn {
		s.offer([]Change{to("pleat.sewn", string(sewn)+"s")}, "Sew the %s instead.", word)
	}
}

// stiffer gives the starch that remedies ask for: at least want, at most what
// starched cloth is expected to show; false where the cloth has that already.
func (v *view) stiffer(want float64) (bend float64, ok bool) {
	bend = math.Ceil(math.Min(want, cloth.StarchedMost_mm)/5) * 5
	return bend, bend > v.bend()+1 && v.allowed("starch.bend", bend)
}

// offerStarch offers starch of the bending length want, mm.
func (v *view) offerStarch(s *seen, want float64) {
	if bend, ok := v.stiffer(want); ok {
		s.offer([]Change{toMM("starch.bend", bend)}, "Starch it until %s.", v.swatch(bend))
	}
}

// swatch says how starch of a bending length shows.
func (v *view) swatch(bend float64) string {
	l, err := cloth.Overhang(bend, cloth.Slope_deg)
	if err != nil {
		return "its bending length is " + v.len(bend)
	}
	return "a swatch reaches the slope of 41.5° at an overhang of " + v.len(l)
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
	key, word, has := "pleat.tuck_top", "top folds", v.p.Row.Tuck(kind)
	if kind == scheme.Trough {
		key, word = "pleat.tuck_bottom", "bottom folds"
	}
	tuck := math.Round(v.p.Panel_mm / 5)
	bend, starch := v.stiffer(math.Max(stiffUsual, 1.25*v.bend()))
	deeper := tuck > has+0.5 && v.allowed(key, tuck) && v.p.Panel_mm-2*tuck > v.p.Pitch_mm/2
	switch {
	case deeper && starch:
		s.offer([]Change{toMM(key, tuck), toMM("starch.bend", bend)},
			"Tuck the %s %s deep, and starch until %s.", word, v.len(tuck), v.swatch(bend))
	case deeper:
		s.offer([]Change{toMM(key, tuck)}, "Tuck the %s %s deep.", word, v.len(tuck))
	case starch:
		v.offerStarch(s, bend)
	}
}

// offerSetting offers to set the sets fully where they are not.
func (v *view) offerSetting(s *seen) {
	if !v.unstarched() && v.s.Starch.Quality < 1 {
		s.offer([]Change{to("starch.quality", "1")}, "Set every loop fully: hot stick, dry to the end, props till it is cold.")
	}
}

// offerSupport offers a supporter close under the ruff as it lies, or, where it
// sank, under where its lower folds would lie in a level one; with starch, if the
// cloth has little.
func (v *view) offerSupport(s *seen) {
	if v.s.Support.Kind != scheme.NoSupport {
		return
	}
	// Where the lower folds should lie at the outer edge, over the band's bottom.
	at := v.measures().BottomOuter_mm
	if v.sunk() {
		at = (v.s.Band.Height - v.s.Ruff.Height) / 2
		if v.oneEdge() && v.p.Row.Kind() == scheme.Trough {
			at = v.row()
		}
	}
	drop := math.Max(0, math.Floor(-at))
	slope := math.Round(math.Atan2(math.Max(at, 0), v.s.Ruff.Depth) * 180 / math.Pi)
	if !v.allowed("support.drop", drop) || !v.allowed("support.slope", slope) {
		return
	}
	c := []Change{to("support.kind", string(scheme.Supporter)), toMM("support.drop", drop), toMM("support.slope", slope)}
	where := "level with the band's bottom edge"
	switch {
	case slope > 0:
		where = "that rises by " + number(slope, 0) + "° from the band's bottom edge"
	case drop > 0:
		where = v.len(drop) + " below the band's bottom edge"
	}
	if bend, ok := v.stiffer(stiffUsual); ok {
		s.offer(append(c, toMM("starch.bend", bend)), "Lay it on a supporter %s, and starch until %s.", where, v.swatch(bend))
		return
	}
	s.offer(c, "Lay it on a supporter %s.", where)
}

// offerShallower offers tucks of three quarters, with a band as high as the inner
// edge then reaches where both edges are sewn.
func (v *view) offerShallower(s *seen) {
	for _, f := range []float64{0.75, 0.5} {
		top, bottom := v.tucks()
		a, b := tenth(f*top), tenth(f*bottom)
		var c []Change
		switch {
		case v.held():
			h := tenth(sqrtOf(math.Pow((v.p.Panel_mm-a-b)/slackGood, 2) - math.Pow(v.p.Pitch_mm/2, 2)))
			if !v.allowed("band.height", h) {
				continue
			}
			c = []Change{toMM("pleat.tuck_top", a), toMM("pleat.tuck_bottom", b), toMM("band.height", h)}
			s.offer(c, "Make the tucks shallower, %s at the top folds and %s at the bottom folds, on a band %s high.", v.len(a), v.len(b), v.len(h))
		case v.oneEdge() && a > 0:
			s.offer([]Change{toMM("pleat.tuck_top", a)}, "Make the tucks shallower, %s.", v.len(a))
		case v.oneEdge() && b > 0:
			s.offer([]Change{toMM("pleat.tuck_bottom", b)}, "Make the tucks shallower, %s.", v.len(b))
		}
	}
}
