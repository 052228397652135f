package sim

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim/window"
)

// TestShortest: the shortest panel leaves a wave at the outer edge; sewn at one edge
// also one at the band beside its tucks, which take at most 0.85 of it; sewn at both
// it reaches from edge to edge.
func TestShortest(t *testing.T) {
	for _, c := range []struct {
		name                                     string
		one                                      bool
		pitch, outer, height, top, bottom, shall float64
	}{
		{"outer edge", true, 10, 40, 30, 0, 0, 21},
		{"neck", true, 30, 20, 30, 4, 0, 1.05*15 + 4},
		{"tucks", true, 4, 8, 30, 17, 0, 17 / 0.85},
		{"both edges", false, 8, 20, 30, 5, 6, 1.002*math.Hypot(30, 4) + 11},
		{"both, outer edge", false, 8, 100, 30, 5, 6, 52.5},
	} {
		s := scheme.Default()
		s.Pleat.TuckTop, s.Pleat.TuckBottom = c.top, c.bottom
		if c.one {
			s.Pleat.Anchor = scheme.AnchorTop
		}
		s.Pleat.Panel = 80
		r, err := Draw(s)
		if err != nil {
			t.Fatal(err)
		}
		r.Plan.Pitch_mm, r.Plan.PitchOuter_mm, r.Plan.Scheme.Band.Height = c.pitch, c.outer, c.height
		if got := shortest(r); math.Abs(got-c.shall) > 1e-9 {
			t.Errorf("%s: %.4f mm, want %.4f", c.name, got, c.shall)
		}
	}
}

// TestFitLongest: a height that the longest panel of a scheme does not reach; and a band
// so high that the shortest panel is longer than twice the closed form's, which nobody
// takes for the height wanted.
func TestFitLongest(t *testing.T) {
	s := scheme.Default()
	s.Starch.Bend, s.Ruff.Height = 60, 150
	f, err := Fit(context.Background(), s, window.Coarse, nil)
	if err != nil || f.Found || f.Panel_mm > maxPanel_mm || !strings.Contains(f.Reason.String(), "longest panel") {
		t.Errorf("%v: %+v", err, f)
	}
	s.Band.Height, s.Ruff.Height = 80, 20
	f, err = Fit(context.Background(), s, window.Coarse, nil)
	if says := fmt.Sprintf("the longest panel tried, %.1f mm", 2*f.Drawn_mm); err != nil || f.Found || f.Solves != 0 || !strings.HasSuffix(f.Reason.String(), says) {
		t.Errorf("%v: %+v, want: %s", err, f, says)
	}
}
