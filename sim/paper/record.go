package paper

import (
	"fmt"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/sim/paper/sheet"
)

// record is the record sheet: the pictures, what the ruff is expected to measure,
// the findings, and every decision of the scheme.
func (j *job) record() ([]*sheet.Page, error) {
	f := sheet.NewFlow("Record")
	f.Page.Holds = "pictures, figures, findings, the scheme"
	plan, body := j.Ruff.Plan, shape(j.Ruff)
	opt := figure.Options{Units: j.Units, Palette: draw.Contrast(), Width_mm: 92, Turn_deg: 20, Tilt_deg: 25}
	low := sheet.BodyTop_mm + 99.0
	for _, picture := range []struct {
		view, name   string
		x, y, height float64
	}{
		{"above", "from above, chin down", 0, sheet.BodyTop_mm, 96},
		{"set", "one set", 98, sheet.BodyTop_mm, 96},
		{"side", "from the side", 0, low, 80},
		{"hand", "in the hand", 98, low, 80},
	} {
		opt.Height_mm = picture.height
		d, err := figure.Named(picture.view).Draw(plan, body, opt)
		if err != nil {
			return nil, fmt.Errorf("paper: record sheet, %s: %w", picture.name, err)
		}
		f.Page.Pictures = append(f.Page.Pictures, sheet.Picture{At: sheet.Pt(picture.x, picture.y), Drawing: d})
	}
	f.Y = low + 86
	f.Small(sheet.Slant(j.restsOn()))
	f.Para(sheet.Plain(j.facts()))
	f.Para(sheet.Plain(j.sewing()))

	f.Turn()
	f.Head("What it should measure", 20)
	rows := [][]string{}
	for _, p := range j.predictions() {
		rows = append(rows, []string{p.what, p.wanted, p.found, p.from, ""})
	}
	f.Table(sheet.Body, []sheet.Col{sheet.Words("", 36), sheet.Words("wanted", 14), sheet.Words("expected", 22), sheet.Words("from", 9), sheet.Words("made: write it here", 17)}, rows)

	f.Head("Findings", 12)
	j.findings(f)

	j.decisions(f)
	return f.Pages, nil
}

// decisions lists the scheme's fields in three columns: below what stands on the
// page where they fit, else on a page of their own.
func (j *job) decisions(f *sheet.Flow) {
	type row struct{ label, value string }
	var rows []row
	groups := 0
	group := ""
	for _, field := range scheme.Fields() {
		if field.Kind == scheme.KindMarks && !j.Ruff.Plan.MarksOwn || field.Key == "name" {
			continue
		}
		if field.Group != group {
			group = field.Group
			groups++
			rows = append(rows, row{label: groupWords(group)})
		}
		rows = append(rows, row{field.Label, j.decision(field)})
	}
	const line = sheet.Small * sheet.Leading
	const columns = 3
	high := (float64(len(rows)-groups)*line + float64(groups)*(sheet.Body*sheet.Leading+1)) / columns
	high += 4 * line // columns end where groups allow
	if f.Y+high+10 > sheet.BodyBottom_mm {
		f.Turn()
	}
	f.Head("The scheme", 0)
	f.Split(columns, 6)
	end := f.Y + high
	for _, r := range rows {
		if r.value == "" {
			f.Skip(1)
			if f.Y+3*line+sheet.Body*sheet.Leading > end && !f.Last() {
				f.Next()
			}
			f.Page.Text(f.X, f.Y+sheet.Body*0.95, sheet.Body, draw.Bold, 0, sheet.Fit(r.label, sheet.Body, draw.Bold, f.W))
			f.Y += sheet.Body * sheet.Leading
			continue
		}
		if f.Y+line > end && !f.Last() {
			f.Next()
		}
		f.Need(line)
		y := f.Y + sheet.Small*0.95
		room := f.W * 0.58
		f.Page.Text(f.X, y, sheet.Small, draw.Upright, 0, sheet.Fit(r.label, sheet.Small, draw.Upright, room-2))
		f.Page.Text(f.X+room, y, sheet.Small, draw.Upright, 0, sheet.Fit(r.value, sheet.Small, draw.Upright, f.W-room))
		f.Y += line
	}
}

// decision is a field's value in words. A thickness or a drift in cm or inches
// would be rounded away: what is never above 5 mm stays in mm.
func (j *job) decision(field scheme.Field) string {
	units := j.Units
	if field.Max <= 5 {
		units = scheme.Millimetres
	}
	switch {
	case field.Key == "hand.stitches":
		return j.stitches()
	case field.Zero != "" && field.Number(j.s) == 0:
		return field.Zero
	case field.Kind == scheme.KindMarks:
		return fmt.Sprintf("%d of its own: see the table", j.s.OwnMarks())
	case field.Kind == scheme.KindLength && field.Max > 5:
		return j.len(field.Number(j.s))
	}
	value := field.Show(j.s, units)
	if u := field.UnitIn(units); u != "" {
		value += " " + u
	}
	return value
}

// sewing says in words what is sewn where.
func (j *job) sewing() string {
	row := j.Ruff.Plan.Row
	switch {
	case j.Ruff.Plan.MarksOwn:
		return "Sewn as the maker's own marks say: see the table of marks."
	case !row.OneEdge():
		return "Sewn: top folds to the band's top edge, bottom folds to its bottom edge."
	}
	return "Sewn: " + foldNames(row.Kind()) + " to the band's " + edgeName(row.Edge()) + "; the others hang free."
}

// findings lists what was found, each with its sign's word; a finding that stops is
// set off.
func (j *job) findings(f *sheet.Flow) {
	if len(j.Findings) == 0 {
		f.Para(sheet.Plain("No findings were handed to these sheets."))
	}
	for _, x := range j.Findings {
		word := string(x.Severity)
		switch x.Severity {
		case check.Stop:
			word = "STOP, do not sew this"
		case check.Mend:
			word = "Mend"
		case check.Note:
			word = "Note"
		case check.Caution:
			word = "Caution"
		}
		runs := []sheet.Run{sheet.Strong(word + ". "), sheet.Plain(x.Sentence)}
		if x.Severity == check.Caution {
			f.Flagged(runs...)
			continue
		}
		f.Point(runs...)
	}
}

// groupWords is the heading of a group of the scheme's fields.
func groupWords(key string) string {
	for _, g := range scheme.Groups() {
		if g.Key == key {
			return g.Label
		}
	}
	return key
}
