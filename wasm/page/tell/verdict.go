package tell

import (
	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/work"
)

// Verdict is one plain sentence on all findings, in a maker's words: that the
// ruff will stand, and how; or what stops it; or what is to mend. What is not
// solved yet follows in a second.
func (t Tell) Verdict() string {
	s := t.State()
	switch s.Kind {
	case work.Typing:
		r := s.Refused[0]
		return say.Word("verdict.typing", "field", r.Field.Label, "text", r.Text, "used", r.Used)
	case work.LastOne:
		return say.Word("verdict.last", "verdict", t.judgement(s))
	}
	return t.judgement(s)
}

// judgement is the verdict on the ruff that is shown.
func (t Tell) judgement(s work.State) string {
	named := map[check.Severity][]string{}
	pending := 0
	for _, f := range t.Findings {
		if f.Pending {
			pending++
			continue
		}
		named[f.Severity] = append(named[f.Severity], say.Inside(say.Title(f.ID)))
	}
	stop, mend := named[check.Stop], named[check.Mend]
	ruff := say.Word("thing." + string(t.Scheme.Wearer.Part))
	words := ""
	switch {
	case len(stop) > 0:
		words = say.Many("verdict.stop", len(stop), "ruff", ruff, "what", say.Listed(stop))
		if n := len(mend); n > 0 {
			words = say.Many("verdict.more", n, "verdict", words)
		}
	case s.Why != "":
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
		words = t.stands(ruff)
	}
	if pending == 0 {
		return words
	}
	what, how := "hang", "not"
	if t.Ruff.Solved != nil {
		what = "firm"
	}
	if t.Ask.Busy() {
		how = "busy"
	}
	return say.Word("verdict."+what+"."+how, "verdict", words)
}

// stands says how a ruff stands that nothing is wrong with.
func (t Tell) stands(ruff string) string {
	r := t.Ruff.Solved
	if r == nil || !r.Converged() || !r.Ruff.BowDone {
		return say.Word("verdict.plain", "ruff", ruff)
	}
	height := say.Length(r.Ruff.HeightOuter_mm, t.Units)
	wanted := scheme.FormatLength(t.Ruff.Plan.Scheme.Ruff.Height, t.Units)
	if bow := say.Length(r.Ruff.Bow_mm, t.Units); bow != say.Length(0, t.Units) {
		return say.Word("verdict.good", "ruff", ruff, "sets", t.Ruff.Plan.Sets, "height", height, "wanted", wanted, "bow", bow)
	}
	return say.Word("verdict.firm", "ruff", ruff, "sets", t.Ruff.Plan.Sets, "height", height, "wanted", wanted)
}
