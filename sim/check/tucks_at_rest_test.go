package check

import (
	"context"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/measure"
)

// fine solves on the grid of the results all but another shape to rest in.
func fine(ctx context.Context, s scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
	opt.SkipOther = true
	return sim.Solve(ctx, s, opt)
}

// A tucked ruff that hangs by one row of stitches and sinks lies elsewhere on a finer
// mesh and formed in other ways: that is said, in the sentences about its heights too,
// and sewing the other edge removes it. The sound demo is not uncertain.
func TestUncertain(t *testing.T) {
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
	m := r.Solved.Ruff
	found := Find(r, scheme.Millimetres)
	f, ok := byID(found, "uncertain")
	if !ok || f.Severity != Note || f.Value != max(m.Mesh_mm, m.Paths_mm, m.FormedOff_mm, m.BowPart_mm) {
		t.Fatalf("found %v (%+v) of %.2f and %.2f mm", ok, f, m.Mesh_mm, m.Paths_mm)
	}
	if s, _ := byID(found, "sinks"); s.ID != "" && !strings.Contains(s.Sentence.String(), "give or take") {
		t.Errorf("said as if it were exact: %s", s.Sentence)
	}
	if len(f.Remedies) == 0 {
		t.Fatal("no remedy")
	}
	if o, err := Try(ctx, r, f, f.Remedies[0], fine); err != nil || o.Tried != Removes {
		t.Errorf("%s: %+v, %v", f.Remedies[0].Sentence, o, err)
	}
	// No other findings read what takes more grids, ways and conditions, and none pays.
	for _, l := range rules {
		var asked []bool
		_, _ = Try(ctx, r, Finding{ID: l.ID}, Remedy{}, func(_ context.Context, _ scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
			asked = append(asked, !opt.SkipFiner)
			return r, nil
		})
		if len(asked) != 1 || asked[0] != slices.Contains([]string{"uncertain", "leans", "setting"}, l.ID) {
			t.Errorf("%s: solved on a finer grid: %v", l.ID, asked)
		}
	}
}

// TestUncertainSays: several shapes are told as several, from 1 mm on.
func TestUncertainSays(t *testing.T) {
	r := solvedRuff(t, demo(t, "sound"))
	with := func(change func(*measure.Values)) []Finding {
		made := *r.Solved
		made.Ruff.MeshDone, made.Ruff.HeightOuter_mm = true, 45
		change(&made.Ruff)
		q := r
		q.Solved = &made
		return Find(q, scheme.Millimetres)
	}
	for name, c := range map[string]struct {
		change func(*measure.Values)
		says   string // "": nothing
	}{
		"all small":    {func(m *measure.Values) { m.Mesh_mm, m.Paths_mm, m.BowPart_mm, m.FormedOff_mm = 1, 1, 1, 1 }, ""},
		"mesh alone":   {func(m *measure.Values) { m.Mesh_mm, m.Paths_mm, m.FormedOff_mm, m.BowPart_mm = 4, 1, 2, 3 }, ""},
		"ways":         {func(m *measure.Values) { m.Mesh_mm, m.Paths_mm = 4, 3 }, "The inside of the tucks can lie in several ways. Depending on how the sticks are put in, the folds of the outer edge come to lie up to 4 mm elsewhere."},
		"ways and bow": {func(m *measure.Values) { m.Paths_mm, m.BowPart_mm = 3, 2 }, "up to 3 mm elsewhere. When the wearer bows the edge swings by up to 2 mm more or less."},
		"no bow":       {func(m *measure.Values) { m.BowDone, m.BowPart_mm, m.Paths_mm = false, 5, 2 }, "lie up to 2 mm elsewhere."},
		"nobody asked": {func(m *measure.Values) { m.MeshDone, m.Mesh_mm = false, 5 }, ""},
	} {
		f, ok := byID(with(c.change), "uncertain")
		if ok != (c.says != "") || !strings.Contains(f.Sentence.String(), c.says) {
			t.Errorf("%s: %q", name, f.Sentence)
		}
		if ok {
			inLanguages(t, f)
		}
	}
	// Whether the loops of tucked sets stay upright may not be known.
	lean := with(func(m *measure.Values) { m.LateralStable, m.Leans = false, measure.LeanUndecided })
	if f, ok := byID(lean, "leans"); !ok || f.Severity != Note || !strings.Contains(f.Sentence.String(), "is not sure") {
		t.Errorf("undecided: %+v", f)
	} else {
		inLanguages(t, f)
	}
	// And that a swing within its limit may be over it.
	bow, _ := byID(with(func(m *measure.Values) { m.Bow_mm, m.BowPart_mm = 1.5, 0.8 }), "bow")
	if want := "When the wearer bows the outer edge swings by 1.5 mm, give or take 0.8 mm: whether it is held firm enough is not sure."; bow.Sentence.String() != want {
		t.Errorf("%q", bow.Sentence)
	}
	inLanguages(t, bow)
}

// TestSetting: an untucked ruff on one edge whose swing hangs on its setting and on the
// air is told to; sewn at both edges it is not.
func TestSetting(t *testing.T) {
	ctx := context.Background()
	r, err := fine(ctx, demo(t, "floppy", "starch.bend 60"), sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	m := r.Solved.Ruff
	f, ok := byID(Find(r, scheme.Millimetres), "setting")
	if !ok || f.Severity != Note || !(m.SettingBow_mm[measure.SetWorse] > 1.3*m.SettingBow_mm[measure.AsMade]) {
		t.Fatalf("%+v of %v", f, m.SettingBow_mm)
	}
	for _, bow := range m.SettingBow_mm {
		if !strings.Contains(f.Sentence.String(), Length(bow, scheme.Millimetres).String()) {
			t.Errorf("%v: %s", m.SettingBow_mm, f.Sentence)
		}
	}
	inLanguages(t, f)
	if o, err := Try(ctx, r, f, f.Remedies[0], fine); err != nil || o.Tried == Fails {
		t.Errorf("%s: %+v, %v", f.Remedies[0].Sentence, o, err)
	}
	sound, err := fine(ctx, demo(t, "sound"), sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if f, ok := byID(Find(sound, scheme.Millimetres), "setting"); ok || !sound.Solved.Ruff.SettingDone {
		t.Errorf("sound: %v %s", sound.Solved.Ruff.SettingBow_mm, f.Sentence)
	}
}
