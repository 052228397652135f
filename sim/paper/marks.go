package paper

import (
	"fmt"
	"slices"
	"strconv"

	"ruffwright/geom/draw"
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/sim/paper/sheet"
)

// marks is the table of marks: every place from the strip's hemmed end, rounded by
// itself.
func (j *job) marks() ([]*sheet.Page, error) {
	f := sheet.NewFlow("Table of marks")
	f.Page.Holds = "every mark from one end"
	t := j.table
	hem := ""
	if t.Hem_mm > 0 {
		hem = fmt.Sprintf("If you mark before hemming, add %s to every place: what the end hem takes. ", j.len(t.Hem_mm))
	}
	f.Para(sheet.Strong(j.beforeMarking()), sheet.Plain(fmt.Sprintf("Lay a long tape once along the whole strip, its zero at %s that is the first mark, and mark every place from there: never from mark to mark, errors would add up. Places are in %s, each rounded by itself to %s.",
		j.zero(), unitWord(t.Units), j.stepWords())))
	f.Para(sheet.Plain(hem), sheet.Plain("Mark at the stitch line, which is the inner edge as it is now, on the wrong side, with a pen or chalk that washes out: try it on a swatch, washed and ironed, because heat sets some of them for ever. The folds are sewn at this line."))
	f.Para(sheet.Plain(j.sewing() + " " + j.tuckWords()))
	f.Skip(1)
	// As many tables side by side as the width of their numbers lets stand.
	own, tucked := j.Ruff.Plan.MarksOwn, j.tucked()
	widest := draw.TextWidth(t.Text(t.Rows[len(t.Rows)-1].Place), sheet.Small, draw.Upright)
	n := 2
	if !own && t.Units != scheme.Inches && widest < 8.4 || !tucked && widest < 12 {
		n = 3
	}
	f.Split(n, 6)
	columns := []sheet.Col{sheet.Numbers("set", 10), sheet.Words("fold", 19), sheet.Numbers("place", 15)}
	if tucked {
		columns = append(columns, sheet.Numbers("tuck", 15), sheet.Numbers("to", 15))
	}
	if own {
		columns = append(columns, sheet.Words("sewn", 12))
	}
	columns = append(columns, sheet.Words("", 15))
	rows := make([][]string, len(t.Rows))
	for i, r := range t.Rows {
		rows[i] = j.markRow(r, tucked, own)
	}
	f.Table(sheet.Small, columns, rows)
	return f.Pages, nil
}

// beforeMarking says what is done to the strip before it is marked.
func (j *job) beforeMarking() string {
	var ready []string
	if len(j.Pattern.Cut.Joins) > 0 {
		ready = append(ready, "join")
	}
	if j.table.Hem_mm > 0 {
		ready = append(ready, "hem")
	}
	turn := "turn its inner edge in by " + j.len(j.Pattern.Strip.Takeup_mm) + " first. "
	if j.Pattern.Strip.Takeup_mm == 0 {
		turn = "finish its inner edge first. "
	}
	if len(ready) == 0 {
		return capital(turn)
	}
	return capital(list(ready)) + " the strip, " + turn
}

// markRow is a row of the table of marks; a join beside the marks has neither set
// nor fold.
func (j *job) markRow(r pattern.Row, tucked, own bool) []string {
	t := j.table
	row := []string{strconv.Itoa(r.Set), markName(r.Fold), t.Text(r.Place)}
	if r.Mark < 0 {
		row[0], row[1] = "", "–"
	}
	switch {
	case tucked && r.Tucked:
		row = append(row, t.Text(r.TuckA), t.Text(r.TuckB))
	case tucked:
		row = append(row, "", "")
	}
	if own {
		row = append(row, map[scheme.Edge]string{scheme.EdgeTop: "top", scheme.EdgeBottom: "bottom", scheme.EdgeNone: "no"}[r.Edge])
	}
	return append(row, rowNote(r))
}

// lastMark is the table's row of the last mark.
func (j *job) lastMark() pattern.Row {
	for i := len(j.table.Rows) - 1; i >= 0; i-- {
		if j.table.Rows[i].Mark >= 0 {
			return j.table.Rows[i]
		}
	}
	return pattern.Row{}
}

// markName is a fold in the tables: short.
func markName(f scheme.Fold) string {
	if f == scheme.Crest {
		return "top"
	}
	return "bottom"
}

func rowNote(r pattern.Row) string {
	switch {
	case r.Quarter && r.Join:
		return "pin, join"
	case r.Quarter:
		return "pin"
	case r.Join:
		return "join"
	}
	return ""
}

func (j *job) stepWords() string {
	if j.table.Units == scheme.Inches {
		return "1/32 in"
	}
	return j.len(j.table.Step_mm)
}

// tucked tells whether a mark has a tuck.
func (j *job) tucked() bool {
	return slices.ContainsFunc(j.table.Rows, func(r pattern.Row) bool { return r.Tucked })
}

// tuckWords says how a tuck is made; nothing where there is none.
func (j *job) tuckWords() string {
	if !j.tucked() {
		return ""
	}
	return "Tuck: bring the two places beside a mark together, so that the cloth between them is folded to the inside of the fold, and sew through both."
}
