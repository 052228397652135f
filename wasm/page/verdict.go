package page

import (
	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/wasm/page/say"
)

// verdict is one plain sentence on all findings, in a maker's words: that the
// ruff will stand, and how; or what stops it; or what is to mend. What is not
// solved yet follows in a second.
func (p *Page) verdict() string {
	s := p.state()
	switch s.kind {
	case typing:
		r := s.refused[0]
		return say.Word("verdict.typing", "field", r.field.Label, "text", r.text, "used", r.used)
	case lastOne:
		return say.Word("verdict.last", "verdict", p.judgement(s))
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
		named[f.Severity] = append(named[f.Severity], say.Inside(say.Title(f.ID)))
	}
	stop, mend := named[check.Stop], named[check.Mend]
	ruff := say.Word("thing." + string(p.scheme.Wearer.Part))
	words := ""
	switch {
	case len(stop) > 0:
		words = say.Many("verdict.stop", len(stop), "ruff", ruff, "what", say.Listed(stop))
		if n := len(mend); n > 0 {
			words = say.Many("verdict.more", n, "verdict", words)
		}
	case s.why != "":
		words = say.Word("verdict.cannot", "ruff", ruff)
		if n := len(mend); n > 0 {
			words = say.Many("verdict.more", n, "verdict", words)
		}
		return words
	case len(mend) > 0 && pending > 0:
		words = say.Many("verdict.drawn.mend", len(mend), "ruff", ruff, "what", say.Listed(mend))
	case len(mend) > 0:
		words = say.Many("verdict.mend", len(mend), "ruff", ruff, "what", say.Listed(mend))
	case pending > 0:
		words = say.Word("verdict.drawn", "ruff", ruff)
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
	return say.Word("verdict."+what+"."+how, "verdict", words)
}

// stands says how a ruff stands that nothing is wrong with.
func (p *Page) stands(ruff string) string {
	r := p.ruff.Solved
	if r == nil || !r.Converged() || !r.Ruff.BowDone {
		return say.Word("verdict.plain", "ruff", ruff)
	}
	height := say.Length(r.Ruff.HeightOuter_mm, p.units)
	wanted := scheme.FormatLength(p.ruff.Plan.Scheme.Ruff.Height, p.units)
	if bow := say.Length(r.Ruff.Bow_mm, p.units); bow != say.Length(0, p.units) {
		return say.Word("verdict.good", "ruff", ruff, "sets", p.ruff.Plan.Sets, "height", height, "wanted", wanted, "bow", bow)
	}
	return say.Word("verdict.firm", "ruff", ruff, "sets", p.ruff.Plan.Sets, "height", height, "wanted", wanted)
}
