package sim

import (
	"context"
	"errors"
	"math"
	"runtime"
	"strings"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/scheme"
	"ruffwright/sim/window"
	"ruffwright/testdata/demos"
)

var demo = demos.Scheme

func solve(t testing.TB, s scheme.Scheme, opt Options) Ruff {
	t.Helper()
	r, err := Solve(context.Background(), s, opt)
	if err != nil {
		t.Fatal(err)
	}
	if !r.Solved.Converged() {
		t.Fatalf("did not come to rest: %s", r.Solved.Ruff.Status)
	}
	return r
}

// An elliptical neckline's ruff hangs together: neighbouring panels share their
// folds, sewn folds stand on the band's edges at their marks, nothing lies
// inside the neck, and it is its own mirror image about the middle plane.
func TestSolvedRuffHangsTogether(t *testing.T) {
	s := scheme.Default()
	s.Wearer.Ratio = 1.15
	s.Starch.Bend = 60
	r := solve(t, s, Options{Grid: window.Coarse, SkipBow: true, SkipTangents: true})
	p, shape := r.Plan, r.Solved.Shape
	row := shape.NV + 1
	if len(shape.Panels) != p.Panels || len(r.Solved.Of) != p.Panels {
		t.Fatalf("%d panels, %d places, want %d", len(shape.Panels), len(r.Solved.Of), p.Panels)
	}
	// A quarter of the half sets of an ellipse differ.
	if got := len(r.Solved.Halves); got != p.Panels/4 {
		t.Errorf("%d distinct half sets of %d panels, want a quarter", got, p.Panels)
	}
	for i := range shape.Panels {
		v := shape.Panels[i].V
		if len(v) != (shape.NU+1)*row {
			t.Fatalf("panel %d has %d nodes", i, len(v))
		}
		if i+1 < len(shape.Panels) {
			for j := range row {
				if v[shape.NU*row+j] != shape.Panels[i+1].V[j] {
					t.Fatalf("panels %d and %d part at their fold, row %d", i, i+1, j)
				}
			}
		}
		// Tucked: the sewn points lie a tuck's length from either fold line; the
		// heights of the band's edges must be among the inner nodes, but for the
		// microns that neighbours of different curvature share at their fold.
		var top, bottom bool
		for k := range shape.NU + 1 {
			z := v[k*row].Z
			top = top || math.Abs(z-s.Band.Height) < 0.01
			bottom = bottom || math.Abs(z) < 0.01
		}
		if !top || !bottom {
			t.Errorf("panel %d: inner edge meets the band's top %v, bottom %v", i, top, bottom)
		}
	}
	// Mirror about x = 0: panel i against panel Panels-1-i, reversed.
	for i := range shape.Panels {
		a, b := shape.Panels[i].V, shape.Panels[p.Panels-1-i].V
		for k := range shape.NU + 1 {
			for j := range row {
				q := b[(shape.NU-k)*row+j]
				if d := a[k*row+j].Sub(geom.Vec3{X: -q.X, Y: q.Y, Z: q.Z}).Norm(); d > 1e-3 {
					t.Fatalf("panel %d node (%d, %d) is %g mm from its mirror image", i, k, j, d)
				}
			}
		}
	}
}

// The droop told node by node is the droop measured: the outer edge's mean, each
// node by the cloth it stands for.
func TestDroopOfNodes(t *testing.T) {
	r := solve(t, scheme.Default(), Options{Grid: window.Coarse, SkipBow: true, SkipTangents: true, SkipOther: true})
	for n, c := range r.Solved.Halves {
		nu, nv := len(c.U)-1, len(c.V)-1
		droop := r.Solved.Droop[n]
		mean := 0.0
		for k := range nu + 1 {
			lo, hi := max(k-1, 0), min(k+1, nu)
			mean += (c.U[hi] - c.U[lo]) / 2 / c.Design.Panel_mm * droop[k*(nv+1)+nv]
		}
		if want := r.Solved.Sets[n].Droop_mm; math.Abs(mean-want) > 1e-9 || want == 0 {
			t.Errorf("the outer edge of half set %d droops by %g mm on the mean of its nodes, measured %g", n, mean, want)
		}
	}
}

