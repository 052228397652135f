package paper

import (
	"strings"

	"ruffwright/geom/draw"
)

// The part of the live area that a sheet's own matter takes: below the title,
// above the foot.
const (
	bodyTop_mm    = 13
	bodyBottom_mm = 236
)

// run is a piece of text in one face.
type run struct {
	face draw.Face
	text string
}

func plain(s string) run  { return run{draw.Upright, s} }
func strong(s string) run { return run{draw.Bold, s} }
func slant(s string) run  { return run{draw.Italic, s} }

// flow sets text and tables down the columns of a sheet, and takes a new page when
// the last column is full.
type flow struct {
	sheet, title string
	pages        []*Page
	page         *Page
	columns      int
	gap          float64 // between columns
	column       int
	top          float64 // of the columns on this page
	y            float64 // top of the next line
	again        func()  // called on every further page, to set the head of a table again
}

func newFlow(sheet, title string) *flow {
	f := &flow{sheet: sheet, title: title, columns: 1, gap: 8}
	f.turn()
	return f
}

// turn takes a new page.
func (f *flow) turn() {
	f.page = &Page{Sheet: f.sheet, Title: f.title}
	f.pages = append(f.pages, f.page)
	f.column, f.top, f.y = 0, bodyTop_mm, bodyTop_mm
}

// split goes on in n columns from here down.
func (f *flow) split(n int) {
	f.columns, f.column, f.top = n, 0, f.y
}

// width and left edge of the column.
func (f *flow) width() float64 {
	return (Live_mm - f.gap*float64(f.columns-1)) / float64(f.columns)
}
func (f *flow) left() float64 { return float64(f.column) * (f.width() + f.gap) }

// need makes room for h mm: the next column, or the next page.
func (f *flow) need(h float64) {
	if f.y+h <= bodyBottom_mm+1e-9 || f.y <= f.top {
		return
	}
	f.next()
}

// next goes to the next column.
func (f *flow) next() {
	if f.column+1 < f.columns {
		f.column++
		f.y = f.top
	} else {
		f.turn()
	}
	if f.again != nil {
		f.again()
	}
}

func (f *flow) skip(h float64) {
	if f.y > f.top {
		f.y += h
	}
}

// head is a heading; what follows needs at least `with` mm below it on the same
// page.
func (f *flow) head(s string, with float64) {
	f.skip(2.2)
	f.need(sizeHead*leading + with)
	f.page.text(f.left(), f.y+sizeHead*0.95, sizeHead, draw.Bold, 0, fit(s, sizeHead, draw.Bold, f.width()))
	f.y += sizeHead * leading
	f.skip(0.4)
}

// para sets a paragraph.
func (f *flow) para(runs ...run) { f.paraAt(0, sizeBody, runs...) }

// small sets a paragraph in small letters.
func (f *flow) small(runs ...run) { f.paraAt(0, sizeSmall, runs...) }

func (f *flow) paraAt(indent, size float64, runs ...run) {
	for _, l := range wrapRuns(runs, size, f.width()-indent) {
		f.need(size * leading)
		l.set(f.page, f.left()+indent, f.y+size*0.95, size)
		f.y += size * leading
	}
	f.y += size * 0.35
}

// height is how high a paragraph would be.
func (f *flow) height(indent, size float64, runs ...run) float64 {
	return float64(len(wrapRuns(runs, size, f.width()-indent)))*size*leading + size*0.35
}

// tick sets a paragraph with a box to tick before it, kept together where a column
// holds it.
func (f *flow) tick(runs ...run) {
	const indent, box = 5.5, 3.2
	if h := f.height(indent, sizeBody, runs...); h < 60 {
		f.need(h)
	}
	f.page.rect(medium, nil, nil, f.left()+0.2, f.y+0.5, f.left()+0.2+box, f.y+0.5+box)
	f.paraAt(indent, sizeBody, runs...)
}

// point sets a paragraph with a dot before it.
func (f *flow) point(runs ...run) {
	f.need(2 * sizeBody * leading)
	f.page.dot(f.left()+1, f.y+sizeBody*0.66, 0.45)
	f.paraAt(3.4, sizeBody, runs...)
}

// warn sets a caution: a triangle, the word, and a bar down its side.
func (f *flow) warn(c Caution) {
	runs := []run{strong("Caution: " + c.Title + ". "), plain(c.Text)}
	const indent = 8
	h := f.height(indent, sizeBody, runs...)
	f.skip(1)
	f.need(h)
	drawWarning(f.page, f.left(), f.y, h)
	f.paraAt(indent, sizeBody, runs...)
	f.skip(1)
}

// drawWarning draws a caution's bar and triangle beside h mm of text.
func drawWarning(p *Page, x, y, h float64) {
	p.line(0.8, nil, pt(x+0.4, y+0.5), pt(x+0.4, y+h-1))
	p.Items = append(p.Items, draw.Path{
		Lines: [][]draw.Point{{pt(x+4.2, y+0.5), pt(x+6.2, y+4), pt(x+2.2, y+4)}}, Closed: true, Stroke: black, Width_mm: 0.35,
	})
	p.line(0.4, nil, pt(x+4.2, y+1.7), pt(x+4.2, y+2.7))
	p.dot(x+4.2, y+3.4, 0.22)
}

