package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/propose"
)

// way is something that may be done about a ruff.
type way struct {
	Sentences []string       `json:"sentences" means:"the changes in words"`
	Changes   []check.Change `json:"changes" means:"all of them as fields of the scheme"`
	Gone      []string       `json:"gone" means:"ids of findings that then no longer stop or are to mend"`
	Left      []string       `json:"left" means:"ids of those that still do"`
	Height_mm float64        `json:"height_outer_mm" unit:"mm" means:"as it then hangs"`
	Droop_mm  float64        `json:"droop_mm" unit:"mm" means:"how far the outer edge then sinks"`
	Bow_mm    float64        `json:"bow_mm" unit:"mm" means:"how far it then moves when the wearer bows"`
	Cloth_mm  float64        `json:"cloth_mm" unit:"mm" means:"cloth to buy, exactly, at the width of the bolt"`
	Starch_mm float64        `json:"starch_bend_mm" unit:"mm" means:"bending length of the starched swatch; 0: no starch"`
	Most_h    float64        `json:"hours_most" unit:"h" means:"work in all, at the scheme's pace, at most"`
}

// mended finds what to do about a solved ruff.
func mended(j job, how solving, r sim.Ruff, u scheme.Units) ([]way, error) {
	tried := 0
	solve := func(_ context.Context, s scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
		tried++
		return how.solve(j, fmt.Sprintf("what to do, try %d", tried), s, opt)
	}
	got, err := propose.Mend(j.ctx, r, propose.Asked{Solve: solve, Units: u})
	if err != nil && !errors.Is(err, sim.ErrDesign) {
		return nil, err
	}
	ways := []way{}
	for _, w := range got {
		said := make([]string, len(w.Sentences))
		for i, t := range w.Sentences {
			said[i] = t.String()
		}
		ways = append(ways, way{said, w.Changes, w.Gone, w.Left, w.Height_mm, w.Droop_mm, w.Bow_mm, w.Cloth_mm, w.Starch_mm, w.Hours.Most})
	}
	return ways, nil
}

// text is the way for people; first says that it is the best.
func (w way) text(first bool, u scheme.Units) string {
	const hang = "          "
	var b strings.Builder
	word, does := "or", "leaves nothing to stop for and nothing to mend"
	if first {
		word = "do"
	}
	if len(w.Left) > 0 {
		titles := make([]string, len(w.Left))
		for i, id := range w.Left {
			titles[i] = check.Title(id).String()
		}
		does = "still leaves: " + strings.Join(titles, ", ")
	}
	fmt.Fprintf(&b, "%-8s  %s", word, strings.TrimLeft(wrapped(strings.Join(w.Sentences, " "), 80, hang), " "))
	b.WriteString(wrapped(fmt.Sprintf("Solved so, it %s: height %s, moves %s when the wearer bows; cloth %s, at most %.0f hours.", does,
		solvedLength(w.Height_mm, u), solvedLength(w.Bow_mm, u), bought(w.Cloth_mm, u), w.Most_h), 80, hang))
	fmt.Fprintf(&b, "%s  %s\n", hang, sets(w.Changes))
	return b.String()
}
