package compare

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/measure"
)

// measuring gives a ruff with other measures.
func measuring(of Side, change func(*measure.Values)) Side {
	solved := *of.Ruff.Solved
	change(&solved.Ruff)
	of.Ruff.Solved = &solved
	return of
}

// TestRows: what is said of two amounts of one measure, on either side of how far
// they may lie apart.
func TestRows(t *testing.T) {
	tucked := settledRuff(t, demoScheme(t, "sound"))
	plain := settledRuff(t, demoScheme(t, "floppy"))
	want := tucked.Ruff.Plan.Scheme.Ruff.Height
	for _, c := range []struct {
		name   string
		of     Side
		key    string
		a, b   func(*measure.Values)
		better Which
		says   string // the difference
	}{
		{"less droop", tucked, "droop_mm", func(v *measure.Values) { v.Droop_mm = 3 }, func(v *measure.Values) { v.Droop_mm = 1 }, Second, "−2 mm"},
		{"hardly less", tucked, "droop_mm", func(v *measure.Values) { v.Droop_mm = 3 }, func(v *measure.Values) { v.Droop_mm = 2.1 }, Neither, "same"},
		{"untucked less is known", plain, "droop_mm", func(v *measure.Values) { v.Droop_mm = 3 }, func(v *measure.Values) { v.Droop_mm = 2.1 }, Second, "−0.9 mm"},
		{"rises as much as it droops", tucked, "droop_mm", func(v *measure.Values) { v.Droop_mm = 3 }, func(v *measure.Values) { v.Droop_mm = -3 }, Neither, "−6 mm"},
		{"rises more than it droops", tucked, "droop_mm", func(v *measure.Values) { v.Droop_mm = 3 }, func(v *measure.Values) { v.Droop_mm = -5 }, First, "−8 mm"},
		{"bow", tucked, "bow_mm", func(v *measure.Values) { v.Bow_mm = 10 }, func(v *measure.Values) { v.Bow_mm = 12.4 }, Neither, "same"},
		{"more bow", tucked, "bow_mm", func(v *measure.Values) { v.Bow_mm = 10 }, func(v *measure.Values) { v.Bow_mm = 12.6 }, First, "+2.6 mm"},
		{"too low", tucked, "height_off_mm", func(v *measure.Values) { v.HeightOuter_mm = want }, func(v *measure.Values) { v.HeightOuter_mm = want - 4 }, First, "+4 mm"},
		{"too high", tucked, "height_off_mm", func(v *measure.Values) { v.HeightOuter_mm = want }, func(v *measure.Values) { v.HeightOuter_mm = want + 4 }, First, "+4 mm"},
		{"too low and too high", tucked, "height_off_mm", func(v *measure.Values) { v.HeightOuter_mm = want - 4 }, func(v *measure.Values) { v.HeightOuter_mm = want + 4 }, Neither, "same"},
		{"a little too low and too high", tucked, "height_off_mm", func(v *measure.Values) { v.HeightOuter_mm = want - 2 }, func(v *measure.Values) { v.HeightOuter_mm = want + 4 }, First, "+2 mm"},
		{"taller is a matter of taste", tucked, "height_outer_mm", func(v *measure.Values) { v.HeightOuter_mm = want }, func(v *measure.Values) { v.HeightOuter_mm = want + 4 }, Neither, "+4 mm"},
		{"slope", tucked, "tilt_deg", func(v *measure.Values) { v.Tilt_deg = -1 }, func(v *measure.Values) { v.Tilt_deg = 1 }, Neither, "+2°"},
		{"gives more", tucked, "vertical_mm_per_g", func(v *measure.Values) { v.Vertical_mm_per_g = 1 }, func(v *measure.Values) { v.Vertical_mm_per_g = 2 }, First, "+1 mm"},
		{"does not hold", tucked, "vertical_mm_per_g", func(v *measure.Values) { v.Vertical_mm_per_g, v.VerticalStable = 0, false }, func(*measure.Values) {}, Second, "differs"},
		{"sideways", plain, "lateral_mm_per_g", func(v *measure.Values) { v.Lateral_mm_per_g, v.LateralStable = 3, true }, func(v *measure.Values) { v.Lateral_mm_per_g, v.LateralStable = 2, true }, Second, "−1 mm"},
	} {
		got := Of(measuring(c.of, c.a), measuring(c.of, c.b), scheme.Millimetres)
		found := false
		for _, m := range got.Measures {
			if m.Key == c.key {
				found = true
				if m.Better != c.better || m.Difference.String() != c.says {
					t.Errorf("%s: %q, better %q; want %q, %q", c.name, m.Difference, m.Better, c.says, c.better)
				}
			}
		}
		if !found {
			t.Errorf("%s: nothing is said of %s", c.name, c.key)
		}
	}
	for _, m := range Of(tucked, plain, scheme.Millimetres).Measures {
		if m.Key == "lateral_mm_per_g" {
			t.Error("how tucked sets give sideways is compared")
		}
	}
	// A measure that was not taken is no 0.
	got := Of(tucked, measuring(tucked, func(v *measure.Values) { v.BowDone, v.Bow_mm = false, 0 }), scheme.Millimetres)
	if m := got.Measures[0]; m.Key != "bow_mm" || m.B.Known || m.Difference.String() != "" || m.Better != Neither {
		t.Errorf("a bow that was not tested: %+v", m)
	}
}

