package window

import (
	"context"
	"math"
	"testing"
)

// TestCoarsely: the half set that is asked otherwise on the Coarse grid is the one that is
// solved there by itself, whether it was formed there before or not, and is made once.
func TestCoarsely(t *testing.T) {
	for name, d := range map[string]Design{"tucked": RandomTucked(2004), "not tucked": tabled(Top, Crests, 0, 30, 30)} {
		set := Settings{Grid: Fine, SkipBow: true}
		s, c, err := settle(context.Background(), d, d.Run(), &set, nil)
		if err != nil {
			t.Fatal(err)
		}
		if was := s.coarse != nil; was != d.Tucked() {
			t.Errorf("%s: formed on the coarse grid %v", name, was)
		}
		before := s.count
		_, w, err := s.coarsely(c, "", false)
		if err != nil || s.count == before {
			t.Fatalf("%s: nothing is solved: %v", name, err)
		}
		own := solved(t, d, quick)
		if far := farthest(w.Shape, own.Shape); far > 1e-6 || math.Abs(w.HeightOuter_mm-own.HeightOuter_mm) > 1e-6 {
			t.Errorf("%s: %g mm off the one that is solved by itself", name, far)
		}
		if d.Tucked() && s.count-before > own.Iterations/2 {
			t.Errorf("%s: %d factorisations, by itself %d: it is formed again", name, s.count-before, own.Iterations)
		}
		before = s.count
		if _, again, err := s.coarsely(c, "", false); err != nil || again != w || s.count != before {
			t.Errorf("%s: made again: %v", name, err)
		}
		if _, _, err = s.coarsely(c, "", true); err != nil || !w.BowDone || s.count == before {
			t.Errorf("%s: not bowed: %v", name, err)
		}
	}
	s := &solver{}
	c := &Window{Grid: Coarse}
	if q, w, err := s.coarsely(c, "", true); q != s || w != c || err != nil {
		t.Error("on the coarse grid another is made")
	}
}

// TestBrisk: bowed in two steps a set goes as far as in six.
func TestBrisk(t *testing.T) {
	for seed := uint64(3000); seed < 3012; seed++ {
		d := RandomTucked(seed)
		set := Settings{Grid: Coarse, SkipOther: true, SkipTangents: true}
		c := solved(t, d, set)
		set.brisk = true
		b := solved(t, d, set)
		t.Logf("seed %d: %v %.3f mm, briskly %v %.3f mm; %d factorisations, %d", seed, c.BowDone, c.Bow_mm, b.BowDone, b.Bow_mm, c.Extra, b.Extra)
		if c.BowDone && (!b.BowDone || math.Abs(c.Bow_mm-b.Bow_mm) > 0.05) || b.Extra >= c.Extra {
			t.Errorf("seed %d: bows by %.3f mm, briskly %v by %.3f mm; %d factorisations, %d", seed, c.Bow_mm, b.BowDone, b.Bow_mm, c.Extra, b.Extra)
		}
	}
}

// TestLessShear: let go with less stiffness in shear as it was formed, a set is what it is
// solved so from the start.
func TestLessShear(t *testing.T) {
	s, c, d := oneEdge(t, 3001)
	w, err := s.letGo(c, membrane{1.0 / shearLess, 1})
	if err != nil {
		t.Fatal(err)
	}
	d.FrozenShear_Npm /= shearLess
	if own := solved(t, d, quick); farthest(w.Shape, own.Shape) > 1e-6 || farthest(w.Shape, c.Shape) < 1e-3 {
		t.Errorf("%g mm off what it is by itself, moved by %g mm", farthest(w.Shape, own.Shape), farthest(w.Shape, c.Shape))
	}
}

// TestMoreStretch: cloth that is harder to stretch holds a set that sinks higher, and is
// strained less; how far the outer edge moves is in what is told of this set.
func TestMoreStretch(t *testing.T) {
	s, c, d := oneEdge(t, 5003)
	w, err := s.letGo(c, membrane{1, stretchMore})
	if err != nil {
		t.Fatal(err)
	}
	s.measure(c)
	t.Logf("top %.2f -> %.2f mm, droop %.2f -> %.2f mm, strain %.4f -> %.4f", c.TopOuter_mm, w.TopOuter_mm, c.Droop_mm, w.Droop_mm, c.Strain, w.Strain)
	if !(w.TopOuter_mm > c.TopOuter_mm) || !(w.Strain < c.Strain) {
		t.Error("harder to stretch, it does not hold better")
	}
	told := quick
	told.Grid, told.Finer = s.set.Grid, true
	if m := solved(t, d, told); m.Paths_mm < c.apart(w) {
		t.Errorf("told are %.2f mm, by hand %.2f", m.Paths_mm, c.apart(w))
	}
}

// oneEdge is the first random tucked design from a seed on that is sewn at one edge,
// settled.
func oneEdge(t *testing.T, seed uint64) (*solver, *Window, Design) {
	t.Helper()
	d := RandomTucked(seed)
	for seed++; d.Anchor == Both || !d.starched(); seed++ {
		d = RandomTucked(seed)
	}
	set := quick
	s, c, err := settle(context.Background(), d, d.Run(), &set, nil)
	if err != nil {
		t.Fatal(err)
	}
	return s, c, d
}
