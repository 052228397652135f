package window

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"ruffwright/sim/shell"
)

var quick = Settings{Grid: Coarse, SkipBow: true, SkipOther: true, SkipTangents: true}

// TestTurnedOver: crests sewn to the top edge are troughs sewn to the bottom
// edge, turned over: forming knows no weight, so the shapes are the same.
func TestTurnedOver(t *testing.T) {
	for _, tuck := range []float64{0, 8} {
		a := solved(t, tabled(Top, Crests, tuck, 30, 0), quick)
		b := solved(t, tabled(Bottom, Troughs, tuck, 30, 0), quick)
		nu, nv := len(a.U)-1, len(a.V)-1
		for j := range nv + 1 {
			for i := range nu + 1 {
				p, q := a.Node(a.Formed, i, j), b.Node(b.Formed, nu-i, j)
				if d := math.Abs((30 - p[2]) - q[2]); d > 1e-3 {
					t.Fatalf("tuck %g, node (%d, %d): %.4g mm below the stitch, turned over %.4g above", tuck, i, j, 30-p[2], q[2])
				}
			}
		}
	}
}

// TestStraightNeckline: a neckline of curvature 0 is the limit of slight ones.
func TestStraightNeckline(t *testing.T) {
	d := tabled(Both, Crests, 0, 57, 30)
	d.Kappa_1pmm = 0
	a := solved(t, d, quick)
	d.Kappa_1pmm = 3e-6
	b := solved(t, d, quick)
	if x := a.edgeMove(a.Shape, b.Shape, len(a.V)-1); x > 0.01 {
		t.Errorf("curvature 0 and 3e-6 differ by %.3g mm", x)
	}
}

// TestSetStays: fully frozen, hardly any cloth left, no weight and the inner
// edge still on the band: what was formed stays, but for the stretch and the
// contact that forming it with 20 times the rigidity left behind.
func TestSetStays(t *testing.T) {
	d := tabled(Both, Crests, 0, 57, 300)
	set := quick
	set.Stretch_Npm = 1e5
	c := solved(t, d, set)
	if err := set.defaults(); err != nil {
		t.Fatal(err)
	}
	s := &solver{ctx: context.Background(), set: &set, f: newFrame(&c.Design, c.Design.Run(), set.Grid), sh: new(shell.Solver)}
	sh := s.released(c)
	sh.BendU, sh.BendV, sh.Gravity = 0, 0, [3]float64{}
	x := append([]float64(nil), c.Formed...)
	r, err := s.run("checking", sh, x, shell.Settings{})
	if err != nil || r.Status.Early() {
		t.Fatal(r.Status, err)
	}
	moved := c.edgeMove(c.Formed, x, len(c.V)-1)
	t.Logf("the outer edge moved by %.3f mm", moved)
	if moved > 0.2 {
		t.Errorf("nothing pulls, yet the outer edge moved by %.3f mm", moved)
	}
}

// TestOnward: around a neck that is not round, where each half set starts from its
// neighbour and goes on as that one came, they end where they do without the
// second, in fewer factorisations; tucked within 1 mm, for the inside of a tuck may lie
// otherwise, and in no more.
func TestOnward(t *testing.T) {
	for _, tuck := range []float64{0, 10} {
		on, off := 0, 0 // factorisations
		near, share := 0.01, 0.7
		if tuck > 0 {
			near, share = 1, 1
		}
		for _, a := range []Anchor{Both, Top} {
			d := tabled(a, Crests, tuck, 34, 30)
			if a == Both && tuck == 0 {
				d.BandHeight_mm = 56
			}
			var with, without *Window
			for k := range 8 {
				d.Kappa_1pmm = 0.012 + 0.0002*float64(k)
				p, err := Solve(context.Background(), d, quick, with)
				q, again := Solve(context.Background(), d, quick, without)
				if err != nil || again != nil || !p.Converged() || !q.Converged() {
					t.Fatal(err, again, p.Converged(), q.Converged())
				}
				if x := p.edgeMove(p.Shape, q.Shape, len(p.V)-1); x > near {
					t.Errorf("anchor %v, tuck %g, curvature %g: %.2g mm apart", a, tuck, d.Kappa_1pmm, x)
				}
				if k > 1 { // the first two have nothing to go on
					on, off = on+p.Iterations, off+q.Iterations
				}
				with, without = p, q
				q.formedDrift, q.shapeDrift = drift{}, drift{}
			}
		}
		t.Logf("tuck %g: %d factorisations, %d without", tuck, on, off)
		if float64(on) > share*float64(off) {
			t.Errorf("tuck %g: %d factorisations, %d without", tuck, on, off)
		}
	}
}

