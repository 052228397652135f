package known_test

import (
	"context"
	"math"
	"testing"

	"ruffwright/sim/shell/known"
)

// TestKnown runs the list; slow problems only without -short.
func TestKnown(t *testing.T) {
	for _, p := range known.All() {
		if p.Slow && testing.Short() {
			continue
		}
		t.Run(p.Name, func(t *testing.T) {
			o := known.Check(context.Background(), p)
			t.Logf("%12.6f %s, known %12.6f, off %+.2e", o.Value, p.Unit, p.Reference, o.Deviation)
			if !o.Held {
				t.Errorf("%v, known %v (%s), off %.3g, allowed %.3g, error %v", o.Value, p.Reference, p.Source, o.Deviation, p.Allowed, o.Err)
			}
		})
	}
}

// TestAllowed: what may be off is at most a tenth of what is known, or the problem
// says why it is more.
func TestAllowed(t *testing.T) {
	for _, p := range known.All() {
		allowed := p.Allowed
		if !p.Relative {
			allowed /= math.Abs(p.Reference)
		}
		if much := !(allowed <= 0.1); much != (p.Why != "") {
			t.Errorf("%s: %.3g of it is allowed, and why is %q", p.Name, allowed, p.Why)
		}
	}
}
