package sheet

import (
	"strings"
	"sync"

	"golang.org/x/image/font/sfnt"
	"ruffwright/geom/draw"
)

// parsed holds the sheets' fonts; parsing constant bytes once is no state.
var parsed = [3]func() *sfnt.Font{
	sync.OnceValue(func() *sfnt.Font { return mustParse(draw.Upright) }),
	sync.OnceValue(func() *sfnt.Font { return mustParse(draw.Italic) }),
	sync.OnceValue(func() *sfnt.Font { return mustParse(draw.Bold) }),
}

func mustParse(f draw.Face) *sfnt.Font {
	font, err := sfnt.Parse(draw.TTF(f))
	if err != nil {
		panic("sheet: embedded font: " + err.Error()) // bytes are compiled in: TestPrintable
	}
	return font
}

// printable replaces what the sheets' fonts have no letter for by a question mark
// and drops control characters, so that a name from anywhere can be printed.
func printable(s string, face draw.Face) string {
	plain := true
	for _, r := range s {
		if r < ' ' || r > '~' {
			plain = false
			break
		}
	}
	if plain {
		return s
	}
	if face < draw.Upright || face > draw.Bold {
		face = draw.Upright
	}
	var b strings.Builder
	var buf sfnt.Buffer
	for _, r := range s {
		switch g, err := parsed[face]().GlyphIndex(&buf, r); {
		case r < ' ' || r == 0x7f:
		case err != nil || g == 0 || r > 0xffff:
			b.WriteByte('?')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// Unprinted gives the letters of a name that the sheets print as a question mark, for
// none of their fonts has them; "" where there are none.
func Unprinted(name string) string {
	var b strings.Builder
	for _, r := range name {
		if r >= ' ' && r != '?' && printable(string(r), draw.Upright) == "?" {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// Fit shortens s with an ellipsis until it is no wider than w mm.
func Fit(s string, size float64, face draw.Face, w float64) string {
	if draw.TextWidth(s, size, face) <= w {
		return s
	}
	runes := []rune(s)
	for len(runes) > 0 {
		runes = runes[:len(runes)-1]
		if t := strings.TrimRight(string(runes), " ") + "…"; draw.TextWidth(t, size, face) <= w {
			return t
		}
	}
	return ""
}
