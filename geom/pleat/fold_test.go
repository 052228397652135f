package pleat

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/geom"
	"ruffwright/geom/curve"
	"ruffwright/geom/scheme"
	"ruffwright/testdata/reference"
)

func fold(t testing.TB, p Plan, nu, nv int) Folded {
	t.Helper()
	f, err := p.Fold(nu, nv)
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Half) != p.Panels || len(f.Shape.Panels) != p.Panels || f.Shape.NU != nu || f.Shape.NV != nv {
		t.Fatalf("%d half sets and %d panels of %d", len(f.Half), len(f.Shape.Panels), p.Panels)
	}
	return f
}

// row gives the nodes of panel k on the line j from inner (0) to outer edge.
func (s Shape) row(k, j int) []geom.Vec3 {
	out := make([]geom.Vec3, s.NU+1)
	for i := range out {
		out[i] = s.Panels[k].V[i*(s.NV+1)+j]
	}
	return out
}

func length(v []geom.Vec3) float64 {
	sum := 0.
	for i := 1; i < len(v); i++ {
		sum += v[i].Sub(v[i-1]).Norm()
	}
	return sum
}

// Heights and loops of the whole ruff against the elastica solved outside this
// project (testdata/reference: elliptic integrals to 15 digits, and first
// integrals with Newton to 1e-11 where loops touch).
func TestHeightsAgainstReference(t *testing.T) {
	// Narrow sets for the small ratios, wide ones for the great.
	var bases []Plan
	for _, sets := range []string{"200", "40"} {
		bases = append(bases, plan(t, "ruff.sets "+sets, "pleat.tuck_top 0", "pleat.tuck_bottom 0", "cloth.thickness 0.03", "pleat.anchor top"))
	}
	checked := 0
	check := func(ratio, height, loop float64, meet bool) {
		base := bases[0]
		if ratio > 0.3 {
			base = bases[1]
		}
		panel := base.PitchOuter_mm / 2 / ratio
		if panel < 5 || panel > 200 {
			return
		}
		s := base.Scheme
		s.Pleat.Panel = panel
		p, err := NewPlan(s)
		if err != nil {
			t.Fatal(err)
		}
		f := fold(t, p, 8, 1)
		for _, m := range f.Half {
			near(t, "height ÷ panel at "+strconv.FormatFloat(ratio, 'g', 6, 64), m.HeightOuter_mm/panel, height, 1e-6)
			near(t, "loop ÷ panel", (m.Loop_mm+0.03)/panel, loop, 1e-6)
			if m.LoopsMeet != meet {
				t.Errorf("half pitch ÷ panel %g: loops meet %v", ratio, m.LoopsMeet)
			}
		}
		checked++
	}
	for _, r := range reference.Numbers(t, "elastica.csv") {
		if r["chord_over_L"] > curve.ContactRatio+1e-9 {
			check(r["chord_over_L"], r["height_over_L"], r["loop_width_over_L"], false)
		}
	}
	free := checked
	for _, r := range reference.Numbers(t, "elastica_contact.csv") {
		if d := r["D_over_L"]; d < curve.ContactRatio-1e-9 {
			check(d, r["height_over_L"], 2*d, true)
		}
	}
	if free < 10 || checked-free < 8 {
		t.Errorf("%d free and %d touching rows checked", free, checked-free)
	}
}

// The fitted panel gives the wanted height back, on a round neck for every half
// set; on an ellipse the mean stays near.
func TestFittedHeight(t *testing.T) {
	for _, h := range []string{"12", "30", "45", "80"} {
		p := plan(t, "ruff.height "+h, "pleat.tuck_top 2", "pleat.tuck_bottom 2", "band.height 8")
		want, _ := strconv.ParseFloat(h, 64)
		for _, m := range fold(t, p, 8, 1).Half {
			near(t, "fitted height", m.HeightOuter_mm, want, 1e-9*want)
		}
	}
	p := plan(t, "wearer.ratio 1.3")
	near(t, "fitted height on an ellipse", fold(t, p, 8, 1).Mean.HeightOuter_mm, 45, 0.05)
}

