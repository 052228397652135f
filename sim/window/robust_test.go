package window

import (
	"context"
	"flag"
	"testing"
	"time"
)

var trials = flag.Int("trials", 0, "random designs to try in TestRobust; 0 is a sample of 40")

// TestRobust solves random designs over the scheme's field ranges: no panic, no
// NaN, no hang; nearly all that pass validation come to rest.
func TestRobust(t *testing.T) {
	n := *trials
	if n == 0 {
		n = 40
		if testing.Short() {
			n = 15
		}
	}
	set := Settings{Grid: Coarse, SkipBow: true, SkipOther: true}
	start := time.Now()
	slowest := time.Duration(0)
	y := Robustness(context.Background(), 1, n, set, func(q Trial) {
		took := time.Since(start)
		start = time.Now()
		slowest = max(slowest, took)
		if q.Fault != "" {
			t.Errorf("seed %d: %s", q.Seed, q.Fault)
		} else if q.Window != nil && !q.Window.Converged() {
			t.Logf("seed %d: forming %v %d (%.2g), release %v %d (%.2g of %.2g): %+v", q.Seed, q.Window.Form.Status, q.Window.Form.Iterations, q.Window.Form.Residual, q.Window.Release.Status, q.Window.Release.Iterations, q.Window.Release.Residual, q.Window.Release.Tolerance, q.Design)
		}
	})
	t.Logf("%d trials, %d refused, %d solved, %d converged, %.1f factorisations on average, at most %d, %d over 40, slowest %v", y.Trials, y.Refused, y.Solved, y.Converged, y.Iterations, y.Most, y.Over40, slowest)
	if float64(y.Converged) < 0.95*float64(y.Solved) {
		t.Errorf("only %d of %d converged: seeds %v", y.Converged, y.Solved, y.Unconverged)
	}
	if y.Solved < n/4 {
		t.Errorf("only %d of %d designs pass validation", y.Solved, n)
	}
}
