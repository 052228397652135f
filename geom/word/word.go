// Package word holds what the tool says until it is known in which language: an
// English template and what stands in its places. Whoever shows a Text puts it into a
// language with In. The English template is the key under which another language has
// its own: a second language is one Language, of one table.
package word

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// Text is something said: a template in English with fmt's verbs, and what stands
// in their places. The zero value says nothing.
type Text struct {
	english string // what Say and Count were given; of Name the name itself
	one     string // of Count alone: the template for one
	kind    kind
	n       int
	with    []any
}

type kind uint8

const (
	said    kind = iota
	named        // in no language
	counted      // one or more of something
	joined       // the texts of with, english between them
)

// Say is a text from an English template with the verbs of fmt. A place may hold a
// Text, a Number, or what is in no language: a name, a number, a key. Another
// language may give the places another order (%[2]s).
func Say(english string, with ...any) Text { return Text{english: english, with: with} }

// Name is a text that is the same in every language: what a maker typed, a code, a
// sign.
func Name(name string) Text { return Text{english: name, kind: named} }

// Count is Say for n things: the template for one where n is 1, otherwise the one
// for many. Other languages have other numbers of forms; see Language.Count.
func Count(n int, one, many string, with ...any) Text {
	return Text{english: many, one: one, kind: counted, n: n, with: with}
}

// Join puts texts behind one another with a sign between them that is no word: a
// blank between sentences, a comma in a list. Empty texts are left out.
func Join(between string, texts ...Text) Text {
	t := Text{english: between, kind: joined}
	for _, text := range texts {
		if !text.Empty() {
			t.with = append(t.with, text)
		}
	}
	return t
}

// Empty reports whether the text says nothing.
func (t Text) Empty() bool {
	if t.kind == joined {
		return len(t.with) == 0
	}
	return t.english == ""
}

// IsZero is Empty, for the omitzero of encoding/json.
func (t Text) IsZero() bool { return t.Empty() }

// String is the text in English.
func (t Text) String() string { return t.In(English) }

// MarshalJSON writes the text in English, as the command's --json does.
func (t Text) MarshalJSON() ([]byte, error) { return json.Marshal(t.String()) }

// UnmarshalJSON reads a text that somebody has put into a language already.
func (t *Text) UnmarshalJSON(b []byte) error {
	*t = Text{kind: named}
	return json.Unmarshal(b, &t.english)
}

// In is the text in a language.
func (t Text) In(l Language) string {
	switch t.kind {
	case named:
		return t.english
	case joined:
		parts := make([]string, len(t.with))
		for i := range t.with {
			parts[i] = t.with[i].(Text).In(l)
		}
		return strings.Join(parts, t.english)
	}
	var template string
	if t.kind == counted {
		template = l.count(t.one, t.english, t.n)
	} else {
		template = l.say(t.english)
	}
	bare := strings.ReplaceAll(template, "%%", "")
	if len(t.with) == 0 || !strings.Contains(bare, "%") { // one of a count's two may do without the number
		return strings.ReplaceAll(template, "%%", "%")
	}
	with := make([]any, len(t.with))
	for i, w := range t.with {
		switch w := w.(type) {
		case interface{ In(Language) string }:
			with[i] = w.In(l)
		default:
			with[i] = w
		}
	}
	return fmt.Sprintf(template, with...)
}

// Number is a number as people read it: with so many decimals, a minus and not a
// hyphen, and the language's own decimal mark. The place of a Number is %s.
type Number struct {
	Value    float64 // finite
	Decimals int     // at most 15, to the nearest; −1 for as many as it has
	Short    bool    // without the zeros at its end
}

// In writes the number in a language.
func (n Number) In(l Language) string {
	text := strconv.FormatFloat(n.Value, 'f', n.Decimals, 64)
	if n.Short && strings.Contains(text, ".") {
		text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	}
	return Written(text).In(l)
}

// String is the number in English.
func (n Number) String() string { return n.In(English) }

// Written is a number written already, with a point and a hyphen. Its place is %s.
type Written string

// In gives it a minus, unless nothing but zeros follows, and the language's own
// decimal mark.
func (w Written) In(l Language) string {
	text, negative := strings.CutPrefix(string(w), "-")
	if l.Point != "" {
		text = strings.Replace(text, ".", l.Point, 1)
	}
	if negative && strings.Trim(text, "0.,") != "" {
		return "−" + text
	}
	return text
}

// Key is the key of a field of a scheme where a text speaks of it: the command shows
// it as it is typed, the page by the field's label (see Language.Key). Its place is %s.
type Key string

// In gives the key as a language shows it.
func (k Key) In(l Language) string {
	if l.Key != nil {
		return l.Key(string(k))
	}
	return string(k)
}
