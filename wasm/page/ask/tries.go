package ask

import (
	"fmt"
	"slices"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// mostTries is how many remedies are tried for one ruff.
const mostTries = 40

// untried are the remedies that the solver has not tried on this scheme, in the
// order of the findings.
func (s *Ask) untried() []wire.Trial {
	if s.tried != nil && !s.again {
		return nil // asked already
	}
	if s.tried == nil {
		s.tried = map[string]wire.Tried{}
	}
	s.again = false
	var out []wire.Trial
	for _, f := range s.Want.Findings {
		if f.Pending || f.Severity == check.Caution {
			continue
		}
		for i, r := range f.Remedies {
			_, known := s.tried[fmt.Sprintf("%s %d", f.ID, i)]
			if len(r.Changes) > 0 && len(out) < mostTries && !known {
				out = append(out, wire.Trial{Finding: f.ID, Remedy: i, Changes: r.Changes})
			}
		}
	}
	return out
}

// marks notes what became of a remedy.
func (s *Ask) marks(t wire.Tried) {
	if s.tried == nil {
		return
	}
	s.tried[fmt.Sprintf("%s %d", t.Finding, t.Remedy)] = t
	s.marked()
}

// marked writes what was tried beside the remedies.
func (s *Ask) marked() {
	for _, f := range s.Want.Findings {
		for i := range f.Remedies {
			t := s.tried[fmt.Sprintf("%s %d", f.ID, i)]
			f.Remedies[i].Take(check.Outcome{Tried: t.Tried, Then: t.Then, Brings: t.Brings})
		}
	}
}

// way is how a change is offered.
type way uint8

const (
	cures   way = iota // it removes the finding and brings nothing that stops or is to mend
	untold             // it was not tried, or nothing could be told
	trades             // it removes the finding and brings another
	lessens            // it does not remove it, but changes it and brings nothing
	useless            // it does nothing, or only harm: it is not offered
)

// wayOf is how remedy i of a finding is offered.
func (s *Ask) wayOf(f check.Finding, i int) way {
	t, ok := s.tried[fmt.Sprintf("%s %d", f.ID, i)]
	switch {
	case !ok || t.Tried == "":
		return untold
	case t.Tried == check.Removes:
		return cures
	case t.Tried == check.Trades:
		return trades
	case len(t.Brings) == 0 && (t.Then != 0 && t.Then != f.Value || len(t.Ends) > 0):
		return lessens
	}
	return useless
}

// Cures reports that remedy i of a finding removes it and brings nothing new.
func (s *Ask) Cures(f check.Finding, i int) bool { return s.wayOf(f, i) == cures }

// Offered are the numbers of a finding's remedies in the order in which they are
// offered: cures first, what does nothing not at all.
func (s *Ask) Offered(f check.Finding) []int {
	var out []int
	for i := range f.Remedies {
		if s.wayOf(f, i) != useless {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return int(s.wayOf(f, a)) - int(s.wayOf(f, b)) })
	return out
}

// Outcome says in words what remedy i of a finding does: what it removes, what it
// brings and what is left; "" where it was not tried.
func (s *Ask) Outcome(f check.Finding, i int, units scheme.Units) string {
	t, ok := s.tried[fmt.Sprintf("%s %d", f.ID, i)]
	switch {
	case !ok:
		return ""
	case t.Tried == "":
		return say.Text("tried, and not told: %s", t.Why.Text)
	}
	words := say.Text("tried: removes it")
	if t.Tried == check.Fails {
		words = say.Text("tried: does not remove it")
	}
	if t.Then != 0 && f.Unit == "mm" { // other units say little by themselves
		words = say.Text("%s (then %s)", words, say.Length(t.Then, units))
	}
	for _, more := range []struct {
		words string
		ids   []string
	}{{"%s, but brings something new: %s", t.Brings}, {"%s; also removes: %s", t.Ends}, {"%s; left: %s", t.Leaves}} {
		var titles []string
		for _, id := range more.ids {
			if id != f.ID {
				titles = append(titles, say.Inside(say.Title(id)))
			}
		}
		if len(titles) > 0 {
			words = say.Text(more.words, words, say.Listed(titles))
		}
	}
	return words
}
