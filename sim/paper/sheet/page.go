// Package sheet is the kit that the printed sheets are made with: a page with
// lines and words on it, text that flows down its columns, tables, rulers, tiles
// of what is longer than a page, and the writers of PDF and of a plotter's SVG.
// It knows nothing of ruffs.
//
// Every page is laid out in a live area of 190 × 259 mm, which lies in the middle
// of A4 and US Letter alike with at least 10 mm round it. Lengths are in true mm.
package sheet

import (
	"image/color"
	"math"

	"ruffwright/geom/draw"
	"ruffwright/geom/word"
)

// The live area in mm: no page prints outside it.
const (
	Live_mm     = 190 // width
	LiveHigh_mm = 259 // height
)

// The part of the live area that a sheet's own matter takes: below the title,
// above the foot.
const (
	BodyTop_mm    = 13
	BodyBottom_mm = 236
)

// Page is one sheet of paper: x from the live area's left, y from its top, in mm.
// Pictures are painted first, then the items in order.
type Page struct {
	Sheet      string // the kind of sheet that it belongs to, one word
	Language   word.Language
	Title      word.Text
	Number, Of int
	Holds      word.Text // what lies on it, for a list of sheets (the PDF's bookmarks)
	Pictures   []Picture
	Items      []draw.Item
}

// Picture is a drawing set on a page with its top left corner at At, in its own
// size.
type Picture struct {
	At      draw.Point
	Drawing draw.Drawing
}

// Inks of the sheets.
var (
	Black = color.NRGBA{A: 255}
	White = color.NRGBA{255, 255, 255, 255}
	Pale  = color.NRGBA{0xe4, 0xe4, 0xe4, 255} // a grey that letters can be read on
	grey  = color.NRGBA{0x66, 0x66, 0x66, 255} // of rules that may be missed
)

// Widths of lines in mm.
const (
	Fine   = 0.15
	Medium = 0.25
	Bold   = 0.5
)

// Sizes of letters in mm (the em).
const (
	Small = 2.6 // 7.4 pt: footers, tables of many rows
	Body  = 3.3 // 9.4 pt
	Head  = 4.2
	title = 6.2

	Leading = 1.34 // line to line, in ems
)

// above is the part of the em that lies above the baseline in draw's labels.
const above = 0.77

// Text sets one line of black text with its baseline at y; anchor 0: x is its
// left, 0.5 its middle, 1 its right.
func (p *Page) Text(x, y, size float64, face draw.Face, anchor float64, t word.Text) {
	p.text(Black, x, y, size, face, anchor, t.In(p.Language))
}

// Fitted sets one line from x, shortened where it is wider than w mm.
func (p *Page) Fitted(x, y, size float64, face draw.Face, w float64, t word.Text) {
	p.text(Black, x, y, size, face, 0, draw.Clip(t.In(p.Language), size, face, w))
}

// Width is how wide a line is, mm.
func (p *Page) Width(t word.Text, size float64, face draw.Face) float64 {
	return draw.TextWidth(t.In(p.Language), size, face)
}

func (p *Page) text(ink color.NRGBA, x, y, size float64, face draw.Face, anchor float64, s string) {
	p.Items = append(p.Items, draw.Label{At: draw.Pt(x, y-size*above), Text: s, Size_mm: size, Face: face, Anchor: draw.Pt(anchor, 0), Color: ink})
}

// Line draws a polyline.
func (p *Page) Line(width float64, dash []float64, pts ...draw.Point) { p.Lines(width, dash, pts) }

// Lines draws many polylines as one item.
func (p *Page) Lines(width float64, dash []float64, lines ...[]draw.Point) {
	if len(lines) > 0 {
		p.Items = append(p.Items, draw.Path{Lines: lines, Stroke: Black, Width_mm: width, Dash_mm: dash})
	}
}