// TestDoubts: where the doubts of tucked ruffs were measured, both together say how far
// apart they count as alike; where one was not, the table does.
func TestDoubts(t *testing.T) {
	tucked, plain := settledRuff(t, demoScheme(t, "sound")), settledRuff(t, demoScheme(t, "floppy"))
	doubting := func(of Side, known bool, height, folds, bow float64) Side {
		return measuring(of, func(v *measure.Values) {
			v.HeightOuter_mm, v.MeshDone, v.Mesh_mm, v.Paths_mm, v.FormedOff_mm, v.BowPart_mm = height, known, 0, folds, 0, bow
			v.BowDone, v.Bow_mm, v.Reach_mm, v.Tilt_deg = true, height/10, 70, height/10
		})
	}
	for _, c := range []struct {
		name              string
		a, b              Side
		height, bow, tilt string // the differences
	}{
		{"together", doubting(tucked, true, 40, 3, 2), doubting(tucked, true, 44.2, 3, 2), "same", "same", "same"},
		{"more than together", doubting(tucked, true, 40, 3, 0.2), doubting(tucked, true, 44.3, 3, 0.2), "+4.3 mm", "same", "same"},
		{"small doubts", doubting(tucked, true, 40, 0.1, 0.1), doubting(tucked, true, 40.6, 0.1, 0.1), "+0.6 mm", "same", "same"},
		{"no steeper than both", doubting(tucked, true, 10, 0.1, 0.1), doubting(tucked, true, 30, 0.1, 0.1), "+20 mm", "+2 mm", "+2°"},
		{"a slope in doubt", doubting(tucked, true, 10, 3, 0.1), doubting(tucked, true, 30, 3, 0.1), "+20 mm", "+2 mm", "same"},
		{"one not asked", doubting(tucked, true, 40, 3, 2), doubting(tucked, false, 42, 3, 2), "+2 mm", "same", "same"},
		{"against one not tucked", doubting(tucked, true, 40, 3, 2), doubting(plain, false, 42.9, 0, 0), "same", "same", "same"},
	} {
		got := map[string]string{}
		for _, m := range Of(c.a, c.b, scheme.Millimetres).Measures {
			got[m.Key] = m.Difference.String()
		}
		if got["height_outer_mm"] != c.height || got["bow_mm"] != c.bow || got["tilt_deg"] != c.tilt {
			t.Errorf("%s: height %q, bow %q, slope %q", c.name, got["height_outer_mm"], got["bow_mm"], got["tilt_deg"])
		}
	}
}

