package check

import (
	"context"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// A tucked ruff that hangs by one row of stitches and sinks stands elsewhere on a
// finer mesh: that is said, in the sentences about its heights too, and sewing the
// other edge removes it. The sound demo is not uncertain.
func TestUncertain(t *testing.T) {
	fine := func(_ context.Context, s scheme.Scheme) (sim.Ruff, error) {
		return sim.Solve(context.Background(), s, sim.Options{SkipBow: true, SkipOther: true})
	}
	sound, err := fine(nil, demo(t, "sound"))
	if err != nil {
		t.Fatal(err)
	}
	if f, ok := byID(Find(sound, scheme.Millimetres), "uncertain"); ok || !sound.Solved.Ruff.MeshDone {
		t.Errorf("the sound demo: tried %v, %s", sound.Solved.Ruff.MeshDone, f.Sentence)
	}
	r, err := fine(nil, demo(t, "sound", "pleat.anchor bottom", "pleat.sewn troughs", "ruff.flaps stand", "starch.bend 50"))
	if err != nil {
		t.Fatal(err)
	}
	found := Find(r, scheme.Millimetres)
	f, ok := byID(found, "uncertain")
	if !ok || f.Severity != Note || f.Value != r.Solved.Ruff.Mesh_mm {
		t.Fatalf("found %v (%+v) of %.2f mm", ok, f, r.Solved.Ruff.Mesh_mm)
	}
	if s, _ := byID(found, "sinks"); !strings.Contains(s.Sentence, "give or take") {
		t.Errorf("said as if it were exact: %s", s.Sentence)
	}
	if len(f.Remedies) == 0 {
		t.Fatal("no remedy")
	}
	if tried, value, err := Try(context.Background(), r, f, f.Remedies[0], fine); err != nil || tried != Removes {
		t.Errorf("%s: %s, %g, %v", f.Remedies[0].Sentence, tried, value, err)
	}
}
