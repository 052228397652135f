package paper

import (
	"fmt"

	"rsc.io/qr"
	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// The foot of every sheet: check bars at the left, words in the middle, the share
// code's square at the right.
const (
	footTop_mm  = 239
	qrFoot_mm   = 18.0
	moduleLeast = 0.33 // mm a module of a square that a telephone still reads from paper; common practice, no source
)

// frame numbers the sheets and sets head and foot.
func (j *job) frame(pages []*Page) error {
	square, err := j.square()
	if err != nil {
		return err
	}
	for i, p := range pages {
		p.Number, p.Of = i+1, len(pages)
		p.text(0, 6.5, sizeTitle, draw.Bold, 0, p.Title)
		w := draw.TextWidth(p.Title, sizeTitle, draw.Bold)
		if j.Stops() > 0 {
			j.stopSign(p, Live_mm-w-8)
		} else {
			p.text(Live_mm, 6.5, sizeBody, draw.Italic, 1, fit(j.name(), sizeBody, draw.Italic, Live_mm-w-8))
		}
		p.seam(0, Live_mm, 9)
		p.line(fine, nil, pt(0, footTop_mm-1), pt(Live_mm, footTop_mm-1))
		left := j.bars(p)
		right := float64(Live_mm)
		if square != nil && qrFoot_mm/float64(square.Size) >= moduleLeast {
			right -= qrFoot_mm + 4
			drawSquare(p, square, Live_mm-qrFoot_mm, LiveHigh_mm-qrFoot_mm-0.5, qrFoot_mm)
		}
		j.foot(p, left, right, square)
	}
	return nil
}

// stopSign stands in the head of every sheet of what must not be sewn, in the place
// of its name, which the foot has too: each may be followed without the others.
func (j *job) stopSign(p *Page, room float64) {
	this := "this " + j.thing()
	if j.Pattern.Made > 1 {
		this = "these cuffs"
	}
	words := "Do not sew " + this + ": the record sheet says why"
	if draw.TextWidth(words, sizeBody, draw.Bold)+4 > room {
		words = "Do not sew " + this
	}
	w := draw.TextWidth(words, sizeBody, draw.Bold)
	p.rect(0, nil, &black, Live_mm-w-4, 1.8, Live_mm, 8)
	l := p.text(Live_mm-2, 6.1, sizeBody, draw.Bold, 1, words)
	l.Color = white
	p.Items[len(p.Items)-1] = l
}

// bars sets the check bars, true size, across and up; it gives where the words
// beside them begin.
func (j *job) bars(p *Page) float64 {
	across, up, words := 50.0, 15.0, "50 mm"
	upWords := "15 mm"
	switch j.Units {
	case scheme.Inches:
		across, up, words, upWords = 2*25.4, 12.7, "2 in", "1/2 in"
	case scheme.Centimetres:
		words, upWords = "5 cm", "1.5 cm"
	}
	const x0 = 2.0
	y := LiveHigh_mm - 2.5
	bar(p, pt(x0, y), pt(x0+across, y))
	bar(p, pt(x0, y-up), pt(x0, y))
	p.text(x0+across/2, y-1.8, sizeSmall, draw.Upright, 0.5, words)
	p.text(x0+1.8, y-up+3, sizeSmall, draw.Upright, 0, upWords)
	p.text(x0+1.8, y-up+6.6, sizeSmall, draw.Italic, 0, "measure before you cut")
	return x0 + across + 6
}

// bar is a line to be measured: between the outer sides of its two end strokes
// there is nothing to doubt, since the strokes are hairlines.
func bar(p *Page, a, b draw.Point) {
	p.line(fine, nil, a, b)
	tick := pt(0, 1.4)
	if a.X == b.X {
		tick = pt(1.4, 0)
	}
	for _, q := range []draw.Point{a, b} {
		p.line(fine, nil, pt(q.X-tick.X, q.Y-tick.Y), pt(q.X+tick.X, q.Y+tick.Y))
	}
}

// foot sets the words of the foot between left and right.
func (j *job) foot(p *Page, left, right float64, square *qr.Code) {
	y := footTop_mm + 3.4
	w := right - left
	line := func(face draw.Face, s string) {
		p.text(left, y, sizeSmall, face, 0, fit(s, sizeSmall, face, w))
		y += sizeSmall * leading
	}
	line(draw.Bold, fmt.Sprintf("sheet %d of %d  ·  %s", p.Number, p.Of, j.name()))
	line(draw.Upright, j.date()+"  ·  lengths in "+unitWord(j.Units)+"  ·  "+j.Paper.String()+j.stretchWords())
	line(draw.Italic, "true size: print at 100 % (actual size), never 'fit to page'")
	lines := wrapRuns([]run{plain(j.code)}, sizeSmall, w)
	switch {
	case j.code == "":
		line(draw.Upright, "too many marks of its own for a share code: keep the scheme's file")
	case len(lines) <= 2:
		for _, l := range lines {
			l.set(p, left, y, sizeSmall)
			y += sizeSmall * leading
		}
	default:
		line(draw.Upright, fit(j.code, sizeSmall, draw.Upright, w-30)+"  whole on sheet 1")
	}
}

// stretchWords says what printer the sheets were made for.
func (j *job) stretchWords() string {
	fx, fy, _ := j.Printer.factors() // checked before
	if fx == 1 && fy == 1 {
		return ""
	}
	show := func(f float64) string { return trim(100/f, 2) }
	return fmt.Sprintf("  ·  for a printer that makes 100 mm %s × %s", show(fx), show(fy))
}

func unitWord(u scheme.Units) string {
	switch u {
	case scheme.Inches:
		return "inches"
	case scheme.Centimetres:
		return "cm"
	}
	return "mm"
}

// square is the share code as a QR code; nil where there is none.
func (j *job) square() (*qr.Code, error) {
	if j.code == "" {
		return nil, nil
	}
	c, err := qr.Encode(j.Address+j.code, qr.L)
	if err != nil {
		return nil, scheme.Error{Field: "address", Value: word.Name(fit(j.Address, 1, draw.Upright, 40)), Allowed: word.Say("an address short enough for a QR code"), Why: word.Name(err.Error())}
	}
	return c, nil
}

// drawSquare draws the code's black modules as rows of rectangles, `size` mm wide.
// The quiet zone of 4 modules is white paper: nothing is set there.
func drawSquare(p *Page, c *qr.Code, x, y, size float64) {
	m := size / float64(c.Size)
	path := draw.Path{Closed: true, Fill: black}
	for row := range c.Size {
		for col := 0; col < c.Size; col++ {
			if !c.Black(col, row) {
				continue
			}
			from := col
			for col+1 < c.Size && c.Black(col+1, row) {
				col++
			}
			// A hair taller than a module, so that no white line shows between rows.
			path.Lines = append(path.Lines, box(x+float64(from)*m, y+float64(row)*m, x+float64(col+1)*m, y+float64(row+1)*m+0.01))
		}
	}
	p.Items = append(p.Items, path)
}
