package paper

import (
	"slices"

	"ruffwright/geom/draw"
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/paper/sheet"
)

// marks is the table of marks: every place from the strip's hemmed end, rounded by
// itself.
func (j *job) marks() ([]*sheet.Page, error) {
	f := j.flow(word.Say("Table of marks"), word.Say("every mark from one end"))
	t, step := j.table, j.len(j.table.Step_mm)
	if t.Units == scheme.Inches {
		step = word.Say("1/32 in")
	}
	hem := when(t.Hem_mm > 0, word.Say("If you mark before hemming, add %s to every place: what the end hem takes.", j.len(t.Hem_mm)), word.Text{})
	f.Para(word.Say("**%s** Lay a long tape once along the whole strip, its zero at %s that is the first mark, and mark every place from there: never from mark to mark, errors would add up. Places are in %s, each rounded by itself to %s.", j.beforeMarking(), j.zero(), unitWord[t.Units], step))
	f.Para(word.Join(" ", hem, word.Say("Mark on the wrong side, at the stitch line, which is the inner edge as it is now. Take a pen or chalk that washes out: try it on a swatch, washed and ironed, because heat sets some of them for ever. The folds are sewn at this line.")))
	f.Para(word.Join(" ", j.sewing(), j.tuckWords()))
	f.Skip(1)
	// As many tables side by side as the width of their numbers lets stand.
	own, tucked := j.Ruff.Plan.MarksOwn, j.tucked()
	widest := draw.TextWidth(t.Text(t.Rows[len(t.Rows)-1].Place), sheet.Small, draw.Upright)
	n := 2
	if !own && t.Units != scheme.Inches && widest < 8.4 || !tucked && widest < 12 {
		n = 3
	}
	f.Split(n, 6)
	columns := []sheet.Col{sheet.Numbers(word.Say("set"), 10), sheet.Words(word.Say("fold"), 19), sheet.Numbers(word.Say("place"), 15)}
	if tucked {
		columns = append(columns, sheet.Numbers(word.Say("tuck"), 15), sheet.Numbers(word.Say("to"), 15))
	}
	if own {
		columns = append(columns, sheet.Words(word.Say("sewn"), 12))
	}
	columns = append(columns, sheet.Words(word.Text{}, 15))
	rows := make([][]word.Text, len(t.Rows))
	for i, r := range t.Rows {
		rows[i] = j.markRow(r, tucked, own)
	}
	f.Table(sheet.Small, columns, rows)
	return f.Pages, nil
}

func (j *job) beforeMarking() word.Text {
	take := j.len(j.Pattern.Strip.Takeup_mm)
	joins, hem, turned := len(j.Pattern.Cut.Joins) > 0, j.table.Hem_mm > 0, j.Pattern.Strip.Takeup_mm > 0
	switch {
	case joins && hem && turned:
		return word.Say("Join and hem the strip, turn its inner edge in by %s first.", take)
	case joins && turned:
		return word.Say("Join the strip, turn its inner edge in by %s first.", take)
	case hem && turned:
		return word.Say("Hem the strip, turn its inner edge in by %s first.", take)
	case turned:
		return word.Say("Turn its inner edge in by %s first.", take)
	case joins && hem:
		return word.Say("Join and hem the strip, finish its inner edge first.")
	case joins:
		return word.Say("Join the strip, finish its inner edge first.")
	case hem:
		return word.Say("Hem the strip, finish its inner edge first.")
	}
	return word.Say("Finish its inner edge first.")
}

// markRow is a row of the table of marks; a join beside the marks has neither set
// nor fold.
func (j *job) markRow(r pattern.Row, tucked, own bool) []word.Text {
	row := []word.Text{word.Say("%d", r.Set), markName[r.Fold], j.placed(r.Place)}
	if r.Mark < 0 {
		row[0], row[1] = word.Text{}, word.Name("–")
	}
	switch {
	case tucked && r.Tucked:
		row = append(row, j.placed(r.TuckA), j.placed(r.TuckB))
	case tucked:
		row = append(row, word.Text{}, word.Text{})
	}
	if own {
		row = append(row, map[scheme.Edge]word.Text{scheme.EdgeTop: word.Say("top"), scheme.EdgeBottom: word.Say("bottom"), scheme.EdgeNone: word.Say("no")}[r.Edge])
	}
	return append(row, rowNote(r))
}

func (j *job) lastMark() pattern.Row {
	for i := len(j.table.Rows) - 1; i >= 0; i-- {
		if j.table.Rows[i].Mark >= 0 {
			return j.table.Rows[i]
		}
	}
	return pattern.Row{}
}

func rowNote(r pattern.Row) word.Text {
	switch {
	case r.Quarter && r.Join:
		return word.Say("pin, join")
	case r.Quarter:
		return word.Say("pin")
	case r.Join:
		return word.Say("join")
	}
	return word.Text{}
}

func (j *job) tucked() bool {
	return slices.ContainsFunc(j.table.Rows, func(r pattern.Row) bool { return r.Tucked })
}

func (j *job) tuckWords() word.Text {
	return when(!j.tucked(), word.Text{}, word.Say("Tuck: bring the two places beside a mark together, and sew through both. The cloth between them goes to the inside of the fold."))
}
