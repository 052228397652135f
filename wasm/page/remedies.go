package page

import (
	"fmt"
	"slices"

	"ruffwright/sim/check"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// mostTries is how many remedies are tried for one ruff.
const mostTries = 40

// untried are the remedies that the solver has not tried on this scheme, in the
// order of the findings.
func (p *Page) untried() []wire.Trial {
	if p.tried != nil && !p.again {
		return nil // asked already
	}
	if p.tried == nil {
		p.tried = map[string]wire.Tried{}
	}
	p.again = false
	var out []wire.Trial
	for _, f := range p.findings {
		if f.Pending || f.Severity == check.Caution {
			continue
		}
		for i, r := range f.Remedies {
			_, known := p.tried[fmt.Sprintf("%s %d", f.ID, i)]
			if len(r.Changes) > 0 && len(out) < mostTries && !known {
				out = append(out, wire.Trial{Finding: f.ID, Remedy: i, Changes: r.Changes})
			}
		}
	}
	return out
}

// marks notes what became of a remedy.
func (p *Page) marks(t wire.Tried) {
	if p.tried == nil {
		return
	}
	p.tried[fmt.Sprintf("%s %d", t.Finding, t.Remedy)] = t
	p.marked()
}

// marked writes what was tried beside the remedies.
func (p *Page) marked() {
	for _, f := range p.findings {
		for i := range f.Remedies {
			t := p.tried[fmt.Sprintf("%s %d", f.ID, i)]
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
func (p *Page) wayOf(f check.Finding, i int) way {
	t, ok := p.tried[fmt.Sprintf("%s %d", f.ID, i)]
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

// offered are the numbers of a finding's remedies in the order in which they are
// offered: cures first, what does nothing not at all.
func (p *Page) offered(f check.Finding) []int {
	var out []int
	for i := range f.Remedies {
		if p.wayOf(f, i) != useless {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return int(p.wayOf(f, a)) - int(p.wayOf(f, b)) })
	return out
}

// outcome says in words what remedy i of a finding does: what it removes, what it
// brings and what is left; "" where it was not tried.
func (p *Page) outcome(f check.Finding, i int) string {
	t, ok := p.tried[fmt.Sprintf("%s %d", f.ID, i)]
	switch {
	case !ok:
		return ""
	case t.Tried == "":
		return say.Word("tried.not", "why", say.Told(t.Why))
	}
	words := say.Word("tried.removes")
	if t.Tried == check.Fails {
		words = say.Word("tried.fails")
	}
	if t.Then != 0 && f.Unit == "mm" { // other units say little by themselves
		words = say.Word("tried.then", "tried", words, "value", say.Length(t.Then, p.units))
	}
	for _, more := range []struct {
		key string
		ids []string
	}{{"tried.brings", t.Brings}, {"tried.ends", t.Ends}, {"tried.leaves", t.Leaves}} {
		var titles []string
		for _, id := range more.ids {
			if id != f.ID {
				titles = append(titles, say.Inside(say.Title(id)))
			}
		}
		if len(titles) > 0 {
			words = say.Word(more.key, "tried", words, "titles", say.Listed(titles))
		}
	}
	return words
}