// The arcs' cubic against the neckline itself (its own tests hold it to mpmath).
func TestArcsFollowTheNeckline(t *testing.T) {
	s := scheme.Default()
	s.Wearer.Ratio, s.Ruff.Sets = 2, 8
	s.Pleat.TuckTop, s.Pleat.TuckBottom = 0, 0
	s.Pleat.Panel = 80
	r, err := Draw(s)
	if err != nil {
		t.Fatal(err)
	}
	half := r.Plan.Pitch_mm / 2
	first := (r.Plan.Neckline_mm - float64(r.Plan.Panels)*half) / 2
	for i, a := range arcsOf(r.Plan) {
		for _, f := range []float64{0, 0.1, 0.37, 0.5, 0.81, 1} {
			from, way := first+float64(i)*half, 1.0
			if r.Plan.Row[i].Fold == scheme.Trough {
				from, way = from+half, -1
			}
			want := r.Plan.Neckline.At(from + way*f*half)
			pos, out := a.at(f)
			if d := pos.Sub(want.Pos).Norm(); d > 8e-3 {
				t.Errorf("panel %d at %g: %g mm off the neckline", i, f, d)
			}
			if d := out.Sub(want.Normal).Norm(); d > 2e-3 {
				t.Errorf("panel %d at %g: outward off by %g", i, f, d)
			}
		}
	}
}

// Sewn at the top alone nothing but its weight holds the lower edge; sewn at
// both edges it stays at least 20 times stiller when the wearer bows.
func TestBothEdgesHoldTheBow(t *testing.T) {
	for _, depth := range []float64{50, 70} {
		s := demo(t, "floppy")
		s.Ruff.Depth = depth
		top := solve(t, s, Options{})
		s.Pleat.Anchor = scheme.AnchorBoth
		s.Band.Height = 0.97 * top.Plan.InnerPanel_mm
		s.Pleat.Panel = top.Plan.Panel_mm
		both := solve(t, s, Options{})
		a, b := top.Solved.Ruff, both.Solved.Ruff
		if !a.BowDone || !b.BowDone {
			t.Fatalf("depth %g: bow test not made: %v, %v", depth, a.BowDone, b.BowDone)
		}
		if a.Bow_mm < 20*b.Bow_mm {
			t.Errorf("depth %g: bow %.2f mm at the top edge alone, %.2f mm at both", depth, a.Bow_mm, b.Bow_mm)
		}
		if top.Solved.Bowed == nil {
			t.Error("no picture of the bowed ruff")
		}
	}
}

// A warm solve ends where a cold one does, sooner.
func TestWarmEndsWhereColdDoes(t *testing.T) {
	s := demo(t, "floppy")
	opt := Options{SkipBow: true, SkipOther: true, SkipTangents: true}
	first := solve(t, s, opt)
	s.Ruff.Depth *= 1.03
	s.Pleat.Panel = first.Plan.Panel_mm
	cold := solve(t, s, opt)
	opt.Warm = first.Solved
	warm := solve(t, s, opt)
	if d := math.Abs(cold.Solved.Ruff.TopOuter_mm - warm.Solved.Ruff.TopOuter_mm); d > 0.05 {
		t.Errorf("warm and cold differ by %g mm", d)
	}
	if warm.Solved.Ruff.Iterations >= cold.Solved.Ruff.Iterations {
		t.Errorf("warm took %d factorisations, cold %d", warm.Solved.Ruff.Iterations, cold.Solved.Ruff.Iterations)
	}
}

func TestSolveStopsWhenAsked(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	calls := 0
	_, err := Solve(ctx, scheme.Default(), Options{Progress: func(Progress) {
		if calls++; calls == 3 {
			cancel()
		}
	}})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("%v, want a cancelled context", err)
	}
	if calls > 6 {
		t.Errorf("%d calls of progress after it was cancelled at the third", calls)
	}
}

