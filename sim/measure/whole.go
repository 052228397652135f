package measure

import (
	"math"
	"reflect"
	"slices"
)

// Whole makes the measures of a ruff from those of its half sets, least curved
// first. Values.Panels says how many panels each half set speaks for.
func Whole(halves []Values) (w Values) {
	if panels(halves) == 0 {
		return w
	}
	for i := range Table {
		q := &Table[i]
		q.at(&w).Set(q.whole(halves, q.field))
	}
	return w
}

func panels(halves []Values) (n int) {
	for i := range halves {
		n += halves[i].Panels
	}
	return n
}

// wholes are the ways in which the half sets' measures make the ruff's.
var wholes = map[string]func(halves []Values, field int) reflect.Value{
	// Of numbers: the sum; the mean over the panels; the largest, and at least 0. Of a
	// Lean the gravest.
	"sum": func(halves []Values, field int) reflect.Value {
		return over(halves, field, func(sum int, _ *Values, n int) int { return sum + n })
	},
	"mean": func(halves []Values, field int) reflect.Value {
		all := float64(panels(halves))
		return over(halves, field, func(sum float64, v *Values, x float64) float64 { return sum + float64(v.Panels)/all*x })
	},
	"worst": func(halves []Values, field int) reflect.Value {
		if reflect.TypeFor[Values]().Field(field).Type == reflect.TypeFor[Lean]() {
			return over(halves, field, func(worst Lean, _ *Values, l Lean) Lean {
				return leans[max(slices.Index(leans, worst), slices.Index(leans, l))]
			})
		}
		return over(halves, field, func(worst float64, _ *Values, x float64) float64 { return math.Max(worst, x) })
	},
	// Of lengths: each that of the half set in which it is farthest from 0.
	"farthest": func(halves []Values, field int) reflect.Value {
		return over(halves, field, func(far Lengths, _ *Values, l Lengths) Lengths { return far.farther(l) })
	},
	// Of truths: of every half set; of one; of more than half of the panels; of the
	// least and the most curved half set.
	"all": func(halves []Values, field int) reflect.Value {
		one := over(halves, field, func(some bool, _ *Values, yes bool) bool { return some || !yes })
		return reflect.ValueOf(!one.Bool())
	},
	"any": func(halves []Values, field int) reflect.Value {
		return over(halves, field, func(some bool, _ *Values, yes bool) bool { return some || yes })
	},
	"most": func(halves []Values, field int) reflect.Value {
		n := 0
		over(halves, field, func(_ bool, v *Values, yes bool) bool {
			if yes {
				n += v.Panels
			}
			return yes
		})
		return reflect.ValueOf(2*n > panels(halves))
	},
	"ends": func(halves []Values, field int) reflect.Value {
		first, last := at(&halves[0], field), at(&halves[len(halves)-1], field)
		return reflect.ValueOf(first.Bool() && last.Bool())
	},
	// Of what goes together: of the half set whose other shape is nearest in energy,
	// zero where none has one; of the half set whose bow hangs most on its setting; of
	// the last half set that did not come to rest, of the first where all did.
	"nearest": func(halves []Values, field int) reflect.Value {
		of := new(Values)
		for i := range halves {
			if v := &halves[i]; v.OtherFound && (!of.OtherFound || math.Abs(v.OtherShare) < math.Abs(of.OtherShare)) {
				of = v
			}
		}
		return at(of, field)
	},
	"swayed": func(halves []Values, field int) reflect.Value {
		of := &halves[0]
		for i := range halves {
			_, by := halves[i].Sways()
			if _, most := of.Sways(); math.Abs(by) > math.Abs(most) || !of.SettingDone {
				of = &halves[i]
			}
		}
		return at(of, field)
	},
	"restless": func(halves []Values, field int) reflect.Value {
		of := &halves[0]
		for i := range halves {
			if !halves[i].Converged {
				of = &halves[i]
			}
		}
		return at(of, field)
	},
}

func at(v *Values, field int) reflect.Value { return reflect.ValueOf(v).Elem().Field(field) }

// over adds one half set after the other to what the former came to, from the zero
// of T on.
func over[T any](halves []Values, field int, add func(before T, v *Values, x T) T) reflect.Value {
	var sum T
	for i := range halves {
		sum = add(sum, &halves[i], at(&halves[i], field).Interface().(T))
	}
	return reflect.ValueOf(sum)
}
