package sim

import (
	"context"
	"testing"

	"ruffwright/sim/window"
)

// A sample of the 50 whole ruffs that the command tries: nothing panics, every
// number is finite, what can be sewn comes to rest.
func TestRandomRuffs(t *testing.T) {
	n := 12
	if testing.Short() {
		n = 6
	}
	y := Robustness(context.Background(), 1, n, Options{Grid: window.Coarse, SkipBow: true, SkipOther: true, SkipTangents: true}, nil)
	t.Logf("%+v", y)
	if y.Faults > 0 {
		t.Errorf("faults: %v", y.Faulty)
	}
	if y.Solved < n/5 {
		t.Errorf("only %d of %d schemes reached the solver: the sample says nothing", y.Solved, y.Schemes)
	}
	if y.Converged < y.Solved {
		t.Errorf("not at rest: seeds %v", y.Unconverged)
	}
}
