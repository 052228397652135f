package paper

import (
	"fmt"
	"strconv"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
)

// start is the first sheet: how to print, the square and the long bars, what to do
// with a printer that is off, and the map of the sheets that follow.
func (j *job) start(rest []*Page) []*Page {
	p := &Page{Sheet: "start", Title: "Start here", Holds: "check the printer, map of the sheets"}
	var right column
	right.page, right.x, right.w = p, 112, 66

	// The square, with the inch bar inside it.
	const x0, y0 = 2.0, 15.0
	p.rect(medium, nil, nil, x0, y0, x0+100, y0+100)
	p.text(x0+50, y0+6, sizeBody, draw.Bold, 0.5, "100 mm square")
	for i := range 11 {
		long := 1.5
		if i%5 == 0 {
			long = 3
		}
		at := float64(i) * 10
		p.line(fine, nil, pt(x0+at, y0+100), pt(x0+at, y0+100-long))
		p.line(fine, nil, pt(x0, y0+at), pt(x0+long, y0+at))
	}
	bx := x0 + (100-4*25.4)/2 + 0.8 // the bar is 101.6 mm: it stands out on either side
	bar(p, pt(bx-0.8, y0+50), pt(bx-0.8+4*25.4, y0+50))
	p.text(x0+50, y0+48, sizeBody, draw.Bold, 0.5, "4 in bar (stands out 0.8 mm on either side)")
	p.text(x0+50, y0+72, sizeBody, draw.Italic, 0.5, "the square came out:")
	p.text(x0+50, y0+80, sizeBody, draw.Upright, 0.5, "across ________ mm      up ________ mm")

	// The long bars.
	const longWide, longHigh = 180.0, 220.0
	bar(p, pt(2, 123), pt(2+longWide, 123))
	p.text(92, 121.4, sizeSmall, draw.Upright, 0.5, "180 mm across")
	const lx = Live_mm - 3.0
	bar(p, pt(lx, 14), pt(lx, 14+longHigh))
	p.text(lx-1.6, 129, sizeSmall, draw.Upright, 1, "220 mm")
	p.text(lx-1.6, 132.6, sizeSmall, draw.Upright, 1, "up")

	right.y = 14
	right.head("Print")
	right.para(plain("Print every sheet at "), strong("100 %"), plain(" ('actual size', 'no scaling'), never 'fit to page'. Paper: "), strong(j.Paper.String()), plain("."))
	right.para(plain("Print this sheet first and measure the square "), strong("both ways"), plain(" with the ruler or tape that you will mark the cloth with. Printers stretch one way more than the other; the long bars show it better: divide the bar across by 1.8, the bar up by 2.2."))
	right.head("If it is off")
	right.para(plain("Within half a millimetre: go on. Between 95 and 105 mm: enter both numbers where these sheets come from ('my square came out …') and print the new ones, on the same printer. Further off: it is not the printer's stretch. Look for 'fit', 'shrink' or another size of paper in the print dialogue."))
	right.para(plain("Every other sheet has short bars at its foot. Measure them before you cut or mark."))

	// The code, large, with the words of how to come back to this scheme.
	y := 128.0
	square, _ := j.square()
	tx := 0.0
	if square != nil {
		size := 38.0
		if m := size / float64(square.Size); m < moduleLeast {
			size = min(moduleLeast*float64(square.Size), 62)
		}
		drawSquare(p, square, 1, y+1, size)
		tx = size + 6
	}
	side := column{page: p, x: tx, w: 84 - tx, y: y}
	side.head("This " + j.thing())
	side.para(strong(j.name()))
	if Unprinted(j.s.Name) != "" {
		side.para(plain("These sheets’ fonts lack the letters of the name that stand as ?. Write it by hand: ________________"))
	}
	side.para(plain(j.facts()))
	if j.code != "" {
		side.para(plain("The square holds its share code: scan it or type the code to have the scheme back, to change it and print anew."))
		side.small(plain(j.code))
	}
	codeEnd := side.y

	// The map of the sheets.
	m := column{page: p, x: 92, w: 88, y: y}
	m.head("The sheets")
	total := len(rest) + 1
	number := 2
	row := func(numbers, what string) {
		m.page.text(m.x+9, m.y+sizeBody*0.95, sizeBody, draw.Upright, 1, numbers)
		m.page.text(m.x+11.5, m.y+sizeBody*0.95, sizeBody, draw.Upright, 0, fit(what, sizeBody, draw.Upright, m.w-11.5))
		m.y += sizeBody * leading * 1.1
	}
	row("1", "start here")
	for i := 0; i < len(rest); {
		k := i
		for k < len(rest) && rest[k].Sheet == rest[i].Sheet {
			k++
		}
		numbers := strconv.Itoa(number + i)
		if k-i > 1 {
			numbers += "–" + strconv.Itoa(number+k-1)
		}
		row(numbers, sheetWords[rest[i].Sheet])
		i = k
	}
	m.y += 2
	m.small(plain(fmt.Sprintf("%d sheets in all. Full size are only the sheets that say so: band, tape, swatch card. Solid line: cut. Long dashes: fold. Dots: sew.", total)))
	m.small(plain("At every step that can hurt somebody its caution stands beside it. Where local rules say more (fire, workplace, children), they come first."))

	last := column{page: p, x: 0, w: Live_mm - 14, y: max(codeEnd, m.y, 200) + 3}
	if c := j.flame(); last.y+last.height(8, sizeBody, strong("Caution: "+c.Title+". "), plain(c.Text)) < bodyBottom_mm {
		last.warn(c)
		return []*Page{p}
	}
	// Only a long name and a long code push the flame caution off: a second sheet
	// would be worse than small letters.
	c := j.flame()
	last.y = max(codeEnd, m.y)
	last.small(strong("Caution: "+c.Title+". "), plain(c.Text))
	return []*Page{p}
}