// TestCostRows: what is cut is told to a millimetre, work to a twentieth.
func TestCostRows(t *testing.T) {
	a := drawn(t, demoScheme(t, "sound"))
	a.Cost = Cost{Known: true, Buy_mm: 600, Stitches: 1000, Hours: pattern.Range{Least: 10, Most: 30}}
	for _, c := range []struct {
		key    string
		change func(*Side)
		better Which
		says   string
	}{
		{"strip_mm", func(s *Side) { s.Ruff.Plan.Strip_mm++ }, Neither, "same"},
		{"strip_mm", func(s *Side) { s.Ruff.Plan.Strip_mm += 2 }, First, "+2 mm"},
		{"buy_mm", func(s *Side) { s.Cost.Buy_mm = 500 }, Second, "−100 mm"},
		{"stitches", func(s *Side) { s.Cost.Stitches = 1050 }, Neither, "same"},
		{"stitches", func(s *Side) { s.Cost.Stitches = 1100 }, First, "+100"},
		{"hours", func(s *Side) { s.Cost.Hours = pattern.Range{Least: 10, Most: 28.2} }, Neither, "same"},
		{"hours", func(s *Side) { s.Cost.Hours = pattern.Range{Least: 10, Most: 26} }, Second, "−2 h"},
	} {
		b := a
		c.change(&b)
		for _, m := range Of(a, b, scheme.Millimetres).Measures {
			if m.Key == c.key && (m.Better != c.better || m.Difference.String() != c.says) {
				t.Errorf("%s: %q, better %q; want %q, %q", c.key, m.Difference, m.Better, c.says, c.better)
			}
		}
	}
}

// TestFields: what was decided otherwise, but for the maker's own name of a ruff.
func TestFields(t *testing.T) {
	sound, uneven := demoScheme(t, "sound"), demoScheme(t, "uneven")
	renamed := sound
	renamed.Name = "another"
	if c := Of(drawn(t, sound), drawn(t, renamed), scheme.Millimetres); len(c.Fields) != 0 {
		t.Errorf("%+v", c.Fields)
	}
	for _, f := range Of(drawn(t, sound), drawn(t, uneven), scheme.Millimetres).Fields {
		if f.Field.Kind == scheme.KindMarks && (f.A.String() != "as planned" || f.B.String() != fmt.Sprintf("%d own marks", uneven.OwnMarks())) {
			t.Errorf("%s: %q and %q", f.Field.Key, f.A, f.B)
		}
	}
}

// TestTroublesWorstFirst: what stops in either stands before what is to be mended.
func TestTroublesWorstFirst(t *testing.T) {
	x := &contender{found: []check.Finding{{ID: "height", Severity: check.Mend}}}
	y := &contender{found: []check.Finding{{ID: "bow", Severity: check.Stop}, {ID: "height", Severity: check.Note}}}
	got := troubles(x, y)
	if len(got) != 2 || got[0].ID != "bow" || got[0].B != check.Stop || got[1].A != check.Mend || got[1].B != "" {
		t.Errorf("%+v", got)
	}
}

// TestTaller: the sentence says which way the heights differ.
func TestTaller(t *testing.T) {
	a := settledRuff(t, demoScheme(t, "sound"))
	for by, want := range map[float64]string{4: "B stands 4 mm taller", -4: "B stands 4 mm lower"} {
		b := measuring(a, func(v *measure.Values) { v.HeightOuter_mm += by })
		b.Ruff.Plan.Scheme.Name = "B"
		if c := Of(a, b, scheme.Millimetres); !strings.Contains(c.Sentence.String(), want) {
			t.Errorf("lacks %q: %s", want, c.Sentence)
		}
	}
}

// TestLoose: of sets with much cloth between their sewn folds little can be claimed.
func TestLoose(t *testing.T) {
	a := settledRuff(t, demoScheme(t, "sound"))
	b := measuring(a, func(v *measure.Values) { v.Reach_mm += 2.9 })
	b.Ruff.Plan.Slack = 1.31
	for _, m := range Of(a, b, scheme.Millimetres).Measures {
		if m.Key == "reach_mm" && !m.Same {
			t.Errorf("%+v", m)
		}
	}
}

