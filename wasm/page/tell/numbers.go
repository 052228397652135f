package tell

import (
	"fmt"
	"slices"
	"strings"

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
		{say.Text("Neckline"), length(plan.Neckline_mm), say.Text("girth and ease")},
		{say.Text("Band, as planned"), length(plan.BandPlanned_mm), say.Text("neckline and overlap")},
	}
	if plan.Band_mm != plan.BandPlanned_mm {
		rows = append(rows, numberRow{say.Text("Band, as made"), length(plan.Band_mm), ""})
	}
	rows = append(rows,
		numberRow{say.Text("Sets"), fmt.Sprint(plan.Sets), say.Text("%d top folds, %d bottom folds", plan.Crests, plan.Troughs)},
		numberRow{say.Text("Fold to fold"), length(plan.Panel_mm), fitted(plan.PanelFitted)},
		numberRow{say.Text("Strip"), length(plan.Strip_mm), say.Text("with end hems, without joins and spare")})
	if have := plan.Scheme.Strip.Have; have > 0 {
		rows = append(rows, numberRow{say.Text("Strip at hand"), length(have), say.Text("makes %s sets", fmt.Sprintf("%.4g", plan.SetsHave))})
	}
	rows = append(rows,
		numberRow{say.Text("The ruff, across"), say.Length(over.OuterBreadth_mm, t.Units), say.Text("over all; %s front to back", say.Length(over.OuterDepth_mm, t.Units))},
		numberRow{say.Text("Room for a set at the neck"), length(plan.Pitch_mm), ""})
	if t.Ruff.Solved == nil { // solvedRows has these as the cloth hangs
		rows = append(rows,
			numberRow{say.Text("Room for a set at the outer edge"), length(mean.PitchOuter_mm), ""},
			numberRow{say.Text("Height at the outer edge"), length(mean.HeightOuter_mm), say.Text("as folded")},
			numberRow{say.Text("Height at the inner edge"), length(mean.HeightInner_mm), say.Text("as folded")},
			numberRow{say.Text("Loop’s clear width"), length(mean.Loop_mm), meeting(mean.LoopsMeet)})
	}
	if plan.Slack > 0 {
		rows = append(rows, numberRow{say.Text("Slack"), fmt.Sprintf("%.2f", plan.Slack), say.Text("%s of cloth between two sewn folds, for a way of %s", say.Length(plan.InnerPanel_mm, t.Units), say.Length(plan.InnerPanel_mm/plan.Slack, t.Units))})
	}
	if e := scheme.FaceError(t.Scheme); e.Relative > 0 {
		note := say.Text("%s %% of the length, from one face measure", fmt.Sprintf("%.1f", 100*e.Relative))
		if e.Depth_mm > 0 {
			rows = append(rows, numberRow{say.Text("Depth from the picture"), length(plan.Scheme.Ruff.Depth) + " ± " + length(e.Depth_mm), note})
		}
		if e.Height_mm > 0 {
			rows = append(rows, numberRow{say.Text("Height from the picture"), length(plan.Scheme.Ruff.Height) + " ± " + length(e.Height_mm), note})
		}
	}
	return rows
}

func fitted(yes bool) string {
	if yes {
		return say.Text("fitted to the height")
	}
	return ""
}

func meeting(yes bool) string {
	if yes {
		return say.Text("neighbours meet: closed")
	}
	return say.Text("neighbours do not meet: gaping")
}

// chief are the figures that a maker asks for first. They stand open, all others folded.
func chief() []string {
	return []string{say.Text("Sets"), say.Text("Strip"), say.Text("The ruff, across"), say.Text("Height at the outer edge"), say.Text("Height at the outer edge, hanging"),
		say.Text("Droop of the outer edge, its mean"), say.Text("Moves when the wearer bows")}
}

// NumberNodes are the figures: the chief ones, then the others of the plan and of the
// cloth as it hangs, each folded, with what it holds in its summary.
func (t Tell) NumberNodes() []doc.Node {
	open := chief()
	var first, plan, hangs []doc.Node
	var toldPlan, toldHangs []string
	planned := t.numberRows()
	for i, r := range append(planned, t.solvedRows()...) {
		attrs := ""
		if i >= len(planned) {
			attrs = "class=solved"
		}
		label := doc.El("th", "scope=row").Say(r.label)
		if term, ok := termOf(r.label); ok {
			asks := termButton(term, fmt.Sprint("row-", i)).Say("?")
			label = label.WithNodes(doc.Text(" "), asks)
		}
		row := doc.El("tr", attrs, label, doc.El("td", "class=figure").Say(r.value), doc.El("td", "class=remark").Say(r.note))
		told := say.Text("%s %s", say.Inside(r.label), r.value)
		switch {
		case slices.Contains(open, r.label):
			first = append(first, row)
		case i < len(planned):
			plan, toldPlan = append(plan, row), append(toldPlan, told)
		default:
			hangs, toldHangs = append(hangs, row), append(toldHangs, told)
		}
	}
	out := []doc.Node{figures(say.Text("What the plan comes to"), first)}
	for _, part := range []struct {
		id, subject string
		rows        []doc.Node
		told        []string
	}{{"more-plan", say.Text("More of the plan"), plan, toldPlan}, {"more-hangs", say.Text("More of how it hangs"), hangs, toldHangs}} {
		if len(part.rows) > 0 {
			out = append(out, doc.El("details", "class=group id="+part.id,
				doc.El("summary", "", doc.El("span", "class=subject").Say(part.subject), doc.Text(" "), doc.El("span", "class=told").Say(strings.Join(part.told, ", "))),
				figures(part.subject, part.rows)))
		}
	}
	return out
}

// figures is a table of figures.
func figures(caption string, rows []doc.Node) doc.Node {
	head := func(words string) doc.Node { return doc.El("th", "scope=col").Say(say.Text(words)) }
	return doc.El("table", "", doc.El("caption", "class=hidden").Say(caption),
		doc.El("thead", "class=hidden", doc.El("tr", "", head("Of"), head("Is"), head("Remark"))),
		doc.El("tbody", "", rows...))
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
	line(say.Text("Of"), say.Text("Is"), say.Text("Remark"))
	for _, r := range append(t.numberRows(), t.solvedRows()...) {
		line(r.label, r.value, r.note)
	}
	if t.Ruff.Solved == nil {
		line(say.Text("How the cloth hangs"), say.Text("not solved"), "")
	}
	if code := t.Scheme.Code(); code != "" {
		line(say.Text("Share code"), code, "")
	}
	return pattern.TabSeparated(rows)
}
