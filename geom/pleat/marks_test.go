package pleat

import (
	"testing"

	"ruffwright/geom/scheme"
)

// Own marks at equal steps are the planned ruff; a crest mark moved along the
// strip leaves its own height alone and moves the folds beside it, one up, one
// down.
func TestOwnMarks(t *testing.T) {
	planned := plan(t, "pleat.panel 55", "ruff.sets 12", "pleat.tuck_top 2", "pleat.tuck_bottom 2", "pleat.anchor top")
	own := func(shift float64) Plan {
		s := planned.Scheme
		s.Pleat.Panel = 0
		for k, m := range planned.Row {
			s.Pleat.Marks = append(s.Pleat.Marks, scheme.Mark{Place: m.Place_mm, Fold: m.Fold, Sewn: m.Edge})
			if k == 11 {
				s.Pleat.Marks[k].Place += shift
			}
		}
		p, err := NewPlan(s)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	same := own(0)
	if !same.MarksOwn || same.Sets != 12 || same.Panels != 24 || same.PanelFitted {
		t.Errorf("%+v", same)
	}
	near(t, "mean panel", same.Panel_mm, 55, 1e-12)
	a, b := fold(t, planned, 12, 3), fold(t, same, 12, 3)
	for k := range a.Half {
		for i, v := range a.Shape.Panels[k].V {
			if d := v.Sub(b.Shape.Panels[k].V[i]).Norm(); d > 1e-9 {
				t.Fatalf("panel %d node %d is %g mm off", k, i, d)
			}
		}
	}
	c := fold(t, own(2), 12, 3)
	near(t, "the moved crest", c.Half[10].TopOuter_mm, a.Half[10].TopOuter_mm, 0.05)
	if d := c.Half[10].BottomOuter_mm - a.Half[10].BottomOuter_mm; d > -0.1 {
		t.Errorf("the trough before a longer panel moves by %g mm", d)
	}
	if d := c.Half[11].BottomOuter_mm - a.Half[11].BottomOuter_mm; d < 0.1 {
		t.Errorf("the trough behind a shorter panel moves by %g mm", d)
	}
	near(t, "far off", c.Half[3].HeightOuter_mm, a.Half[3].HeightOuter_mm, 1e-9)
}

// A lost stitch hangs between its neighbours.
func TestLostStitch(t *testing.T) {
	base := plan(t, "pleat.panel 55", "ruff.sets 12", "pleat.anchor top", "pleat.tuck_top 0")
	s := base.Scheme
	for k, m := range base.Row {
		e := m.Edge
		if k == 11 {
			e = scheme.EdgeNone
		}
		s.Pleat.Marks = append(s.Pleat.Marks, scheme.Mark{Place: m.Place_mm, Fold: m.Fold, Sewn: e})
	}
	p, err := NewPlan(s)
	if err != nil {
		t.Fatal(err)
	}
	a, b := fold(t, base, 8, 2), fold(t, p, 8, 2)
	for k := range a.Half {
		near(t, "inner height", b.Half[k].HeightInner_mm, a.Half[k].HeightInner_mm, 1e-9)
		near(t, "top", b.Half[k].TopOuter_mm, a.Half[k].TopOuter_mm, 1e-9)
	}
}
