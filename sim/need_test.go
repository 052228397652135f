package sim

import (
	"testing"

	"ruffwright/sim/cell"
)

// TestBowOverStarch: stiffer starch lets the lower edge swing less, evenly: by
// at most a twentieth for 2.5 mm of bending length. Solved to a residual that grew
// with the starch alone, it jumped to a fiftieth and back.
func TestBowOverStarch(t *testing.T) {
	s := demo(t, "floppy")
	var bow []float64
	for b := 225.0; b <= 250; b += 2.5 {
		s.Starch.Bend = b
		r := solve(t, s, Options{Grid: cell.Fine, SkipOther: true, SkipTangents: true})
		if !r.Solved.Ruff.BowDone {
			t.Errorf("starch.bend %g: the bow did not come to rest", b)
		}
		bow = append(bow, r.Solved.Ruff.Bow_mm)
	}
	t.Logf("%.3f", bow)
	for k := 1; k < len(bow); k++ {
		if bow[k] > bow[k-1] || bow[k] < 0.95*bow[k-1] {
			t.Errorf("starch.bend %g: %.3f mm after %.3f", 225+2.5*float64(k), bow[k], bow[k-1])
		}
	}
}
