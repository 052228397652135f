package pleat

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/geom"
	"ruffwright/geom/scheme"
)

// A row that begins and ends on the same fold mirrors itself in the plane through
// the chin and the nape; with sets in fours on an ellipse also front to back.
func TestMirrorSymmetry(t *testing.T) {
	for _, ratio := range []string{"1", "1.3", "0.75"} {
		p := plan(t, "wearer.ratio "+ratio, "ruff.sets 20")
		f := fold(t, p, 12, 4)
		n := len(f.Shape.Panels)
		for k := range f.Shape.Panels {
			for i := 0; i <= 12; i++ {
				for j := 0; j <= 4; j++ {
					v := f.Shape.Panels[k].V[i*5+j]
					w := f.Shape.Panels[n-1-k].V[(12-i)*5+j]
					if d := (geom.Vec3{X: -v.X, Y: v.Y, Z: v.Z}).Sub(w).Norm(); d > 1e-7 {
						t.Fatalf("ratio %s: panel %d node %d,%d is %g mm from its mirror image", ratio, k, i, j, d)
					}
					if k < n/2 {
						w = f.Shape.Panels[n/2-1-k].V[(12-i)*5+j]
						if d := (geom.Vec3{X: v.X, Y: -v.Y, Z: v.Z}).Sub(w).Norm(); d > 1e-7 {
							t.Fatalf("ratio %s: panel %d node %d,%d is %g mm from its image behind", ratio, k, i, j, d)
						}
					}
				}
			}
		}
	}
}

// Every length times the same factor gives the same ruff in another size.
func TestScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(0.6, 1.3).Draw(t, "factor")
		s := scheme.Default()
		s.Wearer.Ratio = rapid.Float64Range(0.7, 1.4).Draw(t, "ratio")
		s.Ruff.Sets = rapid.IntRange(12, 48).Draw(t, "sets")
		s.Pleat.Anchor = rapid.SampledFrom([]scheme.Anchor{scheme.AnchorTop, scheme.AnchorBottom, scheme.AnchorBoth}).Draw(t, "anchor")
		s.Cloth.Thickness = 0.2
		b := s
		for _, l := range []*float64{
			&b.Wearer.Girth, &b.Wearer.Ease, &b.Ruff.Depth, &b.Ruff.Height, &b.Pleat.TuckTop, &b.Pleat.TuckBottom,
			&b.Band.Height, &b.Cloth.Thickness, &b.Strip.Hem,
		} {
			*l *= f
		}
		p, err := NewPlan(s)
		if err != nil {
			t.Skip()
		}
		q, err := NewPlan(b)
		if err != nil {
			t.Fatal(err)
		}
		a, _ := p.Fold(8, 3)
		c, _ := q.Fold(8, 3)
		if math.Abs(p.Slack-q.Slack) > 1e-9 || math.Abs(p.Strip_mm*f-q.Strip_mm) > 1e-8*q.Strip_mm {
			t.Fatalf("slack %g and %g, strip %g and %g", p.Slack, q.Slack, p.Strip_mm*f, q.Strip_mm)
		}
		for k := range a.Shape.Panels {
			for i, v := range a.Shape.Panels[k].V {
				if d := v.Scale(f).Sub(c.Shape.Panels[k].V[i]).Norm(); d > 1e-6 {
					t.Fatalf("panel %d node %d is %g mm off", k, i, d)
				}
			}
		}
	})
}
