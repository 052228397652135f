package check

import (
	"context"
	"errors"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/measure"
	"ruffwright/testdata/demos"
)

// coarse is opt on the coarse grid, 16 × 8.
func coarse(opt sim.Options) sim.Options {
	opt.Grid.NU, opt.Grid.NV = 16, 8
	return opt
}

// store keeps what was solved: many cases start from the same schemes.
var store = map[string]sim.Ruff{}

// solveCoarse solves on the coarse grid, each scheme once.
func solveCoarse(ctx context.Context, s scheme.Scheme, _ sim.Options) (sim.Ruff, error) {
	key := string(s.JSON())
	if r, ok := store[key]; ok {
		return r, nil
	}
	r, err := sim.Solve(ctx, s, coarse(sim.Options{}))
	if err == nil {
		store[key] = r
	}
	return r, err
}

func solvedRuff(t testing.TB, s scheme.Scheme) sim.Ruff {
	t.Helper()
	r, err := solveCoarse(context.Background(), s, sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

var demo = demos.Scheme

// hung is a scheme that, solved, shows a finding from mechanics, and one just
// inside its limit, both as changes of a demo.
type hung struct {
	id, demo     string
	over, inside []string
	severity     Severity
	milder       Severity // what the scheme inside still shows of it; "" nothing
	cures        int      // least number of remedies that, tried, remove it
}

var heavy = []string{"cloth.mass 400", "cloth.thickness 0.5", "starch.bend 0"}

func stiff(bend string) []string {
	return append(slices.Clone(heavy), "cloth.bend_warp "+bend, "cloth.bend_weft "+bend)
}

// limp is unstarched cloth of bending length 20 mm on a band of the given height.
func limp(band string) []string {
	return []string{"starch.bend 0", "cloth.bend_warp 20", "cloth.bend_weft 20", "band.height " + band}
}

// The limits of bow (2, 8 mm), tilt (10°), lean (5, 12 mm) and so on lie between
// the two schemes of each row; where cloth jumps from one shape to another the
// two lie on either side of the jump.
var hangs = []hung{
	{"bow", "floppy", nil, []string{"starch.bend 55"}, Stop, Mend, 2},
	{"bow", "floppy", []string{"pleat.tuck_top 10"}, []string{"pleat.tuck_top 10", "starch.bend 40"}, Mend, "", 2},
	{"flaps-solved", "flaps-up", []string{"ruff.flaps stand"},
		[]string{"ruff.flaps stand", "support.kind supporter", "support.drop 0", "support.slope 23"}, Stop, "", 2},
	{"flaps-undecided", "floppy", []string{"support.kind supporter", "support.drop 8"}, []string{"support.kind supporter", "support.drop 6"}, Mend, "", 2},
	{"sinks", "floppy", []string{"starch.bend 55", "starch.quality 0.35"}, []string{"starch.bend 55", "starch.quality 0.4"}, Stop, "", 2},
	{"sinks", "flaps-up", nil, []string{"pleat.sewn crests"}, Stop, "", 2},
	{"bobs", "floppy", []string{"starch.bend 55", "starch.quality 0.6"}, []string{"starch.bend 55", "starch.quality 0.7"}, Stop, "", 2},
	{"popped", "sound", stiff("120"), stiff("100"), Mend, "", 1},
	{"dented", "tall", []string{"pleat.tuck_top 16", "pleat.tuck_bottom 16", "band.height 50", "starch.dry hung"}, []string{"pleat.tuck_top 16", "pleat.tuck_bottom 16", "band.height 50"}, Mend, "", 1},
	{"soft-sideways", "floppy", nil, []string{"starch.bend 80"}, Mend, Note, 2},
	{"soft-sideways", "early", []string{"cloth.mass 200", "ruff.depth 60"}, []string{"cloth.mass 200", "ruff.depth 55"}, Note, "", 1},
	{"leans", "untucked", limp("55"), limp("52"), Mend, "", 1},
	{"cloth-stiffness", "floppy", []string{"pleat.tuck_top 10", "starch.bend 45", "starch.quality 0.2"}, []string{"pleat.tuck_top 10", "starch.bend 45"}, Mend, "", 1},
	{"cloth-stiffness", "sound", []string{"ruff.depth 200", "starch.bend 0", "cloth.bend_warp 10", "cloth.bend_weft 10"},
		[]string{"ruff.depth 150", "starch.bend 0"}, Mend, "", 1},
	{"cloth-stiffness", "floppy", nil, []string{"starch.bend 55"}, Note, "", 1},
	{"height", "uneven", []string{"ruff.height 42"}, []string{"ruff.height 46"}, Mend, "", 1},
	{"height", "floppy", []string{"pleat.tuck_top 10", "starch.bend 45", "ruff.height 38", "pleat.panel 52.1"}, []string{"pleat.tuck_top 10", "starch.bend 45", "ruff.height 41", "pleat.panel 52.1"}, Mend, "", 2},
	{"depth", "sound", []string{"pleat.lines 2", "pleat.line_gap 30", "ruff.depth 60"}, []string{"pleat.lines 2", "pleat.line_gap 6", "ruff.depth 60"}, Mend, "", 1},
	{"loops-solved", "sound", []string{"ruff.sets 30"}, []string{"ruff.sets 34"}, Note, "", 1},
	{"loops-solved", "early", []string{"cloth.mass 200", "ruff.depth 60"}, []string{"cloth.mass 100", "ruff.depth 30"}, Note, "", 1},
	{"second-line", "untucked", []string{"pleat.lines 2", "pleat.line_gap 29", "ruff.depth 60"}, []string{"pleat.lines 2", "pleat.line_gap 12"}, Note, "", 1},
	{"stick", "early", []string{"ruff.sets 108", "pleat.panel 19.5"}, []string{"ruff.sets 100", "pleat.panel 19.5"}, Mend, "", 1},
	{"thread", "sound", stiff("120"), stiff("100"), Note, "", 1},
	{"several-ways", "sound", []string{"starch.bend 0"}, nil, Note, "", 1},
	{"alike", "uneven", nil, []string{"pleat.marks"}, Note, "", 0},
}

func TestMechanicsShowAndMend(t *testing.T) {
	for i, c := range hangs {
		t.Run(c.id+"/"+strconv.Itoa(i), func(t *testing.T) {
			r := solvedRuff(t, demo(t, c.demo, c.over...))
			found := Find(r, scheme.Millimetres)
			f, ok := byID(found, c.id)
			if !ok {
				t.Fatalf("%s %v does not show it; found %v, measured %+v", c.demo, c.over, found, r.Solved.Ruff)
			}
			inLanguages(t, f)
			if c.id == "several-ways" && strings.ContainsAny(f.Sentence.String(), "0123456789") {
				t.Errorf("a number that was not found for this ruff: %s", f.Sentence)
			}
			if f.Severity != c.severity || f.Pending {
				t.Errorf("severity %s, want %s; pending %v: %s", f.Severity, c.severity, f.Pending, f.Sentence)
			}
			inside := solvedRuff(t, demo(t, c.demo, c.inside...))
			if g, _ := byID(Find(inside, scheme.Millimetres), c.id); g.Severity != c.milder {
				t.Errorf("%s %v, inside, shows %q (%g against %g): %s", c.demo, c.inside, g.Severity, g.Value, g.Limit, g.Sentence)
			}
			cured := 0
			for _, m := range f.Remedies {
				if cured >= c.cures {
					break
				}
				o, err := Try(context.Background(), r, f, m, solveCoarse)
				if err != nil && !errors.Is(err, ErrUnknown) && !errors.Is(err, sim.ErrDesign) {
					t.Errorf("%s: %v", m.Sentence, err)
				}
				if o.Tried == Removes || o.Tried == Trades {
					cured++
				}
				t.Logf("%s => %+v", m.Sentence, o)
			}
			if cured < c.cures {
				t.Errorf("%d remedies remove it, want %d: %s", cured, c.cures, f.Sentence)
			}
		})
	}
}

// What no demo comes to: other shapes on the other side, a bow that leaves the
// edge elsewhere, cloth that never rests.
func TestMechanicsOfMadeUpMeasures(t *testing.T) {
	r := solvedRuff(t, demo(t, "floppy", "starch.bend 55"))
	with := func(change func(*measure.Values)) []Finding {
		made := *r.Solved
		made.Sets = slices.Clone(made.Sets)
		for i := range made.Sets {
			change(&made.Sets[i])
		}
		change(&made.Ruff)
		q := r
		q.Solved = &made
		return Find(q, scheme.Millimetres)
	}
	for _, c := range []struct {
		name, id string
		severity Severity
		change   func(*measure.Values)
	}{
		{"stands as well", "flaps-undecided", Stop, func(m *measure.Values) { m.OtherShare, m.OtherHeights = 0.099, [2]float64{60, 20} }},
		{"dearer", "flaps-undecided", "", func(m *measure.Values) { m.OtherShare, m.OtherHeights = 0.101, [2]float64{60, 20} }},
		{"does not return", "flaps-undecided", Mend, func(m *measure.Values) { m.BowReturn_mm = 1.1 }},
		{"returns", "flaps-undecided", "", func(m *measure.Values) { m.BowReturn_mm = 0.9 }},
		{"no other", "flaps-undecided", "", func(m *measure.Values) { m.OtherFound, m.OtherShare = false, 0 }},
		{"bow of 8", "bow", Mend, func(m *measure.Values) { m.Bow_mm = 8 }},
		{"bow over 8", "bow", Stop, func(m *measure.Values) { m.Bow_mm = 8.01 }},
		{"bow of 2", "bow", "", func(m *measure.Values) { m.Bow_mm = 2 }},
		{"no rest in the bow", "bow", Note, func(m *measure.Values) { m.BowDone = false }},
		{"sunk", "sinks", Stop, func(m *measure.Values) { m.Tilt_deg = -10.1 }},
		{"not sunk", "sinks", "", func(m *measure.Values) { m.Tilt_deg = -9.9 }},
		{"bobs", "bobs", Stop, func(m *measure.Values) { m.Vertical_mm_per_g = 5.1 }},
		{"does not bob", "bobs", "", func(m *measure.Values) { m.Vertical_mm_per_g = 4.9 }},
		{"lean unconfirmed", "soft-sideways", "", func(m *measure.Values) { m.Lateral_mm_per_g, m.LateralStable = 50, false }},
		{"lean over 12", "soft-sideways", Mend, func(m *measure.Values) { m.Lateral_mm_per_g = 12.1 }},
		{"lean of 12", "soft-sideways", Note, func(m *measure.Values) { m.Lateral_mm_per_g = 12 }},
		{"lean of 5", "soft-sideways", "", func(m *measure.Values) { m.Lateral_mm_per_g = 5 }},
		{"leans", "leans", Mend, func(m *measure.Values) { m.LateralStable, m.Leans, m.Leans_mm = false, "yes", 2.1 }},
		{"hardly leans", "leans", "", func(m *measure.Values) { m.LateralStable, m.Leans, m.Leans_mm = false, "yes", 1.9 }},
		{"comes back", "leans", "", func(m *measure.Values) { m.LateralStable, m.Leans, m.Leans_mm = false, "no", 0 }},
		{"may lean", "leans", "", func(m *measure.Values) { m.LateralStable, m.Leans, m.Leans_mm = false, "undecided", 5 }},
		{"near the band", "leans", "", func(m *measure.Values) { m.LateralStable, m.Leans, m.Leans_mm = false, "inner", 5 }},
		{"not asked", "leans", "", func(m *measure.Values) { m.LateralStable = false }},
		{"restless", "not-at-rest", Note, func(m *measure.Values) { m.Converged = false }},
		// What is in doubt stops a grade milder, and firm is what is so with its doubt.
		{"bow of 9 give or take 2", "bow", Mend, func(m *measure.Values) { m.Bow_mm, m.MeshDone, m.BowPart_mm = 9, true, 2 }},
		{"bow of 9 give or take 0.9", "bow", Stop, func(m *measure.Values) { m.Bow_mm, m.MeshDone, m.BowPart_mm = 9, true, 0.9 }},
		{"bow of 3 give or take 1.5", "bow", Note, func(m *measure.Values) { m.Bow_mm, m.MeshDone, m.BowPart_mm = 3, true, 1.5 }},
		{"bow of 3 give or take 0.9", "bow", Mend, func(m *measure.Values) { m.Bow_mm, m.MeshDone, m.BowPart_mm = 3, true, 0.9 }},
		{"bow of 1 give or take 1.5", "bow", Note, func(m *measure.Values) { m.Bow_mm, m.MeshDone, m.BowPart_mm = 1, true, 1.5 }},
		{"bow of 1 give or take 0.9", "bow", "", func(m *measure.Values) { m.Bow_mm, m.MeshDone, m.BowPart_mm = 1, true, 0.9 }},
		{"doubt that nobody asked of", "bow", "", func(m *measure.Values) { m.Bow_mm, m.BowPart_mm = 1, 1.5 }},
		{"sinks in doubt", "sinks", Mend, func(m *measure.Values) { m.Tilt_deg, m.Reach_mm, m.MeshDone, m.Paths_mm = -10.9, 70, true, 1.2 }},
		{"sinks for all doubt", "sinks", Stop, func(m *measure.Values) { m.Tilt_deg, m.Reach_mm, m.MeshDone, m.Paths_mm = -11.1, 70, true, 1.2 }},
		{"droop in doubt", "cloth-stiffness", Note, func(m *measure.Values) { m.Tilt_deg, m.Droop_mm, m.MeshDone, m.Mesh_mm = 0, 6, true, 1.1 }},
		{"droop for all doubt", "cloth-stiffness", Mend, func(m *measure.Values) { m.Tilt_deg, m.Droop_mm, m.MeshDone, m.Mesh_mm = 0, 6, true, 0.9 }},
		{"height in doubt", "height", Note, func(m *measure.Values) { m.HeightOuter_mm, m.MeshDone, m.FormedOff_mm = 46, true, 2 }},
		{"height for all doubt", "height", Mend, func(m *measure.Values) { m.HeightOuter_mm, m.MeshDone, m.FormedOff_mm = 46, true, 1.8 }},
		// Setting, damp and wear.
		{"hangs on nothing", "setting", "", func(m *measure.Values) {
			m.SettingDone, m.SettingBow_mm = true, [measure.Conditions]float64{3, 3.5, 4.9, 2.1}
		}},
		{"damp more by 2 mm and 30 %", "setting", Note, func(m *measure.Values) {
			m.SettingDone, m.SettingBow_mm = true, [measure.Conditions]float64{3, 3, 5.1, 3}
		}},
		{"damp more by less than 30 %", "setting", "", func(m *measure.Values) {
			m.SettingDone, m.SettingBow_mm = true, [measure.Conditions]float64{10, 12.9, 10, 10}
		}},
		{"worn over a limit", "setting", Note, func(m *measure.Values) {
			m.SettingDone, m.SettingBow_mm = true, [measure.Conditions]float64{1.9, 1.9, 1.9, 2.1}
		}},
		{"set worse over the other limit", "setting", Note, func(m *measure.Values) {
			m.SettingDone, m.SettingBow_mm = true, [measure.Conditions]float64{7.5, 8.5, 7.5, 7.5}
		}},
		{"not asked of setting", "setting", "", func(m *measure.Values) {
			m.SettingBow_mm = [measure.Conditions]float64{1.9, 9, 9, 9}
		}},
	} {
		if f, _ := byID(with(c.change), c.id); f.Severity != c.severity {
			t.Errorf("%s: %s is %q, want %q: %s", c.name, c.id, f.Severity, c.severity, f.Sentence)
		}
	}
	// Nothing rests on cloth that does not.
	for _, f := range with(func(m *measure.Values) { m.Converged, m.Bow_mm = false, 50 }) {
		if l, _ := lawOf(f.ID); l.From == FromMechanics && f.ID != "not-at-rest" {
			t.Errorf("said of restless cloth: %s", f.Sentence)
		}
	}
}

// One half set that sinks is enough.
func TestWorstSetDecides(t *testing.T) {
	r := solvedRuff(t, demo(t, "sound", "wearer.ratio 1.15"))
	made := *r.Solved
	made.Sets = slices.Clone(made.Sets)
	if len(made.Sets) < 3 {
		t.Fatalf("%d kinds of half set around an ellipse", len(made.Sets))
	}
	made.Sets[1].Tilt_deg = -12
	made.Sets[2].Loop_mm = 3
	q := r
	q.Solved = &made
	if f, _ := byID(Find(q, scheme.Millimetres), "sinks"); f.Value != -12 {
		t.Errorf("one half set sinks by 12°: %+v", f)
	}
	made.Sets[1].Tilt_deg = 0
	if f, _ := byID(Find(q, scheme.Millimetres), "stick"); f.Value != 3 {
		t.Errorf("one half set's loops are 3 mm wide: %+v", f)
	}
}

// A supporter asks for its own slope: what lies on it does not sink.
func TestSupporterAsksForItsSlope(t *testing.T) {
	r, err := sim.Draw(demo(t, "sound", "support.kind supporter", "support.drop 0", "support.slope 25"))
	if err != nil {
		t.Fatal(err)
	}
	v := &view{r: r, p: &r.Plan, s: r.Plan.Scheme}
	// atan((70 tan 25° + 45/2 − 36/2) / 70) = 27.95°.
	m := &measure.Values{HeightOuter_mm: 45}
	for tilt, want := range map[float64]float64{27: 0, 0: 0, 30.95: 3, -4: -4} {
		m.Tilt_deg = tilt
		if got := v.beyondLevel(m); got < want-0.01 || got > want+0.01 {
			t.Errorf("%g° on a slope of 25°: %g beyond, want %g", tilt, got, want)
		}
	}
}

// Sinking by more than 10° with the outer edge above the band's middle is not said
// to lie below it, and what is loose is said by where it lies.
func TestSentencesSayWhichSide(t *testing.T) {
	r := solvedRuff(t, demo(t, "floppy"))
	tilted := *r.Solved
	tilted.Sets = slices.Clone(tilted.Sets)
	for i := range tilted.Sets {
		m := &tilted.Sets[i]
		m.Tilt_deg, m.TopOuter_mm, m.BottomOuter_mm = -14, 70, 10
	}
	tilted.Ruff.TopOuter_mm, tilted.Ruff.BottomOuter_mm = 90, 40
	r.Solved = &tilted
	found := Find(r, scheme.Millimetres)
	if f, ok := byID(found, "sinks"); !ok || strings.Contains(f.Sentence.String(), "below") || strings.ContainsAny(f.Sentence.String(), "-−") {
		t.Errorf("%+v", f)
	}
	if f, ok := byID(found, "bow"); !ok || !strings.Contains(f.Sentence.String(), "holds what stands above the sewn row") {
		t.Errorf("%+v", f)
	}
}

// The starch target asks for what these findings let pass.
func TestLimitsAreTheTables(t *testing.T) {
	l := Limits()
	for id, got := range map[string]float64{"bow": l.Bow_mm, "cloth-stiffness": l.Droop_mm} {
		if r, _ := lawOf(id); got != r.Limit {
			t.Errorf("%s: %g, the table has %g", id, got, r.Limit)
		}
	}
	if l.Lean_mm_per_g != leanGood {
		t.Errorf("lean %g", l.Lean_mm_per_g)
	}
}

func BenchmarkFindSolved(b *testing.B) {
	r := solvedRuff(b, demo(b, "flaps-up"))
	b.ReportAllocs()
	for b.Loop() {
		Find(r, scheme.Millimetres)
	}
}
