package check

import (
	"slices"
	"strings"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// sewnFolds gives the edge that most of the top folds, and of the bottom folds,
// are sewn to.
func sewnFolds[M any](marks []M, of func(M) (scheme.Fold, scheme.Edge)) (crests, troughs scheme.Edge) {
	count := map[scheme.Fold]map[scheme.Edge]int{scheme.Crest: {}, scheme.Trough: {}}
	for _, m := range marks {
		fold, edge := of(m)
		count[fold][edge]++
	}
	most := func(f scheme.Fold) scheme.Edge {
		best := scheme.EdgeNone
		for _, e := range []scheme.Edge{scheme.EdgeTop, scheme.EdgeBottom} {
			if count[f][e] > count[f][best] {
				best = e
			}
		}
		return best
	}
	return most(scheme.Crest), most(scheme.Trough)
}

func sewnPlan(p pleat.Plan) (crests, troughs scheme.Edge) {
	return sewnFolds(p.Marks, func(m pleat.Mark) (scheme.Fold, scheme.Edge) { return m.Fold, m.Edge })
}

// Sewn says which edges of the band a plan's folds are sewn to: 'top and bottom
// edge', 'top edge only' or 'bottom edge only'.
func Sewn(p pleat.Plan) string {
	crests, troughs := sewnPlan(p)
	switch {
	case crests != scheme.EdgeNone && troughs != scheme.EdgeNone:
		return "top and bottom edge"
	case crests == scheme.EdgeBottom || troughs == scheme.EdgeBottom:
		return "bottom edge only"
	}
	return "top edge only"
}

// OneEdge reports whether a plan's folds are sewn to one edge of the band only.
func OneEdge(p pleat.Plan) bool {
	crests, troughs := sewnPlan(p)
	return crests == scheme.EdgeNone || troughs == scheme.EdgeNone
}

// Tucked reports whether a tuck is sewn: a tuck at a fold that is not sewn does
// not exist.
func Tucked(p pleat.Plan) bool {
	crests, troughs := sewnPlan(p)
	s := p.Scheme.Pleat
	return crests != scheme.EdgeNone && s.TuckTop > 0 || troughs != scheme.EdgeNone && s.TuckBottom > 0
}

// SewnTop gives s sewn at the top edge alone: the top folds if the flaps shall
// fall, the bottom folds if they shall stand. Own marks follow.
func SewnTop(s scheme.Scheme) scheme.Scheme {
	s.Pleat.Anchor, s.Pleat.Sewn = scheme.AnchorTop, scheme.Crests
	crest, trough := scheme.EdgeTop, scheme.EdgeNone
	if s.Ruff.Flaps == scheme.Stand {
		s.Pleat.Sewn = scheme.Troughs
		crest, trough = scheme.EdgeNone, scheme.EdgeTop
	}
	return resewn(s, crest, trough)
}

// SewnBoth gives s sewn at the top and the bottom edge, own marks too, with the
// tucks that the findings offer where the inner edge is then too short or too long
// between the sewn folds.
func SewnBoth(s scheme.Scheme) (scheme.Scheme, error) {
	s = sewnAtBothEdges(s)
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

// sewnAtBothEdges gives s sewn at the top and the bottom edge, its tucks as they are.
func sewnAtBothEdges(s scheme.Scheme) scheme.Scheme {
	s.Pleat.Anchor = scheme.AnchorBoth
	return resewn(s, scheme.EdgeTop, scheme.EdgeBottom)
}

// SewnOtherwise gives s sewn the other way: at the top edge alone where both are
// sewn, at both where only one is. The first comparison that everybody needs.
func SewnOtherwise(s scheme.Scheme) (scheme.Scheme, error) {
	single := s.Pleat.Anchor != scheme.AnchorBoth
	if len(s.Pleat.Marks) > 0 { // they say it
		crests, troughs := sewnFolds(s.Pleat.Marks, func(m scheme.Mark) (scheme.Fold, scheme.Edge) { return m.Fold, m.Sewn })
		single = crests == scheme.EdgeNone || troughs == scheme.EdgeNone
	}
	if single {
		return SewnBoth(s)
	}
	s = SewnTop(s)
	return s, s.Validate()
}

// resewn sews own marks to the edges.
func resewn(s scheme.Scheme, crest, trough scheme.Edge) scheme.Scheme {
	s.Pleat.Marks = slices.Clone(s.Pleat.Marks)
	for i := range s.Pleat.Marks {
		m := &s.Pleat.Marks[i]
		m.Sewn = trough
		if m.Fold == scheme.Crest {
			m.Sewn = crest
		}
	}
	return s
}
