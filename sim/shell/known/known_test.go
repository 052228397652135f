package known_test

import (
	"context"
	"testing"

	"ruffwright/sim/shell/known"
)

// TestKnown runs the list; slow problems only without -short.
func TestKnown(t *testing.T) {
	for _, p := range known.All() {
		if p.Slow && testing.Short() {
			continue
		}
		o := known.Check(context.Background(), p)
		t.Logf("%-70s %12.6f %s, known %12.6f, off %+.2e", p.Name, o.Value, p.Unit, p.Reference, o.Deviation)
		if !o.Held {
			t.Errorf("%s: %v, known %v (%s), off %.3g, allowed %.3g, error %v", p.Name, o.Value, p.Reference, p.Source, o.Deviation, p.Allowed, o.Err)
		}
	}
}
