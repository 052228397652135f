package sheet

import (
	"rsc.io/qr"
	"ruffwright/geom/draw"
)

// moduleLeast is how wide a module of a square must be in mm that a telephone
// still reads from paper; common practice, no source.
const moduleLeast = 0.33

// Square is a text as a QR code.
type Square struct{ code *qr.Code }

// NewSquare makes the square of a text; the error is of one too long.
func NewSquare(text string) (*Square, error) {
	c, err := qr.Encode(text, qr.L)
	if err != nil {
		return nil, err
	}
	return &Square{c}, nil
}

// Least is how wide the square must be to be read, mm.
func (s *Square) Least() float64 { return moduleLeast * float64(s.code.Size) }

// Square draws the square's black modules as rows of rectangles, `size` mm wide.
// The quiet zone of 4 modules is white paper: nothing may be set there.
func (p *Page) Square(s *Square, x, y, size float64) {
	c := s.code
	m := size / float64(c.Size)
	path := draw.Path{Closed: true, Fill: Black}
	for row := range c.Size {
		for col := 0; col < c.Size; col++ {
			if !c.Black(col, row) {
				continue
			}
			from := col
			for c.Black(col+1, row) { // beyond the square is none
				col++
			}
			// A hair taller than a module, so that no white line shows between rows.
			path.Lines = append(path.Lines, box(x+float64(from)*m, y+float64(row)*m, x+float64(col+1)*m, y+float64(row+1)*m+0.01))
		}
	}
	p.Items = append(p.Items, path)
}
