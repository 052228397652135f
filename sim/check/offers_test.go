package check

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// looking gives a drawn scheme as the rules look at it.
func looking(t testing.TB, s scheme.Scheme) *view {
	t.Helper()
	r, err := sim.Draw(s)
	if err != nil {
		t.Fatal(err)
	}
	return &view{r: r, p: &r.Plan, s: r.Plan.Scheme, u: scheme.Millimetres}
}

// sewnMarks are 81 own marks whose folds are sewn so.
func sewnMarks(crest, trough scheme.Edge) string {
	return marks(func(_ int, m *scheme.Mark) {
		if m.Sewn = trough; m.Fold == scheme.Crest {
			m.Sewn = crest
		}
	})
}

// with applies a remedy and plans what comes of it.
func with(t testing.TB, s scheme.Scheme, r Remedy) pleat.Plan {
	t.Helper()
	s, err := Apply(s, r)
	if err != nil {
		t.Fatal(err)
	}
	p, err := pleat.NewPlan(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestSewnOtherwise: both edges become the top edge alone, by the folds that the wish
// for the flaps asks for; one edge becomes both, with a slack that lies clean.
func TestSewnOtherwise(t *testing.T) {
	for _, c := range []struct {
		name          string
		s             scheme.Scheme
		crest, trough scheme.Edge
	}{
		{"fall", set(t), scheme.EdgeTop, scheme.EdgeNone},
		{"stand", set(t, "ruff.flaps stand"), scheme.EdgeNone, scheme.EdgeTop},
		{"own marks", set(t, marks(nil)), scheme.EdgeTop, scheme.EdgeNone},
		{"one edge", set(t, "pleat.anchor top"), scheme.EdgeTop, scheme.EdgeBottom},
		{"bottom edge, too short", set(t, "pleat.anchor bottom", "pleat.panel 45", "band.height 30"), scheme.EdgeTop, scheme.EdgeBottom},
	} {
		s, err := SewnOtherwise(c.s)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		p := looking(t, s).p
		if crest, trough := p.Row.Sewn(scheme.Crest), p.Row.Sewn(scheme.Trough); crest != c.crest || trough != c.trough {
			t.Errorf("%s: top folds sewn to %q, bottom folds to %q", c.name, crest, trough)
		}
		if p.Slack > 0 && (p.Slack < slackLeast || p.Slack > slackMost) {
			t.Errorf("%s: slack %.3f", c.name, p.Slack)
		}
	}
}

// TestFlapsOffers: what the finding offers turns the flaps as wished, or holds them at
// both edges with the slack that lies clean. As many folds are wrong as are sewn.
func TestFlapsOffers(t *testing.T) {
	for _, c := range []struct {
		name string
		s    scheme.Scheme
		kind scheme.Fold // sewn with the first remedy
		n    float64
		both bool
	}{
		{"fall", set(t, "pleat.anchor top", "pleat.sewn troughs"), scheme.Crest, 41, true},
		{"stand", set(t, "ruff.flaps stand", "pleat.anchor top", "pleat.sewn crests"), scheme.Trough, 40, true},
		{"own marks fall", set(t, sewnMarks(scheme.EdgeNone, scheme.EdgeTop)), scheme.Crest, 41, false},
		{"own marks stand", set(t, "ruff.flaps stand", sewnMarks(scheme.EdgeBottom, scheme.EdgeNone)), scheme.Trough, 40, false},
	} {
		f, ok := byID(find(t, c.s), "flaps")
		if !ok || f.Value != c.n || len(f.Remedies) == 0 {
			t.Errorf("%s: %+v", c.name, f)
			continue
		}
		before := looking(t, c.s).p.Row
		if p := with(t, c.s, f.Remedies[0]); p.Row.Kind() != c.kind || p.Row.Edge() != before.Edge() {
			t.Errorf("%s: sewn are %s, to %q", c.name, p.Row.Kind(), p.Row.Edge())
		}
		if c.both != (len(f.Remedies) > 1) {
			t.Errorf("%s: %d remedies", c.name, len(f.Remedies))
		}
		for _, r := range f.Remedies[1:] {
			if p := with(t, c.s, r); math.Abs(p.Slack-GoodSlack) > 0.005 {
				t.Errorf("%s: slack %.3f with %s", c.name, p.Slack, r.Sentence)
			}
		}
	}
}

// TestOfferSewnAsWished: the other kind of fold is offered where the sewn one turns the
// flaps against the wish, and nothing where it does not or where nothing turns them.
func TestOfferSewnAsWished(t *testing.T) {
	for _, c := range []struct {
		set  []string
		want []Change
	}{
		{[]string{"pleat.anchor top", "pleat.sewn troughs"}, []Change{to("pleat.sewn", "crests")}},
		{[]string{"pleat.anchor top", "pleat.sewn crests"}, nil},
		{[]string{"ruff.flaps stand", "pleat.anchor top", "pleat.sewn crests"}, []Change{to("pleat.sewn", "troughs")}},
		{[]string{"ruff.flaps stand", "pleat.anchor top", "pleat.sewn troughs"}, nil},
		{[]string{"ruff.flaps stand"}, nil},
		{[]string{sewnMarks(scheme.EdgeNone, scheme.EdgeTop)}, nil},
	} {
		var s seen
		looking(t, set(t, c.set...)).offerSewnAsWished(&s)
		var got []Change
		for _, r := range s.remedies {
			got = append(got, r.Changes...)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%.60s: %+v, want %+v", c.set, got, c.want)
		}
	}
}

// TestOfferBoth: the folds that hang are offered the other edge, with the slack that
// lies clean, by tucks or by the band's height; words say what is done to which.
func TestOfferBoth(t *testing.T) {
	for _, c := range []struct {
		set  []string
		says string
	}{
		{[]string{"pleat.anchor top"}, "Sew the bottom folds as well, to the bottom edge"},
		{[]string{"pleat.anchor bottom", "pleat.sewn troughs"}, "Sew the top folds as well, to the top edge"},
		{[]string{"pleat.anchor bottom"}, "Sew the top folds to the top edge and the bottom folds to the bottom edge"},
		{[]string{sewnMarks(scheme.EdgeTop, scheme.EdgeNone)}, "Sew the bottom folds as well, to the bottom edge"},
	} {
		s := set(t, c.set...)
		var found seen
		looking(t, s).offerBoth(&found)
		if len(found.remedies) == 0 {
			t.Errorf("%.60s: nothing offered", c.set)
		}
		for _, r := range found.remedies {
			if _, err := Apply(s, r); err != nil {
				continue // Find drops it
			}
			p := with(t, s, r)
			if !strings.HasPrefix(r.Sentence.String(), c.says) || p.Row.OneEdge() || math.Abs(p.Slack-GoodSlack) > 0.005 {
				t.Errorf("%.60s: slack %.3f with %q", c.set, p.Slack, r.Sentence)
			}
		}
	}
}

// TestUnsolvableMarks: own marks that are sewn in no way that can be solved are told
// so, and each way out gives mechanics.
func TestUnsolvableMarks(t *testing.T) {
	for _, c := range []struct{ flaps, first string }{
		{"fall", "Sew all top folds to the top edge, and leave the bottom folds free."},
		{"stand", "Sew all bottom folds to the top edge, and leave the top folds free."},
	} {
		s := set(t, "ruff.flaps "+c.flaps, sewnMarks(scheme.EdgeBottom, scheme.EdgeTop))
		f, ok := byID(find(t, s), "cannot-solve")
		if !ok || len(f.Remedies) != unsolvableWays || f.Remedies[0].Sentence.String() != c.first || !strings.Contains(f.Sentence.String(), "Sewn like this") {
			t.Fatalf("%+v", f)
		}
		for _, r := range f.Remedies {
			if _, err := sim.Design(sim.Ruff{Plan: with(t, s, r)}); err != nil {
				t.Errorf("%s: %v", r.Sentence, err)
			}
		}
	}
}

// TestSayMisfit: value, limit and sentence of sets that the solver refuses.
func TestSayMisfit(t *testing.T) {
	v := looking(t, set(t))
	for _, c := range []struct {
		m            sim.Misfit
		value, limit float64
		says         string
	}{
		{sim.Misfit{Kind: sim.TucksLong, Value: 50, Most: 40}, 50, 40, "The tucks take 50 mm of"},
		{sim.Misfit{Kind: sim.TuckDeep, Value: 70, Most: 60}, 70, 60, "A tuck 70 mm deep"},
		{sim.Misfit{Kind: sim.GapWide, Value: 70, Most: 60}, 70, 60, "The second stitch line, 70 mm out"},
		{sim.Misfit{Kind: sim.NoWave, Value: 10, Most: 9}, 10, 9, "half a set takes 5 mm of the band"},
		{sim.Misfit{Kind: sim.NoOuterWave, Value: 10, Most: 9}, 10, 9, "half a set has 5 mm to span"},
		{sim.Misfit{Kind: sim.TooShort, Value: 0.9, Least: 1}, 0.9, 1, "it cannot reach"},
		{sim.Misfit{Field: "BendU_uNm", Value: 9, Least: 1, Most: 8}, 9, 8, "the cloth's stiffness along the strip, in µN·m, must be between 1 and 8, and is 9"},
	} {
		var s seen
		v.sayMisfit(&s, c.m)
		if s.value != c.value || s.limit != c.limit || !strings.Contains(s.sentence.String(), c.says) {
			t.Errorf("%+v: %g against %g: %s", c.m, s.value, s.limit, s.sentence)
		}
	}
}

// TestFewerSetsAsTyped: fewer sets are offered where the strip at hand gives them. Own
// marks that end on a top fold hide that a bottom fold was typed for the end: without
// the marks the last set takes one panel more.
func TestFewerSetsAsTyped(t *testing.T) {
	all := strings.TrimPrefix(marks(nil), "pleat.marks ")
	mixed := all[:strings.LastIndex(all, ";")]
	s := set(t, "pleat.panel 56", "pleat.marks "+mixed, "strip.have 4012") // 71.5 panels and hems of 8 mm
	f, ok := byID(find(t, s), "strip-short")
	offered := 0
	for _, r := range f.Remedies {
		if !strings.Contains(r.Sentence.String(), "sets, each with more of the band") {
			continue
		}
		offered++
		if p := with(t, s, r); p.SetsHave < float64(p.Sets) {
			t.Errorf("%s The strip gives %.2f of %d.", r.Sentence, p.SetsHave, p.Sets)
		}
	}
	if !ok || offered != 1 {
		t.Errorf("%d numbers of sets offered: %+v", offered, f)
	}
}

// TestLeastPanel: around a round neck the least panel leaves a twentieth of itself for
// the wave that stands longest; sewn at both edges it reaches across the band.
func TestLeastPanel(t *testing.T) {
	for _, c := range []struct {
		set  []string
		want float64
	}{
		{[]string{"pleat.anchor top"}, (415 + 2*math.Pi*70) / 80 / 0.95},
		{[]string{"pleat.anchor top", "wearer.girth 300", "wearer.ease 30", "ruff.depth 110", "ruff.sets 30"}, (330 + 2*math.Pi*110) / 60 / 0.95},
		{[]string{}, GoodSlack * math.Hypot(36, 415./80)},
	} {
		if got := looking(t, set(t, c.set...)).leastPanel(0); math.Abs(got-c.want) > 0.01 {
			t.Errorf("%s: %.3f mm, want %.3f", c.set, got, c.want)
		}
	}
}
