package main

import (
	"context"
	"math"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// TestTrade is a worked example of the trade: facts of practice, without a source. A neck
// of 15 in, which the sets go round, seven sets a quarter, 60 mm deep, 60 mm wanted tall, of fine cotton: a mark
// every 120 mm for the top folds, the bottom folds' midway, and 10 mm either side of a
// mark tucked. Practice says of it what want says below; of the height it says nothing,
// and the tool tells it against the 60 mm together with how uncertain it is.
func TestTrade(t *testing.T) {
	if testing.Short() {
		t.Skip("solves four ruffs")
	}
	for _, c := range []struct {
		name string
		set  []string
		stop []string // findings that stop
		says string   // in one of them
	}{
		{"top folds, untucked", []string{"pleat.anchor=top", "pleat.sewn=crests", "pleat.tuck_top=0", "pleat.tuck_bottom=0"}, []string{"bow"}, "nothing but its weight holds the lower edge"},
		{"the other folds", []string{"pleat.anchor=top", "pleat.sewn=troughs", "pleat.tuck_top=0", "pleat.tuck_bottom=0"}, []string{"flaps"}, "the loops point up"},
		{"top folds, tucked", []string{"pleat.anchor=top", "pleat.sewn=crests"}, []string{"bow"}, "nothing but its weight holds the lower edge"},
		{"both edges, tucked", []string{"pleat.anchor=both"}, nil, ""},
	} {
		s := scheme.Default() // cotton lawn, no starch
		for _, kv := range append([]string{"wearer.girth=15 in", "wearer.ease=0", "look.quarter=7", "ruff.depth=60", "ruff.height=60", "pleat.panel=60", "pleat.tuck_top=10", "pleat.tuck_bottom=10"}, c.set...) {
			key, value, _ := strings.Cut(kv, "=")
			if err := s.Set(key, value); err != nil {
				t.Fatal(err)
			}
		}
		r, err := sim.Solve(context.Background(), s, sim.Options{})
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		p := r.Plan
		if p.Sets != 28 || p.Marked_mm != 3360 || len(p.Row) != 57 {
			t.Errorf("%s: %d sets, %g mm from the first to the last of %d marks; want 28 × 120 = 3360 mm", c.name, p.Sets, p.Marked_mm, len(p.Row))
		}
		for k, m := range p.Row {
			if want := 60 * float64(k); math.Abs(m.Place_mm-p.Row[0].Place_mm-want) > 1e-9 || (m.Fold == scheme.Crest) != (k%2 == 1) {
				t.Errorf("%s: mark %d is a %s at %g mm, want a top fold at every 120 mm from 60 on", c.name, k+1, m.Fold, m.Place_mm)
			}
		}
		found, stops := check.Find(r, scheme.Millimetres), map[string]string{}
		height := ""
		for _, f := range found {
			if f.Severity == check.Stop {
				stops[f.ID] = f.Sentence.String()
			}
			if f.ID == "height" {
				height = f.Sentence.String()
			}
		}
		said := false
		for _, id := range c.stop {
			said = said || strings.Contains(stops[id], c.says)
		}
		if len(c.stop) > 0 && !said || len(c.stop) == 0 && len(stops) > 0 {
			t.Errorf("%s: stops for %v", c.name, stops)
		}
		if len(c.stop) > 0 {
			continue
		}
		m := r.Solved.Ruff
		near := math.Max(m.Mesh_mm, m.Paths_mm) // the height is certain to no less than this
		if short := 60 - m.HeightOuter_mm; !m.MeshDone || !r.Solved.Converged() || short < 5 || short > 15 || near <= 0 {
			t.Errorf("%s: %.1f mm high, uncertain by %.1f; want some 50 mm of the 60, its interval known", c.name, m.HeightOuter_mm, near)
		}
		for _, want := range []string{"a height of " + scheme.FormatLength(math.Round(10*m.HeightOuter_mm)/10, scheme.Millimetres), "lower than the 60 mm you want", map[bool]string{true: "give or take"}[near > 1]} {
			if !strings.Contains(height, want) {
				t.Errorf("%s: of the height it is said %q, not %q", c.name, height, want)
			}
		}
	}
}
