package pleat

import (
	"math"
	"slices"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/scheme"
)

// TestMeanOfHalves: lengths and heights are the plain mean; what one half set shows,
// the mean shows.
func TestMeanOfHalves(t *testing.T) {
	a := Measure{Kappa_1pmm: 1, Pitch_mm: 2, PitchOuter_mm: 3, Panel_mm: 4, HeightOuter_mm: 5, HeightInner_mm: 6, TopOuter_mm: 7, BottomOuter_mm: 8, Loop_mm: 9, InnerOutside_mm: 10}
	b := Measure{Kappa_1pmm: 3, Pitch_mm: 6, PitchOuter_mm: 9, Panel_mm: 12, HeightOuter_mm: 15, HeightInner_mm: 18, TopOuter_mm: 21, BottomOuter_mm: 24, Loop_mm: 27, InnerOutside_mm: 30}
	want := Measure{Kappa_1pmm: 2, Pitch_mm: 4, PitchOuter_mm: 6, Panel_mm: 8, HeightOuter_mm: 10, HeightInner_mm: 12, TopOuter_mm: 14, BottomOuter_mm: 16, Loop_mm: 18, InnerOutside_mm: 20}
	for _, flag := range []func(m *Measure) *bool{
		func(m *Measure) *bool { return &m.LoopsMeet }, func(m *Measure) *bool { return &m.InnerStraight }, func(m *Measure) *bool { return &m.OuterStraight },
	} {
		for n := range 4 {
			a, b, want := a, b, want
			*flag(&a), *flag(&b), *flag(&want) = n&1 != 0, n&2 != 0, n != 0
			if got := mean([]Measure{a, b}); got != want {
				t.Errorf("%+v, want %+v", got, want)
			}
		}
	}
	if mean(nil) != (Measure{}) {
		t.Error("the mean of nothing")
	}
}

// TestAlongPanel: places along a panel: one more than cells, rising, the tucks' ends
// exactly among them, each part in equal steps, in a tuck at least two (one on the
// coarsest grids) and at most a third.
func TestAlongPanel(t *testing.T) {
	for _, q := range []struct {
		crest, trough float64
		nu, a, b      int
	}{{0, 0, 12, 0, 0}, {10, 5, 24, 4, 2}, {1, 0, 24, 2, 0}, {1, 1, 8, 2, 2}, {1, 1, 7, 1, 1}, {1, 1, 4, 1, 1}, {27, 27, 24, 8, 8}, {27, 0, 4, 1, 0}, {12.6, 0, 24, 5, 0}} {
		u := alongPanel(cut{panel: 60, tuckCrest: q.crest, tuckTrough: q.trough}, q.nu)
		if len(u) != q.nu+1 || u[0] != 0 || u[q.nu] != 60 || u[q.a] != q.crest || u[q.nu-q.b] != 60-q.trough || !slices.IsSorted(u) {
			t.Errorf("%+v: %v", q, u)
		}
		for k := 1; k < q.nu; k++ {
			if k != q.a && k != q.nu-q.b && math.Abs(u[k+1]-2*u[k]+u[k-1]) > 1e-9 {
				t.Errorf("%+v: uneven at %d: %v", q, k, u)
			}
		}
	}
}

// TestPart: where a place lies between two others, and a straight edge there.
func TestPart(t *testing.T) {
	for _, q := range [][2]float64{{1, 0}, {2, 0}, {3, 0.25}, {5, 0.75}, {6, 1}, {9, 1}} {
		if got := part(q[0], 2, 6); got != q[1] {
			t.Errorf("%g is at %g between 2 and 6, want %g", q[0], got, q[1])
		}
		var e [1]edgePoint
		if straight(e[:], q[:1], 2, 6, 8); e[0] != (edgePoint{q[1], -8 * q[1]}) {
			t.Errorf("a straight edge at %g: %v", q[0], e[0])
		}
	}
	for mm, want := range map[float64]string{1.23456: "1.235", 2: "2", 0.1: "0.1", 12.0004: "12", 0.0006: "0.001"} {
		if got := text(mm); got != want {
			t.Errorf("%v is written %q", mm, got)
		}
	}
	if fit(0, 5, 1) != 1 || fit(8, 5, 1) != 0.5 || fit(8, 1, 5) != -0.5 {
		t.Error("fit")
	}
}

