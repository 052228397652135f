package sheet

import (
	"math"
	"strconv"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
)

// division is how a ruler is divided: mm or sixteenths of an inch.
type division struct {
	step_mm    float64 // stroke to stroke
	mid, whole int     // strokes to a longer one; to a number, at whole cm or inches
	number     int     // of the first whole: 10 for a ruler in mm, else 1
}

func divisionOf(u scheme.Units) division {
	switch u {
	case scheme.Inches:
		return division{25.4 / 16, 8, 16, 1}
	case scheme.Centimetres:
		return division{1, 5, 10, 1}
	}
	return division{1, 5, 10, 10}
}

// long is the stroke's length, of the three that are given.
func (d division) long(stroke int, short, mid, whole float64) float64 {
	switch {
	case stroke%d.whole == 0:
		return whole
	case stroke%d.mid == 0:
		return mid
	}
	return short
}

// words are the number at a stroke; "" between numbers.
func (d division) words(stroke int) string {
	if stroke%d.whole != 0 {
		return ""
	}
	return strconv.Itoa(stroke / d.whole * d.number)
}

// Ruler draws the divisions from place `from` to place `to` (mm of a length longer
// than the page), up from y, `from` at x, each from its own place. Numbers keep off the
// ends, where the ruler is cut.
func (p *Page) Ruler(x, y, from, to float64, u scheme.Units) {
	const size, off = 2.2, 0.7
	d := divisionOf(u)
	var strokes [][]draw.Point
	first := int(math.Ceil(from/d.step_mm - 1e-9))
	last := int(math.Floor(to/d.step_mm + 1e-9))
	for i := first; i <= last; i++ {
		at := x + float64(i)*d.step_mm - from
		strokes = append(strokes, []draw.Point{draw.Pt(at, y), draw.Pt(at, y-d.long(i, 1.5, 2.5, 3.4))})
		if words := d.words(i); words != "" {
			w := draw.TextWidth(words, size, draw.Upright)
			mid := math.Max(at, x+w/2+off)
			if mid+w/2 <= x+to-from-off {
				p.text(Black, mid, y-4, size, draw.Upright, 0.5, words)
			}
		}
	}
	p.Lines(0.1, nil, strokes...)
	p.Line(Fine, nil, draw.Pt(x, y), draw.Pt(x+to-from, y))
}

// RulerBack draws a ruler `long` mm long whose zero is at x and that runs to the
// left, its strokes down from y.
func (p *Page) RulerBack(x, y, long float64, u scheme.Units) {
	d := divisionOf(u)
	var strokes [][]draw.Point
	for i := 0; float64(i)*d.step_mm <= long+1e-9; i++ {
		at := x - float64(i)*d.step_mm
		strokes = append(strokes, []draw.Point{draw.Pt(at, y), draw.Pt(at, y+d.long(i, 3, 4.4, 6))})
		if words := d.words(i); words != "" && i > 0 {
			p.text(Black, at, y+8.8, 2.4, draw.Upright, 0.5, words)
		}
	}
	p.Lines(0.1, nil, strokes...)
}

// Upright draws a ruler along a right side at x, its nought at the height of zero, running
// above it and below it; what is below has a minus. top is where the side begins.
func (p *Page) Upright(x, top, zero, above, below float64, u scheme.Units) {
	d := divisionOf(u)
	var strokes [][]draw.Point
	for i := -int(below / d.step_mm); i <= int(above/d.step_mm); i++ {
		y := zero - float64(i)*d.step_mm
		strokes = append(strokes, []draw.Point{draw.Pt(x, y), draw.Pt(x-d.long(i, 3, 4.4, 6), y)})
		words := d.words(max(i, -i))
		if words == "" || i == 0 || y < top+3 || y > zero+below-3 {
			continue
		}
		if i < 0 {
			words = "−" + words
		}
		p.text(Black, x-7, y+0.9, 2.4, draw.Upright, 1, words)
	}
	p.Lines(0.1, nil, strokes...)
}
