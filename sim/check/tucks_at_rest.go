package check

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
)

var poppedLaw = law{Rule: Rule{"popped", "A tuck stands outward", Mend, 0, "panels", "in no panel", solved, WhereTucks, FromMechanics},
	find: (*view).popped, parts: shapePart, when: (*view).tucked}

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
		Number(s.value, 0), v.p.Panels)
	v.offerLimper(&s)
	v.offerShallower(&s)
	return s, true
}

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

var dentedLaw = law{Rule: Rule{"dented", "Loops are dented at the outer edge", Mend, viewerSees, "mm", "at most 5 % of ruff.height", practice, WhereOuter, FromMechanics},
	find: (*view).dented, parts: shapePart, when: (*view).tucked}

// dented: a deep tuck's inward fold can run on to the outer edge.
func (v *view) dented() (seen, bool) {
	m := v.measures()
	s := seen{limit: tenth(viewerSees / 100. * v.s.Ruff.Height)}
	if v.sunk() {
		return s, false
	}
	if s.value = v.dent(); s.value <= s.limit {
		return s, false
	}
	s.says("The inward folds of the tucks run on to the outer edge: there every loop is dented like a heart, by %s, and from dent to dent it stands only %s high. Push each loop round on its stick before it dries; with shallower tucks it comes round by itself.",
		v.len(s.value), v.len(math.Abs(m.HeightOuter_mm)))
	if v.s.Starch.Dry == scheme.Hung {
		s.offer([]Change{to("starch.dry", string(scheme.OnSticks))}, "Let it dry on sticks: they keep the loops round.")
	}
	v.offerShallower(&s)
	return s, true
}

var severalWaysLaw = law{Rule: Rule{"several-ways", "The cloth has several shapes to rest in", Note, 0, "mm", "said of tucks without starch", solved, WhereTucks, FromMechanics},
	find: (*view).severalWays, parts: shapePart, when: (*view).limpTucks}

// severalWays: unstarched tucks leave the cloth several shapes to rest in.
func (v *view) severalWays() (seen, bool) {
	var s seen
	s.says("Tucked and not starched, this cloth has several shapes to rest in, and the one shown is one of them. Every set will find its own; starch makes them alike.")
	v.offerStarch(&s, stiffUsual)
	return s, true
}
