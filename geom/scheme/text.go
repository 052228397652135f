package scheme

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"ruffwright/geom/word"
)

// badText says why a line of words cannot stand in a scheme, nothing where it can:
// UTF-8, form C, at most max runes, one line, no space at its ends, and nothing that hides or turns
// around what stands beside it.
func badText(text string, max int) word.Text {
	if !utf8.ValidString(text) {
		return word.Say("is not readable text (UTF-8)")
	}
	if n := utf8.RuneCountInString(text); n > max {
		return word.Say("has %d characters", n)
	}
	for _, r := range text {
		switch {
		case r == utf8.RuneError:
			return word.Say("holds a character that could not be read")
		case isBidi(r):
			return word.Say("holds a character that turns the direction of writing")
		case unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || r == '\ufeff':
			return word.Say("holds a control character")
		}
	}
	if strings.TrimSpace(text) != text {
		return word.Say("begins or ends with a space")
	}
	if !norm.NFC.IsNormalString(text) {
		return word.Say("is not in Unicode's composed form (NFC)")
	}
	return word.Text{}
}

// isBidi says whether r is one of Unicode's explicit directional characters
// (Unicode Standard Annex 9, section 2).
func isBidi(r rune) bool {
	return r == '\u061c' || r == '\u200e' || r == '\u200f' ||
		r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069'
}

// seen gives text, or nothing where nothing of it can be seen: a name of spaces and
// marks of no width is no name.
func seen(text string) string {
	if strings.ContainsFunc(text, visible) {
		return text
	}
	return ""
}

// visible says whether r by itself leaves something to see: no space, no mark that
// stands on another letter, nothing that Unicode has ignored where it is not known
// (Default_Ignorable_Code_Point: the general category Cf, variation selectors, and the
// listed rest), and not the blank of Braille. A byte that is no text is not hidden, so
// that it is told.
func visible(r rune) bool {
	return !unicode.IsSpace(r) && !unicode.IsControl(r) && r != '\u2800' &&
		!unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf, unicode.Z, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector)
}
