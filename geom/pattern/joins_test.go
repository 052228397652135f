package pattern

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Joins gives the places of the whole pattern's joins, for any scheme.
func TestJoinsAreThePatterns(t *testing.T) {
	some := false
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		pat, err := New(p)
		if err != nil {
			if got := Joins(p); p.Scheme.Strip.Along == "warp" && got != nil {
				t.Fatalf("joins %v of what has no pattern: %v", got, err)
			}
			return
		}
		var want []float64
		for _, j := range pat.Cut.Joins {
			if j.Place_mm < p.Marked_mm {
				want = append(want, j.Place_mm)
			}
		}
		some = some || len(want) > 0
		if got := Joins(p); !slices.Equal(got, want) {
			t.Fatalf("joins at %v, the pattern's %v", got, want)
		}
	})
	if !some {
		t.Error("no scheme had a join")
	}
}
