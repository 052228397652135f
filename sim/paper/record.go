package paper

import (
	"fmt"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
)

// record is the record sheet: the pictures, what the ruff is expected to measure,
// the findings, and every decision of the scheme.
func (j *job) record() ([]*Page, error) {
	f := newFlow("record", "Record")
	f.page.Holds = "pictures, figures, findings, the scheme"
	plan, body := j.Ruff.Plan, shape(j.Ruff)
	opt := figure.Options{Units: j.Units, Palette: draw.Contrast()}
	add := func(name string, x, y float64, d draw.Drawing, err error) error {
		if err != nil {
			return fmt.Errorf("paper: record sheet, %s: %w", name, err)
		}
		f.page.Pictures = append(f.page.Pictures, Picture{pt(x, y), d})
		return nil
	}
	opt.Width_mm, opt.Height_mm = 92, 96
	d, err := figure.Above(plan, body, opt)
	if err := add("from above, chin down", 0, bodyTop_mm, d, err); err != nil {
		return nil, err
	}
	d, err = figure.OneSet(plan, body, opt)
	if err := add("one set", 98, bodyTop_mm, d, err); err != nil {
		return nil, err
	}
	opt.Height_mm = 80
	low := bodyTop_mm + 99.0
	d, err = figure.Side(plan, body, opt)
	if err := add("from the side", 0, low, d, err); err != nil {
		return nil, err
	}
	opt.Turn_deg, opt.Tilt_deg = 20, 25
	d, err = figure.InHand(plan, body, opt)
	if err := add("in the hand", 98, low, d, err); err != nil {
		return nil, err
	}
	f.y = low + 86
	f.small(slant(j.restsOn()))
	f.para(plain(j.facts()))
	f.para(plain(j.sewing()))

	f.turn()
	f.head("What it should measure", 20)
	rows := [][]string{}
	for _, p := range j.predictions() {
		rows = append(rows, []string{p.what, p.wanted, p.found, p.from, ""})
	}
	f.table(sizeBody, []tableColumn{{"", 36, false}, {"wanted", 14, false}, {"expected", 22, false}, {"from", 9, false}, {"made: write it here", 17, false}}, rows)

	f.head("Findings", 12)
	j.findings(f)

	j.decisions(f)
	return f.pages, nil
}

// decisions lists the scheme's fields in three columns: below what stands on the
// page where they fit, else on a page of their own.
func (j *job) decisions(f *flow) {
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
	const line = sizeSmall * leading
	const columns = 3
	high := (float64(len(rows)-groups)*line + float64(groups)*(sizeBody*leading+1)) / columns
	high += 4 * line // columns end where groups allow
	if f.y+high+10 > bodyBottom_mm {
		f.turn()
	}
	f.head("The scheme", 0)
	f.gap = 6
	f.split(columns)
	end := f.y + high
	for _, r := range rows {
		if r.value == "" {
			f.skip(1)
			if f.y+3*line+sizeBody*leading > end && f.column < columns-1 {
				f.next()
			}
			f.page.text(f.left(), f.y+sizeBody*0.95, sizeBody, draw.Bold, 0, fit(r.label, sizeBody, draw.Bold, f.width()))
			f.y += sizeBody * leading
			continue
		}
		if f.y+line > end && f.column < columns-1 {
			f.next()
		}
		f.need(line)
		y := f.y + sizeSmall*0.95
		room := f.width() * 0.58
		f.page.text(f.left(), y, sizeSmall, draw.Upright, 0, fit(r.label, sizeSmall, draw.Upright, room-2))
		f.page.text(f.left()+room, y, sizeSmall, draw.Upright, 0, fit(r.value, sizeSmall, draw.Upright, f.width()-room))
		f.y += line
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
func (j *job) findings(f *flow) {
	if len(j.Findings) == 0 {
		f.para(plain("No findings were handed to these sheets."))
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
		runs := []run{strong(word + ". "), plain(x.Sentence)}
		if x.Severity == check.Caution {
			h := f.height(8, sizeBody, runs...)
			f.need(h)
			drawWarning(f.page, f.left(), f.y, h)
			f.paraAt(8, sizeBody, runs...)
			continue
		}
		f.point(runs...)
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
