package main

import (
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
)

// TestSaid: a table says of each kind of measure what it comes to, and of what is not
// known nothing.
func TestSaid(t *testing.T) {
	for _, c := range []struct {
		key  string
		of   measure.Values
		want string
	}{
		{"other_found", measure.Values{}, "-"},
		{"other_found", measure.Values{OtherDone: true}, "none found"},
		{"other_found", measure.Values{OtherDone: true, OtherFound: true}, "yes"},
		{"other_top_bottom_outer_mm", measure.Values{OtherHeights: [2]float64{1, 2}}, "-"},
		{"other_top_bottom_outer_mm", measure.Values{OtherFound: true, OtherHeights: [2]float64{10, 20}}, "10 mm, 20 mm"},
		{"popped", measure.Values{}, "no"},
		{"popped", measure.Values{Popped: true}, "yes"},
		{"leans", measure.Values{}, "-"},
		{"leans", measure.Values{Leans: measure.LeanInner}, "inner"},
		{"leans_mm", measure.Values{Leans: measure.LeanUndecided, Leans_mm: 3}, "-"},
		{"leans_mm", measure.Values{Leans: measure.LeanStays, Leans_mm: 3}, "3 mm"},
		{"bow_mm", measure.Values{Bow_mm: 3}, "-"},
		{"bow_mm", measure.Values{BowDone: true, Bow_mm: 3}, "3 mm"},
		{"vertical_mm_per_g", measure.Values{TangentsDone: true}, "-"},
		{"status", measure.Values{Status: "at rest"}, "at rest"},
		{"iterations", measure.Values{Iterations: 12}, "12"},
		{"tilt_deg", measure.Values{Tilt_deg: -1.25}, "−1.2°"},
		{"thread_n", measure.Values{Thread_N: 0.1234}, "0.123 N"},
	} {
		if got := said(measure.Named(c.key), &c.of, scheme.Millimetres); got != c.want {
			t.Errorf("%s: %q, want %q", c.key, got, c.want)
		}
	}
}
