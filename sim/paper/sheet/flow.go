package sheet

import (
	"ruffwright/geom/draw"
	"ruffwright/geom/word"
)

// Flow is text and tables down the columns of a sheet; it takes a new page when
// the last column is full.
type Flow struct {
	Column // that is being filled
	Pages  []*Page

	language word.Language
	title    word.Text
	columns  int     // side by side
	gap      float64 // between them, mm
	column   int     // which is being filled
	top      float64 // of the columns on this page
	again    func()  // called in every further column, to set the head of a table again
}

// NewFlow begins a sheet in a language with its first page, in one column.
func NewFlow(l word.Language, title word.Text) *Flow {
	f := &Flow{language: l, title: title, columns: 1}
	f.room = f.Need
	f.Turn()
	return f
}

// Turn takes a new page.
func (f *Flow) Turn() {
	f.Page = &Page{Language: f.language, Title: f.title}
	f.Pages = append(f.Pages, f.Page)
	f.top = BodyTop_mm
	f.begin(0)
}

// Split goes on in n columns from here down, gap mm apart.
func (f *Flow) Split(n int, gap float64) {
	f.columns, f.gap, f.top = n, gap, f.Y
	f.begin(0)
}

func (f *Flow) begin(column int) {
	f.column, f.Y = column, f.top
	f.W = (Live_mm - f.gap*float64(f.columns-1)) / float64(f.columns)
	f.X = float64(column) * (f.W + f.gap)
}

// Last tells whether the column is the last of its page.
func (f *Flow) Last() bool { return f.column+1 == f.columns }

// Need makes room for a height in mm: in the next column, or on the next page.
func (f *Flow) Need(high float64) {
	if f.Y+high > BodyBottom_mm+1e-9 && f.Y > f.top {
		f.Next()
	}
}

// Next goes to the next column, of the next page after the last.
func (f *Flow) Next() {
	if f.Last() {
		f.Turn()
	} else {
		f.begin(f.column + 1)
	}
	if f.again != nil {
		f.again()
	}
}

// Skip leaves a height free, except at a column's top.
func (f *Flow) Skip(high float64) {
	if f.Y > f.top {
		f.Y += high
	}
}

// Head sets a heading; what follows needs at least `with` mm below it on the same
// page.
func (f *Flow) Head(t word.Text, with float64) {
	f.Skip(2.2)
	f.Need(Head*Leading + with)
	f.head(t, 0.4)
}

// Tick sets a paragraph with a box to tick before it, kept together where a column
// holds it.
func (f *Flow) Tick(t word.Text) {
	const indent, box, long = 5.5, 3.2, 60
	if h := f.high(indent, t); h < long {
		f.Need(h)
	}
	f.Page.Box(Medium, f.X+0.2, f.Y+0.5, f.X+0.2+box, f.Y+0.5+box)
	f.set(indent, Body, draw.Upright, t)
}

// Point sets a paragraph with a dot before it.
func (f *Flow) Point(t word.Text) {
	f.Need(2 * Body * Leading)
	f.Page.Dot(f.X+1, f.Y+Body*0.66, 0.45)
	f.set(3.4, Body, draw.Upright, t)
}
