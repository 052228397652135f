package sheet

import (
	"ruffwright/geom/draw"
	"ruffwright/geom/word"
)

// Col is a column of a table.
type Col struct {
	head  word.Text
	share float64 // of the table's width, in any unit
	right bool    // its cells end at the right
}

// Words is a column of words; its share of the table's width is in any unit that
// all its columns have.
func Words(head word.Text, share float64) Col { return Col{head, share, false} }

// Numbers is a column of numbers: they end at the right.
func Numbers(head word.Text, share float64) Col { return Col{head, share, true} }

func (f *Flow) widths(columns []Col) []float64 {
	var sum float64
	for _, c := range columns {
		sum += c.share
	}
	w := make([]float64, len(columns))
	for i, c := range columns {
		w[i] = f.W * c.share / sum
	}
	return w
}

func (f *Flow) rule(width float64) { f.Page.Line(width, nil, draw.Pt(f.X, f.Y), draw.Pt(f.X+f.W, f.Y)) }

// Table sets rows in columns with a head that comes again in every column of the
// sheet. Cells are broken into lines where they do not fit.
func (f *Flow) Table(size float64, columns []Col, rows [][]word.Text) {
	heads := make([]word.Text, len(columns))
	for i, c := range columns {
		heads[i] = c.head
	}
	head := func() {
		f.Y += f.row(size, columns, heads, draw.Italic, true) + 0.3
		f.rule(Medium)
		f.Y += 0.7
	}
	f.Need(4 * size * Leading)
	head()
	before := f.again
	f.again = head
	for _, r := range rows {
		h := f.row(size, columns, r, draw.Upright, false)
		f.Need(h + 0.4)
		f.row(size, columns, r, draw.Upright, true)
		f.Y += h + 0.2
		f.Page.Items = append(f.Page.Items, draw.Path{
			Lines: [][]draw.Point{{draw.Pt(f.X, f.Y), draw.Pt(f.X+f.W, f.Y)}}, Stroke: grey, Width_mm: 0.08,
		})
		f.Y += 0.3
	}
	f.again = before
	f.Y += 1.5
}

// row gives how high a row of a table is, and draws it where asked to.
func (f *Flow) row(size float64, columns []Col, cells []word.Text, face draw.Face, draw bool) float64 {
	const (
		pad   = 1.4 // after a cell
		apart = 2.2 // words after a column of numbers stand off from it
	)
	x, high := f.X, 0.0
	for i, w := range f.widths(columns) {
		c, in := columns[i], 0.0
		if i > 0 && columns[i-1].right && !c.right {
			in = apart
		}
		for n, l := range f.Page.Wrap(face, cells[i], size, w-pad-in) {
			if draw {
				at := x + in
				if c.right {
					at = x + w - pad - l.width(size)
				}
				l.Set(f.Page, at, f.Y+float64(n)*size*Leading+size*0.98, size)
			}
			high = max(high, float64(n+1)*size*Leading)
		}
		x += w
	}
	return high
}

// Form sets a table to be filled in by hand: rows high enough to write in, each
// with the words of its first cell.
func (f *Flow) Form(columns []Col, rows ...word.Text) {
	const high = 7.4
	f.Need(high * float64(len(rows)+1))
	widths := f.widths(columns)
	x := f.X
	for i, c := range columns {
		f.Page.Text(x+0.6, f.Y+Small, Small, draw.Italic, 0, c.head)
		x += widths[i]
	}
	f.Y += 4.4
	top := f.Y
	f.rule(Medium)
	for _, words := range rows {
		f.Page.Text(f.X+0.6, f.Y+5, Body, draw.Upright, 0, words)
		f.Y += high
		f.rule(0.1)
	}
	x = f.X
	for _, w := range widths[:len(widths)-1] {
		x += w
		f.Page.Line(0.1, nil, draw.Pt(x, top), draw.Pt(x, f.Y))
	}
	f.Y += 3
}
