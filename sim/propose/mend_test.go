package propose

import (
	"context"
	"fmt"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/testdata/demos"
)

var demo = demos.Scheme

// TestMend: the first change that is offered, applied and solved by itself, leaves fewer
// findings that stop or are to mend, and none that did not.
func TestMend(t *testing.T) {
	for _, name := range some("short", "floppy", "ends-up", "flaps-up", "uneven", "sound", "untucked") {
		mendable(t, name, demo(t, name))
	}
}

// TestMendFaulty is the same of random faulty schemes; with -full of 40.
func TestMendFaulty(t *testing.T) {
	n := 1
	if *full {
		n = 40
	}
	offered := 0
	for seed := range uint64(1000) {
		s, ok := faulty(t, seed)
		if !ok {
			continue
		}
		if mendable(t, fmt.Sprint("seed ", seed), s) {
			offered++
		}
		if n--; n == 0 {
			break
		}
	}
	t.Logf("%d had a way", offered)
	if offered == 0 {
		t.Error("nothing was offered to any")
	}
}

// mendable holds Mend to what it says of s, and says whether it offered anything.
func mendable(t *testing.T, name string, s scheme.Scheme) bool {
	t.Helper()
	r, err := sim.Solve(context.Background(), s, sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	before := heavyOf(r)
	ways, err := Mend(context.Background(), r, Asked{})
	if err != nil {
		t.Fatal(err)
	}
	if len(before) == 0 && len(ways) > 0 {
		t.Errorf("%s: nothing is wrong, and %v is offered", name, ways[0].Changes)
	}
	if len(ways) == 0 {
		t.Logf("%s: %v, and nothing is offered", name, before)
		return false
	}
	w := ways[0]
	applied, err := check.Apply(s, check.Remedy{Changes: w.Changes})
	if err != nil {
		t.Fatal(err)
	}
	after, err := sim.Solve(context.Background(), applied, sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	left := heavyOf(after)
	t.Logf("%s: %v; %v, then %v", name, w.Sentences, before, left)
	for id := range left {
		if !before[id] {
			t.Errorf("%s: %v brings %s", name, w.Changes, id)
		}
	}
	if len(left) >= len(before) || len(left) != len(w.Left) {
		t.Errorf("%s: %v leaves %v of %v, told are %v", name, w.Changes, left, before, w.Left)
	}
	return true
}

// heavyOf are the ids of what stops or is to mend.
func heavyOf(r sim.Ruff) map[string]bool {
	ids := map[string]bool{}
	for _, f := range check.Find(r, scheme.Millimetres) {
		if heavy(f) {
			ids[f.ID] = true
		}
	}
	return ids
}

// some are the first two of the names, with -full all.
func some(names ...string) []string {
	if *full {
		return names
	}
	return names[:2]
}
