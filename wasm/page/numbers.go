package page

import (
	"fmt"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/wasm/doc"
)

// numberRow is one line of the table beside the picture.
type numberRow struct{ label, value, note string }

// numberRows are the plan's and the closed form's figures, lengths in the
// reader's units.
func (p *Page) numberRows() []numberRow {
	plan, mean, over := p.ruff.Plan, p.ruff.Folded.Mean, p.ruff.Totals()
	length := p.about
	rows := []numberRow{
		{word("sum.neckline"), length(plan.Neckline_mm), word("sum.neckline.note")},
		{word("sum.band"), length(plan.BandPlanned_mm), word("sum.band.note")},
	}
	if plan.Band_mm != plan.BandPlanned_mm {
		rows = append(rows, numberRow{word("sum.bandmade"), length(plan.Band_mm), ""})
	}
	rows = append(rows,
		numberRow{word("sum.sets"), fmt.Sprint(plan.Sets), word("sum.sets.note", "crests", plan.Crests, "troughs", plan.Troughs)},
		numberRow{word("sum.panel"), length(plan.Panel_mm), fitted(plan.PanelFitted)},
		numberRow{word("sum.strip"), length(plan.Strip_mm), word("sum.strip.note")})
	if have := plan.Scheme.Strip.Have; have > 0 {
		rows = append(rows, numberRow{word("sum.have"), length(have), word("sum.have.note", "sets", fmt.Sprintf("%.4g", plan.SetsHave))})
	}
	rows = append(rows,
		numberRow{word("sum.over"), p.about(over.OuterBreadth_mm), word("sum.over.note", "depth", p.about(over.OuterDepth_mm))},
		numberRow{word("sum.pitch"), length(plan.Pitch_mm), ""})
	if p.ruff.Solved == nil { // solvedRows has these as the cloth hangs
		rows = append(rows,
			numberRow{word("sum.pitchouter"), length(mean.PitchOuter_mm), ""},
			numberRow{word("sum.height"), length(mean.HeightOuter_mm), word("sum.folded")},
			numberRow{word("sum.inner"), length(mean.HeightInner_mm), word("sum.folded")},
			numberRow{word("sum.loop"), length(mean.Loop_mm), meeting(mean.LoopsMeet)})
	}
	if plan.Slack > 0 {
		rows = append(rows, numberRow{word("sum.slack"), fmt.Sprintf("%.3f", plan.Slack), word("sum.slack.note", "inner", p.about(plan.InnerPanel_mm), "apart", p.about(plan.InnerPanel_mm/plan.Slack))})
	}
	if e := scheme.FaceError(p.scheme); e.Relative > 0 {
		note := word("sum.look.note", "percent", fmt.Sprintf("%.1f", 100*e.Relative))
		if e.Depth_mm > 0 {
			rows = append(rows, numberRow{word("sum.lookdepth"), length(plan.Scheme.Ruff.Depth) + " ± " + length(e.Depth_mm), note})
		}
		if e.Height_mm > 0 {
			rows = append(rows, numberRow{word("sum.lookheight"), length(plan.Scheme.Ruff.Height) + " ± " + length(e.Height_mm), note})
		}
	}
	return rows
}

func fitted(yes bool) string {
	if yes {
		return word("sum.panel.fitted")
	}
	return ""
}

func meeting(yes bool) string {
	if yes {
		return word("sum.meet")
	}
	return word("sum.gape")
}

// numberNodes is the body of the table.
func (p *Page) numberNodes() []doc.Node {
	var out []doc.Node
	planned := p.numberRows()
	for i, r := range append(planned, p.solvedRows()...) {
		attrs := ""
		if i >= len(planned) {
			attrs = "class=solved"
		}
		out = append(out, doc.El("tr", attrs, doc.El("th", "scope=row").Say(r.label), doc.El("td", "class=figure").Say(r.value), doc.El("td", "class=remark").Say(r.note)))
	}
	return out
}

// Description says in words what the picture shows.
func (p *Page) Description() string {
	if !p.compares() {
		return p.describes(&p.ruff)
	}
	return word("shows.pair", "a", p.describes(&p.ruff), "b", p.describes(&p.rival.side.Ruff))
}

func (p *Page) describes(of *sim.Ruff) string {
	plan, mean := of.Plan, of.Folded.Mean
	s := plan.Scheme
	length := func(mm float64) string { return scheme.FormatLength(mm, p.units) }
	var b strings.Builder
	b.WriteString(word("shows."+string(s.Wearer.Part), "view", p.viewLabel(), "sets", plan.Sets,
		"girth", length(s.Wearer.Girth), "depth", length(s.Ruff.Depth), "height", length(mean.HeightOuter_mm)))
	switch s.Pleat.Anchor {
	case scheme.AnchorBoth:
		b.WriteString(word("shows.both"))
	default:
		b.WriteString(word("shows." + string(s.Pleat.Sewn) + "." + string(s.Pleat.Anchor)))
	}
	if of.Solved == nil && mean.LoopsMeet || of.Solved != nil && of.Solved.Ruff.LoopsMeet {
		b.WriteString(word("shows.meet"))
	} else {
		b.WriteString(word("shows.gape"))
	}
	r := of.Solved
	if r == nil {
		b.WriteString(word("shows.drawn"))
		b.WriteString(p.stageWords())
		return b.String()
	}
	b.WriteString(word("shows.hangs", "height", p.about(r.Ruff.HeightOuter_mm), "reach", p.about(r.Ruff.Reach_mm), "slope", slopes(r.Ruff.Tilt_deg)))
	if r.Ruff.BowDone {
		b.WriteString(word("shows.bow", "bow", p.about(r.Ruff.Bow_mm)))
	}
	if p.pose != AtRest && p.has(p.pose) {
		b.WriteString(word("shows.pose", "pose", word("poselong."+string(p.pose))))
	}
	b.WriteString(p.stageWords())
	return b.String()
}
