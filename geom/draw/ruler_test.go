package draw

import (
	"math"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// TestRulerOfNothing: a ruler at a scale at which nothing is seen is left out, and
// ends.
func TestRulerOfNothing(t *testing.T) {
	for _, scale := range []float64{0, -0.4, math.NaN(), 1e-9, math.Inf(-1)} {
		s := NewSheet(100, 80, Light(), scheme.Millimetres, word.Language{}, "", word.Say("a"), word.Text{})
		n := len(s.Items)
		s.Ruler(Pt(10, 70), scale, 40)
		if len(s.Items) != n {
			t.Errorf("at the scale %g a ruler is drawn", scale)
		}
	}
}
