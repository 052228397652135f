package scheme

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/unicode/norm"

	"ruffwright/geom/word"
)

// Kind says what a field holds and how it is written.
type Kind string

// The kinds of fields.
const (
	KindText    Kind = "text"    // one line of words
	KindChoice  Kind = "choice"  // one of Choices
	KindCount   Kind = "count"   // a whole number
	KindNumber  Kind = "number"  // a number in Unit
	KindLength  Kind = "length"  // mm inside; a person's units at the edge
	KindPercent Kind = "percent" // %
	KindAngle   Kind = "angle"   // degrees
	KindMarks   Kind = "marks"   // own marks along the strip, see ParseMarks
)

// Choice is one value that a choice may have, and its words on the page.
type Choice struct {
	Value string `json:"value"`
	Label string `json:"label"`
}

// Field is one row of the table: one decision of the maker. Validation, the
// page's form, the command's --set, the document, the share code and the
// record sheet all read it from here.
type Field struct {
	Key     string   `json:"key"`               // "wearer.girth"
	Group   string   `json:"group"`             // key of its Group
	Kind    Kind     `json:"kind"`              //
	Unit    string   `json:"unit,omitempty"`    // kept inside: mm for lengths
	Min     float64  `json:"min"`               // numbers: least; text: 0
	Max     float64  `json:"max"`               // numbers: most; text: runes; marks: how many
	Zero    string   `json:"zero,omitempty"`    // what 0 means; allowed then, even outside Min to Max
	Choices []Choice `json:"choices,omitempty"` // of a choice
	Default string   `json:"default"`           // as Get gives it
	Label   string   `json:"label"`             // on the page
	Help    string   `json:"help"`              // what it is and how to measure it
	Changes string   `json:"changes"`           // what a change of it changes
	Rare    bool     `json:"rare,omitempty"`    // folded away in the form

	code int               // its number in a share code; never used again for another
	at   func(*Scheme) any // *float64, *int, *string or *[]Mark
}

// Group is a heading of the form, in the order of the job.
type Group struct {
	Key   string `json:"key"`
	Label string `json:"label"`
}

// Groups gives the headings in the order of the job.
func Groups() []Group { return slices.Clone(groups) }

// Fields gives the table, in the order of the form. The slice is the caller's;
// what it points to (Choices) is not to be changed.
func Fields() []Field { return slices.Clone(table) }

// Lookup finds a field by its key.
func Lookup(key string) (Field, bool) {
	if i := place(key); i >= 0 {
		return table[i], true
	}
	return Field{}, false
}

// place is where a field stands in the table, -1 if nowhere.
func place(key string) int {
	for i := range table {
		if table[i].Key == key {
			return i
		}
	}
	return -1
}

// Default gives the scheme of a document that leaves out every key.
func Default() Scheme { return defaults }

// First gives the scheme to begin with: the page's, and the command's where none is
// named. It is Default, starched. Tucked and not starched, cloth has several ways to lie,
// and schemes 1 % apart stood up to 3 mm apart in height; starched, as the sound demo is,
// they answer alike.
func First() Scheme {
	s := Default()
	s.Starch.Bend = 55
	return s
}

// defaults is read from the table once; it has no marks, so that a copy shares
// nothing with another.
var defaults = startOf(table)

func startOf(table []Field) Scheme {
	var s Scheme
	for i := range table {
		if err := table[i].write(&s, table[i].Default, Millimetres); err != nil {
			panic("scheme: the table's default of " + err.Error()) // a test keeps the table
		}
	}
	return s
}

// Set reads text into the field named key, as the latest word (see
// Field.Decide). Lengths without a unit are in mm. On an error s is as it was. The
// field's own range is checked; whether fields fit together is for Validate.
func (s *Scheme) Set(key, text string) error {
	_, err := s.Decide(key, text)
	return err
}

// Decide is Set, and tells which decisions count no longer because of it.
func (s *Scheme) Decide(key, text string) ([]Overruled, error) {
	f, ok := Lookup(key)
	if !ok {
		return nil, unknownKey(key)
	}
	return f.Decide(s, text, Millimetres)
}

// Get gives the canonical text of the field in s: lengths in mm, numbers exact,
// without a unit. Set reads it back to the same value.
func (f Field) Get(s Scheme) string {
	switch p := f.at(&s).(type) {
	case *float64:
		return exact(*p)
	case *int:
		return strconv.Itoa(*p)
	case *string:
		return *p
	case *[]Mark:
		return FormatMarks(*p)
	}
	return ""
}

// Set reads text, whose lengths without a unit are in edge, into s. Text that
// Show gave and nobody touched changes nothing, so that rounding for the eye
// and switching units never move a mark. On an error s is as it was.
func (f Field) Set(s *Scheme, text string, edge Units) error {
	if strings.TrimSpace(text) == f.Show(*s, edge) {
		return nil
	}
	return f.write(s, text, edge)
}

// Show gives the field's text for a form's box: lengths in edge and rounded for
// the eye, without a unit (see UnitIn).
func (f Field) Show(s Scheme, edge Units) string {
	p, ok := f.at(&s).(*float64)
	if !ok {
		return f.Get(s)
	}
	if f.Kind == KindLength {
		return BareLength(*p, edge)
	}
	return exact(*p)
}

