package paper

import (
	"fmt"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/check"
	"ruffwright/sim/paper/sheet"
)

// record is the record sheet: the pictures, what the ruff is expected to measure,
// the findings, and every decision of the scheme.
func (j *job) record() ([]*sheet.Page, error) {
	f := j.flow(word.Say("Record"), word.Say("pictures, figures, findings, the scheme"))
	plan, body := j.Ruff.Plan, j.Ruff.Folded.Shape
	if s := j.Ruff.Solved; s != nil {
		body = s.Shape
	}
	opt := figure.Options{Units: j.Units, Language: j.Language, Palette: draw.Contrast(), Width_mm: 92, Turn_deg: 20, Tilt_deg: 25, Kept: &figure.Kept{}}
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
		f.Page.Pictures = append(f.Page.Pictures, sheet.Picture{At: draw.Pt(picture.x, picture.y), Drawing: d})
	}
	f.Y = low + 86
	f.Small(word.Say("~~%s~~", j.restsOn()))
	f.Para(j.facts())
	f.Para(j.sewing())

	f.Turn()
	f.Head(word.Say("What it should measure"), 20)
	rows := [][]word.Text{}
	for _, p := range j.predictions() {
		rows = append(rows, append(p[:], word.Text{}))
	}
	f.Table(sheet.Body, []sheet.Col{sheet.Words(word.Text{}, 34), sheet.Words(word.Say("wanted"), 14), sheet.Words(word.Say("expected"), 27), sheet.Words(word.Say("from"), 9), sheet.Words(word.Say("made: write it here"), 17)}, rows)
	if n := j.Ruff.Narrows(j.sure); !n.Empty() {
		f.Small(word.Say("What is likely holds for one set made by this hand of cloth as sure as this one is. %s", n))
	}

	if m := j.s.Look.Measured; m != "" {
		f.Small(word.Say("Measured on a picture: %s. Likely is 19 times in 20.", word.Name(m)))
	}

	f.Head(word.Say("Findings"), 12)
	j.findings(f)

	j.decisions(f)
	return f.Pages, nil
}

// decisions lists the scheme's fields in three columns: below what stands on the
// page where they fit, else on a page of their own.
func (j *job) decisions(f *sheet.Flow) {
	type row struct{ label, value word.Text }
	var rows []row
	groups := map[string]word.Text{}
	for _, g := range scheme.Groups() {
		groups[g.Key] = word.Say(g.Label)
	}
	last, heads := "", 0
	for _, field := range scheme.Fields() {
		if field.Kind == scheme.KindMarks && !j.Ruff.Plan.MarksOwn || field.Kind == scheme.KindText {
			continue
		}
		if field.Group != last {
			last, heads = field.Group, heads+1
			rows = append(rows, row{label: groups[last]})
		}
		rows = append(rows, row{word.Say(field.Label), j.decision(field)})
	}
	const line = sheet.Small * sheet.Leading
	const columns = 3
	high := (float64(len(rows)-heads)*line + float64(heads)*(sheet.Body*sheet.Leading+1)) / columns
	high += 4 * line // columns end where groups allow
	if f.Y+high+10 > sheet.BodyBottom_mm {
		f.Turn()
	}
	f.Head(word.Say("The scheme"), 0)
	f.Split(columns, 6)
	end := f.Y + high
	for _, r := range rows {
		if r.value.Empty() {
			f.Skip(1)
			if f.Y+3*line+sheet.Body*sheet.Leading > end && !f.Last() {
				f.Next()
			}
			f.Page.Fitted(f.X, f.Y+sheet.Body*0.95, sheet.Body, draw.Bold, f.W, r.label)
			f.Y += sheet.Body * sheet.Leading
			continue
		}
		if f.Y+line > end && !f.Last() {
			f.Next()
		}
		f.Need(line)
		y := f.Y + sheet.Small*0.95
		room := f.W * 0.58
		f.Page.Fitted(f.X, y, sheet.Small, draw.Upright, room-2, r.label)
		f.Page.Fitted(f.X+room, y, sheet.Small, draw.Upright, f.W-room, r.value)
		f.Y += line
	}
}

// decision is a field's value in words. A thickness or a drift in cm or inches
// would be rounded away: what is never above 5 mm stays in mm.
func (j *job) decision(field scheme.Field) word.Text {
	units := j.Units
	if field.Max <= 5 {
		units = scheme.Millimetres
	}
	switch {
	case field.Key == "hand.stitches":
		return j.stitches()
	case field.Zero != "" && field.Number(j.s) == 0:
		return word.Say(field.Zero)
	case field.Kind == scheme.KindMarks:
		return word.Say("%d of its own: see the table", j.s.OwnMarks())
	case field.Kind == scheme.KindLength && field.Max > 5:
		return j.len(field.Number(j.s))
	}
	if field.Kind == scheme.KindChoice {
		return word.Say(field.Show(j.s, units))
	}
	value := word.Written(field.Show(j.s, units))
	if u := field.UnitIn(units); u != "" {
		return word.Say("%s %s", value, scheme.UnitWord(u))
	}
	return word.Say("%s", value)
}

func (j *job) sewing() word.Text {
	row := j.Ruff.Plan.Row
	switch {
	case j.Ruff.Plan.MarksOwn:
		return word.Say("Sewn as the maker's own marks say: see the table of marks.")
	case !row.OneEdge():
		return word.Say("Sewn: top folds to the band's top edge, bottom folds to its bottom edge.")
	}
	return word.Say("Sewn: %s to the band's %s; the others hang free.", foldNames[row.Kind()], edgeName[row.Edge()])
}

var severities = map[check.Severity]word.Text{
	check.Stop: word.Say("STOP, do not sew this"), check.Mend: word.Say("Mend"), check.Note: word.Say("Note"), check.Caution: word.Say("Caution"),
}

// findings lists what was found, each with its sign's word; a finding that stops is
// set off.
func (j *job) findings(f *sheet.Flow) {
	if len(j.Findings) == 0 {
		f.Para(word.Say("No findings were handed to these sheets."))
	}
	for _, x := range j.Findings {
		words := word.Say("**%s.** %s", severities[x.Severity], x.Sentence)
		if x.Severity == check.Caution {
			f.Flagged(words)
			continue
		}
		f.Point(words)
	}
}