// Where the geometry already says that no such set exists the solver says so
// and names why.
func TestSolveRefusesWhatCannotBeSewn(t *testing.T) {
	s := scheme.Default()
	s.Band.Height, s.Pleat.Panel = 60, 60 // the inner edge does not reach from edge to edge
	_, err := Solve(context.Background(), s, Options{})
	if !errors.Is(err, ErrDesign) {
		t.Fatalf("%v, want ErrDesign", err)
	}
	// It speaks in the scheme's keys, and of what would do: 18 mm of tucks and
	// √(60² + 5.1875²) = 60.224 mm between the edges.
	var e scheme.Error
	if !errors.As(err, &e) || e.Field != "pleat.panel" || e.Value.String() != "60 mm" || !strings.Contains(e.Allowed.String(), "78.22") {
		t.Errorf("%+v", e)
	}
	if e := err.Error(); strings.Contains(e, "_mm") || strings.Contains(e, "cell") {
		t.Errorf("%s", e)
	}
}

// Every number of every demo's ruff is finite.
func TestNumbersAreFinite(t *testing.T) {
	for _, name := range []string{"sound", "floppy", "flaps-up", "cuff"} {
		r, err := Solve(context.Background(), demo(t, name), Options{Grid: window.Coarse})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		m := r.Solved.Ruff
		for _, v := range []float64{m.HeightOuter_mm, m.HeightInner_mm, m.TopOuter_mm, m.BottomOuter_mm, m.Loop_mm,
			m.Tilt_deg, m.Droop_mm, m.Bow_mm, m.Vertical_mm_per_g, m.Lateral_mm_per_g, m.OtherShare, m.Thread_N, m.Strain, m.Residual_mN} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s: %+v", name, m)
				break
			}
		}
		t.Logf("%s: height %.1f, top %.1f, bottom %.1f, droop %.1f, tilt %.1f°, bow %.2f mm (%v), bob %.2f, lean %.1f (%v), other %v %.2f",
			name, m.HeightOuter_mm, m.TopOuter_mm, m.BottomOuter_mm, m.Droop_mm, m.Tilt_deg, m.Bow_mm, m.BowDone, m.Vertical_mm_per_g, m.Lateral_mm_per_g, m.LateralStable, m.OtherFound, m.OtherShare)
	}
}