// piece is a stretch of one line in one face, at x from the line's left.
type piece struct {
	x    float64
	face draw.Face
	text string
}

type setLine []piece

func (l setLine) set(p *Page, x, y, size float64) {
	for _, q := range l {
		p.text(x+q.x, y, size, q.face, 0, q.text)
	}
}

// wrapRuns breaks runs at spaces into lines no wider than w mm. A word wider than
// that is broken between letters.
func wrapRuns(runs []run, size, w float64) []setLine {
	type word struct {
		face  draw.Face
		text  string
		glued bool // no space before it
	}
	var words []word
	space := true
	for _, r := range runs {
		for i, part := range strings.Split(strings.Map(noControl, r.text), " ") {
			if i > 0 {
				space = true
			}
			if part == "" {
				continue
			}
			words = append(words, word{r.face, part, !space})
			space = false
		}
	}
	var lines []setLine
	var line setLine
	x := 0.0
	put := func(q word, wide float64) {
		if n := len(line); n > 0 && line[n-1].face == q.face {
			gap := " "
			if q.glued {
				gap = ""
			}
			line[n-1].text += gap + q.text
			x = line[n-1].x + draw.TextWidth(line[n-1].text, size, q.face)
			return
		}
		if len(line) > 0 && !q.glued {
			x += draw.TextWidth(" ", size, q.face)
		}
		line = append(line, piece{x, q.face, q.text})
		x += wide
	}
	for i := 0; i < len(words); i++ {
		q := words[i]
		wide := draw.TextWidth(q.text, size, q.face)
		gap := 0.0
		if len(line) > 0 && !q.glued {
			gap = draw.TextWidth(" ", size, q.face)
		}
		if len(line) > 0 && x+gap+wide > w {
			lines, line, x = append(lines, line), nil, 0
		}
		if wide > w { // broken between letters
			runes := []rune(q.text)
			n := len(runes)
			for n > 1 && draw.TextWidth(string(runes[:n]), size, q.face) > w {
				n--
			}
			put(word{q.face, string(runes[:n]), q.glued}, w)
			words[i].text, words[i].glued = string(runes[n:]), true
			if words[i].text != "" {
				lines, line, x = append(lines, line), nil, 0
				i--
			}
			continue
		}
		put(q, wide)
	}
	if len(line) > 0 {
		lines = append(lines, line)
	}
	return lines
}

func noControl(r rune) rune {
	if r < ' ' || r == 0x7f {
		return ' '
	}
	return r
}

// column of a table: its head, its share of the width, and where its text stands.
type tableColumn struct {
	head  string
	share float64
	right bool // numbers stand at the right
}

// table sets rows in columns with a head that comes again on every page. Cells are
// broken into lines where they do not fit.
func (f *flow) table(size float64, columns []tableColumn, rows [][]string) {
	var sum float64
	for _, c := range columns {
		sum += c.share
	}
	const pad = 1.4
	set := func(cells []string, face draw.Face, draw bool) float64 {
		x, high := f.left(), 0.0
		for i, c := range columns {
			w := f.width() * c.share / sum
			in := 0.0 // words after a column of numbers stand off from it
			if i > 0 && columns[i-1].right && !c.right {
				in = 2.2
			}
			for n, l := range wrapRuns([]run{{face, cells[i]}}, size, w-pad-in) {
				y := f.y + float64(n)*size*leading
				if draw {
					at := x + in
					if c.right {
						at = x + w - pad - l.width(size)
					}
					l.set(f.page, at, y+size*0.98, size)
				}
				high = max(high, float64(n+1)*size*leading)
			}
			x += w
		}
		return high
	}
	heads := make([]string, len(columns))
	for i, c := range columns {
		heads[i] = c.head
	}
	head := func() {
		h := set(heads, draw.Italic, true)
		f.y += h + 0.3
		f.page.line(medium, nil, pt(f.left(), f.y), pt(f.left()+f.width(), f.y))
		f.y += 0.7
	}
	f.need(4 * size * leading)
	head()
	before := f.again
	f.again = head
	for _, r := range rows {
		h := set(r, draw.Upright, false)
		f.need(h + 0.4)
		set(r, draw.Upright, true)
		f.y += h + 0.2
		f.page.Items = append(f.page.Items, draw.Path{
			Lines: [][]draw.Point{{pt(f.left(), f.y), pt(f.left()+f.width(), f.y)}}, Stroke: grey, Width_mm: 0.08,
		})
		f.y += 0.3
	}
	f.again = before
	f.y += 1.5
}

func (l setLine) width(size float64) float64 {
	if len(l) == 0 {
		return 0
	}
	q := l[len(l)-1]
	return q.x + draw.TextWidth(q.text, size, q.face)
}
