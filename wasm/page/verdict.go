package page

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
)

// mostNamed is how many things that stop a ruff, or are to mend, the verdict
// names; the findings name all.
const mostNamed = 3

// verdict is one plain sentence on all findings, in a maker's words: that the
// ruff will stand, and how; or what stops it; or what is to mend. What is not
// solved yet follows in a second.
func (p *Page) verdict() string {
	s := p.state()
	switch s.kind {
	case typing:
		r := s.refused[0]
		return word("verdict.typing", "field", r.field.Label, "text", r.text, "used", r.used)
	case lastOne:
		return word("verdict.last", "verdict", p.judgement(s))
	}
	return p.judgement(s)
}

// judgement is the verdict on the ruff that is shown.
func (p *Page) judgement(s state) string {
	named := map[check.Severity][]string{}
	pending := 0
	for _, f := range p.findings {
		if f.Pending {
			pending++
			continue
		}
		named[f.Severity] = append(named[f.Severity], inside(title(f.ID)))
	}
	stop, mend := named[check.Stop], named[check.Mend]
	ruff := word("thing." + string(p.scheme.Wearer.Part))
	words := ""
	switch {
	case len(stop) > 0:
		words = many("verdict.stop", len(stop), "ruff", ruff, "what", listed(stop))
		if n := len(mend); n > 0 {
			words = many("verdict.more", n, "verdict", words)
		}
	case s.why != "":
		words = word("verdict.cannot", "ruff", ruff)
		if n := len(mend); n > 0 {
			words = many("verdict.more", n, "verdict", words)
		}
		return words
	case len(mend) > 0 && pending > 0:
		words = many("verdict.drawn.mend", len(mend), "ruff", ruff, "what", listed(mend))
	case len(mend) > 0:
		words = many("verdict.mend", len(mend), "ruff", ruff, "what", listed(mend))
	case pending > 0:
		words = word("verdict.drawn", "ruff", ruff)
	default:
		words = p.stands(ruff)
	}
	if pending == 0 {
		return words
	}
	what, how := "hang", "not"
	if p.ruff.Solved != nil {
		what = "firm"
	}
	if p.busy() {
		how = "busy"
	}
	return word("verdict."+what+"."+how, "verdict", words)
}

// stands says how a ruff stands that nothing is wrong with.
func (p *Page) stands(ruff string) string {
	r := p.ruff.Solved
	if r == nil || !r.Converged() || !r.Ruff.BowDone {
		return word("verdict.plain", "ruff", ruff)
	}
	height := p.about(r.Ruff.HeightOuter_mm)
	wanted := scheme.FormatLength(p.ruff.Plan.Scheme.Ruff.Height, p.units)
	if bow := p.about(r.Ruff.Bow_mm); bow != p.about(0) {
		return word("verdict.good", "ruff", ruff, "sets", p.ruff.Plan.Sets, "height", height, "wanted", wanted, "bow", bow)
	}
	return word("verdict.firm", "ruff", ruff, "sets", p.ruff.Plan.Sets, "height", height, "wanted", wanted)
}

// listed is the first few of many things, divided by semicolons.
func listed(things []string) string {
	if len(things) > mostNamed {
		return word("verdict.others", "what", strings.Join(things[:mostNamed], "; "), "n", number(len(things)-mostNamed))
	}
	return strings.Join(things, "; ")
}

// inside is a title in the middle of a sentence.
func inside(title string) string {
	first, n := utf8.DecodeRuneInString(title)
	return string(unicode.ToLower(first)) + title[n:]
}
