package page

import (
	"fmt"
	"strings"

	"ruffwright/geom/scheme"
)

// numberRow is one line of the table beside the picture.
type numberRow struct{ label, value, note string }

// numberRows are the plan's and the closed form's figures, lengths in the
// reader's units.
func (p *Page) numberRows() []numberRow {
	plan, mean := p.ruff.Plan, p.ruff.Folded.Mean
	length := func(mm float64) string { return scheme.FormatLength(mm, p.units) }
	rows := []numberRow{
		{"Neckline", length(plan.Neckline_mm), "girth and ease"},
		{"Band, as planned", length(plan.BandPlanned_mm), "neckline and overlap"},
	}
	if plan.Band_mm != plan.BandPlanned_mm {
		rows = append(rows, numberRow{"Band, as made", length(plan.Band_mm), ""})
	}
	rows = append(rows,
		numberRow{"Sets", fmt.Sprint(plan.Sets), fmt.Sprintf("%d top folds, %d bottom folds", plan.Crests, plan.Troughs)},
		numberRow{"Fold to fold", length(plan.Panel_mm), fitted(plan.PanelFitted)},
		numberRow{"Strip", length(plan.Strip_mm), "with end hems, without joins and spare"})
	if have := plan.Scheme.Strip.Have; have > 0 {
		rows = append(rows, numberRow{"Strip at hand", length(have), fmt.Sprintf("makes %.4g sets", plan.SetsHave)})
	}
	rows = append(rows,
		numberRow{"Room for a set at the neck", length(plan.Pitch_mm), ""},
		numberRow{"Room for a set at the outer edge", length(mean.PitchOuter_mm), ""},
		numberRow{"Height at the outer edge", length(mean.HeightOuter_mm), "as folded"},
		numberRow{"Height at the inner edge", length(mean.HeightInner_mm), "as folded"},
		numberRow{"Loop's clear width", length(mean.Loop_mm), meeting(mean.LoopsMeet)})
	if plan.Slack > 0 {
		rows = append(rows, numberRow{"Slack", fmt.Sprintf("%.3f", plan.Slack), "inner edge between sewn points ÷ their distance"})
	}
	if e := scheme.FaceError(p.scheme); e.Relative > 0 {
		note := fmt.Sprintf("%.1f %% of the length, from one face measure", 100*e.Relative)
		if e.Depth_mm > 0 {
			rows = append(rows, numberRow{"Depth from the picture", length(plan.Scheme.Ruff.Depth) + " ± " + length(e.Depth_mm), note})
		}
		if e.Height_mm > 0 {
			rows = append(rows, numberRow{"Height from the picture", length(plan.Scheme.Ruff.Height) + " ± " + length(e.Height_mm), note})
		}
	}
	return rows
}

func fitted(yes bool) string {
	if yes {
		return "fitted to the height"
	}
	return ""
}

func meeting(yes bool) string {
	if yes {
		return "neighbours meet: closed"
	}
	return "neighbours do not meet: gaping"
}

// numberNodes is the body of the table.
func (p *Page) numberNodes() []Node {
	var out []Node
	planned := p.numberRows()
	for i, r := range append(planned, p.solvedRows()...) {
		attrs := ""
		if i >= len(planned) {
			attrs = "class=solved"
		}
		out = append(out, el("tr", attrs, el("th", "scope=row").say(r.label), el("td", "class=figure").say(r.value), el("td", "class=remark").say(r.note)))
	}
	return out
}

// Description says in words what the picture shows.
func (p *Page) Description() string {
	plan, mean := p.ruff.Plan, p.ruff.Folded.Mean
	s := plan.Scheme
	length := func(mm float64) string { return scheme.FormatLength(mm, p.units) }
	var b strings.Builder
	if p.twin.shown {
		fmt.Fprintf(&b, "On the drawing is the same ruff sewn at the %s. As decided it is: ", sewnWords(p.twin.ruff.Plan))
	}
	fmt.Fprintf(&b, "%s: a ruff of %d sets for a %s of %s, %s deep; its outer edge is %s high as folded.",
		p.viewWords().label, plan.Sets, s.Wearer.Part, length(s.Wearer.Girth), length(s.Ruff.Depth), length(mean.HeightOuter_mm))
	switch s.Pleat.Anchor {
	case scheme.AnchorBoth:
		b.WriteString(" Top folds are sewn to the top edge of the band, bottom folds to its bottom edge.")
	default:
		folds := "Top folds"
		if s.Pleat.Sewn == scheme.Troughs {
			folds = "Bottom folds"
		}
		fmt.Fprintf(&b, " %s alone are sewn, to the %s edge of the band.", folds, s.Pleat.Anchor)
	}
	if mean.LoopsMeet {
		b.WriteString(" At the outer edge neighbouring loops meet.")
	} else {
		b.WriteString(" At the outer edge there is a gap between neighbouring loops.")
	}
	r := p.ruff.Solved
	if r == nil {
		b.WriteString(" The shape is geometry alone; how the cloth hangs is not solved yet.")
		return b.String()
	}
	fmt.Fprintf(&b, " As the cloth hangs, the outer edge is %s high, stands %s from the neck and %s.",
		p.about(r.Ruff.HeightOuter_mm), p.about(r.Ruff.Reach_mm), slope(r.Ruff.Tilt_deg))
	if r.Ruff.BowDone {
		fmt.Fprintf(&b, " When the wearer bows it moves by %s.", p.about(r.Ruff.Bow_mm))
	}
	if p.pose != AtRest && p.has(p.pose) {
		fmt.Fprintf(&b, " Shown: %s.", poseWords[p.pose].long)
	}
	return b.String()
}