// Rolled onto the wall at the ruff's depth, the outer edge keeps its length, and
// the inner one what the tucks leave. Chords of a fine grid are short of the arc
// by (κh)²/24 of it: at 256 cells below 1e-4 where loops are free, for κ < 8/P.
func TestEdgesKeepTheirLength(t *testing.T) {
	for _, c := range []struct {
		changes []string
		bound   float64
	}{
		{nil, 1e-4},
		{[]string{"wearer.ratio 1.25"}, 4e-4},
		{[]string{"pleat.anchor top", "pleat.tuck_bottom 0"}, 1e-4},
		{[]string{"ruff.sets 12", "ruff.depth 120", "ruff.height 90", "band.height 70"}, 1e-4},
		{[]string{"ruff.sets 100", "pleat.tuck_top 6", "pleat.tuck_bottom 6"}, 4e-4}, // touching
		// Fitted to shared folds.
		{[]string{"wearer.ratio 0.8", "ruff.sets 16"}, 3e-3},
	} {
		p := plan(t, c.changes...)
		f := fold(t, p, 256, 4)
		for k := range f.Shape.Panels {
			near(t, "outer edge", length(f.Shape.row(k, 4))/p.Panel_mm, 1, c.bound)
			// The tucks' own cloth is part of the row too.
			near(t, "inner edge", length(f.Shape.row(k, 0))/p.Panel_mm, 1, 4e-3)
		}
	}
}

// Sewn folds lie on their edge of the band, at their station.
func TestInnerEdgeIsSewn(t *testing.T) {
	for _, changes := range [][]string{
		nil,
		{"wearer.ratio 1.3", "pleat.first crest", "pleat.last crest"},
		{"pleat.anchor top"}, {"pleat.anchor top", "pleat.sewn troughs"},
		{"pleat.anchor bottom"}, {"pleat.anchor bottom", "pleat.sewn troughs"},
		{"pleat.tuck_top 0", "pleat.tuck_bottom 0", "band.height 54"},
		{"pleat.tuck_top 0", "pleat.tuck_bottom 18"},
	} {
		p := plan(t, changes...)
		for _, nu := range []int{4, 7, 24} {
			f := fold(t, p, nu, 3)
			for k := range f.Shape.Panels {
				for end, m := range []Mark{p.Row[k], p.Row[k+1]} {
					if m.Edge == scheme.EdgeNone {
						continue
					}
					st := p.Neckline.At(p.Row[k+end].Station_mm)
					want := geom.Vec3{X: st.Pos.X, Y: st.Pos.Y, Z: p.Edge_mm(m.Edge)}
					best := math.Inf(1)
					for _, v := range f.Shape.row(k, 0) {
						best = math.Min(best, v.Sub(want).Norm())
					}
					if best > 1e-9 {
						t.Fatalf("%v: panel %d on %d cells misses its sewn %s by %g mm", changes, k, nu, m.Fold, best)
					}
				}
			}
		}
	}
}

// The sewn edge and the hanging one, by hand: with crests sewn to an edge the
// inner troughs hang by the elastica's height, with troughs sewn the crests stand
// by it; the outer edge's middle is the inner one's.
func TestHangAndStand(t *testing.T) {
	for _, c := range []struct {
		anchor, sewn string
		edge, side   float64
	}{
		{"top", "crests", 36, -1}, {"top", "troughs", 36, 1}, {"bottom", "crests", 0, -1}, {"bottom", "troughs", 0, 1},
	} {
		p := plan(t, "pleat.anchor "+c.anchor, "pleat.sewn "+c.sewn, "pleat.panel 50", "pleat.tuck_top 4", "pleat.tuck_bottom 4")
		e, err := curve.NewElastica(46, p.Pitch_mm/2)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range fold(t, p, 12, 2).Half {
			near(t, "inner height", m.HeightInner_mm, e.Height(), 1e-9)
			near(t, "middle", (m.TopOuter_mm+m.BottomOuter_mm)/2, c.edge+c.side*e.Height()/2, 1e-9)
		}
	}
}

// Neighbours share the nodes of the fold between them.
func TestNeighboursShareTheirFold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, ok := anyPlan(t)
		if !ok {
			t.Skip()
		}
		f, err := p.Fold(rapid.IntRange(4, 24).Draw(t, "nu"), rapid.IntRange(1, 6).Draw(t, "nv"))
		if err != nil {
			t.Fatal(err)
		}
		n := f.Shape.NV + 1
		size := p.Neckline_mm + p.Panel_mm + p.Scheme.Ruff.Depth
		for k := range f.Shape.Panels {
			v := f.Shape.Panels[k].V
			if len(v) != n*(f.Shape.NU+1) {
				t.Fatalf("panel %d has %d nodes", k, len(v))
			}
			for _, q := range v {
				if d := q.Norm(); !(d < 1e4*size) {
					t.Fatalf("panel %d: node %v", k, q)
				}
			}
			if k == 0 {
				continue
			}
			before := f.Shape.Panels[k-1].V
			for j := range n {
				if d := before[f.Shape.NU*n+j].Sub(v[j]).Norm(); !(d < 1e-9*size) {
					t.Fatalf("panels %d and %d are %g mm apart at line %d", k-1, k, d, j)
				}
			}
		}
		for _, m := range append(f.Half, f.Mean) {
			for _, v := range []float64{m.Kappa_1pmm, m.Pitch_mm, m.PitchOuter_mm, m.Panel_mm, m.HeightOuter_mm, m.HeightInner_mm, m.TopOuter_mm, m.BottomOuter_mm, m.Loop_mm, m.InnerOutside_mm} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%+v", m)
				}
			}
		}
	})
}