// sheetWords says what each kind of sheet is, for the map.
var sheetWords = map[string]string{
	"record":  "record: pictures, figures, findings",
	"cutting": "cloth: what to buy, how to cut it",
	"order":   "order of work, with boxes to tick",
	"marks":   "table of marks",
	"band":    "band, full size",
	"tape":    "marking tape, full size",
	"swatch":  "swatch card, full size",
	"starch":  "starch and set",
	"wear":    "wear and keep",
}

func (j *job) flame() Caution { return Cautions(j.s.Wearer.Part)[0] }

// facts is the ruff in one sentence.
func (j *job) facts() string {
	p := j.Ruff.Plan
	pair := map[bool]string{true: "A pair, each of "}[j.Pattern.Made > 1]
	return pair + fmt.Sprintf("%s, %s deep, %s tall, for a %s of %s and %s of ease; strip %s.",
		plural(p.Sets, "set", "sets"), j.len(j.s.Ruff.Depth), j.len(j.s.Ruff.Height),
		partWord(j.s.Wearer.Part), j.len(j.s.Wearer.Girth), j.len(j.s.Wearer.Ease), j.len(p.Strip_mm))
}

func partWord(p scheme.Part) string {
	if p == scheme.Wrist {
		return "wrist"
	}
	return "neck"
}

// column is a flow of one fixed column on one page, for sheets that are composed
// by hand.
type column struct {
	page    *Page
	x, y, w float64
}

func (c *column) lines(indent, size float64, runs ...run) {
	for _, l := range wrapRuns(runs, size, c.w-indent) {
		l.set(c.page, c.x+indent, c.y+size*0.95, size)
		c.y += size * leading
	}
	c.y += size * 0.35
}

func (c *column) height(indent, size float64, runs ...run) float64 {
	return float64(len(wrapRuns(runs, size, c.w-indent)))*size*leading + size*0.35
}

func (c *column) para(runs ...run)  { c.lines(0, sizeBody, runs...) }
func (c *column) small(runs ...run) { c.lines(0, sizeSmall, runs...) }

func (c *column) head(s string) {
	c.page.text(c.x, c.y+sizeHead*0.95, sizeHead, draw.Bold, 0, fit(s, sizeHead, draw.Bold, c.w))
	c.y += sizeHead*leading + 0.6
}

func (c *column) warn(k Caution) {
	runs := []run{strong("Caution: " + k.Title + ". "), plain(k.Text)}
	h := c.height(8, sizeBody, runs...)
	drawWarning(c.page, c.x, c.y, h)
	c.lines(8, sizeBody, runs...)
	c.y += 1
}