// TestTuckIsFoldedIn: what lies in a tuck is pulled down at a crest and up at a trough
// by its distance from the tuck's end, and fades over four depths, at most the ruff's.
func TestTuckIsFoldedIn(t *testing.T) {
	c := cut{panel: 60, tuckCrest: 10, tuckTrough: 5}
	for _, q := range []struct{ u, depth, dz, reach float64 }{
		{0, 100, -10, 40}, {4, 100, -6, 40}, {4, 30, -6, 30}, {10, 100, 0, 0}, {30, 100, 0, 0}, {55, 100, 0, 0}, {57, 100, 2, 20}, {60, 12, 5, 12},
	} {
		if dz, reach := c.foldedIn(q.u, q.depth); dz != q.dz || reach != q.reach {
			t.Errorf("%+v: %g, %g", q, dz, reach)
		}
	}
}

// TestTurnBetween: the angle from one tangent to another, counted on where the
// neckline goes round more than once.
func TestTurnBetween(t *testing.T) {
	at := func(angle float64) geom.Station {
		sn, cs := math.Sincos(angle)
		return geom.Station{Tangent: geom.Vec2{X: cs, Y: sn}, Curvature: 0.1}
	}
	for _, turn := range []float64{0, 0.3, 3, 3.3, 6.5, 10} {
		if got := turnBetween(at(0.4), at(0.4+turn), turn/0.1); math.Abs(got-turn) > 1e-12 {
			t.Errorf("a turn of %g is found as %g", turn, got)
		}
	}
}

// TestOnwardCircle: beyond its fold a loop goes on along the circle there, on the side
// that its curvature says; nearly straight as along a parabola.
func TestOnwardCircle(t *testing.T) {
	st := geom.Station{Pos: geom.Vec2{X: 3, Y: -2}, Tangent: geom.Vec2{X: 0.6, Y: 0.8}, Normal: geom.Vec2{X: 0.8, Y: -0.6}}
	for _, k := range []float64{0.02, 1e-7} {
		st.Curvature = k
		centre := st.Pos.Sub(st.Normal.Scale(1 / k))
		for _, s := range []float64{-5, 0, 1, 7} {
			p := onward(st, s)
			if miss := p.Sub(centre).Norm() - 1/k; math.Abs(miss) > 1e-6 || math.Abs(p.Sub(st.Pos).Dot(st.Tangent)-math.Sin(s*k)/k) > 1e-8 {
				t.Errorf("curvature %g, %g mm on: %v is %g off the circle", k, s, p, miss)
			}
		}
	}
}

// TestMakingAgain: an earlier answer of the same size is written over, any other is
// left alone; stages beyond the ends, and none at all, are the ends.
func TestMakingAgain(t *testing.T) {
	p := plan(t, "ruff.sets 9")
	m, other := making(t, p, 8, 2), making(t, p, 8, 3)
	a := m.At(DrawnUp, nil)
	b := m.At(Pleated, &a)
	if &b.Panels[0].V[0] != &a.Panels[0].V[0] {
		t.Error("an earlier answer is not used again")
	}
	for _, wrong := range []Shape{other.At(1, nil), making(t, p, 9, 2).At(1, nil), making(t, plan(t, "ruff.sets 10"), 8, 2).At(1, nil)} {
		before := wrong.Panels[0].V[5]
		if c := m.At(DrawnUp, &wrong); c.Panels[0].V[5] == before || wrong.Panels[0].V[5] != before || len(c.Panels) != p.Panels || len(c.Panels[0].V) != 27 {
			t.Error("an answer of another size is written over")
		}
	}
	for stage, same := range map[float64]float64{-1: LaidFlat, 3: DrawnUp, math.Inf(-1): LaidFlat} {
		if x, y := m.At(stage, nil), m.At(same, nil); !slices.Equal(x.Panels[3].V, y.Panels[3].V) {
			t.Errorf("stage %g is not stage %g", stage, same)
		}
	}
	if x, y := m.At(math.NaN(), nil), m.At(DrawnUp, nil); !slices.Equal(x.Panels[3].V, y.Panels[3].V) {
		t.Error("no stage is not the last")
	}
}