// No half set leaves its wedge where its curves do not say so.
func TestHalfSetsStayInTheirWedge(t *testing.T) {
	for _, changes := range [][]string{
		nil, {"wearer.ratio 1.3"}, {"pleat.anchor top", "ruff.sets 80"}, {"ruff.sets 12", "ruff.height 120", "band.height 100"},
	} {
		s := scheme.Default()
		for _, c := range changes {
			key, value, _ := strings.Cut(c, " ")
			if key == "band.height" {
				value = "80"
			}
			if err := s.Set(key, value); err != nil {
				t.Fatal(err)
			}
		}
		p, err := NewPlan(s)
		if err != nil {
			t.Fatal(err)
		}
		f := fold(t, p, 24, 6)
		for k := range f.Shape.Panels {
			if f.Half[k].InnerOutside_mm > 0 {
				continue
			}
			a, b := p.Neckline.At(p.Row[k].Station_mm), p.Neckline.At(p.Row[k+1].Station_mm)
			for i, v := range f.Shape.Panels[k].V {
				before, beyond := -v.XY().Sub(a.Pos).Dot(a.Tangent), v.XY().Sub(b.Pos).Dot(b.Tangent)
				if before > 1e-6 || beyond > 1e-6 {
					t.Fatalf("%v: panel %d node %d leaves its wedge by %g and %g mm", changes, k, i, before, beyond)
				}
			}
		}
	}
}

// Too little cloth between sewn folds: a straight, flagged line, never NaN.
func TestNoInnerCurve(t *testing.T) {
	p := plan(t, "pleat.panel 50")
	if !(p.Slack < 1) {
		t.Fatalf("slack %g", p.Slack)
	}
	f := fold(t, p, 24, 3)
	for k, m := range f.Half {
		if !m.InnerStraight {
			t.Fatalf("half set %d is not flagged", k)
		}
		row := f.Shape.row(k, 0)
		for _, v := range row {
			if math.IsNaN(v.X + v.Y + v.Z) {
				t.Fatal(v)
			}
		}
	}
	if !f.Mean.InnerStraight || fold(t, plan(t), 24, 3).Mean.InnerStraight {
		t.Error("the mean's flag")
	}
	// A panel shorter than its room at the outer edge lies level.
	f = fold(t, plan(t, "ruff.sets 8", "ruff.depth 250", "pleat.panel 80"), 6, 2)
	if !f.Mean.OuterStraight || f.Mean.HeightOuter_mm != 0 {
		t.Errorf("%+v", f.Mean)
	}
}

func TestFoldGrid(t *testing.T) {
	p := plan(t)
	for _, g := range [][2]int{{3, 1}, {4, 0}, {257, 1}, {4, 257}, {-1, -1}} {
		if _, err := p.Fold(g[0], g[1]); err == nil {
			t.Errorf("a grid of %v is folded", g)
		}
	}
	one, less := Plan{Row: p.Row[:1]}, p
	less.Row = p.Row[1:]
	for name, bad := range map[string]Plan{"the zero plan": {}, "a single mark": one, "a plan with a mark less": less} {
		if _, err := bad.Fold(8, 8); err == nil {
			t.Error(name + " is folded")
		}
	}
}

// The whole ruff of 40 sets on the still grid; µs/set is what the page waits for.
func BenchmarkFold(b *testing.B) {
	for _, c := range []struct{ name, change string }{
		{"round", "wearer.ratio 1"}, {"ellipse", "wearer.ratio 1.1"}, {"top", "pleat.anchor top"},
	} {
		b.Run(c.name, func(b *testing.B) {
			p := plan(b, c.change)
			for b.Loop() {
				if _, err := p.Fold(24, 12); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(p.Sets), "µs/set")
		})
	}
}

func BenchmarkPlan(b *testing.B) {
	s := scheme.Default()
	for b.Loop() {
		if _, err := NewPlan(s); err != nil {
			b.Fatal(err)
		}
	}
}
