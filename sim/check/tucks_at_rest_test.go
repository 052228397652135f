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
	fine := func(ctx context.Context, s scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
		opt.SkipBow, opt.SkipOther = true, true
		return sim.Solve(ctx, s, opt)
	}
	ctx := context.Background()
	sound, err := fine(ctx, demo(t, "sound"), sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if f, ok := byID(Find(sound, scheme.Millimetres), "uncertain"); ok || !sound.Solved.Ruff.MeshDone {
		t.Errorf("the sound demo: tried %v, %s", sound.Solved.Ruff.MeshDone, f.Sentence)
	}
	r, err := fine(ctx, demo(t, "sound", "pleat.anchor bottom", "pleat.sewn troughs", "ruff.flaps stand", "starch.bend 50"), sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	found := Find(r, scheme.Millimetres)
	f, ok := byID(found, "uncertain")
	if !ok || f.Severity != Note || f.Value != r.Solved.Ruff.Mesh_mm {
		t.Fatalf("found %v (%+v) of %.2f mm", ok, f, r.Solved.Ruff.Mesh_mm)
	}
	if s, _ := byID(found, "sinks"); !strings.Contains(s.Sentence.String(), "give or take") {
		t.Errorf("said as if it were exact: %s", s.Sentence)
	}
	if len(f.Remedies) == 0 {
		t.Fatal("no remedy")
	}
	if o, err := Try(ctx, r, f, f.Remedies[0], fine); err != nil || o.Tried != Removes {
		t.Errorf("%s: %+v, %v", f.Remedies[0].Sentence, o, err)
	}
	// No other finding reads the finer grid, and no other pays for it.
	for _, l := range rules {
		var asked []bool
		_, _ = Try(ctx, r, Finding{ID: l.ID}, Remedy{}, func(_ context.Context, _ scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
			asked = append(asked, !opt.SkipFiner)
			return r, nil
		})
		if len(asked) != 1 || asked[0] != (l.ID == "uncertain") {
			t.Errorf("%s: solved on a finer grid: %v", l.ID, asked)
		}
	}
}
