package check

import (
	"slices"
	"strings"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// SewnTop gives s sewn at the top edge alone: the top folds if the flaps shall
// fall, the bottom folds if they shall stand. Own marks follow.
func SewnTop(s scheme.Scheme) scheme.Scheme {
	if s.Ruff.Flaps == scheme.Stand {
		return s.SewnTo(scheme.EdgeNone, scheme.EdgeTop)
	}
	return s.SewnTo(scheme.EdgeTop, scheme.EdgeNone)
}

// SewnBoth gives s sewn at the top and the bottom edge, own marks too, with the
// tucks that the findings offer where the inner edge is then too short or too long
// between the sewn folds.
func SewnBoth(s scheme.Scheme) (scheme.Scheme, error) {
	s = s.SewnTo(scheme.EdgeTop, scheme.EdgeBottom)
	r, err := sim.Draw(s)
	if err != nil {
		return s, err
	}
	for _, f := range Find(r, scheme.Millimetres) {
		if f.ID != "slack-short" && f.ID != "slack-long" {
			continue
		}
		for _, m := range f.Remedies {
			if len(m.Changes) > 0 && !slices.ContainsFunc(m.Changes, func(c Change) bool { return !strings.HasPrefix(c.Key, "pleat.tuck_") }) {
				return Apply(s, m)
			}
		}
	}
	return s, nil
}

// SewnOtherwise gives s sewn the other way: at the top edge alone where both are
// sewn, at both where only one is. The first comparison that everybody needs.
func SewnOtherwise(s scheme.Scheme) (scheme.Scheme, error) {
	p, err := pleat.NewPlan(s)
	if err != nil {
		return s, err
	}
	if p.Row.OneEdge() {
		return SewnBoth(s)
	}
	s = SewnTop(s)
	return s, s.Validate()
}
