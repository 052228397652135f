package window

import (
	"context"
	"flag"
	"testing"
)

var (
	tucked      = flag.Int("tucked", 0, "tucked designs of each kind to study in TestTucked; 0 is a sample of 2, in short of 1")
	tuckedFirst = flag.Uint64("tucked-first", 1, "the first seed of TestTucked")
)

// TestTucked: tucked half sets come to rest, as tall as their sticks' closed form says
// but for one in ten, and where two that differ by 1 % jump, the maker was told.
//
// Of those from seed 2000 on:
//
//	                              both edges, starched  one edge, starched  fresh
//	designs, all at rest                   30                  30             20
//	formed over 1 mm off (largest)      3 (2.0 mm)          1 (1.7 mm)     1 (1.7 mm)
//	mesh above 0.5 mm (largest)         7 (1.5 mm)         11 (3.9 mm)     9 (4.9 mm)
//	ways above 0.5 mm (largest)         9 (3.8 mm)         21 (33 mm)      9 (6.5 mm)
//	bow differs by 0.5 mm (largest)     1 (0.8 mm)         25 (6.8 mm)    14 (8.2 mm)
//	told                                   13                  26             15
//	jump when 1 % larger, untold          1, 0                6, 0           2, 0
//	factorisations, mean and most       121, 400             84, 172       105, 218
func TestTucked(t *testing.T) {
	n := *tucked
	if n == 0 {
		n = 2
		if testing.Short() {
			n = 1
		}
	}
	for _, kind := range []struct {
		name       string
		both, limp bool
	}{{"both edges, starched", true, false}, {"one edge, starched", false, false}, {"fresh", false, true}} {
		var y TuckedTally
		for seed := *tuckedFirst; y.Designs < n; seed++ {
			d := RandomTucked(seed)
			if kind.limp {
				d = d.Fresh()
			} else if (d.Anchor == Both) != kind.both {
				continue
			}
			if err := y.Add(context.Background(), d); err != nil {
				t.Fatal(err)
			}
			if testing.Verbose() {
				t.Logf("%s, up to seed %d: %+v", kind.name, seed, y)
			}
		}
		t.Logf("%s: %+v", kind.name, y)
		if y.Unconverged > 0 || y.Refused > 0 || y.Off > (y.Designs+9)/10 || y.Silent > 0 {
			t.Errorf("%s: %+v", kind.name, y)
		}
	}
}
