package check

import (
	"math"

	"ruffwright/geom/curve"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

var fittedLaw = law{Rule: Rule{"fitted", "Fitted to what was given", Note, 0, "mm", "tucks as deep as given, fold to fold as the height asks", geometry, WhereTucks, FromGeometry},
	find: (*view).fitted}

// fitted: what the plan changed so that a fitted length from fold to fold can be
// sewn.
func (v *view) fitted() (seen, bool) {
	p := v.p
	if !p.TucksFitted && !p.PanelReaches {
		return seen{}, false
	}
	given := p.AsGiven()
	givenTop, givenBottom := given.Tuck(scheme.Crest), given.Tuck(scheme.Trough)
	s := seen{value: p.Panel_mm, limit: v.s.Ruff.Height}
	if p.PanelReaches {
		s.says("For a height of %s the folds would lie too near together to be sewn: fold to fold is made %s, and the ruff stands taller.", v.len(v.s.Ruff.Height), v.len(p.Panel_mm))
	} else {
		top, bottom := v.tucks()
		s.value, s.limit = max(top, bottom), max(givenTop, givenBottom)
		s.says("At this height there is not cloth enough between the folds for tucks as deep as given: they are made %s.", v.tuckWords(top, bottom))
	}
	if !v.hasSlack() {
		return s, true
	}
	tucks := givenTop + givenBottom
	asked, err := curve.PanelForHeight(v.s.Ruff.Height, p.PitchOuter_mm/2)
	if err != nil {
		return s, true
	}
	offer := func(c []Change, english string, mm float64) {
		if q, ok := v.planWith(c); ok && !q.TucksFitted && !q.PanelReaches {
			s.offer(c, english, v.len(mm))
		}
	}
	if h := math.Floor(10*v.bandFor(asked-tucks, GoodSlack)) / 10; h > 0 {
		offer([]Change{toMM("band.height", h)}, "Make the band %s high: then nothing need give way.", h)
	}
	if e, err := curve.NewElastica(GoodSlack*v.straight()+tucks, p.PitchOuter_mm/2); err == nil {
		h := math.Ceil(10*e.Height()) / 10
		offer([]Change{toMM("ruff.height", h)}, "Take a ruff %s high: then nothing need give way.", h)
	}
	return s, true
}

// tuckWords say how deep the sewn tucks are.
func (v *view) tuckWords(top, bottom float64) word.Text {
	given := v.p.AsGiven()
	switch {
	case given.Tuck(scheme.Trough) == 0 || top == bottom:
		return v.len(top)
	case given.Tuck(scheme.Crest) == 0:
		return v.len(bottom)
	}
	return word.Say("%s at the top folds and %s at the bottom folds", v.len(top), v.len(bottom))
}
