package tell

import (
	"fmt"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// numberRow is one line of the table beside the picture.
type numberRow struct{ label, value, note string }

// numberRows are the plan's and the closed form's figures, lengths in the
// reader's units.
func (t Tell) numberRows() []numberRow {
	plan, mean, over := t.Ruff.Plan, t.Ruff.Folded.Mean, t.Ruff.Totals()
	length := func(mm float64) string { return say.Length(mm, t.Units) }
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
		numberRow{say.Word("sum.over"), say.Length(over.OuterBreadth_mm, t.Units), say.Word("sum.over.note", "depth", say.Length(over.OuterDepth_mm, t.Units))},
		numberRow{say.Word("sum.pitch"), length(plan.Pitch_mm), ""})
	if t.Ruff.Solved == nil { // solvedRows has these as the cloth hangs
		rows = append(rows,
			numberRow{say.Word("sum.pitchouter"), length(mean.PitchOuter_mm), ""},
			numberRow{say.Word("sum.height"), length(mean.HeightOuter_mm), say.Word("sum.folded")},
			numberRow{say.Word("sum.inner"), length(mean.HeightInner_mm), say.Word("sum.folded")},
			numberRow{say.Word("sum.loop"), length(mean.Loop_mm), meeting(mean.LoopsMeet)})
	}
	if plan.Slack > 0 {
		rows = append(rows, numberRow{say.Word("sum.slack"), fmt.Sprintf("%.3f", plan.Slack), say.Word("sum.slack.note", "inner", say.Length(plan.InnerPanel_mm, t.Units), "apart", say.Length(plan.InnerPanel_mm/plan.Slack, t.Units))})
	}
	if e := scheme.FaceError(t.Scheme); e.Relative > 0 {
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

// NumberNodes is the body of the table.
func (t Tell) NumberNodes() []doc.Node {
	var out []doc.Node
	planned := t.numberRows()
	for i, r := range append(planned, t.solvedRows()...) {
		attrs := ""
		if i >= len(planned) {
			attrs = "class=solved"
		}
		out = append(out, doc.El("tr", attrs, doc.El("th", "scope=row").Say(r.label), doc.El("td", "class=figure").Say(r.value), doc.El("td", "class=remark").Say(r.note)))
	}
	return out
}

// NumbersText is the table of numbers as text that falls into the cells of a
// spreadsheet. The code at its end is the whole ruff.
func (t Tell) NumbersText() string {
	var rows [][]string
	line := func(cells ...string) { rows = append(rows, cells) }
	if t.Scheme.Name != "" {
		line(t.Scheme.Name, "", "")
	}
	if of := t.State().Of(); of != "" {
		line(of, "", "")
	}
	line(say.Word("sums.of"), say.Word("sums.is"), say.Word("sums.remark"))
	for _, r := range append(t.numberRows(), t.solvedRows()...) {
		line(r.label, r.value, r.note)
	}
	if t.Ruff.Solved == nil {
		line(say.Word("sum.hangs"), say.Word("sum.hangs.not"), "")
	}
	if code := t.Scheme.Code(); code != "" {
		line(say.Word("sum.code"), code, "")
	}
	return pattern.TabSeparated(rows)
}
