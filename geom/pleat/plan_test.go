package pleat

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/geom/scheme"
)

// set is the default scheme with the given keys changed: "key value" pairs.
func set(t testing.TB, changes ...string) scheme.Scheme {
	t.Helper()
	s := scheme.Default()
	for _, c := range changes {
		key, value, _ := strings.Cut(c, " ")
		if err := s.Set(key, value); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

func plan(t testing.TB, changes ...string) Plan {
	t.Helper()
	p, err := NewPlan(set(t, changes...))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.12g, want %.12g ± %g", what, got, want, tolerance)
	}
}

// The strip's ends and the totals, counted by hand: design of the strip for 12
// sets at 30 mm from fold to fold.
func TestEnds(t *testing.T) {
	for _, c := range []struct {
		first, last              string
		crests, troughs, panels  int
		tucksTop, quarters, sets int
	}{
		{"trough", "trough", 12, 13, 24, 12, 5, 12},
		{"crest", "crest", 13, 12, 24, 13, 5, 12},
		{"trough", "crest", 12, 12, 23, 12, 2, 12},
		{"crest", "trough", 12, 12, 23, 12, 2, 12},
	} {
		p := plan(t, "ruff.sets 12", "pleat.panel 30", "pleat.tuck_top 4", "pleat.tuck_bottom 3",
			"pleat.first "+c.first, "pleat.last "+c.last, "strip.hem 2.5", "strip.hem_turns 2")
		var tucks, quarters int
		for k, m := range p.Row {
			if m.Place_mm != 30*float64(k) {
				t.Errorf("mark %d at %g mm, want %d", k, m.Place_mm, 30*k)
			}
			want, edge, tuck := scheme.Fold(c.first), scheme.EdgeTop, 4.
			if k%2 == 1 {
				want = other(want)
			}
			if want == scheme.Trough {
				edge, tuck = scheme.EdgeBottom, 3
			}
			if m.Fold != want || m.Edge != edge || m.Tuck_mm != tuck {
				t.Errorf("%s to %s: mark %d is %+v", c.first, c.last, k, m)
			}
			if m.Tuck_mm == 4 {
				tucks++
			}
			if m.Quarter {
				quarters++
			}
		}
		if p.Crests != c.crests || p.Troughs != c.troughs || p.Panels != c.panels || p.Sets != c.sets || tucks != c.tucksTop || quarters != c.quarters {
			t.Errorf("%s to %s: %d crests, %d troughs, %d panels, %d sets, %d tucks at crests, %d quarters; want %+v",
				c.first, c.last, p.Crests, p.Troughs, p.Panels, p.Sets, tucks, quarters, c)
		}
		near(t, "marked", p.Marked_mm, 30*float64(c.panels), 1e-9)
		near(t, "strip", p.Strip_mm, 30*float64(c.panels)+10, 1e-9)
		near(t, "inner panel", p.InnerPanel_mm, 23, 1e-12)
		near(t, "slack", p.Slack, 23/math.Hypot(36, 415./24), 1e-12)
		if n := len(p.Row); n != p.Panels+1 {
			t.Errorf("%d marks for %d panels", n, p.Panels)
		}
	}
}

// TestPinsAreSewn: every fold that is pinned is sewn, at each quarter one, whatever
// is sewn to which edge.
func TestPinsAreSewn(t *testing.T) {
	for _, anchor := range []scheme.Anchor{scheme.AnchorTop, scheme.AnchorBottom, scheme.AnchorBoth} {
		for _, sewn := range []scheme.Folds{scheme.Crests, scheme.Troughs} {
			for _, first := range []scheme.Fold{scheme.Crest, scheme.Trough} {
				s := scheme.Default()
				s.Pleat.Anchor, s.Pleat.Sewn, s.Pleat.First, s.Pleat.Last = anchor, sewn, first, first
				p, err := NewPlan(s)
				if err != nil {
					t.Fatal(err)
				}
				pins := 0
				for k, m := range p.Row {
					if !m.Quarter {
						continue
					}
					pins++
					if m.Edge == scheme.EdgeNone {
						t.Errorf("%s, %s, begins on a %s: free mark %d is pinned", anchor, sewn, first, k)
					}
				}
				if pins != 5 {
					t.Errorf("%s, %s, begins on a %s: %d pins", anchor, sewn, first, pins)
				}
			}
		}
	}
}

func TestSewnTo(t *testing.T) {
	for _, c := range []struct {
		anchor, sewn  string
		crest, trough scheme.Edge
	}{
		{"both", "crests", scheme.EdgeTop, scheme.EdgeBottom},
		{"both", "troughs", scheme.EdgeTop, scheme.EdgeBottom},
		{"top", "crests", scheme.EdgeTop, scheme.EdgeNone},
		{"top", "troughs", scheme.EdgeNone, scheme.EdgeTop},
		{"bottom", "crests", scheme.EdgeBottom, scheme.EdgeNone},
		{"bottom", "troughs", scheme.EdgeNone, scheme.EdgeBottom},
	} {
		p := plan(t, "pleat.anchor "+c.anchor, "pleat.sewn "+c.sewn, "pleat.tuck_top 5", "pleat.tuck_bottom 7")
		for _, m := range p.Row {
			edge, tuck := c.crest, 5.
			if m.Fold == scheme.Trough {
				edge, tuck = c.trough, 7
			}
			if edge == scheme.EdgeNone {
				tuck = 0
			}
			if m.Edge != edge || m.Tuck_mm != tuck {
				t.Errorf("%s, %s: %s is sewn to %s with a tuck of %g, want %s and %g", c.anchor, c.sewn, m.Fold, m.Edge, m.Tuck_mm, edge, tuck)
			}
		}
		if held := c.crest != scheme.EdgeNone && c.trough != scheme.EdgeNone; held != (p.Slack > 0) {
			t.Errorf("%s, %s: slack %g", c.anchor, c.sewn, p.Slack)
		}
	}
}

func TestPlannedAgainstMade(t *testing.T) {
	p := plan(t, "pleat.panel 50")
	if p.SetsHave != 40 || p.Band_mm != 430 || p.BandPlanned_mm != 430 {
		t.Errorf("planned: %g sets at hand, band %g of %g", p.SetsHave, p.Band_mm, p.BandPlanned_mm)
	}
	near(t, "filled", p.Filled_mm, 415, 1e-9)
	// 3,008 mm less two hems of two turns of 2 mm are 60 panels.
	p = plan(t, "pleat.panel 50", "strip.have 3008", "pleat.pitch 10", "band.length 420")
	near(t, "sets at hand", p.SetsHave, 30, 1e-12)
	near(t, "filled", p.Filled_mm, 400, 1e-9)
	near(t, "band", p.Band_mm, 420, 0)
	near(t, "band planned", p.BandPlanned_mm, 430, 0)
	// With mixed ends 59 panels already make 30 sets.
	p = plan(t, "pleat.panel 50", "strip.have 2958", "pleat.last crest")
	near(t, "sets at hand, mixed ends", p.SetsHave, 30, 1e-12)
	// A strip as long as its own plan gives its own sets.
	for _, last := range []string{"trough", "crest"} {
		q := plan(t, "pleat.last "+last)
		have := "strip.have " + strconv.FormatFloat(q.Strip_mm, 'g', -1, 64)
		near(t, "sets of its own strip", plan(t, "pleat.last "+last, have).SetsHave, 40, 1e-9)
	}
}

func TestPlanErrors(t *testing.T) {
	for _, c := range []struct {
		changes []string
		field   string
	}{
		{[]string{"pleat.tuck_top 30", "pleat.panel 56"}, "pleat.tuck_top"},
		{[]string{"look.depth_ratio 1"}, "look.depth_ratio"},
	} {
		_, err := NewPlan(set(t, c.changes...))
		var e scheme.Error
		var es scheme.Errors
		switch {
		case errors.As(err, &es):
			e = es[0]
		case !errors.As(err, &e):
			t.Errorf("%v: %v, want a scheme.Error", c.changes, err)
			continue
		}
		if !strings.Contains(e.Field, c.field) || e.Value.Empty() || e.Why.Empty() || e.Allowed.Empty() {
			t.Errorf("%v: %+v, want %s", c.changes, e, c.field)
		}
	}
	if _, err := NewPlan(scheme.Scheme{}); err == nil {
		t.Error("the zero scheme is planned")
	}
}

// Any valid scheme's marks increase, alternate, add up and count as they should.
func TestAnyPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, ok := anyPlan(t)
		if !ok {
			t.Skip()
		}
		if len(p.Row) != p.Panels+1 || p.Crests+p.Troughs != len(p.Row) || p.Row[0].Place_mm != 0 || p.Row[p.Panels].Place_mm != p.Marked_mm {
			t.Fatalf("%d marks, %d panels, %d crests, %d troughs", len(p.Row), p.Panels, p.Crests, p.Troughs)
		}
		for k := 1; k < len(p.Row); k++ {
			a, b := p.Row[k-1], p.Row[k]
			if !(b.Place_mm > a.Place_mm) || a.Fold == b.Fold {
				t.Fatalf("mark %d: %+v after %+v", k, b, a)
			}
		}
		mixed := p.Row[0].Fold != p.Row[p.Panels].Fold
		if want := 2 * p.Sets; mixed && p.Panels != want-1 || !mixed && p.Panels != want {
			t.Fatalf("%d panels for %d sets, mixed %v", p.Panels, p.Sets, mixed)
		}
		if d := p.Crests - p.Troughs; mixed && d != 0 || !mixed && d*d != 1 {
			t.Fatalf("%d crests, %d troughs, mixed %v", p.Crests, p.Troughs, mixed)
		}
		for what, v := range map[string]float64{
			"panel": p.Panel_mm, "pitch": p.Pitch_mm, "outer pitch": p.PitchOuter_mm, "strip": p.Strip_mm,
			"filled": p.Filled_mm, "band": p.Band_mm, "inner panel": p.InnerPanel_mm,
		} {
			if !(v > 0) || math.IsInf(v, 0) {
				t.Fatalf("%s is %g", what, v)
			}
		}
		if s := p.SetsHave; !(s >= 0) || math.IsInf(s, 0) || p.Scheme.Strip.Have == 0 && s != float64(p.Sets) {
			t.Fatalf("sets at hand %g of %d", s, p.Sets)
		}
	})
}

