package paper

import (
	"ruffwright/geom/draw"
	"ruffwright/geom/word"
	"ruffwright/sim/paper/sheet"
)

// start is the first sheet: how to print, the square and the long bars, what to do
// with a printer that is off, the code, and the map of the sheets.
func (j *job) start(p *sheet.Page, contents []content, square *sheet.Square) {
	testSquare(p)
	longBars(p)
	print := sheet.Column{Page: p, X: 112, Y: 14, W: 66}
	print.Head(word.Say("Print"))
	print.Para(word.Say("Print every sheet at **100 %%** ('actual size', 'no scaling'), never 'fit to page'. Paper: **%s**.", word.Name(j.Paper.String())))
	print.Para(word.Say("Print this sheet first and measure the square **both ways** with the ruler or tape that you will mark the cloth with. Printers stretch one way more than the other; the long bars show it better: divide the bar across by 1.8, the bar up by 2.2."))
	print.Head(word.Say("If it is off"))
	print.Para(word.Say("Within half a millimetre: go on. Between 95 and 105 mm: enter both numbers where these sheets come from ('my square came out …') and print the new ones, on the same printer. Further off: it is not the printer's stretch. Look for 'fit', 'shrink' or another size of paper in the print dialogue."))
	print.Para(word.Say("Every other sheet has short bars at its foot. Measure them before you cut or mark."))

	const low = 128.0
	end := max(j.back(p, low, square), mapOfSheets(p, low, contents))
	c := j.flame()
	last := sheet.Column{Page: p, Y: max(end, 200) + 3, W: sheet.Live_mm - 14}
	if last.Y+last.FlaggedHigh(c.words()) < sheet.BodyBottom_mm {
		last.Flagged(c.words())
		return
	}
	// Only a long name and a long code push the flame caution off: a second sheet
	// would be worse than small letters.
	last.Y = end
	last.Small(c.words())
}

// testSquare draws the square to be measured, 100 mm each way, with the inch bar
// inside it.
func testSquare(p *sheet.Page) {
	const x0, y0, side = 2.0, 15.0, 100.0
	p.Box(sheet.Medium, x0, y0, x0+side, y0+side)
	p.Text(x0+50, y0+6, sheet.Body, draw.Bold, 0.5, word.Say("100 mm square"))
	for i := range 11 {
		long := 1.5
		if i%5 == 0 {
			long = 3
		}
		at := float64(i) * 10
		p.Line(sheet.Fine, nil, draw.Pt(x0+at, y0+side), draw.Pt(x0+at, y0+side-long))
		p.Line(sheet.Fine, nil, draw.Pt(x0, y0+at), draw.Pt(x0+long, y0+at))
	}
	const inches = 4 * 25.4
	x := x0 + (side-inches)/2 // the bar is 101.6 mm: it stands out on either side
	p.Bar(draw.Pt(x, y0+50), draw.Pt(x+inches, y0+50))
	p.Text(x0+50, y0+48, sheet.Body, draw.Bold, 0.5, word.Say("4 in bar (stands out 0.8 mm on either side)"))
	p.Text(x0+50, y0+72, sheet.Body, draw.Italic, 0.5, word.Say("the square came out:"))
	p.Text(x0+50, y0+80, sheet.Body, draw.Upright, 0.5, word.Say("across ________ mm      up ________ mm"))
}

// longBars draws the bars that show a printer's stretch better than the square.
func longBars(p *sheet.Page) {
	const wide, high = 180.0, 220.0
	p.Bar(draw.Pt(2, 123), draw.Pt(2+wide, 123))
	p.Text(92, 121.4, sheet.Small, draw.Upright, 0.5, word.Say("180 mm across"))
	const x = sheet.Live_mm - 3.0
	p.Bar(draw.Pt(x, 14), draw.Pt(x, 14+high))
	p.Text(x-1.6, 129, sheet.Small, draw.Upright, 1, word.Say("220 mm"))
	p.Text(x-1.6, 132.6, sheet.Small, draw.Upright, 1, word.Say("up"))
}

// back sets the code, large, with the words of how to come back to this scheme,
// from y down; it gives where they end.
func (j *job) back(p *sheet.Page, y float64, square *sheet.Square) float64 {
	x := 0.0
	if square != nil {
		size := min(max(38, square.Least()), 62)
		p.Square(square, 1, y+1, size)
		x = size + 6
	}
	c := sheet.Column{Page: p, X: x, Y: y, W: 84 - x}
	c.Head(word.Say("This %s", j.thing()))
	c.Bold(j.name())
	if sheet.Unprinted(j.s.Name) != "" {
		c.Para(word.Say("These sheets’ fonts lack the letters of the name that stand as ?. Write it by hand: ________________"))
	}
	c.Para(j.facts())
	if j.code != "" {
		c.Para(word.Say("The square holds its share code: scan it or type the code to have the scheme back, to change it and print anew."))
		c.Small(word.Name(j.code))
	}
	return c.Y
}

// mapOfSheets lists the sheets from y down; it gives where the list ends.
func mapOfSheets(p *sheet.Page, y float64, contents []content) float64 {
	c := sheet.Column{Page: p, X: 92, Y: y, W: 88}
	c.Head(word.Say("The sheets"))
	for _, k := range contents {
		numbers := when(k.last > k.first, word.Say("%d–%d", k.first, k.last), word.Say("%d", k.first))
		p.Text(c.X+9, c.Y+sheet.Body*0.95, sheet.Body, draw.Upright, 1, numbers)
		p.Fitted(c.X+11.5, c.Y+sheet.Body*0.95, sheet.Body, draw.Upright, c.W-11.5, k.words)
		c.Y += sheet.Body * sheet.Leading * 1.1
	}
	c.Y += 2
	c.Small(word.Say("%d sheets in all. Full size are only the sheets that say so: band, tape, swatch and trial card. Solid line: cut. Long dashes: fold. Dots: sew.", contents[len(contents)-1].last))
	c.Small(word.Say("At every step that can hurt somebody its caution stands beside it. Where local rules say more (fire, workplace, children), they come first."))
	return c.Y
}

// flame is the caution that stands first wherever it stands.
func (j *job) flame() Caution { return Cautions(j.s.Wearer.Part)[0] }

func (j *job) facts() word.Text {
	p := j.Ruff.Plan
	facts := word.Count(p.Sets, "%s set, %s deep, %s tall, for a %s of %s and %s of ease; strip %s.", "%s sets, %s deep, %s tall, for a %s of %s and %s of ease; strip %s.",
		thousands(p.Sets), j.len(j.s.Ruff.Depth), j.len(j.s.Ruff.Height),
		partWord[j.s.Wearer.Part], j.len(j.s.Wearer.Girth), j.len(j.s.Wearer.Ease), j.len(p.Strip_mm))
	if j.Pattern.Made > 1 {
		return word.Say("A pair, each of %s", facts)
	}
	return facts
}
