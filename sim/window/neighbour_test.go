package window

import (
	"context"
	"testing"

	"ruffwright/sim/measure"
)

// TestNeighbour: what a half set 1 % larger comes to otherwise is told; beyond a hundredth
// of the panel alone, so that a set that follows its lengths is told no more.
func TestNeighbour(t *testing.T) {
	for _, q := range []struct {
		seed  uint64
		least float64 // of the doubt of the droop
		most  float64
	}{{2166, 1, 5}, {2004, 0, 0}} {
		d := RandomTucked(q.seed)
		set := quick
		set.Grid = Coarse
		s, c, err := settle(context.Background(), d, d.Run(), &set, nil)
		if err != nil {
			t.Fatal(err)
		}
		s.measure(c)
		if err := s.neighbour(c); err != nil {
			t.Fatal(err)
		}
		t.Logf("seed %d: %.2f mm", q.seed, c.Apart_mm)
		if c.Near_mm != c.Apart_mm {
			t.Errorf("seed %d: %.2f of it from the neighbour, which is all that was asked", q.seed, c.Near_mm)
		}
		if got := c.Apart_mm[measure.Droop]; got < q.least || got > q.most {
			t.Errorf("seed %d: droop uncertain by %.2f mm, want %.2f to %.2f", q.seed, got, q.least, q.most)
		}
	}
}
