package scheme

import (
	"math"
	"strconv"
	"strings"

	"ruffwright/geom/word"
)

// Bounds of the maker's own marks.
const (
	maxMarks     = 2000    // of one strip
	maxMarkPlace = 50000.0 // mm, as strip.have
)

var markPlaces = word.Say("%d to %d mm", 0, int(maxMarkPlace))

// ParseMarks reads own marks as text: each a place, a fold and the edge it is
// sewn to, divided by semicolons or lines:
//
//	0 trough bottom; 30.5 crest top; 61 trough bottom; 3 5/8 in crest no
//
// Places without a unit are in mm whatever units a person has chosen, measured
// from the first mark. Nothing at all gives no marks. The marks are checked as
// Validate checks them.
func ParseMarks(text string) ([]Mark, error) {
	var marks []Mark
	for _, item := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' }) {
		if strings.TrimSpace(item) == "" {
			continue
		}
		if len(marks) == maxMarks {
			return nil, Error{Why: word.Say("there are more than %d marks", maxMarks)}
		}
		m, err := parseMark(item)
		if err != nil {
			err.Why = word.Say("mark %d: %s", len(marks)+1, err.Why)
			return nil, *err
		}
		marks = append(marks, m)
	}
	if errs := checkMarks(marks); len(errs) > 0 {
		return nil, errs[0]
	}
	return marks, nil
}

func parseMark(item string) (Mark, *Error) {
	words := strings.Fields(item)
	if len(words) < 3 {
		return Mark{}, &Error{Value: quoted(item), Why: word.Say("wants a place, crest or trough, and top, bottom or no")}
	}
	n := len(words)
	m := Mark{Fold: Fold(words[n-2]), Sewn: Edge(words[n-1])}
	if why := m.words(); !why.Empty() {
		return Mark{}, &Error{Value: quoted(item), Why: why}
	}
	place, err := ParseLength(strings.Join(words[:n-2], " "), Millimetres)
	if err != nil {
		e := err.(Error)
		return Mark{}, &e
	}
	m.Place = place
	return m, nil
}

// words says what is wrong with the mark's fold and edge, if anything.
func (m Mark) words() word.Text {
	switch {
	case m.Fold != Crest && m.Fold != Trough:
		return word.Say("the fold is neither crest nor trough")
	case m.Sewn != EdgeTop && m.Sewn != EdgeBottom && m.Sewn != EdgeNone:
		return word.Say("sewn to is none of top, bottom, no")
	}
	return word.Text{}
}

// FormatMarks gives marks as ParseMarks reads them, places in mm and exact.
func FormatMarks(marks []Mark) string {
	var b strings.Builder
	for i, m := range marks {
		if i > 0 {
			b.WriteString("; ")
		}
		b.WriteString(exact(m.Place) + " " + string(m.Fold) + " " + string(m.Sewn))
	}
	return b.String()
}

// checkMarks says what is wrong with own marks as they stand, at most one error
// a mark and ten in all.
func checkMarks(marks []Mark) Errors {
	var errs Errors
	add := func(i int, value string, why, allowed word.Text) {
		if len(errs) < 10 {
			errs = append(errs, Error{Field: "pleat.marks", Value: word.Name(value), Why: word.Say("mark %d: %s", i+1, why), Allowed: allowed})
		}
	}
	if len(marks) == 0 {
		return nil
	}
	if len(marks) > maxMarks {
		return Errors{{Field: "pleat.marks", Value: word.Name(strconv.Itoa(len(marks))), Why: word.Say("marks are too many"), Allowed: word.Say("at most %d", maxMarks)}}
	}
	for i, m := range marks {
		place := exact(m.Place) + " mm"
		switch {
		case math.IsNaN(m.Place) || math.IsInf(m.Place, 0):
			add(i, "", word.Say("the place is not a number"), markPlaces)
		case m.Place < 0 || m.Place > maxMarkPlace:
			add(i, place, word.Say("the place is off the strip"), markPlaces)
		case i == 0 && m.Place != 0:
			add(i, place, word.Say("places are measured from the first mark, which lies at 0"), word.Name("0"))
		case i > 0 && m.Place <= marks[i-1].Place:
			add(i, place, word.Say("lies no further along the strip than the mark before it"), word.Say("more than %s mm", exact(marks[i-1].Place)))
		case !m.words().Empty():
			add(i, string(m.Fold)+" "+string(m.Sewn), m.words(), word.Say("crest or trough; top, bottom or no"))
		case i > 0 && m.Fold == marks[i-1].Fold:
			add(i, string(m.Fold), word.Say("two folds of one kind follow each other; between two crests lies a trough"), word.Say("crest and trough in turn"))
		}
	}
	return errs
}

// setsOf gives how many sets own marks make: as many as crests where the strip
// begins and ends on troughs, as troughs where on crests, as either where mixed.
func setsOf(marks []Mark) int { return len(marks) / 2 }
