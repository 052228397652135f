package tell

import (
	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/sim/measure"
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
		return say.Text("The ruff as before, with %s %s: “%s” cannot be used as far as it is typed.", say.Text(r.Field.Label), r.Used, r.Text)
	case work.LastOne:
		return say.Text("Of the last good ruff, not of what is typed: %s", t.judgement(s))
	}
	return t.judgement(s)
}

// judgement is the verdict on the ruff that is shown.
func (t Tell) judgement(s work.State) string {
	if t.Veiled {
		return say.Text("Something was wrong with this ruff. Say in the lesson what; then it is told here how it stands.")
	}
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
	ruff := say.Text("ruff")
	if t.Scheme.Wearer.Part == scheme.Wrist {
		ruff = say.Text("cuff")
	}
	words := ""
	switch {
	case len(stop) > 0:
		words = say.Count(len(stop), "One thing stops this %[2]s: %[3]s.", "%s things stop this %s: %s.", say.Capital(say.Number(len(stop))), ruff, say.Listed(stop))
		words = more(words, len(mend))
	case s.Why != "":
		return more(say.Text("Nobody can tell how this %s will stand: how its cloth hangs cannot be solved.", ruff), len(mend))
	case len(mend) > 0 && pending > 0:
		words = say.Count(len(mend), "As drawn, nothing stops this %[2]s, but one thing is to mend: %[3]s.", "As drawn, nothing stops this %[2]s, but %[1]s things are to mend: %[3]s.", say.Number(len(mend)), ruff, say.Listed(mend))
	case len(mend) > 0:
		words = say.Count(len(mend), "This %[2]s will stand, but one thing is to mend: %[3]s.", "This %[2]s will stand, but %[1]s things are to mend: %[3]s.", say.Number(len(mend)), ruff, say.Listed(mend))
	case pending > 0:
		words = say.Text("As drawn, nothing stops this %s.", ruff)
	default:
		words = t.stands(ruff)
	}
	if pending == 0 {
		return words
	}
	switch solved, busy := t.Ruff.Solved != nil, t.Ask.Busy(); {
	case solved && busy:
		return say.Text("%s How firmly it holds is being solved.", words)
	case solved:
		return say.Text("%s How firmly it holds is not solved.", words)
	case busy:
		return say.Text("%s How the cloth hangs is being solved.", words)
	}
	return say.Text("%s How the cloth hangs is not solved.", words)
}

// more adds to a verdict how many things are to mend beside what stops.
func more(verdict string, mend int) string {
	if mend == 0 {
		return verdict
	}
	return say.Count(mend, "%[1]s One thing more is to mend.", "%s %s things more are to mend.", verdict, say.Capital(say.Number(mend)))
}

// stands says how a ruff stands that nothing is wrong with.
func (t Tell) stands(ruff string) string {
	r := t.Ruff.Solved
	if r == nil || !r.Converged() || !r.Ruff.BowDone {
		return say.Text("Nothing stops this %s.", ruff)
	}
	sure := t.Ruff.Sure()
	height, swing := say.Length(r.Ruff.HeightOuter_mm, t.Units), say.Length(r.Ruff.Bow_mm, t.Units)
	for _, q := range sure {
		switch q.Figure {
		case measure.Height:
			height = say.In(q.Says(t.Units))
		case measure.Bow:
			swing = say.In(q.Says(t.Units))
		}
	}
	wanted := scheme.Length(t.Ruff.Plan.Scheme.Ruff.Height, t.Units)
	words := say.Text("This %s will stand. Height of its %d sets as they hang: %s (wanted: %s). Swing of the outer edge when the wearer bows: %s.", ruff, t.Ruff.Plan.Sets, height, wanted, swing)
	if check.MayBow(&r.Ruff) {
		words = say.Text("This %s stands. Height of its %d sets as they hang: %s (wanted: %s). Whether it is held firm enough when the wearer bows is not sure.", ruff, t.Ruff.Plan.Sets, height, wanted)
	}
	if narrows := t.Ruff.Narrows(sure); !narrows.Empty() {
		return say.Text("%s %s", words, narrows)
	}
	return words
}