func box(x0, y0, x1, y1 float64) []draw.Point {
	return []draw.Point{draw.Pt(x0, y0), draw.Pt(x1, y0), draw.Pt(x1, y1), draw.Pt(x0, y1)}
}

// Box draws the outline of a rectangle.
func (p *Page) Box(width, x0, y0, x1, y1 float64) {
	p.closed(width, color.NRGBA{}, box(x0, y0, x1, y1))
}

// Filled draws a rectangle filled with an ink; width 0: without an outline.
func (p *Page) Filled(width float64, ink color.NRGBA, x0, y0, x1, y1 float64) {
	p.closed(width, ink, box(x0, y0, x1, y1))
}

// Dot is a filled disc.
func (p *Page) Dot(x, y, r float64) { p.closed(0, Black, draw.Ring(draw.Pt(x, y), r, r, 24)) }

// Circle is the outline of a disc.
func (p *Page) Circle(width, x, y, r float64) {
	p.closed(width, color.NRGBA{}, draw.Ring(draw.Pt(x, y), r, r, 24))
}

// closed draws a polygon; width 0: no outline; ink of alpha 0: not filled.
func (p *Page) closed(width float64, ink color.NRGBA, pts []draw.Point) {
	path := draw.Path{Lines: [][]draw.Point{pts}, Closed: true, Fill: ink, Width_mm: width}
	if width > 0 {
		path.Stroke = Black
	}
	p.Items = append(p.Items, path)
}

// seam is a rule like a row of running stitches: the sheets' own ornament.
func (p *Page) seam(x0, x1, y float64) {
	p.Line(0.3, []float64{2.6, 1.4}, draw.Pt(x0, y), draw.Pt(x1, y))
}

// Cross is a registration cross of two hairlines.
func (p *Page) Cross(x, y float64) {
	const r = 1.5
	p.Lines(Fine, nil, []draw.Point{draw.Pt(x-r, y), draw.Pt(x+r, y)}, []draw.Point{draw.Pt(x, y-r), draw.Pt(x, y+r)})
}

// Bar is a line to be measured, along x or along y: between the outer sides of its
// two end strokes there is nothing to doubt, since the strokes are hairlines.
func (p *Page) Bar(a, b draw.Point) {
	p.Line(Fine, nil, a, b)
	tick := draw.Pt(0, 1.4)
	if a.X == b.X {
		tick = draw.Pt(1.4, 0)
	}
	for _, q := range []draw.Point{a, b} {
		p.Line(Fine, nil, draw.Pt(q.X-tick.X, q.Y-tick.Y), draw.Pt(q.X+tick.X, q.Y+tick.Y))
	}
}

// Measure is a dimension line from a to b that ends in dots. Its words stand in the
// line where there is room for them: across, in a gap of the line or above it; up,
// on a white ground over it.
func (p *Page) Measure(a, b draw.Point, words word.Text) {
	const size = 2.8
	p.Dot(a.X, a.Y, 0.45)
	p.Dot(b.X, b.Y, 0.45)
	w := p.Width(words, size, draw.Upright) + 2
	mid := draw.Pt((a.X+b.X)/2, (a.Y+b.Y)/2)
	if math.Abs(a.Y-b.Y) < math.Abs(a.X-b.X) {
		if w < b.X-a.X-2 {
			p.Line(Fine, nil, a, draw.Pt(mid.X-w/2, a.Y))
			p.Line(Fine, nil, draw.Pt(mid.X+w/2, a.Y), b)
			p.Text(mid.X, a.Y+size*0.33, size, draw.Upright, 0.5, words)
			return
		}
		p.Line(Fine, nil, a, b)
		p.Text(mid.X, a.Y-1, size, draw.Upright, 0.5, words)
		return
	}
	p.Line(Fine, nil, a, b)
	p.Filled(0, White, mid.X-w/2, mid.Y-size*0.6, mid.X+w/2, mid.Y+size*0.6)
	p.Text(mid.X, mid.Y+size*0.33, size, draw.Upright, 0.5, words)
}