// anyPlan draws plans over the whole ranges of what the fold depends on.
func anyPlan(t *rapid.T) (Plan, bool) {
	s := scheme.Default()
	for _, key := range []string{
		"wearer.girth", "wearer.ratio", "ruff.sets", "ruff.depth", "ruff.height", "pleat.panel", "pleat.pitch", "pleat.anchor",
		"pleat.sewn", "pleat.tuck_top", "pleat.tuck_bottom", "pleat.first", "pleat.last", "band.height", "strip.have", "cloth.thickness",
	} {
		f, _ := scheme.Lookup(key)
		if rapid.IntRange(0, 2).Draw(t, key+"?") == 0 {
			continue
		}
		value := ""
		switch {
		case len(f.Choices) > 0:
			value = rapid.SampledFrom(f.Choices).Draw(t, key).Value
		case f.Kind == scheme.KindCount:
			value = strconv.Itoa(rapid.IntRange(int(f.Min), min(int(f.Max), 120)).Draw(t, key))
		default:
			value = strconv.FormatFloat(rapid.Float64Range(f.Min, f.Max).Draw(t, key), 'f', -1, 64)
		}
		if err := s.Set(key, value); err != nil {
			t.Fatal(err)
		}
	}
	if rapid.Bool().Draw(t, "own marks") {
		fold := rapid.SampledFrom([]scheme.Fold{scheme.Crest, scheme.Trough}).Draw(t, "first")
		edges := []scheme.Edge{scheme.EdgeTop, scheme.EdgeBottom, scheme.EdgeNone}
		crest := rapid.SampledFrom(edges).Draw(t, "crests")
		trough := rapid.SampledFrom(edges).Draw(t, "troughs")
		place := 0.
		for range rapid.IntRange(16, 60).Draw(t, "marks") {
			e := crest
			if fold == scheme.Trough {
				e = trough
			}
			if rapid.IntRange(0, 9).Draw(t, "odd") == 0 {
				e = rapid.SampledFrom(edges).Draw(t, "edge")
			}
			s.Pleat.Marks = append(s.Pleat.Marks, scheme.Mark{Place: place, Fold: fold, Sewn: e})
			place += rapid.Float64Range(1, 100).Draw(t, "step")
			fold = other(fold)
		}
	}
	if s.Validate() != nil {
		return Plan{}, false
	}
	p, err := NewPlan(s)
	if err != nil {
		var e scheme.Error
		if !errors.As(err, &e) || e.Field == "" {
			t.Fatalf("error names no field: %v", err)
		}
		return Plan{}, false
	}
	return p, true
}
