package pleat

import (
	"math"
	"testing"
)

// Against the loops of the closed form: where they are free, the least gap at the
// outer edge is what the room for a set leaves beside a loop, a loop's clear
// width and the cloth twice; where they meet it is none. A node's distance to a
// plane is shorter than its way along the wall by the sine of the turn: 1 %.
func TestGapsBesideLoops(t *testing.T) {
	for _, changes := range [][]string{
		{"pleat.panel 40", "pleat.tuck_top 0", "pleat.tuck_bottom 0"},
		{"ruff.sets 24", "pleat.panel 45"},
		{"ruff.sets 30", "wearer.ratio 1.2", "pleat.panel 40"},
	} {
		p := plan(t, changes...)
		f := fold(t, p, 64, 4)
		gaps, err := p.Gaps(f.Shape)
		if err != nil {
			t.Fatal(err)
		}
		for i, m := range f.Half {
			if m.LoopsMeet {
				t.Fatalf("%v: loops meet", changes)
			}
			least := math.Inf(1)
			for k := range 65 {
				least = min(least, gaps[i][k*5+4])
			}
			thick := p.Scheme.Cloth.Thickness
			want := m.PitchOuter_mm - (m.Loop_mm + thick) - thick
			near(t, "least gap at the outer edge", least, want, 0.012*m.PitchOuter_mm)
		}
	}
	p := plan(t, "ruff.sets 100", "pleat.tuck_top 6", "pleat.tuck_bottom 6")
	f := fold(t, p, 24, 4)
	gaps, err := p.Gaps(f.Shape)
	if err != nil {
		t.Fatal(err)
	}
	if !f.Mean.LoopsMeet {
		t.Fatal("loops do not meet")
	}
	for i := range gaps {
		least := math.Inf(1)
		for k := range 25 {
			least = min(least, gaps[i][k*5+4])
		}
		near(t, "gap where loops meet", least, 0, 0.05)
	}
}

func TestGapsRefuse(t *testing.T) {
	p := plan(t)
	f := fold(t, p, 8, 2)
	if _, err := p.Gaps(Shape{NU: 8, NV: 2, Panels: f.Shape.Panels[1:]}); err == nil {
		t.Error("a panel is missing and nothing is said")
	}
	f.Shape.Panels[3].V = f.Shape.Panels[3].V[1:]
	if _, err := p.Gaps(f.Shape); err == nil {
		t.Error("a node is missing and nothing is said")
	}
	if _, err := (Plan{}).Gaps(Shape{}); err == nil {
		t.Error("the zero plan has gaps")
	}
}
