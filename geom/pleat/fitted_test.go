package pleat

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/geom/scheme"
)

// Each of these changes of the first ruff left its inner edge too short to reach
// from edge to edge: the tucks give way, nothing else does.
func TestTucksGiveWay(t *testing.T) {
	for _, c := range []struct{ change, height string }{
		{"ruff.height 42", "42"}, {"band.height 38", ""}, {"pleat.tuck_top 12", ""}, {"ruff.sets 60", ""},
	} {
		p := plan(t, c.change)
		if !p.TucksFitted || p.PanelReaches {
			t.Errorf("%s: tucks fitted %v, panel lengthened %v; want the tucks alone", c.change, p.TucksFitted, p.PanelReaches)
		}
		near(t, c.change+": slack", p.Slack, fitReach, 0.006) // tucks are rounded down to 0.1 mm
		top, bottom := p.Scheme.Pleat.TuckTop, p.Scheme.Pleat.TuckBottom
		near(t, c.change+": proportion", top*p.Given.Pleat.TuckBottom, bottom*p.Given.Pleat.TuckTop, 0.1*12)
		near(t, c.change+": height", fold(t, p, 8, 1).Mean.HeightOuter_mm, p.Given.Ruff.Height, 1e-6)
		for _, m := range p.Row[1:p.Panels] {
			if want := map[scheme.Fold]float64{scheme.Crest: top, scheme.Trough: bottom}[m.Fold]; m.Tuck_mm != want {
				t.Fatalf("%s: a mark has a tuck of %g mm, the plan of %g", c.change, m.Tuck_mm, want)
			}
		}
	}
}

// A band taller than the panel that the height asks for: the panel reaches over
// it, and the ruff stands taller than wanted.
func TestPanelReaches(t *testing.T) {
	p := plan(t, "band.height 60")
	if !p.PanelReaches || p.Scheme.Pleat.TuckTop != 0 {
		t.Fatalf("panel %g mm, lengthened %v, tuck %g mm", p.Panel_mm, p.PanelReaches, p.Scheme.Pleat.TuckTop)
	}
	near(t, "panel", p.Panel_mm, fitReach*math.Hypot(60, p.Pitch_mm/2), 1e-9)
	if h := fold(t, p, 8, 1).Mean.HeightOuter_mm; h < 45 {
		t.Errorf("%g mm high, want more than the 45 wanted", h)
	}
}

// Whatever is fitted reaches and keeps a wave; tucks are never deeper than given;
// and what was given for the panel is left as it is.
func TestAnyFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, ok := anyPlan(t)
		if !ok || p.MarksOwn {
			t.Skip()
		}
		got, given := p.Scheme.Pleat, p.Given.Pleat
		if got.TuckTop > given.TuckTop || got.TuckBottom > given.TuckBottom {
			t.Fatalf("tucks of %g and %g mm, given %g and %g", got.TuckTop, got.TuckBottom, given.TuckTop, given.TuckBottom)
		}
		if !p.PanelFitted {
			if p.TucksFitted || got.TuckTop != given.TuckTop || got.TuckBottom != given.TuckBottom || p.Panel_mm != given.Panel {
				t.Fatalf("a panel of %g mm was given, and %g mm with tucks of %g and %g is planned", given.Panel, p.Panel_mm, got.TuckTop, got.TuckBottom)
			}
			return
		}
		if p.Slack != 0 && p.SlackLeast < fitReach-1e-9 {
			t.Fatalf("slack %g", p.SlackLeast)
		}
		if p.InnerPanel_mm < p.Pitch_mm/2 {
			t.Fatalf("inner edge %g mm for half a pitch of %g", p.InnerPanel_mm, p.Pitch_mm/2)
		}
		if p.TucksFitted == (got.TuckTop == given.TuckTop && got.TuckBottom == given.TuckBottom) {
			t.Fatalf("tucks fitted: %v, from %g and %g to %g and %g", p.TucksFitted, given.TuckTop, given.TuckBottom, got.TuckTop, got.TuckBottom)
		}
	})
}
