package pleat

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/geom"
	"ruffwright/geom/scheme"
)

func making(t testing.TB, p Plan, nu, nv int) *Making {
	t.Helper()
	m, err := NewMaking(p, nu, nv)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

var makings = [][]string{
	nil,
	{"wearer.ratio 1.25"},
	{"pleat.anchor top", "pleat.tuck_bottom 0"},
	{"pleat.anchor top", "pleat.sewn troughs"},
	{"pleat.tuck_top 0", "pleat.tuck_bottom 0", "pleat.panel 40"},
	{"ruff.sets 12", "ruff.depth 120", "ruff.height 90", "band.height 70"},
	{"ruff.sets 100", "pleat.tuck_top 6", "pleat.tuck_bottom 6"},
	{"wearer.ratio 0.8", "ruff.sets 16"},
	{"wearer.part wrist", "wearer.girth 170", "ruff.sets 24", "ruff.depth 40", "ruff.height 25", "band.height 20", "pleat.tuck_top 3", "pleat.tuck_bottom 3"},
	{"pleat.first crest", "ruff.sets 9"},
}

// Lengths at every stage. The edges keep theirs to 0.2 % (to 0.5 % where panels
// that differ share their folds: see TestEdgesKeepTheirLength), of which chords
// of 48 cells and the tucks' corners take 0.15 %. Laid flat to pleated the strip
// is a cylinder: every line across it is the depth, every diagonal of a cell is
// what edge and depth make it. Drawn up, lines across are as far from the depth
// as Fold's are: to 3.5 %.
func TestMakingKeepsLengths(t *testing.T) {
	const nu, nv = 48, 6
	for _, changes := range makings {
		p := plan(t, changes...)
		m := making(t, p, nu, nv)
		bound := 2e-3
		if p.Neckline.Breadth() != p.Neckline.Depth() && p.Sets < 20 {
			bound = 5e-3
		}
		depth := p.Scheme.Ruff.Depth
		var s Shape
		for stage := LaidFlat; stage <= DrawnUp; stage += 0.25 {
			s = m.At(stage, &s)
			for i := range s.Panels {
				panel := p.Row[i+1].Place_mm - p.Row[i].Place_mm
				near(t, fmt.Sprintf("%v at %g: outer edge of panel %d", changes, stage, i), length(s.row(i, nv))/panel, 1, bound)
				near(t, fmt.Sprintf("%v at %g: inner edge of panel %d", changes, stage, i), length(s.row(i, 0))/panel, 1, bound)
				for k := range nu + 1 {
					line := s.Panels[i].V[k*(nv+1) : (k+1)*(nv+1)]
					if stage > Pleated {
						near(t, fmt.Sprintf("%v at %g: across panel %d", changes, stage, i), length(line)/depth, 1, 0.035)
						continue
					}
					near(t, fmt.Sprintf("%v at %g: across panel %d", changes, stage, i), length(line)/depth, 1, 1e-9)
					if k < nu {
						next := s.Panels[i].V[(k+1)*(nv+1) : (k+2)*(nv+1)]
						edge := next[0].Sub(line[0]).Norm()
						near(t, fmt.Sprintf("%v at %g: diagonal in panel %d", changes, stage, i), next[nv].Sub(line[0]).Norm(), math.Hypot(edge, depth), 1e-9*depth)
					}
				}
			}
		}
	}
}

// Laid flat the strip is flat and as long as its marks say; drawn up it is Fold's
// shape: exactly on a circle, within 0.1 mm where an ellipse's panels meet their
// folds halfway (Fold scales them, At shears them).
func TestMakingBeginsAndEnds(t *testing.T) {
	for _, changes := range makings {
		p := plan(t, changes...)
		m := making(t, p, 16, 4)
		s := m.At(LaidFlat, nil)
		for i := range s.Panels {
			for _, v := range s.Panels[i].V {
				near(t, fmt.Sprintf("%v: height of the flat strip", changes), v.Z, s.Panels[0].V[0].Z, 0.02*p.Panel_mm)
			}
		}
		last := s.Panels[len(s.Panels)-1].V
		near(t, fmt.Sprintf("%v: flat strip", changes), last[len(last)-1].XY().Sub(s.Panels[0].V[4].XY()).Norm(), p.Marked_mm, 1e-9*p.Marked_mm)

		want := fold(t, p, 16, 4).Shape
		bound := 1e-9
		if p.Neckline.Breadth() != p.Neckline.Depth() {
			bound = 0.1
		}
		s = m.At(math.NaN(), &s)
		for i := range s.Panels {
			for k, v := range s.Panels[i].V {
				near(t, fmt.Sprintf("%v: drawn up, node %d of panel %d is off", changes, k, i), v.Sub(want.Panels[i].V[k]).Norm(), 0, bound)
			}
		}
	}
}

// Neighbours share their fold at every stage, nothing leaps from one moment to
// the next, and all is finite, for schemes at random.
func TestMakingGoesSmoothly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := scheme.Default()
		s.Wearer.Ratio = rapid.Float64Range(0.7, 1.4).Draw(t, "ratio")
		s.Ruff.Sets = rapid.IntRange(8, 48).Draw(t, "sets")
		s.Ruff.Depth = rapid.Float64Range(10, 200).Draw(t, "depth")
		s.Ruff.Height = rapid.Float64Range(20, 90).Draw(t, "height")
		s.Pleat.Anchor = rapid.SampledFrom([]scheme.Anchor{scheme.AnchorTop, scheme.AnchorBottom, scheme.AnchorBoth}).Draw(t, "anchor")
		s.Pleat.TuckTop = rapid.Float64Range(0, 6).Draw(t, "tuck")
		p, err := NewPlan(s)
		if err != nil {
			t.Skip()
		}
		const nu, nv = 8, 2
		m, err := NewMaking(p, nu, nv)
		if err != nil {
			t.Fatal(err)
		}
		var was geom.Vec3 // in the middle, where the row keeps its place
		var f Shape
		for stage := LaidFlat; stage <= DrawnUp; stage += 1. / 16 {
			f = m.At(stage, &f)
			for i := range f.Panels {
				for _, v := range f.Panels[i].V {
					if !(v.Norm() < 1e5) {
						t.Fatalf("at %g a node is at %v", stage, v)
					}
				}
				if i == 0 {
					continue
				}
				for j := range nv + 1 {
					if d := f.Panels[i].V[j].Sub(f.Panels[i-1].V[nu*(nv+1)+j]).Norm(); d > 1e-6 {
						t.Fatalf("at %g panels %d and %d are %g mm apart", stage, i-1, i, d)
					}
				}
			}
			now := f.Panels[p.Panels/2].V[nv]
			if stage > LaidFlat && now.Sub(was).Norm() > 0.5*p.Panel_mm+1 {
				t.Fatalf("at %g the middle fold leaps by %g mm, fold to fold %g", stage, now.Sub(was).Norm(), p.Panel_mm)
			}
			was = now
		}
	})
}

func TestMakingGrid(t *testing.T) {
	p := plan(t)
	for _, g := range [][2]int{{3, 4}, {257, 4}, {8, 0}, {8, 257}} {
		if _, err := NewMaking(p, g[0], g[1]); err == nil {
			t.Errorf("a grid of %v is taken", g)
		}
	}
	if _, err := NewMaking(Plan{}, 8, 4); err == nil {
		t.Error("the zero plan is taken")
	}
}

// What one picture of the fold-through costs, on the grid that the page moves.
func BenchmarkMaking(b *testing.B) {
	for _, c := range []struct{ name, change string }{{"round", "wearer.ratio 1"}, {"ellipse", "wearer.ratio 1.1"}} {
		b.Run(c.name, func(b *testing.B) {
			p := plan(b, c.change)
			m := making(b, p, 12, 4)
			var s Shape
			stage := 0.0
			for b.Loop() {
				s = m.At(stage, &s)
				if stage += 0.01; stage > 2 {
					stage = 0
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/1e3/float64(b.N)/float64(p.Sets), "µs/set")
		})
	}
}
