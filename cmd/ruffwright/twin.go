package main

import (
	"errors"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// twins are one scheme sewn in two ways: at both edges, with tucks that suit,
// and at the top edge alone. Where it is sewn one of these ways already, that one
// is the scheme as it stands.
func twins(s scheme.Scheme) (both, top scheme.Scheme, err error) {
	if len(s.Pleat.Marks) > 0 {
		return both, top, errors.New("--top-only: the scheme's own marks say what each fold is sewn to; take planned marks with --set pleat.marks=")
	}
	both, top = s, s
	both.Pleat.Anchor = scheme.AnchorBoth
	if s.Pleat.Anchor != scheme.AnchorBoth {
		both, err = suited(both)
	}
	if s.Pleat.Anchor != scheme.AnchorTop {
		top.Pleat.Anchor, top.Pleat.Sewn = scheme.AnchorTop, scheme.Crests
		if s.Ruff.Flaps == scheme.Stand {
			top.Pleat.Sewn = scheme.Troughs
		}
	}
	return both, top, err
}

// suited gives the scheme the tucks that check offers where the inner edge is too
// short or too long between the sewn folds; the scheme itself where it offers none.
func suited(s scheme.Scheme) (scheme.Scheme, error) {
	r, err := sim.Draw(s)
	if err != nil {
		return s, err
	}
	for _, f := range check.Find(r, scheme.Millimetres) {
		if f.ID != "slack-short" && f.ID != "slack-long" {
			continue
		}
		for _, remedy := range f.Remedies {
			tucks := len(remedy.Changes) > 0
			for _, c := range remedy.Changes {
				tucks = tucks && strings.HasPrefix(c.Key, "pleat.tuck_")
			}
			if tucks {
				return check.Apply(s, remedy)
			}
		}
	}
	return s, nil
}