// TestWarm: a warm solve comes to the cold one's shape where there is only one,
// with fewer factorisations in all; a start that cannot serve is not used, and of
// tucked sets that is every other ruff's.
func TestWarm(t *testing.T) {
	cold, warm := 0, 0
	for _, starch := range []float64{0, 30} {
		for _, a := range []Anchor{Both, Top} {
			for _, tuck := range []float64{0, 10} {
				d := tabled(a, Crests, tuck, 34, starch)
				if a == Both && tuck == 0 {
					d.BandHeight_mm = 56
				}
				base := solved(t, d, quick)
				for _, change := range []func(*Design){
					func(d *Design) { d.Kappa_1pmm *= 1.05 },
					func(d *Design) { d.BandHeight_mm *= 0.98 },
					func(d *Design) { d.Pitch_mm *= 1.05 },
					func(d *Design) { d.Panel_mm *= 1.01 },
					func(d *Design) { d.BendU_uNm *= 1.1; d.BendV_uNm *= 1.1 },
				} {
					e := d
					change(&e)
					p := solved(t, e, quick)
					q, err := Solve(context.Background(), e, quick, base)
					if err != nil || !q.Converged() {
						t.Fatalf("warm: %v, %v, %v", err, q.Form.Status, q.Release.Status)
					}
					if tuck > 0 && e.Kappa_1pmm == d.Kappa_1pmm {
						sameSolve(t, p, q) // it is another ruff's
						continue
					}
					cold, warm = cold+p.Iterations, warm+q.Iterations
					// tucked, unstarched cloth has several equilibria, up to 8 mm apart as was
					// found before; starched, they lie close together
					x := p.edgeMove(p.Shape, q.Shape, len(p.V)-1)
					if x > 0.01 && tuck == 0 || x > 3 && starch > 0 || x > 8 {
						t.Errorf("starch %g, anchor %v, tuck %g: warm and cold are %.2g mm apart", starch, a, tuck, x)
					}
				}
			}
		}
	}
	t.Logf("%d factorisations cold, %d warm", cold, warm)
	if float64(warm) > 0.7*float64(cold) {
		t.Errorf("%d factorisations warm, %d cold", warm, cold)
	}
	a := solved(t, tabled(Both, Crests, 0, 57, 30), quick)
	e := a.Design
	e.Anchor = Top
	e.BandHeight_mm = 30
	if c, err := Solve(context.Background(), e, quick, a); err != nil || !c.Converged() {
		t.Error("a warm start of another anchoring: ", err)
	}
}

// sameSolve holds two solves to have come the same way.
func sameSolve(t *testing.T, p, q *Window) {
	t.Helper()
	if !slices.Equal(p.Shape, q.Shape) || p.Iterations != q.Iterations {
		t.Errorf("started from another ruff's: %d factorisations, %d cold: %+v", q.Iterations, p.Iterations, q.Design)
	}
}

// TestSecondLine: a second stitch line holds the sheet at its distance, at the
// same place around the neck and in height.
func TestSecondLine(t *testing.T) {
	for _, tuck := range []float64{0, 12} {
		d := tabled(Both, Crests, tuck, 35, 30)
		if tuck == 0 {
			d.BandHeight_mm = 57
		}
		d.LineGap_mm = 6
		c := solved(t, d, quick)
		f := newFrame(&d, d.Run(), Coarse)
		half := f.panels[0]
		if f.v[f.jg] != 6 {
			t.Fatalf("no grid line at 6 mm: %v", f.v)
		}
		p, q := c.Node(c.Shape, half.ic, f.jg), c.Node(c.Shape, half.it, f.jg)
		if math.Abs(p[1]) > 1e-9 || p[2] != d.BandHeight_mm || q[2] != 0 || math.Abs(half.toTrough(q)) > 1e-9 {
			t.Errorf("tuck %g: second line at %v and %v", tuck, p, q)
		}
		for i := range half.u { // inside a tuck the cloth is pressed together, at both lines
			for _, j := range []int{0, f.jg} {
				p := c.Node(c.Shape, i, j)
				if i <= half.ic && math.Abs(p[1]) > 1e-9 || i >= half.it && math.Abs(half.toTrough(p)) > 1e-9 {
					t.Errorf("tuck %g: node (%d, %d) in it lies %.2g mm and %.2g mm off the folds' planes", tuck, i, j, p[1], half.toTrough(p))
				}
			}
		}
	}
}

// TestSupport: a supporter 5 mm below the band carries a ruff whose flaps would
// fall past it.
func TestSupport(t *testing.T) {
	d := tabled(Top, Troughs, 0, 30, 0)
	d.Support, d.SupportDrop_mm, d.SupportSlope_deg = true, 5, 10
	c := solved(t, d, quick)
	r0 := 1 / d.Kappa_1pmm
	low := math.Inf(1)
	for i := range c.U {
		for j := range c.V {
			p := c.Node(c.Shape, i, j)
			low = min(low, p[2]-(-5+math.Tan(10*math.Pi/180)*outward(p, r0)))
		}
	}
	t.Logf("lowest %.2f mm above the supporter, outer edge %.1f / %.1f", low, c.TopOuter_mm, c.BottomOuter_mm)
	if low < -0.3 || c.BottomOuter_mm < -5 {
		t.Errorf("the sheet lies %.2f mm below the supporter", -low)
	}
}

