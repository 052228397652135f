package page

import (
	"fmt"
	"strings"

	"ruffwright/sim/check"
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

// outcome says in words what remedy i of a finding does; "" where it was not
// tried.
func (p *Page) outcome(f check.Finding, i int) string {
	t, ok := p.tried[fmt.Sprintf("%s %d", f.ID, i)]
	switch {
	case !ok:
		return ""
	case t.Tried == "":
		return word("tried.not", "why", told(t.Why))
	}
	words := word("tried", "what", theirs(t.Tried))
	if t.Tried == check.Fails {
		words = word("tried.fails")
	}
	if t.Then != 0 && f.Unit == "mm" && t.Tried != check.Trades { // other units say little by themselves
		words = word("tried.then", "tried", words, "value", p.about(t.Then))
	}
	if len(t.Brings) > 0 {
		var titles []string
		for _, id := range t.Brings {
			titles = append(titles, title(id))
		}
		words = word("tried.brings", "tried", words, "titles", strings.Join(titles, "; "))
	}
	return words
}

// title is a finding's few words.
func title(id string) string {
	for _, r := range check.Table() {
		if r.ID == id {
			return theirs(r.Title)
		}
	}
	return id
}
