package check

import (
	"context"
	"slices"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// Results come in parts; each finding waits for its own, and is not guessed.
func TestPendingByParts(t *testing.T) {
	s := demo(t, "floppy")
	of := func(opt sim.Options) []Finding {
		r, err := sim.Solve(context.Background(), s, coarse(opt))
		if err != nil {
			t.Fatal(err)
		}
		return Find(r, scheme.Millimetres)
	}
	for _, c := range []struct {
		name  string
		found []Finding
		want  []string
	}{
		{"shape", of(sim.Options{SkipBow: true, SkipOther: true, SkipTangents: true}), []string{"bow", "flaps-undecided", "bobs", "soft-sideways", "leans", "cloth-stiffness"}},
		{"bow", of(sim.Options{SkipOther: true}), []string{"flaps-undecided"}},
		{"all", of(sim.Options{}), nil},
	} {
		f, ok := byID(c.found, "not-solved")
		if ok != (c.want != nil) || !slices.Equal(f.Awaits, c.want) {
			t.Errorf("%s: awaits %v, want %v", c.name, f.Awaits, c.want)
		}
		for _, g := range c.found {
			if slices.Contains(c.want, g.ID) {
				t.Errorf("%s: %s is guessed", c.name, g.ID)
			}
		}
	}
	// Restless cloth has nothing more to come.
	r := solvedRuff(t, s)
	made := *r.Solved
	made.Ruff.Converged, made.Ruff.BowDone, made.Ruff.OtherDone, made.Bowed = false, false, false, nil
	r.Solved = &made
	if f, ok := byID(Find(r, scheme.Millimetres), "not-solved"); ok {
		t.Errorf("restless cloth awaits %v", f.Awaits)
	}
}

func TestPending(t *testing.T) {
	for _, c := range []struct {
		changes []string
		awaits  int // of 18 findings that read the mechanics
	}{
		{[]string{"pleat.anchor top"}, 15},                        // tucked, one line
		{[]string{"pleat.anchor bottom", "pleat.tuck_top 0"}, 12}, // untucked
		{nil, 13},                       // both edges: flaps are held
		{[]string{"pleat.lines 2"}, 14}, // and a second line
		{[]string{"pleat.tuck_top 0", "pleat.tuck_bottom 0", "band.height 52"}, 10}, // untucked
	} {
		s := set(t, c.changes...)
		r, err := sim.Draw(s)
		if err != nil {
			t.Fatal(err)
		}
		f, ok := byID(Find(r, scheme.Millimetres), "not-solved")
		if !ok || !f.Pending || f.Severity != Note || len(f.Awaits) != c.awaits {
			t.Errorf("%v: %d of %+v", c.changes, len(f.Awaits), f)
		}
		for _, g := range Find(r, scheme.Millimetres) {
			if slices.Contains(f.Awaits, g.ID) {
				t.Errorf("%v: %s is guessed", c.changes, g.ID)
			}
		}
	}
}
