package tell

import (
	"fmt"
	"math"
	"strconv"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/sim/matter"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// whatIf is the id of the slider of the n-th field that matters.
func whatIf(n int) string { return fmt.Sprint("what-if-", n) }

// WhatIf gives the field that a slider moves and its value now; false where there is none.
func (t Tell) WhatIf(n int) (key string, now float64, ok bool) {
	fields, _ := t.Ask.Matters()
	if n < 0 || n >= len(fields) {
		return "", 0, false
	}
	return fields[n].Key, t.present(fields[n].Key), true
}

// present is the value of a field, filled in where the scheme leaves it open.
func (t Tell) present(key string) float64 {
	f, _ := scheme.Lookup(key)
	if v := f.Number(t.Scheme); v != 0 || key != "pleat.panel" {
		if v == 0 {
			v = f.Number(t.Ruff.Plan.Scheme)
		}
		return v
	}
	return t.Ruff.Plan.Panel_mm
}

// matters shows which fields move the ruff most: what each moves, its charts, its slider.
func (t Tell) matters(out *doc.List) {
	fields, of := t.Ask.Matters()
	if t.Veiled {
		fields = nil
	}
	was, err := scheme.Parse([]byte(of))
	limits := matter.Figures{}
	if err == nil {
		was = was.Looked()
		limits = matter.Limits(was.Ruff.Height)
	}
	for n := range matter.Most {
		id := fmt.Sprint("matter-", n)
		if n >= len(fields) {
			out.Nodes(id, nil)
			out.Flag(whatIf(n), "hidden", true)
			continue
		}
		q := fields[n]
		now := t.present(q.Key)
		charts := doc.El("div", "class=charts")
		for k, limit := range limits {
			c := figure.Chart{Now: now, Limits: []float64{limit}}
			if k == 0 {
				c.Limits = []float64{was.Ruff.Height - limit, was.Ruff.Height + limit}
			}
			for _, p := range q.Points {
				c.Values, c.Lengths = append(c.Values, p.Value), append(c.Lengths, p.At[k])
			}
			words := say.Text([...]string{"Height %s", "Droop %s", "Swing at a bow %s"}[k], say.Length(c.At(now), t.Units))
			charts.Nodes = append(charts.Nodes, doc.El("figure", "class=chart", inline(c.Draw(draw.Light())), doc.El("figcaption", "").Say(words)))
		}
		out.Nodes(id, []doc.Node{doc.El("p", "class=sentence").Say(say.In(q.Says(t.Units))), charts})
		f, _ := scheme.Lookup(q.Key)
		first, last := q.Points[0].Value, q.Points[len(q.Points)-1].Value
		step := "0.1"
		if f.Kind == scheme.KindCount {
			step = "1"
		}
		number := func(v float64) string { return strconv.FormatFloat(math.Round(10*v)/10, 'f', -1, 64) }
		out.Flag(whatIf(n), "hidden", false)
		out.Attr(whatIf(n), "min", number(first))
		out.Attr(whatIf(n), "max", number(last))
		out.Attr(whatIf(n), "step", step)
		out.Value(whatIf(n), number(now))
		out.Attr(whatIf(n), "aria-label", say.Text("What if: %s", say.Text(f.Label)))
		out.Attr(whatIf(n), "aria-valuetext", say.Text("%s %s", f.Show(with(t.Scheme, f, now), t.Units), say.Text(f.UnitIn(t.Units))))
	}
}

// with is the scheme with a number in one field.
func with(s scheme.Scheme, f scheme.Field, v float64) scheme.Scheme {
	_ = s.Set(f.Key, strconv.FormatFloat(math.Round(10*v)/10, 'f', -1, 64)) // refused: as it is
	return s
}
