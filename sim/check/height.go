package check

import (
	"math"

	"ruffwright/geom/curve"
	"ruffwright/geom/scheme"
)

var heightLaw = law{Rule: Rule{"height", "The height is off", Mend, viewerSees, "%", "at most, either way, of ruff.height; as solved once it is", practice, WhereOuter, FromGeometry},
	find: (*view).height}

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
	s.says(than(s.value, "Folded every %s the sets stand %s high, %s taller than the %s you want.", "Folded every %s the sets stand %s high, %s lower than the %s you want."),
		v.len(v.p.Panel_mm), v.len(h), v.len(math.Abs(h-want)), v.len(want))
	v.offerFitted(&s)
	t := tenth(h)
	s.offer([]Change{toMM("ruff.height", t)}, "Take a ruff %s high.", v.len(t))
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
	s.limit = math.Copysign(viewerSees, s.value)
	folds, _ := Doubt(v.measures())
	s.severity = milder(Mend, math.Abs(h-want)-viewerSees/100.*want, folds)
	s.says(than(s.value, "Folded every %s the sets settle at a height of %s, %s taller than the %s you want; by geometry alone it would be %s.",
		"Folded every %s the sets settle at a height of %s, %s lower than the %s you want; by geometry alone it would be %s."),
		v.len(v.p.Panel_mm), v.giveOrTake(h), v.len(math.Abs(h-want)), v.len(want), v.len(v.r.Folded.Mean.HeightOuter_mm))
	v.offerFittedFrom(&s, h)
	v.offerHeight(&s, tenth(h))
	return s, true
}

// than is the template for more than something, or for less.
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
	if err1 != nil || err2 != nil {
		return
	}
	c := v.panelTo(panel)
	if v.p.MarksOwn {
		c = []Change{v.marksTo(func(_ int, m scheme.Mark) scheme.Mark {
			m.Place = tenth(m.Place * panel / v.p.Panel_mm)
			return m
		})}
	}
	goalSlack := v.goalSlack()
	anew, tucks, ok := v.tucksWith(panel, goalSlack-GoodSlack+slackLeast, goalSlack)
	if !ok {
		return
	}
	if anew != nil {
		c = append(c[:1], anew...)
	}
	plain, tucked := "Fold every %s.", "Fold every %s, with tucks of %s at the top folds and %s at the bottom folds."
	if v.p.MarksOwn {
		plain, tucked = foldsAnew, foldsAnewTucked
	}
	s.offerWithTucks(c, tucks, plain, tucked, v.len(panel))
}