func BenchmarkSolve(b *testing.B) {
	for _, c := range []struct {
		name string
		opt  Options
	}{
		{"shape, 16x8", Options{Grid: window.Coarse, SkipBow: true, SkipOther: true, SkipTangents: true}},
		{"shape, 24x12", Options{SkipBow: true, SkipOther: true, SkipTangents: true}},
		{"everything, 24x12", Options{}},
	} {
		b.Run(c.name, func(b *testing.B) {
			s := demo(b, "sound")
			b.ReportAllocs()
			for range b.N {
				if _, err := Solve(context.Background(), s, c.opt); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// Own marks say themselves what is sewn, whatever pleat.anchor holds.
func TestOwnMarksSayWhatIsSewn(t *testing.T) {
	marks := func(crest, trough scheme.Edge) []scheme.Mark {
		var ms []scheme.Mark
		for i := range 17 {
			m := scheme.Mark{Place: 50 * float64(i), Fold: scheme.Trough, Sewn: trough}
			if i%2 == 1 {
				m.Fold, m.Sewn = scheme.Crest, crest
			}
			ms = append(ms, m)
		}
		return ms
	}
	for _, c := range []struct {
		crest, trough scheme.Edge
		anchor        window.Anchor
		sewn          window.Sewn
		bad           bool
	}{
		{scheme.EdgeTop, scheme.EdgeBottom, window.Both, window.Crests, false},
		{scheme.EdgeTop, scheme.EdgeNone, window.Top, window.Crests, false},
		{scheme.EdgeNone, scheme.EdgeTop, window.Top, window.Troughs, false},
		{scheme.EdgeNone, scheme.EdgeBottom, window.Bottom, window.Troughs, false},
		{scheme.EdgeTop, scheme.EdgeTop, 0, 0, true},
		{scheme.EdgeNone, scheme.EdgeNone, 0, 0, true},
	} {
		s := scheme.Default()
		s.Wearer.Part, s.Wearer.Girth, s.Wearer.Ease = scheme.Wrist, 170, 10
		s.Ruff.Depth, s.Band.Height, s.Pleat.TuckTop, s.Pleat.TuckBottom = 30, 30, 4, 4
		s.Pleat.Marks = marks(c.crest, c.trough)
		r, err := Draw(s)
		if err != nil {
			t.Fatal(err)
		}
		d, err := Design(r)
		if (err != nil) != c.bad || err != nil && !errors.Is(err, ErrDesign) {
			t.Errorf("%v: %v", c, err)
		} else if err == nil && (d.Anchor != c.anchor || d.Sewn != c.sewn) {
			t.Errorf("%v: anchor %v, sewn %v", c, d.Anchor, d.Sewn)
		}
	}
}

// Sets that differ are said to be solved as regular ones; marks of one's own that do
// not differ are regular.
func TestAlike(t *testing.T) {
	for _, moved := range []float64{0, 1} {
		s := scheme.Default()
		s.Wearer.Part, s.Wearer.Girth, s.Wearer.Ease = scheme.Wrist, 170, 10
		s.Ruff.Depth, s.Band.Height, s.Pleat.TuckTop, s.Pleat.TuckBottom = 30, 30, 4, 4
		for i := range 17 {
			m := scheme.Mark{Place: 50 * float64(i), Fold: scheme.Trough, Sewn: scheme.EdgeBottom}
			if i%2 == 1 {
				m.Fold, m.Sewn = scheme.Crest, scheme.EdgeTop
			}
			if i == 8 {
				m.Place += moved
			}
			s.Pleat.Marks = append(s.Pleat.Marks, m)
		}
		r := solve(t, s, Options{Grid: window.Coarse, SkipBow: true, SkipOther: true, SkipTangents: true})
		if !r.Plan.MarksOwn || r.Solved.Alike != (moved != 0) {
			t.Errorf("a mark moved by %g mm: alike %v", moved, r.Solved.Alike)
		}
	}
}

// The totals of a round ruff against the circle's closed forms.
func TestTotals(t *testing.T) {
	s := scheme.Default()
	r, err := Draw(s)
	if err != nil {
		t.Fatal(err)
	}
	y := r.Totals()
	neck := (s.Wearer.Girth + s.Wearer.Ease) / math.Pi
	if want := neck + 2*s.Ruff.Depth; math.Abs(y.OuterBreadth_mm-want) > 1e-9*want || math.Abs(y.OuterDepth_mm-want) > 1e-9*want {
		t.Errorf("outer diameters %g and %g, want %g", y.OuterBreadth_mm, y.OuterDepth_mm, want)
	}
	// A strip of the marked length, hemmed and taken up by the band, at the cloth's
	// mass; the band is folded double.
	cloth := r.Plan.Scheme.Cloth.Mass * 1e-6
	if want := cloth * (r.Plan.Strip_mm*(70+2*2+8) + 2*36*430); math.Abs(y.Mass_g-want) > 1e-9*want {
		t.Errorf("mass %g g, want %g", y.Mass_g, want)
	}
	s.Wearer.Ratio = 1.2
	if r, err = Draw(s); err != nil {
		t.Fatal(err)
	}
	if y := r.Totals(); math.Abs((y.OuterBreadth_mm-140)/(y.OuterDepth_mm-140)-1.2) > 1e-9 {
		t.Errorf("%+v", y)
	}
}

// Solving goes on for hours in a workshop's batch or on a page left open: memory
// stays flat over 500 solves, warm and cold.
func TestMemoryStaysFlat(t *testing.T) {
	if testing.Short() {
		t.Skip("500 solves")
	}
	heap := func() float64 {
		runtime.GC()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return float64(m.HeapAlloc)
	}
	s := demo(t, "floppy")
	opt := Options{Grid: window.Grid{NU: 12, NV: 6}, SkipBow: true, SkipOther: true, SkipTangents: true}
	var after20 float64
	for i := range 500 {
		s.Ruff.Depth = 60 + float64(i%10)
		r, err := Solve(context.Background(), s, opt)
		if err != nil {
			t.Fatal(err)
		}
		opt.Warm = r.Solved
		if i == 19 {
			after20 = heap()
		}
	}
	if end := heap(); end > 1.05*after20 {
		t.Errorf("%.2f MB after 20 solves, %.2f MB after 500", after20/1e6, end/1e6)
	} else {
		t.Logf("%.2f MB after 20 solves, %.2f MB after 500", after20/1e6, end/1e6)
	}
}
