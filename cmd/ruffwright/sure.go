package main

import (
	"fmt"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// surely is how sure a figure is, as JSON.
type surely struct {
	Figure   string   `json:"figure" means:"the measure's key in solve"`
	Value_mm float64  `json:"value_mm" unit:"mm" means:"as solved"`
	Low_mm   float64  `json:"low_mm" unit:"mm" means:"it is likely at least this"`
	High_mm  float64  `json:"high_mm" unit:"mm" means:"and at most this"`
	Doubts   []doubts `json:"doubts" means:"what makes the interval, the most of it first"`
}

type doubts struct {
	By      string  `json:"by" means:"cloth: how stiff it is; shapes: how sticks are put in; near: that a ruff 1 % larger may take another shape; mesh: how finely it is solved; hand: how exactly marks are made"`
	Less_mm float64 `json:"less_mm" unit:"mm" means:"by how much less the figure may be for that"`
	More_mm float64 `json:"more_mm" unit:"mm" means:"and by how much more"`
}

func surelyOf(all []sim.Sure) []surely {
	out := []surely{}
	for _, s := range all {
		q := surely{Figure: s.Figure.Row().Key, Value_mm: s.Value_mm, Low_mm: s.Low_mm, High_mm: s.High_mm}
		for _, d := range s.Doubts {
			q.Doubts = append(q.Doubts, doubts{string(d.By), d.Less, d.More})
		}
		out = append(out, q)
	}
	return out
}

// sureText is the same for people.
func sureText(all []sim.Sure, narrows string, u scheme.Units) string {
	var b strings.Builder
	for _, s := range all {
		fmt.Fprintf(&b, "  %-28s%s\n", s.Figure.Row().Label, s.Says(u))
	}
	if narrows != "" {
		fmt.Fprint(&b, wrapped(narrows, 80, "  "))
	}
	return b.String()
}
