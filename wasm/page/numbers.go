package page

import (
	"fmt"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// numberRow is one line of the table beside the picture.
type numberRow struct{ label, value, note string }

// numberRows are the plan's and the closed form's figures, lengths in the
// reader's units.
func (p *Page) numberRows() []numberRow {
	plan, mean, over := p.ruff.Plan, p.ruff.Folded.Mean, p.ruff.Totals()
	length := func(mm float64) string { return say.Length(mm, p.units) }
	rows := []numberRow{
		{say.Word("sum.neckline"), length(plan.Neckline_mm), say.Word("sum.neckline.note")},
		{say.Word("sum.band"), length(plan.BandPlanned_mm), say.Word("sum.band.note")},
	}
	if plan.Band_mm != plan.BandPlanned_mm {
		rows = append(rows, numberRow{say.Word("sum.bandmade"), length(plan.Band_mm), ""})
	}
	rows = append(rows,
		numberRow{say.Word("sum.sets"), fmt.Sprint(plan.Sets), say.Word("sum.sets.note", "crests", plan.Crests, "troughs", plan.Troughs)},
		numberRow{say.Word("sum.panel"), length(plan.Panel_mm), fitted(plan.PanelFitted)},
		numberRow{say.Word("sum.strip"), length(plan.Strip_mm), say.Word("sum.strip.note")})
	if have := plan.Scheme.Strip.Have; have > 0 {
		rows = append(rows, numberRow{say.Word("sum.have"), length(have), say.Word("sum.have.note", "sets", fmt.Sprintf("%.4g", plan.SetsHave))})
	}
	rows = append(rows,
		numberRow{say.Word("sum.over"), say.Length(over.OuterBreadth_mm, p.units), say.Word("sum.over.note", "depth", say.Length(over.OuterDepth_mm, p.units))},
		numberRow{say.Word("sum.pitch"), length(plan.Pitch_mm), ""})
	if p.ruff.Solved == nil { // solvedRows has these as the cloth hangs
		rows = append(rows,
			numberRow{say.Word("sum.pitchouter"), length(mean.PitchOuter_mm), ""},
			numberRow{say.Word("sum.height"), length(mean.HeightOuter_mm), say.Word("sum.folded")},
			numberRow{say.Word("sum.inner"), length(mean.HeightInner_mm), say.Word("sum.folded")},
			numberRow{say.Word("sum.loop"), length(mean.Loop_mm), meeting(mean.LoopsMeet)})
	}
	if plan.Slack > 0 {
		rows = append(rows, numberRow{say.Word("sum.slack"), fmt.Sprintf("%.3f", plan.Slack), say.Word("sum.slack.note", "inner", say.Length(plan.InnerPanel_mm, p.units), "apart", say.Length(plan.InnerPanel_mm/plan.Slack, p.units))})
	}
	if e := scheme.FaceError(p.scheme); e.Relative > 0 {
		note := say.Word("sum.look.note", "percent", fmt.Sprintf("%.1f", 100*e.Relative))
		if e.Depth_mm > 0 {
			rows = append(rows, numberRow{say.Word("sum.lookdepth"), length(plan.Scheme.Ruff.Depth) + " ± " + length(e.Depth_mm), note})
		}
		if e.Height_mm > 0 {
			rows = append(rows, numberRow{say.Word("sum.lookheight"), length(plan.Scheme.Ruff.Height) + " ± " + length(e.Height_mm), note})
		}
	}
	return rows
}

func fitted(yes bool) string {
	if yes {
		return say.Word("sum.panel.fitted")
	}
	return ""
}

func meeting(yes bool) string {
	if yes {
		return say.Word("sum.meet")
	}
	return say.Word("sum.gape")
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
	return say.Word("shows.pair", "a", p.describes(&p.ruff), "b", p.describes(&p.rival.side.Ruff))
}

func (p *Page) describes(of *sim.Ruff) string {
	plan, mean := of.Plan, of.Folded.Mean
	s := plan.Scheme
	length := func(mm float64) string { return scheme.FormatLength(mm, p.units) }
	var b strings.Builder
	b.WriteString(say.Word("shows."+string(s.Wearer.Part), "view", p.viewLabel(), "sets", plan.Sets,
		"girth", length(s.Wearer.Girth), "depth", length(s.Ruff.Depth), "height", length(mean.HeightOuter_mm)))
	switch row := plan.Row; {
	case !row.OneEdge():
		b.WriteString(say.Word("shows.both"))
	case row.Edge() != scheme.EdgeNone:
		b.WriteString(say.Word("shows." + string(row.Kind()) + "s." + string(row.Edge())))
	}
	if of.Solved == nil && mean.LoopsMeet || of.Solved != nil && of.Solved.Ruff.LoopsMeet {
		b.WriteString(say.Word("shows.meet"))
	} else {
		b.WriteString(say.Word("shows.gape"))
	}
	r := of.Solved
	if r == nil {
		b.WriteString(say.Word("shows.drawn"))
		b.WriteString(p.stageWords())
		return b.String()
	}
	b.WriteString(say.Word("shows.hangs", "height", say.Length(r.Ruff.HeightOuter_mm, p.units), "reach", say.Length(r.Ruff.Reach_mm, p.units), "slope", slopes(r.Ruff.Tilt_deg)))
	if r.Ruff.BowDone {
		b.WriteString(say.Word("shows.bow", "bow", say.Length(r.Ruff.Bow_mm, p.units)))
	}
	if p.pose != AtRest && p.has(p.pose) {
		b.WriteString(say.Word("shows.pose", "pose", say.Word("poselong."+string(p.pose))))
	}
	b.WriteString(p.stageWords())
	return b.String()
}
