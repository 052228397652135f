package check

import (
	"errors"
	"slices"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
)

// unsolvableWays is how many ways out of a ruff without mechanics are offered.
const unsolvableWays = 3

var cannotSolveLaw = law{Rule: Rule{"cannot-solve", "These sets cannot be solved", Stop, 0, "mm", "at most what leaves a loop at both edges", judged, WhereWhole, FromGeometry},
	find: (*view).cannotSolve}

// cannotSolve: sets that the solver refuses. Where slackShort or outerShort says
// the same and has a way out, that is enough.
func (v *view) cannotSolve() (seen, bool) {
	_, err := sim.Design(v.r)
	if err == nil {
		return seen{}, false
	}
	for _, said := range []func(*view) (seen, bool){(*view).slackShort, (*view).outerShort} {
		if s, ok := said(v); ok && slices.ContainsFunc(s.remedies, func(r Remedy) bool { return v.solvable(r.Changes) }) {
			return seen{}, false
		}
	}
	var s seen
	var m sim.Misfit
	var field scheme.Error
	switch {
	case errors.As(err, &m):
		v.sayMisfit(&s, m)
	case errors.As(err, &field):
		s.says("Sewn like this (%s) it cannot be told how the ruff hangs.", field.Value)
	}
	for _, ways := range [][]Remedy{v.smallWays(), v.largeWays()} {
		for _, way := range ways {
			if len(s.remedies) < unsolvableWays && v.solvable(way.Changes) {
				s.remedies = append(s.remedies, way)
			}
		}
		if len(s.remedies) > 0 {
			break
		}
	}
	return s, true
}

// sayMisfit says in a maker's words why the half set has no mechanics.
func (v *view) sayMisfit(s *seen, m sim.Misfit) {
	s.value, s.limit = m.Value, m.Most
	depth, panel := v.len(v.s.Ruff.Depth), v.len(v.p.Panel_mm)
	switch m.Kind {
	case sim.TucksLong:
		s.says("The tucks take %s of the %s between two folds: nothing is left to stand as a loop at the band.", v.len(m.Value), panel)
	case sim.TuckDeep:
		s.says("A tuck %s deep runs through nearly the whole depth of %s: the loop has no room to open.", v.len(m.Value), depth)
	case sim.GapWide:
		s.says("The second stitch line, %s out, holds nearly the whole depth of %s: too little is left to open into loops.", v.len(m.Value), depth)
	case sim.NoWave:
		s.says("Between two folds the inner edge is %s long, and half a set takes %s of the band: the edge lies flat and makes no loop.", v.len(v.p.InnerPanel_mm), v.len(m.Value/2))
	case sim.NoOuterWave:
		s.says("Fold to fold is %s, and at the outer edge half a set has %s to span: the edge lies flat and makes no loop.", panel, v.len(m.Value/2))
	case sim.TooShort:
		s.value, s.limit = m.Value, m.Least
		s.unit = "slack"
		s.says("Between the sewn folds the cloth is shorter than the way from edge to edge of the band: it cannot reach.")
	default:
		s.says("No such sets can be solved: %s, must be between %s and %s, and is %s.", misfitWords[m.Field], Number(m.Least, 3), Number(m.Most, 3), Number(m.Value, 3))
	}
}

// misfitWords name the figures of a half set that a scheme of valid fields can
// bring out of the solver's range.
var misfitWords = map[string]word.Text{
	"Panel_mm": word.Say("fold to fold, in mm"), "Pitch_mm": word.Say("the room for a set, in mm"),
	"Kappa_1pmm": word.Say("the curve of the neck, one over its radius in mm"),
	"BendU_uNm":  word.Say("the cloth's stiffness along the strip, in µN·m"), "BendV_uNm": word.Say("the cloth's stiffness across the strip, in µN·m"),
	"FrozenU_uNm": word.Say("the starch's stiffness along the strip, in µN·m"), "FrozenV_uNm": word.Say("the starch's stiffness across the strip, in µN·m"),
}
