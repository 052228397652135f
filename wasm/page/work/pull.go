package work

import (
	"math"
	"strconv"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/wasm/page/say"
)

// Hold begins what may be taken back: all that one field is pulled is one step.
func (w *Work) Hold() {
	w.Settle()
	w.holds = hold{w.future, w.Restored, w.ruled, w.ruledBy}
}

// Back takes what was pulled since Hold back, as if it had never been.
func (w *Work) Back() {
	n := len(w.past)
	if w.editing == "" || n == 0 {
		return
	}
	last := w.past[n-1]
	if w.Take(last.before) != nil {
		return // it was good before
	}
	w.past, w.future, w.Whose, w.Restored = w.past[:n-1], w.holds.future, last.whose, w.holds.restored
	w.ruled, w.ruledBy = w.holds.ruled, w.holds.ruledBy
	w.Settle()
}

// Pull brings a field of numbers from the value at which it stands as near to another as
// the rest of the scheme lets it come, by steps in its unit. It tells why it is not that
// value; "" where it is. What is pulled grows into one step until Settle.
func (w *Work) Pull(key string, from, to, step float64) (why string) {
	f, ok := scheme.Lookup(key)
	if !ok || math.IsNaN(to) || !(step > 0) {
		return ""
	}
	f = f.For(w.Scheme)
	switch {
	case to >= f.Max:
		to, why = f.Max, say.Text("This is the most.")
	case to <= f.Min:
		to, why = f.Min, say.Text("This is the least.")
	}
	refused := w.refuses(f, written(f, to))
	if refused != "" {
		// The farthest of the steps between that is not refused, by halves.
		way := math.Copysign(step, to-from)
		good, bad := int(math.Abs(to-from)/step)+1, 0
		if w.refuses(f, written(f, to-float64(good-1)*way)) != "" {
			return refused
		}
		good--
		for good-bad > 1 {
			if mid := (good + bad) / 2; w.refuses(f, written(f, to-float64(mid)*way)) == "" {
				good = mid
			} else {
				bad = mid
			}
		}
		to, why = to-float64(good)*way, refused
	}
	if w.Enter(key, written(f, to), true) {
		return why
	}
	w.draft = nil
	return refused
}

// Refuses is why a text cannot be entered in a field; "" where it can.
func (w *Work) Refuses(key, text string) string {
	f, ok := scheme.Lookup(key)
	if !ok {
		return ""
	}
	return w.refuses(f.For(w.Scheme), text)
}

func (w *Work) refuses(f scheme.Field, text string) string {
	s, _, err := w.with(f, text, true)
	if err != nil {
		s, _, err = w.with(f, text, false)
	}
	var plan pleat.Plan
	if err == nil {
		plan, err = pleat.NewPlan(s)
	}
	if err != nil {
		return say.Faults(err, f.Key)
	}
	if isTuck(f) && plan.TucksFitted && f.Number(plan.Scheme) < f.Number(s) {
		return say.Text("There is no room for more.")
	}
	return ""
}

// written is a number of a field as it may be typed in any units.
func written(f scheme.Field, v float64) string {
	text := strconv.FormatFloat(v, 'f', -1, 64)
	if f.Kind == scheme.KindLength {
		text += " mm"
	}
	return text
}
