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

// Error gives field, value, reason and what is allowed in one line.
func (e Error) Error() string {
	var b strings.Builder
	if e.Field != "" {
		b.WriteString(e.Field)
		b.WriteString(": ")
	}
	if value := e.Value.String(); value != "" {
		b.WriteString(shorten(value, 40))
		b.WriteString(" ")
	}
	b.WriteString(e.Why.String())
	if !e.Allowed.Empty() {
		b.WriteString("; allowed: ")
		b.WriteString(e.Allowed.String())
	}
	return b.String()
}

// Errors is everything that is wrong with a scheme or a document, in the order
// of the table of fields where a field is at fault.
type Errors []Error

// Error gives one line for each error.
func (es Errors) Error() string {
	lines := make([]string, len(es))
	for i, e := range es {
		lines[i] = e.Error()
	}
	return strings.Join(lines, "\n")
}

// orNil keeps an empty list from becoming a non-nil error.
func (es Errors) orNil() error {
	if len(es) == 0 {
		return nil
	}
	return es
}

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