// TestByMeasures: firmness counts before the wish for a height, that before what a
// ruff takes; what contradicts itself decides nothing.
func TestByMeasures(t *testing.T) {
	for _, c := range []struct {
		name string
		all  []Measured
		want Which
		says string
	}{
		{"nothing", nil, Neither, "come to the same"},
		{"taste", []Measured{{weighs: taste, Better: First}}, Neither, "come to the same"},
		{"firmer", []Measured{{weighs: firm, Better: Second}, {weighs: cost, Better: First}, {weighs: wish, Better: First}}, Second, "B holds firmer"},
		{"each firmer", []Measured{{weighs: firm, Better: Second}, {weighs: firm, Better: First}, {weighs: wish, Better: First}}, Neither, "each is firmer in its own way"},
		{"nearer", []Measured{{weighs: firm}, {weighs: wish, Better: First}, {weighs: cost, Better: Second}}, First, "A comes nearer to its height wanted"},
		{"cheaper", []Measured{{weighs: wish}, {weighs: cost, Better: Second}, {weighs: cost, Better: Second}}, Second, "B takes less"},
		{"each cheaper", []Measured{{weighs: cost, Better: Second}, {weighs: cost, Better: First}}, Neither, "each saves something"},
	} {
		by := map[string]Measured{}
		for i, m := range c.all {
			by[string(rune('a'+i))] = m
		}
		if got, says, _ := byMeasures(by); got != c.want || !strings.Contains(says.String(), c.says) {
			t.Errorf("%s: %q %q", c.name, got, says)
		}
	}
}

// TestCosts: more and less are put together, what is the same or not known is left out.
func TestCosts(t *testing.T) {
	known := func(a, b float64, difference string) Measured {
		return Measured{A: Amount{Value: a, Known: true}, B: Amount{Value: b, Known: true}, apart: word.Name(strings.TrimLeft(difference, "+−")), Same: difference == "same"}
	}
	for _, c := range []struct {
		buy, hours Measured
		want       string
	}{
		{known(900, 1000, "+100 mm"), known(5, 9, "+4 h"), "B takes 100 mm of cloth and 4 h of work more."},
		{known(1000, 900, "−100 mm"), known(5, 9, "+4 h"), "B takes 4 h of work more, but 100 mm of cloth less."},
		{known(900, 900, "same"), known(9, 5, "−4 h"), "B takes 4 h of work less."},
		{known(900, 900, "same"), Measured{Difference: word.Name("+4 h")}, ""},
	} {
		if got := costs(map[string]Measured{buy: c.buy, hours: c.hours}).String(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// TestAbout: lengths that are compared, in both rulers.
func TestAbout(t *testing.T) {
	for _, c := range []struct {
		u    scheme.Units
		mm   float64
		want string
	}{
		{scheme.Millimetres, 0, "0 mm"}, {scheme.Millimetres, 0.04, "under 0.1 mm"}, {scheme.Millimetres, 0.06, "0.1 mm"},
		{scheme.Millimetres, 99.94, "99.9 mm"}, {scheme.Millimetres, 123.6, "124 mm"}, {scheme.Millimetres, -123.6, "−124 mm"},
		{scheme.Inches, 0.7, "under 1/32 in"}, {scheme.Inches, 25.4, "1 in"}, {scheme.Inches, 25.4*4 + 0.7, "4 in"},
	} {
		x := &contender{r: &sim.Ruff{}, u: c.u}
		if got := x.about(c.mm).String(); got != c.want {
			t.Errorf("%g mm: %q, want %q", c.mm, got, c.want)
		}
	}
	if digits(9.9) != 1 || digits(10) != 0 || check.Number(2.25, 1).String() != "2.3" || check.Number(math.Copysign(0, -1), 0).String() != "0" {
		t.Error("hours and counts")
	}
}
