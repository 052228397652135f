// Package draw is the kit for drawings in mm: a sheet with its title, labels and
// dimension lines, strokes, palettes, and an eye that looks at solid things. A
// drawing is a list of simple items that a page can replay on its own canvas; the
// writers here make SVG and PNG of the same list.
package draw

import (
	"image/color"
	"math"

	"ruffwright/geom/word"
)

// Point is a place on the sheet in sheet mm: x from the left, y from the top.
type Point struct{ X, Y float64 }

// Pt is the point x, y.
func Pt(x, y float64) Point { return Point{x, y} }

// Rect is a box on the sheet in sheet mm, Min the corner nearest the origin.
type Rect struct{ Min, Max Point }

// Overlaps tells whether a and b share more than their borders.
func (a Rect) Overlaps(b Rect) bool {
	return a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y
}

// Inside tells whether a lies within b, borders included.
func (a Rect) Inside(b Rect) bool {
	return a.Min.X >= b.Min.X && a.Min.Y >= b.Min.Y && a.Max.X <= b.Max.X && a.Max.Y <= b.Max.Y
}

// Grow gives a with d mm added on every side.
func (a Rect) Grow(d float64) Rect {
	return Rect{Point{a.Min.X - d, a.Min.Y - d}, Point{a.Max.X + d, a.Max.Y + d}}
}

// nowhere is the box about no point; about gives a stretched to p.
var nowhere = Rect{Point{math.MaxFloat64, math.MaxFloat64}, Point{-math.MaxFloat64, -math.MaxFloat64}}

func (a Rect) about(p Point) Rect {
	return Rect{Point{min(a.Min.X, p.X), min(a.Min.Y, p.Y)}, Point{max(a.Max.X, p.X), max(a.Max.Y, p.Y)}}
}

// Drawing is one sheet. Items are painted in order, later ones over earlier
// ones; what reaches beyond the sheet is cut off at its edge.
type Drawing struct {
	Width_mm, Height_mm float64       // of the sheet
	Scale               float64       // sheet mm for one mm of the ruff; in perspective, at its middle
	Title, Desc         string        // for people who cannot see it, plain text
	Language            word.Language // of its words
	Ground              color.NRGBA   // colour of the sheet
	Items               []Item
	Handles             []Handle // of its measures
	Letter              string   // names it where it stands Beside another; "" none

	dye color.NRGBA // of the letter
}

// Item is one of Path, Label and Solid.
type Item interface{ item() }

// Path is one or more polylines with one dress. Fill (where Closed) is painted
// first, then the stroke. Alpha 0 means none. Caps and joins are round.
type Path struct {
	Lines    [][]Point
	Closed   bool
	Fill     color.NRGBA
	Stroke   color.NRGBA
	Width_mm float64
	Dash_mm  []float64 // on, off, on ...; nil: unbroken
}

// Face is the hand of a label.
type Face int

const (
	Upright Face = iota // numbers
	Italic              // words
	Bold                // titles
)

// Label is a line of text. Anchor says which point of the text lies at At:
// X 0 its left, 0.5 its middle, 1 its right; Y 0 its top, 0.5 the middle of its
// height, 1 its bottom. Text is never turned.
type Label struct {
	At      Point
	Text    string
	Size_mm float64 // height of the letter body (em)
	Face    Face
	Anchor  Point
	Color   color.NRGBA
}

// Box is the space that the label takes on the sheet, by the metrics of the
// fonts that Image uses. The SVG holds its text to the same width.
func (l Label) Box() Rect {
	w, h := TextWidth(l.Text, l.Size_mm, l.Face), l.Size_mm*lineHeight
	x, y := l.At.X-w*l.Anchor.X, l.At.Y-h*l.Anchor.Y
	return Rect{Point{x, y}, Point{x + w, y + h}}
}

func (Path) item()  {}
func (Label) item() {}

// Labels gives all labels of the drawing in order: what it says, for the tests of
// every room that draws.
func (d Drawing) Labels() []Label {
	var all []Label
	for _, it := range d.Items {
		if l, ok := it.(Label); ok {
			all = append(all, l)
		}
	}
	return all
}
