package scheme

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// composed gives text in Unicode's normal form C, so that two spellings of one
// name that look the same are the same.
func composed(text string) string { return norm.NFC.String(text) }

// badText says why a line of words cannot stand in a scheme, "" where it can:
// UTF-8, form C, at most max runes, one line, no space at its ends, and nothing that hides or turns
// around what stands beside it.
func badText(text string, max int) string {
	if !utf8.ValidString(text) {
		return "is not readable text (UTF-8)"
	}
	if n := utf8.RuneCountInString(text); n > max {
		return "has " + strconv.Itoa(n) + " characters"
	}
	for _, r := range text {
		switch {
		case r == utf8.RuneError:
			return "holds a character that could not be read"
		case isBidi(r):
			return "holds a character that turns the direction of writing"
		case unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || r == '\ufeff':
			return "holds a control character"
		}
	}
	if strings.TrimSpace(text) != text {
		return "begins or ends with a space"
	}
	if !norm.NFC.IsNormalString(text) {
		return "is not in Unicode's composed form (NFC)"
	}
	return ""
}

// isBidi says whether r is one of Unicode's explicit directional characters
// (Unicode Standard Annex 9, section 2).
func isBidi(r rune) bool {
	return r == '\u061c' || r == '\u200e' || r == '\u200f' ||
		r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069'
}
