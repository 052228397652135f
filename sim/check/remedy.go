package check

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
)

// sqrtOf is the root of x, −1 where there is none (no length allows it).
func sqrtOf(x float64) float64 {
	if !(x > 0) {
		return -1
	}
	return math.Sqrt(x)
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
func (r Remedy) Outcome(unit string, u scheme.Units) string {
	if r.Tried == "" {
		return ""
	}
	said := r.Tried
	size := math.Abs(r.Then) // which side it is on, the finding says
	switch {
	case size == 0 || size >= 1000:
	case unit == "mm":
		said += " (then " + (&view{u: u}).len(size) + ")"
	case unit == "°" || unit == "%" || unit == "N":
		said += " (then " + number(size, 1) + map[string]string{"°": "°", "%": " %", "N": " N"}[unit] + ")"
	}
	if len(r.Brings) > 0 {
		titles := make([]string, len(r.Brings))
		for i, id := range r.Brings {
			l, _ := lawOf(id)
			titles[i] = l.Title
		}
		said += map[bool]string{true: ": ", false: "; new: "}[r.Tried == Trades] + strings.Join(titles, ", ")
	}
	return said
}

// remedy says one way out, in words and changes.
func remedy(changes []Change, format string, args ...any) Remedy {
	return Remedy{Sentence: fmt.Sprintf(format, args...), Changes: changes}
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
