package scheme

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"ruffwright/geom/word"
)

// Error is one thing that is wrong with one field, in words for the maker.
type Error struct {
	Field   string    `json:"field"`   // key of the field, or path in a document; "" for the whole document
	Value   word.Text `json:"value"`   // what was found there, shortened
	Allowed word.Text `json:"allowed"` // what may stand there
	Why     word.Text `json:"why"`     // what is wrong, one clause
}

// Said gives field, value, reason and what is allowed in one line.
func (e Error) Said() word.Text {
	t := word.Join(" ", e.Value, e.Why)
	if !e.Allowed.Empty() {
		t = word.Say("%s; allowed: %s", t, e.Allowed)
	}
	if e.Field != "" {
		t = word.Say("%s: %s", word.Key(e.Field), t)
	}
	return t
}

// Error is the same in English.
func (e Error) Error() string { return e.Said().String() }

// Errors is everything that is wrong with a scheme or a document, in the order
// of the table of fields where a field is at fault.
type Errors []Error

// Said gives one line for each error.
func (es Errors) Said() word.Text {
	lines := make([]word.Text, len(es))
	for i, e := range es {
		lines[i] = e.Said()
	}
	return word.Join("\n", lines...)
}

// Error is the same in English.
func (es Errors) Error() string { return es.Said().String() }

// shorten gives at most n runes of text that may be hostile: what cannot be
// printed is shown as a dot, and what is cut off as an ellipsis.
func shorten(text string, n int) string {
	var b strings.Builder
	count := 0
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		i += size
		if count == n {
			b.WriteRune('…')
			break
		}
		if r == utf8.RuneError || !unicode.IsPrint(r) || isBidi(r) {
			r = '·'
		}
		b.WriteRune(r)
		count++
	}
	return b.String()
}
