package sheet

import (
	"strings"

	"ruffwright/geom/draw"
)

// printable replaces what the sheets' fonts have no letter for by a question mark
// and drops control characters, so that a name from anywhere can be printed.
func printable(s string, face draw.Face) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r < ' ' || r == 0x7f:
			return -1
		case r > '~' && !draw.Has(face, r):
			return '?'
		}
		return r
	}, s)
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
