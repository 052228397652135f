package page

import (
	"bytes"
	"slices"

	"ruffwright/geom/draw"
	"ruffwright/geom/pattern"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// least pixels of a saved picture for one CSS pixel of the stage.
const leastRatio = 2

// pictures saves the view as PNG or SVG. A PNG takes a while: it is said first.
func (p *Page) pictures(kind string) []doc.Patch {
	switch kind {
	case "svg":
		return p.savesPicture(kind)
	case "png":
		p.saySoon(say.Word("picture.drawing"))
		return []doc.Patch{{Op: doc.OpTimer, Name: "png", MS: frame_ms}}
	}
	return nil
}

// savesPicture saves the view as it is seen (turn, nearness, shape, units, what
// is pointed at), on a sheet's white ground whatever the reader's colours: it
// goes to a printer or into notes.
func (p *Page) savesPicture(kind string) []doc.Patch {
	light, going := p.light, p.settling.going
	p.light, p.settling.going = "light", false
	d, lens, pixelPerMM, err := p.Picture()
	p.light, p.settling.going = light, going
	if err != nil {
		p.saySoon(say.Word("picture.none", "why", say.Told(err.Error())))
		return nil
	}
	d = through(d, lens)
	name := fileName(p.scheme, p.viewLabel(), kind)
	if kind == "svg" {
		return p.saves(name, "image/svg+xml", d.SVG())
	}
	var file bytes.Buffer
	if err := d.PNG(&file, pixelPerMM*max(leastRatio, p.size.ratio)); err != nil {
		p.saySoon(say.Word("picture.none", "why", say.Told(err.Error())))
		return nil
	}
	return p.saves(name, "image/png", file.Bytes())
}

// through is the sheet as the lens shows it.
func through(d draw.Drawing, l Lens) draw.Drawing {
	if l.Scale == 1 {
		return d
	}
	x := func(x float64) float64 { return (x-l.X*d.Width_mm)*l.Scale + d.Width_mm/2 }
	y := func(y float64) float64 { return (y-l.Y*d.Height_mm)*l.Scale + d.Height_mm/2 }
	point := func(q draw.Point) draw.Point { return draw.Point{X: x(q.X), Y: y(q.Y)} }
	items := make([]draw.Item, 0, len(d.Items))
	for _, it := range d.Items {
		switch it := it.(type) {
		case draw.Path:
			lines := make([][]draw.Point, len(it.Lines))
			for i, line := range it.Lines {
				for _, q := range line {
					lines[i] = append(lines[i], point(q))
				}
			}
			it.Lines, it.Width_mm, it.Dash_mm = lines, it.Width_mm*l.Scale, slices.Clone(it.Dash_mm)
			for i := range it.Dash_mm {
				it.Dash_mm[i] *= l.Scale
			}
			items = append(items, it)
		case draw.Label:
			it.At, it.Size_mm = point(it.At), it.Size_mm*l.Scale
			items = append(items, it)
		case draw.Surface:
			it.Vertices = slices.Clone(it.Vertices)
			for i, v := range it.Vertices {
				it.Vertices[i].X, it.Vertices[i].Y = float32(x(float64(v.X))), float32(y(float64(v.Y)))
			}
			items = append(items, it)
		}
	}
	d.Items, d.Scale = items, d.Scale*l.Scale
	return d
}

// numbersText is the table of numbers as text that falls into the cells of a
// spreadsheet. The code at its end is the whole ruff.
func (p *Page) numbersText() string {
	var rows [][]string
	line := func(cells ...string) { rows = append(rows, cells) }
	if p.scheme.Name != "" {
		line(p.scheme.Name, "", "")
	}
	if of := p.state().of(); of != "" {
		line(of, "", "")
	}
	line(say.Word("sums.of"), say.Word("sums.is"), say.Word("sums.remark"))
	for _, r := range append(p.numberRows(), p.solvedRows()...) {
		line(r.label, r.value, r.note)
	}
	if p.ruff.Solved == nil {
		line(say.Word("sum.hangs"), say.Word("sum.hangs.not"), "")
	}
	if code := p.scheme.Code(); code != "" {
		line(say.Word("sum.code"), code, "")
	}
	return pattern.TabSeparated(rows)
}

// copies puts the numbers on the clipboard.
func (p *Page) copies() []doc.Patch {
	return []doc.Patch{{Op: doc.OpCopy, Name: "text", Value: p.numbersText()}}
}

// copied takes note of whether what was to be copied is on the clipboard. Where
// the browser refuses, the reader can copy by hand.
func (p *Page) copied(ok bool, what string) []doc.Patch {
	switch {
	case what != "text" && ok:
		p.saySoon(say.Word("share.yes"))
	case what != "text":
		p.saySoon(say.Word("share.no"))
	case ok:
		p.saySoon(say.Word("copy.yes"))
		return []doc.Patch{{Op: doc.OpAttr, ID: "by-hand-row", Name: "hidden", Value: ""}}
	default:
		p.saySoon(say.Word("copy.no"))
		return []doc.Patch{
			{Op: doc.OpAttr, ID: "by-hand-row", Name: "hidden", Gone: true},
			{Op: doc.OpValue, ID: "by-hand", Value: p.numbersText()},
			{Op: doc.OpFocus, ID: "by-hand"},
		}
	}
	return nil
}
