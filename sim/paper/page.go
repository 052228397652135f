package paper

import (
	"image/color"
	"math"

	"ruffwright/geom/draw"
)

// Page is one sheet, laid out in the live area: x from its left, y from its top,
// in true mm. Pictures are painted first, then the items in order.
type Page struct {
	Sheet      string // which sheet it belongs to: "start", "record", "cutting", "order", "marks", "band", "tape", "swatch", "starch", "wear"
	Title      string
	Number, Of int
	Holds      string // what lies on it, for a list of sheets (the PDF's bookmarks)
	Pictures   []Picture
	Items      []draw.Item
}

// Picture is a drawing set on a page with its top left corner at At, in its own
// size.
type Picture struct {
	At      draw.Point
	Drawing draw.Drawing
}

// Inks of the sheets: black, and one grey for what may be missed.
var (
	black = color.NRGBA{A: 255}
	grey  = color.NRGBA{0x66, 0x66, 0x66, 255}
	pale  = color.NRGBA{0xe4, 0xe4, 0xe4, 255}
	white = color.NRGBA{255, 255, 255, 255}
)

// Widths of lines in mm.
const (
	fine   = 0.15
	medium = 0.25
	bold   = 0.5
)

// Sizes of letters in mm (the em).
const (
	sizeSmall = 2.6 // 7.4 pt: footers, tables of many rows
	sizeBody  = 3.3 // 9.4 pt
	sizeHead  = 4.2
	sizeTitle = 6.2
	leading   = 1.34 // line to line, in ems
)

// above is the part of the em that lies above the baseline in figure's labels.
const above = 0.77

func pt(x, y float64) draw.Point { return draw.Point{X: x, Y: y} }

// text sets one line with its baseline at y; anchor 0 = x is its left, 0.5 its
// middle, 1 its right.
func (p *Page) text(x, y, size float64, face draw.Face, anchor float64, s string) draw.Label {
	l := draw.Label{At: pt(x, y-size*above), Text: s, Size_mm: size, Face: face, Anchor: pt(anchor, 0), Color: black}
	p.Items = append(p.Items, l)
	return l
}

// line draws a polyline.
func (p *Page) line(width float64, dash []float64, pts ...draw.Point) {
	p.Items = append(p.Items, draw.Path{Lines: [][]draw.Point{pts}, Stroke: black, Width_mm: width, Dash_mm: dash})
}

// lines draws many polylines as one item.
func (p *Page) lines(width float64, dash []float64, lines ...[]draw.Point) {
	if len(lines) > 0 {
		p.Items = append(p.Items, draw.Path{Lines: lines, Stroke: black, Width_mm: width, Dash_mm: dash})
	}
}

func box(x0, y0, x1, y1 float64) []draw.Point {
	return []draw.Point{pt(x0, y0), pt(x1, y0), pt(x1, y1), pt(x0, y1)}
}

// rect draws a rectangle; fill nil for none.
func (p *Page) rect(width float64, dash []float64, fill *color.NRGBA, x0, y0, x1, y1 float64) {
	path := draw.Path{Lines: [][]draw.Point{box(x0, y0, x1, y1)}, Closed: true, Stroke: black, Width_mm: width, Dash_mm: dash}
	if width == 0 {
		path.Stroke = color.NRGBA{}
	}
	if fill != nil {
		path.Fill = *fill
	}
	p.Items = append(p.Items, path)
}

// dot is a filled disc.
func (p *Page) dot(x, y, r float64) {
	p.Items = append(p.Items, draw.Path{Lines: [][]draw.Point{ring(x, y, r)}, Closed: true, Fill: black})
}

func ring(x, y, r float64) []draw.Point {
	const n = 24
	pts := make([]draw.Point, n)
	for i := range pts {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		pts[i] = pt(x+r*c, y+r*s)
	}
	return pts
}

// seam is a rule like a row of running stitches: the sheets' own ornament.
func (p *Page) seam(x0, x1, y float64) {
	p.line(0.3, []float64{2.6, 1.4}, pt(x0, y), pt(x1, y))
}

// cross is a registration cross of two hairlines.
func (p *Page) cross(x, y float64) {
	const r = 1.5
	p.lines(fine, nil, []draw.Point{pt(x-r, y), pt(x+r, y)}, []draw.Point{pt(x, y-r), pt(x, y+r)})
}

// measure is a dimension line that ends in dots, with its words in the middle of a
// gap when they fit, else beside it.
func (p *Page) measure(a, b draw.Point, words string) {
	const size = 2.8
	p.dot(a.X, a.Y, 0.45)
	p.dot(b.X, b.Y, 0.45)
	w := draw.TextWidth(words, size, draw.Upright) + 2
	mid := pt((a.X+b.X)/2, (a.Y+b.Y)/2)
	if math.Abs(a.Y-b.Y) < math.Abs(a.X-b.X) {
		if w < b.X-a.X-2 {
			p.line(fine, nil, a, pt(mid.X-w/2, a.Y))
			p.line(fine, nil, pt(mid.X+w/2, a.Y), b)
			p.text(mid.X, a.Y+size*0.33, size, draw.Upright, 0.5, words)
			return
		}
		p.line(fine, nil, a, b)
		p.text(mid.X, a.Y-1, size, draw.Upright, 0.5, words)
		return
	}
	p.line(fine, nil, a, b)
	p.Items = append(p.Items, draw.Path{
		Lines:  [][]draw.Point{box(mid.X-w/2, mid.Y-size*0.6, mid.X+w/2, mid.Y+size*0.6)},
		Closed: true, Fill: white,
	})
	p.text(mid.X, mid.Y+size*0.33, size, draw.Upright, 0.5, words)
}