// UnitIn gives the unit that Show's text is in, "" where there is none.
func (f Field) UnitIn(edge Units) string {
	if f.Kind == KindLength {
		return edge.Symbol() + strings.TrimPrefix(f.Unit, "mm")
	}
	return f.Unit
}

// UnitWord is a field's unit as it is said: sets, per cm and mm a set are words, the
// others are signs.
func UnitWord(unit string) word.Text {
	if unit == "sets" || strings.Contains(unit, " ") {
		return word.Say(unit)
	}
	return word.Name(unit)
}

// Number gives the field's value in its Unit; 0 for what is not a number.
func (f Field) Number(s Scheme) float64 {
	switch p := f.at(&s).(type) {
	case *float64:
		return *p
	case *int:
		return float64(*p)
	}
	return 0
}

// put is Number's other way: a whole number where the field holds one.
func (f Field) put(s *Scheme, v float64) {
	switch p := f.at(s).(type) {
	case *float64:
		*p = v
	case *int:
		*p = int(v)
	}
}

// InRange says whether v may stand in a field of numbers.
func (f Field) InRange(v float64) bool {
	return v >= f.Min && v <= f.Max || v == 0 && f.Zero != ""
}

// Allowed says what may stand in the field, lengths in edge.
func (f Field) Allowed(edge Units) word.Text {
	switch f.Kind {
	case KindText:
		return word.Say("at most %d characters", int(f.Max))
	case KindMarks:
		return word.Say("at most %d marks, as “%s”", int(f.Max), "0 trough bottom; 30.5 crest top; …")
	case KindChoice:
		values := make([]string, len(f.Choices))
		for i, c := range f.Choices {
			values[i] = c.Value
		}
		return word.Name(strings.Join(values, ", "))
	}
	show := func(v float64) string {
		if f.Kind == KindLength {
			return BareLength(v, edge)
		}
		return exact(v)
	}
	text := word.Say("%s to %s", show(f.Min), show(f.Max))
	if unit := f.UnitIn(edge); unit != "" {
		text = word.Join(" ", text, UnitWord(unit))
	}
	switch {
	case f.Zero == "":
		return text
	case f.Min <= 0 && f.Max >= 0:
		return word.Say("%s (0: %s)", text, word.Say(f.Zero))
	}
	return word.Say("%s, or 0 (%s)", text, word.Say(f.Zero))
}

// write reads text into s and checks the field's own range. What it says of that is
// the range for the rest of s.
func (f Field) write(s *Scheme, text string, edge Units) error {
	here := f.For(*s)
	fail := func(err error) error {
		e, ok := err.(Error)
		if !ok {
			e = Error{Why: word.Name(err.Error())}
		}
		e.Field, e.Allowed = f.Key, here.Allowed(edge)
		return e
	}
	switch p := f.at(s).(type) {
	case *float64, *int:
		v, err := f.parse(text, edge)
		switch _, whole := p.(*int); {
		case err != nil:
			return fail(err)
		case whole && v != math.Trunc(v):
			return fail(Error{Value: quoted(text), Why: word.Say("is not a whole number")})
		case !f.InRange(v):
			return fail(here.outside(v, edge))
		}
		f.put(s, v)
	case *string:
		value, err := f.parseWords(text)
		if err != nil {
			return fail(err)
		}
		*p = value
	case *[]Mark:
		marks, err := ParseMarks(text)
		if err != nil {
			return fail(err)
		}
		*p = marks
	}
	return nil
}

func (f Field) outside(v float64, edge Units) Error {
	side, bound := word.Say("is too large"), f.Max
	if v < f.Min {
		side, bound = word.Say("is too small"), f.Min
	}
	value, unit := exact(v), f.Unit
	// 560.001 must not be shown as the 560 that is allowed.
	if text := BareLength(v, edge); f.Kind == KindLength && edge != Millimetres && text != BareLength(bound, edge) {
		value, unit = text, f.UnitIn(edge)
	}
	return Error{Field: f.Key, Value: word.Join(" ", word.Name(value), UnitWord(unit)), Why: side, Allowed: f.Allowed(edge)}
}

// parse reads a number with the units that the field accepts.
func (f Field) parse(text string, edge Units) (float64, error) {
	if f.Kind == KindLength {
		return ParseLength(text, edge)
	}
	if ws, ok := unitWords[f.Unit]; ok {
		return parseQuantity(text, ws, f.Unit)
	}
	return parseQuantity(text, nil, "")
}

func (f Field) parseWords(text string) (string, error) {
	if f.Kind == KindText {
		// In Unicode's normal form C two spellings of one name that look the same are the same.
		value := norm.NFC.String(strings.TrimSpace(text))
		if why := badText(value, int(f.Max)); !why.Empty() {
			return "", Error{Value: quoted(text), Why: why}
		}
		return seen(value), nil
	}
	value := strings.TrimSpace(text)
	if !f.offers(value) {
		return "", Error{Value: quoted(text), Why: word.Say("is not one of the choices")}
	}
	return value, nil
}

func (f Field) offers(value string) bool {
	return slices.ContainsFunc(f.Choices, func(c Choice) bool { return c.Value == value })
}

func unknownKey(key string) Error {
	e := Error{Field: shorten(key, 60), Why: word.Say("is not a key of a scheme")}
	for i := range table {
		if strings.EqualFold(table[i].Key, key) {
			e.Why = word.Say("is not a key of a scheme; %s is", table[i].Key)
		}
	}
	return e
}
