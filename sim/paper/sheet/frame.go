package sheet

import (
	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// Frame is what stands at the head and the foot of every page of a set of sheets.
type Frame struct {
	Name   word.Text    // of what is made
	Stop   []word.Text  // what stands in the head in place of the name, white on black: the first wording that has room, else the last; nil: the name
	About  word.Text    // a line of the foot: day, units, paper
	Units  scheme.Units // of the check bars
	Code   string       // the words of the code; "": there is none
	NoCode word.Text    // what is said then
	Square *Square      // of the code; nil: none
}

const (
	footTop_mm = 239
	qrFoot_mm  = 18.0 // how wide the square is in the foot
)

// Set numbers the pages and sets head and foot on each: the title at the left, the
// name at the right; check bars at the left, words in the middle, the square at the
// right where it is wide enough to be read.
func (f Frame) Set(pages []*Page) {
	for i, p := range pages {
		p.Number, p.Of = i+1, len(pages)
		p.Text(0, 6.5, title, draw.Bold, 0, p.Title)
		room := Live_mm - p.Width(p.Title, title, draw.Bold) - 8
		if f.Stop != nil {
			f.stop(p, room)
		} else {
			p.text(Black, Live_mm, 6.5, Body, draw.Italic, 1, draw.Clip(f.Name.In(p.Language), Body, draw.Italic, room))
		}
		p.seam(0, Live_mm, 9)
		p.Line(Fine, nil, draw.Pt(0, footTop_mm-1), draw.Pt(Live_mm, footTop_mm-1))
		left := p.checkBars(f.Units)
		right := float64(Live_mm)
		if f.Square != nil && f.Square.Least() <= qrFoot_mm {
			right -= qrFoot_mm + 4
			p.Square(f.Square, Live_mm-qrFoot_mm, LiveHigh_mm-qrFoot_mm-0.5, qrFoot_mm)
		}
		f.foot(p, left, right-left)
	}
}

func (f Frame) stop(p *Page, room float64) {
	words, w := "", 0.0
	for _, t := range f.Stop {
		words = t.In(p.Language)
		if w = draw.TextWidth(words, Body, draw.Bold); w+4 <= room {
			break
		}
	}
	p.Filled(0, Black, Live_mm-w-4, 1.8, Live_mm, 8)
	p.text(White, Live_mm-2, 6.1, Body, draw.Bold, 1, words)
}

// checkBars sets the check bars, true size, across and up; it gives where the words
// beside them begin.
func (p *Page) checkBars(u scheme.Units) float64 {
	across, up, words, upWords := 50.0, 15.0, word.Name("50 mm"), word.Name("15 mm")
	switch u {
	case scheme.Inches:
		across, up, words, upWords = 2*25.4, 12.7, word.Name("2 in"), word.Name("1/2 in")
	case scheme.Centimetres:
		words, upWords = word.Name("5 cm"), word.Say("%s cm", word.Written("1.5"))
	}
	const x0 = 2.0
	y := LiveHigh_mm - 2.5
	p.Bar(draw.Pt(x0, y), draw.Pt(x0+across, y))
	p.Bar(draw.Pt(x0, y-up), draw.Pt(x0, y))
	p.Text(x0+across/2, y-1.8, Small, draw.Upright, 0.5, words)
	p.Text(x0+1.8, y-up+3, Small, draw.Upright, 0, upWords)
	p.Text(x0+1.8, y-up+6.6, Small, draw.Italic, 0, word.Say("measure before you cut"))
	return x0 + across + 6
}

func (f Frame) foot(p *Page, left, w float64) {
	y := footTop_mm + 3.4
	line := func(face draw.Face, t word.Text) {
		p.Fitted(left, y, Small, face, w, t)
		y += Small * Leading
	}
	line(draw.Bold, word.Say("sheet %d of %d  ·  %s", p.Number, p.Of, f.Name))
	line(draw.Upright, f.About)
	line(draw.Italic, word.Say("true size: print at 100 %% (actual size), never 'fit to page'"))
	lines := p.Wrap(draw.Upright, word.Name(f.Code), Small, w)
	switch {
	case f.Code == "":
		line(draw.Upright, f.NoCode)
	case len(lines) <= 2:
		for _, l := range lines {
			l.Set(p, left, y, Small)
			y += Small * Leading
		}
	default:
		line(draw.Upright, word.Say("%s  whole on sheet 1", draw.Clip(f.Code, Small, draw.Upright, w-30)))
	}
}
