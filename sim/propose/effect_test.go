package propose

import (
	"context"
	"slices"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// TestWeigh: what a change ends, leaves and brings is told as check finds it in both ruffs,
// and the price of both is that of their plans.
func TestWeigh(t *testing.T) {
	draw := func(s scheme.Scheme) sim.Ruff {
		r, err := sim.Draw(s)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	s := demo(t, "ends-up")
	for key, value := range map[string]string{"ruff.sets": "41", "strip.have": "3000"} { // no quarters; a strip too short
		if err := s.Set(key, value); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		changes                []check.Change
		gone, left, new, quiet []string
	}{
		{[]check.Change{{Key: "pleat.first", Value: "trough"}, {Key: "pleat.last", Value: "trough"}}, []string{"ends"}, []string{"strip-short"}, nil, nil},
		{[]check.Change{{Key: "ruff.sets", Value: "40"}}, nil, []string{"ends", "strip-short"}, nil, []string{"quarters"}},
		{[]check.Change{{Key: "strip.have", Value: "0"}, {Key: "strip.takeup", Value: "5"}}, []string{"strip-short"}, []string{"ends"}, []string{"cut-width"}, nil},
	} {
		with, err := check.Apply(s, check.Remedy{Changes: c.changes})
		if err != nil {
			t.Fatal(err)
		}
		e := Weigh(draw(s), draw(with))
		for _, l := range [][2][]string{{e.Gone, c.gone}, {e.Left, c.left}, {e.New, c.new}, {e.Quiet, c.quiet}} {
			a, b := slices.Sorted(slices.Values(l[0])), slices.Sorted(slices.Values(l[1]))
			if !slices.Equal(a, b) {
				t.Errorf("%v: %+v, want %+v", c.changes, e, c)
				break
			}
		}
		if e.Cloth_mm <= 0 || e.Hours.Most <= 0 || e.Starch_mm != with.Starch.Bend || e.Height_mm != 0 {
			t.Errorf("%v: %+v", c.changes, e.Price)
		}
	}
	if Told(draw(s)) {
		t.Error("of a ruff that is not solved all is known")
	}
	r, err := coarsely(context.Background(), demo(t, "floppy"), sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if p := PriceOf(r); !Told(r) || !(p.Height_mm > 30 && p.Bow_mm > 5) || p.Bow_mm != r.Measured().Bow_mm {
		t.Errorf("solved: %+v", p)
	}
}
