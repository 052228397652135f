package sheet

import (
	"strings"

	"ruffwright/geom/draw"
	"ruffwright/geom/word"
)

// Line is one line of text, as Wrap sets it.
type Line []piece

// piece is a stretch of one line in one face, at x from the line's left.
type piece struct {
	x    float64
	face draw.Face
	text string
}

// Set sets the line with its left at x and its baseline at y.
func (l Line) Set(p *Page, x, y, size float64) {
	for _, q := range l {
		p.text(Black, x+q.x, y, size, q.face, 0, q.text)
	}
}

func (l Line) width(size float64) float64 {
	if len(l) == 0 {
		return 0
	}
	q := l[len(l)-1]
	return q.x + draw.TextWidth(q.text, size, q.face)
}

// unbroken is what is not broken unless it is wider than a line.
type unbroken struct {
	face  draw.Face
	text  string
	glued bool // no space before it
}

// words splits text at its spaces. In upright text **strong words** are bold and
// ~~others~~ slant.
func words(face draw.Face, text string) []unbroken {
	var all []unbroken
	space := true
	stretch := func(face draw.Face, text string) {
		for i, part := range strings.Split(text, " ") {
			space = space || i > 0
			if part != "" {
				all = append(all, unbroken{face, part, !space})
				space = false
			}
		}
	}
	text = strings.Map(noControl, text)
	if face != draw.Upright {
		stretch(face, text)
		return all
	}
	for i, strong := range strings.Split(text, "**") {
		for k, slant := range strings.Split(strong, "~~") {
			stretch([...]draw.Face{draw.Upright, draw.Italic, draw.Bold, draw.Bold}[i%2*2+k%2], slant)
		}
	}
	return all
}

func (l Line) gap(q unbroken, size float64) float64 {
	if len(l) == 0 || q.glued {
		return 0
	}
	return draw.TextWidth(" ", size, q.face)
}

func (l Line) with(q unbroken, size float64) Line {
	if n := len(l); n > 0 && l[n-1].face == q.face {
		if !q.glued {
			l[n-1].text += " "
		}
		l[n-1].text += q.text
		return l
	}
	return append(l, piece{l.width(size) + l.gap(q, size), q.face, q.text})
}

// Wrap breaks text at spaces into lines no wider than w mm. A word wider than that is
// broken between letters. In upright text **strong words** are bold, ~~others~~ slant.
func (p *Page) Wrap(face draw.Face, t word.Text, size, w float64) []Line {
	var lines []Line
	var line Line
	end := func() { lines, line = append(lines, line), nil }
	for _, q := range words(face, t.In(p.Language)) {
		wide := draw.TextWidth(q.text, size, q.face)
		if len(line) > 0 && line.width(size)+line.gap(q, size)+wide > w {
			end()
		}
		for wide > w {
			runes := []rune(q.text)
			n := len(runes)
			for n > 1 && draw.TextWidth(string(runes[:n]), size, q.face) > w {
				n--
			}
			if n == len(runes) { // one letter
				break
			}
			line = line.with(unbroken{q.face, string(runes[:n]), q.glued}, size)
			end()
			q.text, q.glued = string(runes[n:]), true
			wide = draw.TextWidth(q.text, size, q.face)
		}
		line = line.with(q, size)
	}
	if len(line) > 0 {
		end()
	}
	return lines
}

func noControl(r rune) rune {
	if r < ' ' || r == 0x7f {
		return ' '
	}
	return r
}