// TestTwoRests: limp flaps sewn at their crests to the top edge rest fallen and
// as a skirt, nearly alike in energy: undecided. Starched ones know their side.
func TestTwoRests(t *testing.T) {
	set := Settings{Grid: Coarse, SkipBow: true, SkipTangents: true}
	c := solved(t, tabled(Top, Crests, 0, 30, 0), set)
	if c.Other == nil {
		t.Fatal("no other equilibrium found")
	}
	t.Logf("unstarched: %.1f / %.1f, other %.1f / %.1f, share %.2f", c.TopOuter_mm, c.BottomOuter_mm, c.OtherHeights[0], c.OtherHeights[1], c.OtherShare)
	if math.Abs(c.OtherShare) > 0.15 {
		t.Errorf("limp: share %.2f", c.OtherShare)
	}
	c = solved(t, tabled(Top, Crests, 0, 30, 30), set)
	if c.Other != nil && c.OtherShare < 1 {
		t.Errorf("starched: other equilibrium at share %.2f", c.OtherShare)
	}
	if !c.FlapsFall {
		t.Error("crests sewn to the top edge, starched: the flaps do not fall")
	}
}

// TestEnds: cancelling and bad input.
func TestEnds(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	set := Settings{Progress: func(string, int) { cancel() }}
	start := time.Now()
	if _, err := Solve(ctx, DefaultDesign(), set, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	if took := time.Since(start); took > 2*time.Second {
		t.Errorf("cancelling took %v", took)
	}
	for name, spoil := range map[string]func(*Design){
		"Panel_mm":      func(d *Design) { d.Panel_mm = math.NaN() },
		"Width_mm":      func(d *Design) { d.Width_mm = 0 },
		"Pitch_mm":      func(d *Design) { d.Pitch_mm = -1 },
		"Kappa_1pmm":    func(d *Design) { d.Kappa_1pmm = 1 },
		"BandHeight_mm": func(d *Design) { d.BandHeight_mm = math.Inf(1) },
		"slack":         func(d *Design) { d.BandHeight_mm = 60 },
		"TuckTop_mm":    func(d *Design) { d.TuckTop_mm = 50 },
		"no wave":       func(d *Design) { d.Pitch_mm = 90 },
		"outer edge":    func(d *Design) { d.Pitch_mm, d.TuckTop_mm, d.TuckBottom_mm = 60, 0, 0 },
		"LineGap_mm":    func(d *Design) { d.LineGap_mm = 61 },
		"BendU_uNm":     func(d *Design) { d.BendU_uNm = 0 },
		"Quality":       func(d *Design) { d.Quality = 1.5 },
		"Anchor":        func(d *Design) { d.Anchor = 7 },
		"Sewn":          func(d *Design) { d.Sewn = 7 },
	} {
		d := DefaultDesign()
		spoil(&d)
		if _, err := Solve(context.Background(), d, Settings{}, nil); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: error %v", name, err)
		}
	}
	if _, err := Solve(context.Background(), DefaultDesign(), Settings{Grid: Grid{3, 3}}, nil); err == nil {
		t.Error("a grid of 3 × 3 was accepted")
	}
}

func benchmarkSolve(b *testing.B, d Design, set Settings) {
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		c, err := Solve(context.Background(), d, set, nil)
		if err != nil || !c.Converged() {
			b.Fatal(err)
		}
		n += c.Iterations + c.Extra
	}
	b.ReportMetric(float64(n)/float64(b.N), "factorisations/op")
}

func BenchmarkCoarseTucked(b *testing.B) {
	benchmarkSolve(b, DefaultDesign(), quick)
}

func BenchmarkFineTucked(b *testing.B) {
	set := quick
	set.Grid = Fine
	benchmarkSolve(b, DefaultDesign(), set)
}

// BenchmarkFineTuckedWarm is the next half set around the neck, 2 % more curved.
func BenchmarkFineTuckedWarm(b *testing.B) {
	set := quick
	set.Grid = Fine
	d := DefaultDesign()
	base, err := Solve(context.Background(), d, set, nil)
	if err != nil || !base.Converged() {
		b.Fatal(err)
	}
	d.Kappa_1pmm *= 1.02
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		c, err := Solve(context.Background(), d, set, base)
		if err != nil || !c.Converged() {
			b.Fatal(err)
		}
		n += c.Iterations
	}
	b.ReportMetric(float64(n)/float64(b.N), "factorisations/op")
}

func BenchmarkFineEverything(b *testing.B) {
	benchmarkSolve(b, tabled(Top, Crests, 0, 30, 30), Settings{})
}
