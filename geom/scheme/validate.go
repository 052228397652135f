package scheme

import (
	"math"
	"slices"
	"strconv"

	"ruffwright/geom/word"
)

// Validate says everything that is wrong with the scheme: every field finite
// and in its range, every choice known, text fit to print, marks in order, and
// the fields fitting together. The error is nil or Errors, in the order of the
// table, and where two fields do not fit together it names both. It is the one
// check for links, files, storage and the form.
func (s Scheme) Validate() error {
	var errs Errors
	for i := range table {
		errs = append(errs, table[i].check(&s)...)
	}
	if len(errs) == 0 {
		errs = s.fit()
		slices.SortStableFunc(errs, func(a, b Error) int { return place(a.Field) - place(b.Field) })
	}
	if len(errs) == 0 {
		return nil
	}
	return errs
}

func (f Field) check(s *Scheme) Errors {
	switch p := f.at(s).(type) {
	case *float64, *int:
		switch v := f.Number(*s); {
		case math.IsNaN(v) || math.IsInf(v, 0):
			return Errors{{Field: f.Key, Value: word.Name(strconv.FormatFloat(v, 'g', -1, 64)), Why: word.Say("is not a number that can be used"), Allowed: f.Allowed(Millimetres)}}
		case !f.InRange(v):
			return Errors{f.outside(v, Millimetres)}
		}
	case *string:
		if f.Kind == KindChoice && !f.offers(*p) {
			return Errors{{Field: f.Key, Value: quoted(*p), Why: word.Say("is not one of the choices"), Allowed: f.Allowed(Millimetres)}}
		}
		if why := badText(*p, int(f.Max)); f.Kind == KindText && !why.Empty() {
			return Errors{{Field: f.Key, Value: quoted(*p), Why: why, Allowed: f.Allowed(Millimetres)}}
		}
	case *[]Mark:
		return checkMarks(*p)
	}
	return nil
}
