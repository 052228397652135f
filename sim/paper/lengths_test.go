package paper

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
)

// TestLengths: what is written can be read back by the scheme's own reader, within
// half a step of the exact length, in every unit.
func TestLengths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom([]scheme.Units{scheme.Millimetres, scheme.Centimetres, scheme.Inches}).Draw(t, "unit")
		x := rapid.Float64Range(0, 999).Draw(t, "mm")
		j := job{Input: Input{Units: u}}
		back, err := scheme.ParseLength(j.len(x).String(), scheme.Millimetres)
		half := 0.25
		if u == scheme.Inches {
			half = 25.4 / 64
			if x > 12.5 {
				half = 25.4 / 32 // as a tape measure shows it
			}
		}
		if err != nil || math.Abs(back-x) > half+1e-9 {
			t.Fatalf("%g mm is written %q, read %g, %v", x, j.len(x), back, err)
		}
	})
	j := job{Input: Input{Units: scheme.Millimetres}}
	for x, want := range map[float64]string{1260: "1260 mm", 0: "0 mm", -0.5: "−0.5 mm", 1234567.6: "1234567.5 mm", -1500: "−1500 mm"} {
		if got := j.len(x).String(); got != want {
			t.Errorf("%g: %q, want %q", x, got, want)
		}
	}
	if got := j.len(math.NaN()).String(); got != "– mm" {
		t.Errorf("NaN: %q", got)
	}
	for n, want := range map[int]string{0: "0", 1: "1/32", 16: "1/2", 48: "1 1/2", 63: "1 31/32", 64: "2"} {
		if got := thirtySeconds(n).String(); got != want {
			t.Errorf("%d/32: %q, want %q", n, got, want)
		}
	}
	for _, c := range []struct {
		r    pattern.Range
		want string
	}{{pattern.Range{Least: 0.2, Most: 0.7}, "10 to 40 min"}, {pattern.Range{Least: 3.2, Most: 8.6}, "3 to 8.5 h"}, {pattern.Range{Least: 11.6, Most: 30.2}, "12 to 30 h"}, {pattern.Range{}, "–"}} {
		if got := hours(c.r).String(); got != c.want {
			t.Errorf("%v: %q, want %q", c.r, got, c.want)
		}
	}
}
