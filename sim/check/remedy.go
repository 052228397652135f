package check

import (
	"math"
	"strconv"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// bandFor is the height of the band, mm, on which an inner edge so long has that
// slack; NaN, which no field takes, where there is none.
func (v *view) bandFor(inner, slack float64) float64 {
	return math.Sqrt(math.Pow(inner/slack, 2) - math.Pow(v.p.Pitch_mm/2, 2))
}

// Apply gives s with the changes of r in place; s itself is not touched. A
// change whose key or value the scheme does not take, and changes that do not
// fit together, are errors of package scheme.
func Apply(s scheme.Scheme, r Remedy) (scheme.Scheme, error) {
	for _, c := range r.Changes {
		if err := s.Set(c.Key, c.Value); err != nil {
			return scheme.Scheme{}, err
		}
	}
	if err := s.Validate(); err != nil {
		return scheme.Scheme{}, err
	}
	return s, nil
}

// Outcome says what a tried remedy does, with the size that the finding would have,
// in the unit u where it is a length: 'removes it (then 0.2 mm)', and what it brings.
// Empty for a remedy that was not tried. unit is the finding's.
func (r Remedy) Outcome(unit string, u scheme.Units) word.Text {
	if r.Tried == "" {
		return word.Text{}
	}
	said := word.Say(r.Tried)
	size := math.Abs(r.Then) // which side it is on, the finding says
	switch {
	case size == 0 || size >= 1000:
	case unit == "mm":
		said = word.Say("%s (then %s)", said, Length(size, u))
	case unit == "°":
		said = word.Say("%s (then %s°)", said, Number(size, 1))
	case unit == "%" || unit == "N":
		said = word.Say("%s (then %s %s)", said, Number(size, 1), unit)
	}
	if len(r.Brings) == 0 {
		return said
	}
	titles := make([]word.Text, len(r.Brings))
	for i, id := range r.Brings {
		titles[i] = Title(id)
	}
	if r.Tried == Trades {
		return word.Say("%s: %s", said, word.Join(", ", titles...))
	}
	return word.Say("%s; new: %s", said, word.Join(", ", titles...))
}

// Between are the changes that make b of a: the fields that differ, in their order.
func Between(a, b scheme.Scheme) []Change {
	changes := []Change{}
	for _, f := range scheme.Fields() {
		if v := f.Get(b); v != f.Get(a) {
			changes = append(changes, Change{Key: f.Key, Value: v})
		}
	}
	return changes
}

// to is the change of one field.
func to(key, value string) Change { return Change{Key: key, Value: value} }

// toMM is the change of one field of length or number.
func toMM(key string, v float64) Change {
	return Change{Key: key, Value: strconv.FormatFloat(v, 'f', -1, 64)}
}

// tenth rounds a length to 0.1 mm, the finest that is worth marking.
func tenth(mm float64) float64 { return math.Round(mm*10) / 10 }

// asIn sets fields to what they are in s.
func asIn(s scheme.Scheme, keys ...string) []Change {
	c := make([]Change, len(keys))
	for i, key := range keys {
		f, _ := scheme.Lookup(key)
		c[i] = to(key, f.Get(s))
	}
	return c
}

// allowed says whether the field key takes v.
func (v *view) allowed(key string, x float64) bool {
	f, ok := scheme.Lookup(key)
	return ok && f.For(v.s).InRange(x)
}
