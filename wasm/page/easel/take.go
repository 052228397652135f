package easel

import (
	"math"
	"slices"
	"strconv"
	"unicode/utf8"

	"ruffwright/geom/portrait"
	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// Fields are the fields that a picture can tell.
var Fields = []string{"ruff.depth", "ruff.height", "ruff.sets"}

// bounds of a field in an answer.
func bounds(a *portrait.Answer, key string) portrait.Bounds {
	switch key {
	case "ruff.depth":
		return a.Depth_mm.Told_mm()
	case "ruff.height":
		return a.Height_mm.Told_mm()
	}
	return a.Sets
}

// written is a number of a field as the scheme takes it: lengths to a tenth of a millimetre.
func written(f scheme.Field, x float64) string {
	if f.Kind == scheme.KindCount {
		return strconv.FormatFloat(math.Round(x), 'f', -1, 64)
	}
	return strconv.FormatFloat(math.Round(10*x)/10, 'f', -1, 64)
}

// End is a place in the intervals.
type End int

// The places: the low ends, the middles, the high ends.
const (
	Low End = iota - 1
	Middle
	High
)

// Changes carry what the points tell into the scheme: the middles with a line for the record,
// or one end of all intervals. What a scheme does not take is left out, and told among the
// answer's lines.
func (e *Easel) Changes(at End) (changes []check.Change) {
	if e.got == nil {
		return nil
	}
	for _, key := range Fields {
		f, _ := scheme.Lookup(key)
		b := bounds(e.got, key)
		if x, ok := number(written(f, b.Value)); !b.Given() || !ok || !f.InRange(x) {
			continue
		}
		x := map[End]float64{Low: b.Low, Middle: b.Value, High: b.High}[at]
		changes = append(changes, check.Change{Key: key, Value: written(f, min(max(x, f.Min), f.Max))})
	}
	if at == Middle && len(changes) > 0 {
		changes = append(changes, check.Change{Key: recordKey, Value: e.record()})
	}
	return changes
}

// recordKey is the field that keeps what was measured, for the record sheet.
const recordKey = "look.measured"

// record is what the points tell, with the intervals, as short as that field has room for.
func (e *Easel) record() (text string) {
	f, _ := scheme.Lookup(recordKey)
	for _, q := range []struct {
		template string
		b        portrait.Bounds
	}{
		{"depth %.0f (%.0f–%.0f) mm", e.got.Depth_mm.Told_mm()}, {"height %.0f (%.0f–%.0f) mm", e.got.Height_mm.Told_mm()}, {"sets %.0f (%.0f–%.0f)", e.got.Sets},
	} {
		if !q.b.Given() {
			continue
		}
		more := say.Text(q.template, q.b.Value, q.b.Low, q.b.High)
		if text != "" {
			more = text + ", " + more
		}
		if utf8.RuneCountInString(more) <= int(f.Max) {
			text = more
		}
	}
	return text
}

// Took notes what was taken into the scheme, and what stood there before.
func (e *Easel) Took(changes []check.Change, before scheme.Scheme) {
	for _, c := range changes {
		if !slices.Contains(Fields, c.Key) {
			continue
		}
		f, _ := scheme.Lookup(c.Key)
		e.took[c.Key] = taken{c.Value, written(f, f.Number(before.Looked()))}
	}
}

// Forget forgets what was taken into the scheme: the ruff at hand is another.
func (e *Easel) Forget() { e.took = map[string]taken{} }

// Again notes that the other word was taken again: where it is the measured one, what stood
// there is what it is shown beside from now on.
func (e *Easel) Again(c check.Change) {
	if t := e.took[c.Key]; c.Value == t.measured {
		t.before = e.stands(c.Key)
		e.took[c.Key] = t
	}
}

// Other is the change that brings the word back that does not hold: what was measured, or
// what stood there before.
func (e *Easel) Other(key string) (c check.Change, ok bool) {
	t, ok := e.took[key]
	if !ok {
		return c, false
	}
	if t.measured == e.stands(key) {
		return check.Change{Key: key, Value: t.before}, t.before != t.measured
	}
	return check.Change{Key: key, Value: t.measured}, true
}

// stands is what the scheme holds of a field, as it is written.
func (e *Easel) stands(key string) string {
	f, _ := scheme.Lookup(key)
	return written(f, f.Number(e.Now.Scheme.Looked()))
}

// besides shows beside each field the word that does not hold, struck out.
func (e *Easel) besides(out *doc.List) {
	for _, key := range Fields {
		var nodes []doc.Node
		if c, ok := e.Other(key); ok {
			f, _ := scheme.Lookup(key)
			words := "%s as typed"
			if c.Value == e.took[key].measured {
				words = "%s as measured"
			}
			other := say.Text(words, e.amount(f, c.Value))
			nodes = append(nodes, doc.El("s", "").Say(other), doc.Text(" "),
				doc.El("button", "type=button class=quiet data-do=easel id="+doc.Measured(key)+"-again").With("data-with", "again "+key).
					With("aria-label", say.Text("Take it again: %s", other)).Say(say.Text("Take it again")))
		}
		out.Nodes(doc.Measured(key), nodes)
	}
}

// amount is a value of a field in words.
func (e *Easel) amount(f scheme.Field, value string) string {
	x, _ := number(value)
	if f.Kind == scheme.KindCount {
		return say.Text("%.0f sets", x)
	}
	return say.In(scheme.Length(x, e.Now.Units))
}