// TestOpened: an edge opened to take so much room takes it, to 2e-9 of its angles.
func TestOpened(t *testing.T) {
	m := making(t, plan(t), 24, 2)
	p := &m.profile[0]
	x, y := make([]float64, 25), make([]float64, 25)
	whole := p.panel
	for _, share := range []float64{0.35, 0.5, 0.9, 0.99} {
		part := p.opened(p.outer, share*whole)
		if p.bend(p.outer, part, x, y); math.Abs(x[24]-share*whole) > 1e-6 {
			t.Errorf("opened to take %g mm it takes %g", share*whole, x[24])
		}
	}
	if p.bend(p.outer, 0, x, y); math.Abs(x[24]-whole) > 1e-9 || y[24] != 0 {
		t.Errorf("laid flat it ends at %g, %g", x[24], y[24])
	}
	if p.bend(p.outer, 1, x, y); math.Abs(x[24]-p.outerHalf) > 1e-9 {
		t.Errorf("folded it takes %g mm of %g", x[24], p.outerHalf)
	}
}

// TestHeightsSpread: a fold that nobody sewed hangs as high as its nearest sewn
// neighbours say, the mean of two as near; with nothing sewn the first panel is centred
// on the band.
func TestHeightsSpread(t *testing.T) {
	p := plan(t, "ruff.sets 8", "band.height 30")
	r := layout{folds: slices.Clone(p.Row)}
	for i := range p.Panels {
		r.panels = append(r.panels, panelCut{inner: &edge{height: float64(10 + i)}})
	}
	up := func(k int) float64 { // fold k over fold k + 1
		if r.folds[k].Fold == scheme.Crest {
			return r.panels[k].inner.height
		}
		return -r.panels[k].inner.height
	}
	free := func(sewn ...int) []float64 {
		for k := range r.folds {
			r.folds[k].Edge = scheme.EdgeNone
		}
		for _, k := range sewn {
			r.folds[k].Edge = scheme.EdgeTop
		}
		return p.innerHeights(r)
	}
	z := free(2)
	for k := range p.Panels {
		if math.Abs(z[k]-z[k+1]-up(k)) > 1e-12 || z[2] != 30 {
			t.Errorf("sewn at one fold: %v", z)
		}
	}
	z = free(1, 5)
	if z[1] != 30 || z[5] != 30 || math.Abs(z[2]-(30-up(1))) > 1e-12 || math.Abs(z[4]-(30+up(4))) > 1e-12 || math.Abs(z[3]-(z[2]-up(2)+z[4]+up(3))/2) > 1e-12 || math.Abs(z[0]-(30+up(0))) > 1e-12 || math.Abs(z[6]-(30-up(5))) > 1e-12 {
		t.Errorf("sewn at two folds: %v", z)
	}
	z = free(1, 4)
	if math.Abs(z[2]-(30-up(1))) > 1e-12 || math.Abs(z[3]-(30+up(3))) > 1e-12 {
		t.Errorf("sewn at two folds, an odd number apart: %v", z)
	}
	if z = free(); math.Abs(z[0]+z[1]-30) > 1e-12 || math.Abs(z[0]-z[1]-up(0)) > 1e-12 || math.Abs(z[3]-z[4]-up(3)) > 1e-12 {
		t.Errorf("nothing sewn: %v", z)
	}
}

// TestSlacks: of own marks that differ the slack is the mean over the panels held at
// both folds, the least and the largest beside it; a panel that hangs free at one
// fold has none.
func TestSlacks(t *testing.T) {
	s := set(t, "ruff.sets 8", "band.height 30", "pleat.tuck_top 4", "pleat.tuck_bottom 3")
	place, sum := 0.0, 0.0
	for i := range 17 {
		m := scheme.Mark{Place: place, Fold: scheme.Trough, Sewn: scheme.EdgeBottom}
		if i%2 == 1 {
			m.Fold, m.Sewn = scheme.Crest, scheme.EdgeTop
		}
		if i == 16 {
			m.Sewn = scheme.EdgeNone
		}
		s.Pleat.Marks = append(s.Pleat.Marks, m)
		panel := 50.0 + []float64{0, 4, -3, 1}[i%4]
		if place += panel; i < 15 {
			sum += panel - 7
		}
	}
	p, err := NewPlan(s)
	if err != nil {
		t.Fatal(err)
	}
	over := math.Hypot(30, p.Row.Pitch(0))
	near(t, "least slack", p.SlackLeast, (47-7)/over, 1e-12)
	near(t, "most slack", p.SlackMost, (54-7)/over, 1e-12)
	near(t, "slack", p.Slack, sum/15/over, 1e-12)
	near(t, "inner panel", p.InnerPanel_mm, (sum+51-4)/16, 1e-12)
}
