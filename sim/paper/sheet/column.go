package sheet

import (
	"image/color"

	"ruffwright/geom/draw"
	"ruffwright/geom/word"
)

// Column is where text is set one paragraph below the other.
type Column struct {
	Page *Page
	X, Y float64 // left edge; top of the next line
	W    float64 // width

	room func(high float64) // asked for room before each line; nil: there is room
}

func (c *Column) need(high float64) {
	if c.room != nil {
		c.room(high)
	}
}

// Para sets a paragraph; the marks of Wrap hold in it.
func (c *Column) Para(t word.Text) { c.set(0, Body, draw.Upright, t) }

// Bold sets a paragraph in bold letters, as it is: a name.
func (c *Column) Bold(t word.Text) { c.set(0, Body, draw.Bold, t) }

// Small sets a paragraph in small letters.
func (c *Column) Small(t word.Text) { c.set(0, Small, draw.Upright, t) }

// Head sets a heading.
func (c *Column) Head(t word.Text) { c.head(t, 0.6) }

func (c *Column) head(t word.Text, below float64) {
	c.Page.Fitted(c.X, c.Y+Head*0.95, Head, draw.Bold, c.W, t)
	c.Y += Head*Leading + below
}

// set sets a paragraph `indent` mm from the column's left.
func (c *Column) set(indent, size float64, face draw.Face, t word.Text) {
	for _, l := range c.Page.Wrap(face, t, size, c.W-indent) {
		c.need(size * Leading)
		l.Set(c.Page, c.X+indent, c.Y+size*0.95, size)
		c.Y += size * Leading
	}
	c.Y += size * 0.35
}

func (c *Column) high(indent float64, t word.Text) float64 {
	return float64(len(c.Page.Wrap(draw.Upright, t, Body, c.W-indent)))*Body*Leading + Body*0.35
}

const flagIndent = 8

// FlaggedHigh is how high Flagged would be.
func (c *Column) FlaggedHigh(t word.Text) float64 { return c.high(flagIndent, t) }

// Flagged sets a paragraph beside the sign of a caution: a triangle, and a bar down
// its side.
func (c *Column) Flagged(t word.Text) {
	h := c.FlaggedHigh(t)
	c.need(h)
	p, x, y := c.Page, c.X, c.Y
	p.Line(0.8, nil, draw.Pt(x+0.4, y+0.5), draw.Pt(x+0.4, y+h-1))
	p.closed(0.35, color.NRGBA{}, []draw.Point{draw.Pt(x+4.2, y+0.5), draw.Pt(x+6.2, y+4), draw.Pt(x+2.2, y+4)})
	p.Line(0.4, nil, draw.Pt(x+4.2, y+1.7), draw.Pt(x+4.2, y+2.7))
	p.Dot(x+4.2, y+3.4, 0.22)
	c.set(flagIndent, Body, draw.Upright, t)
}
