package measure

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
)

// Measure is one field of Values and what its tags say of it.
type Measure struct {
	Key, Unit, Label, Means string
	No                      string // in a table, where a truth is false
	Solver, Untucked        bool

	Compare string // its name where two ruffs are compared; "": it is not compared
	Order   int    // among those that are compared, from 1
	Alike   Alike
	Small   bool // the smaller amount is the better; false: a matter of taste

	field int
	known []int // of Values
	holds int   // field of Values; -1: none
	whole func(halves []Values, field int) reflect.Value
}

// Table are all measures, in the order of the fields.
var Table = read(reflect.TypeFor[Values]())

// read makes the table of the fields' tags. A tag that cannot be read is a fault of
// the source, and stops the program at its start.
func read(values reflect.Type) []Measure {
	fields := func(list string) (at []int) {
		for _, name := range strings.FieldsFunc(list, func(r rune) bool { return r == ',' }) {
			f, ok := values.FieldByName(name)
			if !ok {
				panic("measure: no field " + name)
			}
			at = append(at, f.Index[0])
		}
		return at
	}
	var table []Measure
	for i := range values.NumField() {
		f := values.Field(i)
		tag := f.Tag.Get
		q := Measure{
			Key: tag("json"), Unit: tag("unit"), Label: tag("label"), Means: tag("means"), No: tag("no"),
			Solver: tag("solver") != "", Untucked: tag("untucked") != "",
			Compare: tag("compare"), Alike: Alike(tag("alike")), Small: tag("better") == "small",
			field: i, known: fields(tag("known")), holds: -1, whole: wholes[tag("whole")],
		}
		if h := fields(tag("holds")); len(h) > 0 {
			q.holds = h[0]
		}
		if q.No == "" {
			q.No = "no"
		}
		q.Order, _ = strconv.Atoi(tag("order"))
		if q.Key == "" || q.Label == "" || q.Means == "" || q.whole == nil || (q.Compare != "") != (q.Order > 0 && q.Alike.known()) {
			panic(fmt.Sprintf("measure: the tags of %s lack something: %s", f.Name, f.Tag))
		}
		table = append(table, q)
	}
	return table
}

// Named gives the measure of a key; nil where there is none.
func Named(key string) *Measure {
	for i := range Table {
		if Table[i].Key == key {
			return &Table[i]
		}
	}
	return nil
}

// Row gives the measure of a field of v, by its address: Row(&v, &v.Bow_mm).
func Row[T any](v *Values, field *T) *Measure {
	for i := range Table {
		if q := &Table[i]; q.at(v).Addr().Interface() == any(field) {
			return q
		}
	}
	panic("measure: the address of no field")
}

// Of gives what was measured: a float64, an int, a bool, a string, a Lean, or the
// two heights of [2]float64. known is false where it means nothing.
func (q *Measure) Of(v *Values) (value any, known bool) {
	return q.at(v).Interface(), q.Known(v) && q.Holds(v)
}

// Number gives the number that was measured. known is false where it means nothing,
// and for measures that are no number.
func (q *Measure) Number(v *Values) (x float64, known bool) {
	known = q.Known(v) && q.Holds(v)
	switch f := q.at(v); f.Kind() {
	case reflect.Float64:
		return f.Float(), known
	case reflect.Int:
		return float64(f.Int()), known
	}
	return 0, false
}

// Known says whether it was measured at all.
func (q *Measure) Known(v *Values) bool {
	for _, k := range q.known {
		if !holds(reflect.ValueOf(v).Elem().Field(k)) {
			return false
		}
	}
	return true
}

// Holds is false where the outer edge does not hold, and moves by no number.
func (q *Measure) Holds(v *Values) bool {
	return q.holds < 0 || holds(reflect.ValueOf(v).Elem().Field(q.holds))
}

func (q *Measure) at(v *Values) reflect.Value { return reflect.ValueOf(v).Elem().Field(q.field) }

func holds(f reflect.Value) bool {
	return f.Kind() == reflect.Bool && f.Bool() || f.Interface() == any(LeanStays)
}

// Kind says in a word what the measure is in a document.
func (q *Measure) Kind() string {
	switch reflect.TypeFor[Values]().Field(q.field).Type.Kind() {
	case reflect.Bool:
		return "true or false"
	case reflect.String:
		return "text"
	case reflect.Array:
		return "list"
	}
	return "number"
}
