package paper

import (
	"math"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// TestTarget: the overhang on the cards is the exact heavy elastica's, twice the
// bending length at 41.5° within 0.02 % (testdata cantilever.csv: l/c = 2.000350).
func TestTarget(t *testing.T) {
	in := input(t, cases()[1].set, scheme.Millimetres) // starch.bend 45
	j, err := newJob(in)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := j.target(); err != nil || !got.known || !got.fromScheme || math.Abs(got.overhang_mm-45*2.00035) > 45*2e-5 {
		t.Errorf("from the scheme: %+v, %v", got, err)
	}
	j.Need = &sim.Needed{Bend_mm: 50, Overhang_mm: 97}
	if got, err := j.target(); err != nil || !got.fromScheme || got.bend_mm != 45 {
		t.Errorf("the scheme's own beside a need: %+v, %v", got, err)
	}
	j.s.Starch.Bend = 0
	if got, err := j.target(); err != nil || got.fromScheme || got.overhang_mm != 97 || got.beyond {
		t.Errorf("from the need: %+v, %v", got, err)
	}
	j.Need = &sim.Needed{Bend_mm: 233} // strips of 250 mm, 50 of them held
	if got, err := j.target(); err != nil || !got.beyond {
		t.Errorf("more than the strips show: %+v, %v", got, err)
	}
	j.Need = &sim.Needed{}
	if got, err := j.target(); err != nil || !got.none {
		t.Errorf("no starch needed: %+v, %v", got, err)
	}
	j.Need, j.s.Starch.Bend = nil, 0
	if got, err := j.target(); err != nil || got.known {
		t.Errorf("not solved: %+v, %v", got, err)
	}
}

func TestRod(t *testing.T) {
	for _, c := range []struct {
		stick, want float64
		u           scheme.Units
	}{{17.6, 15, scheme.Millimetres}, {2.9, 0, scheme.Millimetres}, {3, 3, scheme.Centimetres}, {200, 50, scheme.Millimetres}, {17.6, 15.875, scheme.Inches}, {math.NaN(), 0, scheme.Millimetres}} {
		if got := rod(c.stick, c.u); got != c.want {
			t.Errorf("stick %g: rod %g, want %g", c.stick, got, c.want)
		}
	}
}
