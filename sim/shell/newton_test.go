package shell

import (
	"math"
	"slices"
	"testing"
)

// hanging begins a solve of a level strip of 100 mm that weighs little: its energy
// is quadratic in all that moves, to the square of its sag ÷ length.
func hanging(t *testing.T, mass float64, set Settings) *newton {
	t.Helper()
	sh := graded(0, 1, 1, 1)
	sh.BendU, sh.BendV, sh.StretchU, sh.StretchV, sh.Shear = 400, 400, 1e4, 1e4, 1e4
	sh.Mass, sh.Gravity = mass, [3]float64{0, 0, -1}
	s, err := NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	n := &newton{s: s, set: set}
	if !n.start(flat(sh)) || !n.factor() {
		t.Fatal("no start")
	}
	return n
}

// TestDamped: a step that would be 20 caps long is damped to about the cap.
func TestDamped(t *testing.T) {
	n := hanging(t, 10, Settings{})
	l, ok := n.direction()
	if !ok || n.damp != 0 {
		t.Fatal("the step is damped without a cap in its way")
	}
	n.set.StepCap = l.far / 20
	if l, ok = n.direction(); !ok || l.far > 1.5*n.set.StepCap || l.far < 0.5*n.set.StepCap {
		t.Errorf("far %g mm at a cap of %g mm", l.far, n.set.StepCap)
	}
	n.relax(0.6 * n.set.StepCap)
	if damp := n.damp; damp == 0 {
		t.Error("no damping")
	} else if n.relax(0.4 * n.set.StepCap); n.damp != damp/8 {
		t.Errorf("damping %g after %g, want an eighth", n.damp, damp)
	}
}

// TestCorrectLeavesAlone: where the energy is quadratic, part of a step leaves that
// part of the gradient, and there is nothing to correct.
func TestCorrectLeavesAlone(t *testing.T) {
	n := hanging(t, 1e-3, Settings{})
	l, ok := n.direction()
	if !ok {
		t.Fatal("no direction")
	}
	copy(n.s.best, n.s.x)
	n.try(0.5)
	e := n.refresh(n.s.r1)
	x := slices.Clone(n.s.x)
	n.correct(e+1, 0.5, 2*l.far) // bounds that hold back no correction
	for k := range x {
		if d := math.Abs(n.s.x[k] - x[k]); d > 1e-3*l.far {
			t.Fatalf("corrected by %g mm of a step of %g mm", d, l.far)
		}
	}
}

// TestShorten: a step is taken only for a decrease in proportion to its slope.
func TestShorten(t *testing.T) {
	n := hanging(t, 1, Settings{})
	l, _ := n.direction()
	copy(n.s.best, n.s.x)
	steep := l
	steep.share, steep.slope = 1, 1e9*l.slope
	if n.shorten(&steep) || !slices.Equal(n.s.x, n.s.best) {
		t.Error("a step is taken that does not decrease the energy sufficiently, or the shape is not back")
	}
	l.share = 2
	if !n.shorten(&l) || l.share != 1 {
		t.Errorf("the Newton step, half of twice itself, is not taken: share %g", l.share)
	}
}

// TestGoBack: a run on trust that did not pay ends where it began.
func TestGoBack(t *testing.T) {
	n := hanging(t, 1, Settings{})
	s := n.s
	l, _ := n.direction()
	copy(s.best, s.x)
	l.share, l.first, l.slack = 0.5, 0.5, 1
	s.strain[3], s.skew[2], n.theta = 0.25, 0.125, 0.75
	e, x, p := n.e, slices.Clone(s.best), slices.Clone(s.px)
	n.keepWatch(&l)
	for _, a := range [][]float64{s.strain, s.skew, s.best, s.px} {
		for k := range a {
			a[k]++
		}
	}
	n.e, n.theta = e+1, 0
	later := line{slope: -3, far: 2, share: 1, first: 1, slack: 7}
	n.keepWatch(&later)
	if n.watch.steps != 2 {
		t.Errorf("%d steps, want 2", n.watch.steps)
	}
	n.goBack(&later)
	if n.e != e || n.theta != 0.75 || s.strain[3] != 0.25 || s.skew[2] != 0.125 || !slices.Equal(s.best, x) || !slices.Equal(s.px, p) {
		t.Error("not back where the run began")
	}
	if later.slope != l.slope || later.share != 0.5 || later.slack != 7 || n.watch.wait != 2 {
		t.Errorf("line %+v, watch %+v", later, n.watch)
	}
}

// TestPatience: 25 steps without a new low, then 10 steps down, then 30.
func TestPatience(t *testing.T) {
	p := patience{lowest: 1}
	count := func() int {
		for k := 1; k < 1000; k++ {
			if p.spent(1) {
				return k
			}
		}
		return 0
	}
	if k := count(); k != 25 || p.plain != 10 {
		t.Errorf("spent after %d steps, %d down; want 25 and 10", k, p.plain)
	}
	if k := count(); k != 25 || p.plain != 30 {
		t.Errorf("spent again after %d steps, %d down; want 25 and 30", k, p.plain)
	}
	if p.spent(0.5); p.lowest != 0.5 || p.since != 0 {
		t.Errorf("a new low is not seen: %+v", p)
	}
}

// TestForesee: a strain is quadratic along a step, so its miss is known exactly,
// and the energy foreseen is that of the strains that lag sets.
func TestForesee(t *testing.T) {
	sh, x := everything(1)
	s, err := NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	s.spread(x)
	s.measureStrains(s.strain, s.skew)
	for k := range s.px {
		s.px[k] = 0.1 * math.Sin(float64(7*k))
	}
	s.reflect(s.px, false)
	const a = 0.6
	energy, miss := s.foresee(s.x, s.px, a)
	s.lag(s.x, s.px, a)
	if e := s.membrane(); math.Abs(energy/e-1) > 1e-12 {
		t.Errorf("energy foreseen %g, of the lagged strains %g", energy, e)
	}
	for k := range s.x {
		s.x[k] += a * s.px[k]
	}
	strain := make([]float64, len(s.strain))
	s.measureStrains(strain, make([]float64, len(s.skew)))
	most := 0.0
	for k := range strain {
		most = max(most, math.Abs(strain[k]-s.strain[k]))
	}
	if math.Abs(most-miss) > 1e-12 {
		t.Errorf("miss foreseen %g, found %g", miss, most)
	}
}

// TestCreases: a place folded to |x_u × x_v| = 0.2 holds no frozen shape, but the
// hinge of a Fold does; nor does a cell sheared flat.
func TestCreases(t *testing.T) {
	freeze := func(fold []float64, lean float64) *Frozen {
		sh := &Sheet{U: []float64{0, 1, 2}, V: []float64{0, 1}, BendU: 1, BendV: 1, StretchU: 1, StretchV: 1, Fold: fold}
		s, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		rise := math.Sqrt(1 - 0.2*0.2)
		x := make([]float64, 3*sh.Nodes())
		for i := range 3 {
			for j := range 2 {
				k := 3 * sh.Node(i, j)
				x[k], x[k+1], x[k+2] = 0.2*float64(i), float64(j), rise*float64(i%2)
				if lean != 0 { // flat, the rows slid along
					x[k], x[k+1], x[k+2] = float64(i)+lean*float64(j), 0.3*float64(j), 0
				}
			}
		}
		return s.Freeze(x, 1, 1, 0, 0, 1)
	}
	if f := freeze(nil, 0); !math.IsNaN(f.U[2]) || !math.IsNaN(f.U[3]) || math.IsNaN(f.UV[0]) {
		t.Errorf("a sharp fold: %v, cells %v", f.U, f.UV)
	}
	if f := freeze([]float64{1, 1, 0.5, 0.5, 1, 1}, 0); math.IsNaN(f.U[2]) || f.U[2] == 0 {
		t.Errorf("the hinge of a fold: %v", f.U)
	}
	if f := freeze(nil, 0.95); !math.IsNaN(f.UV[0]) || !math.IsNaN(f.UV[1]) {
		t.Errorf("cells sheared flat: %v", f.UV)
	}
}

// TestTwistDefault: an isotropic sheet without Poisson effect has half its bending
// rigidity against twist.
func TestTwistDefault(t *testing.T) {
	for _, c := range []struct{ u, v, given, want float64 }{{4, 9, 0, 3}, {10, 10, 0, 5}, {10, 10, 2, 2}, {10, 10, -1, 0}} {
		if got := twistOf(c.u, c.v, c.given); math.Abs(got-c.want) > 1e-15*c.want {
			t.Errorf("twist of %v, %v, %v: %v, want %v", c.u, c.v, c.given, got, c.want)
		}
	}
}
