package shell_test

import (
	"context"
	"math"
	"testing"

	"ruffwright/sim/shell"
)

func lines(n int, l float64) []float64 {
	c := make([]float64, n+1)
	for k := range c {
		c[k] = l * float64(k) / float64(n)
	}
	return c
}

// gutter is a panel 60 × 70 mm, its edge v = 0 clamped in an arc of radius
// 160 mm, scaled by s in every length; half of it with a mirror, or whole.
func gutter(s float64, whole bool) (*shell.Sheet, []float64) {
	b := 50 * s * s * s
	k := 2000 * s
	sh := &shell.Sheet{
		U: lines(6, 30*s), V: lines(10, 70*s), BendU: b, BendV: b,
		StretchU: k, StretchV: k, Shear: k / 2, Mass: 100, Gravity: [3]float64{0.2, 0, -1},
		VStart: shell.Edge{Kind: shell.Clamped, Tangent: [][3]float64{{0, 1, 0}}},
	}
	if whole {
		sh.U = lines(12, 60*s)
		for k := range sh.U {
			sh.U[k] -= 30 * s
		}
	} else {
		sh.UStart = shell.Edge{Kind: shell.Mirror, Normal: [3]float64{1, 0, 0}}
	}
	sh.Gravity[0] = 0
	x := make([]float64, 3*sh.Nodes())
	for i, u := range sh.U {
		sh.Held = append(sh.Held, shell.Hold{I: i, J: 0, Axes: shell.All})
		for j, v := range sh.V {
			k := 3 * sh.Node(i, j)
			x[k], x[k+1], x[k+2] = 160*s*math.Sin(u/(160*s)), v, 160*s*(1-math.Cos(u/(160*s)))
		}
	}
	return sh, x
}

func rest(t *testing.T, sh *shell.Sheet, x []float64, set shell.Settings) shell.Result {
	t.Helper()
	s, err := shell.NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	r := s.Solve(context.Background(), x, set)
	if r.Status != shell.Converged {
		t.Fatalf("%v after %d factorisations, residual %.3g", r.Status, r.Iterations, r.Residual)
	}
	return r
}

// TestMirrorIsTheWhole: half a panel with a mirror plane moves as the whole.
func TestMirrorIsTheWhole(t *testing.T) {
	half, x := gutter(1, false)
	whole, y := gutter(1, true)
	a := rest(t, half, x, shell.Settings{Tolerance: 1e-9})
	b := rest(t, whole, y, shell.Settings{Tolerance: 1e-9})
	if d := math.Abs(2*a.Energy.Total()/b.Energy.Total() - 1); d > 1e-9 {
		t.Errorf("energy of two halves off by %.2g", d)
	}
	for i := range half.U {
		for j := range half.V {
			p, q, m := 3*half.Node(i, j), 3*whole.Node(6+i, j), 3*whole.Node(6-i, j)
			for c := range 3 {
				if d := math.Abs(x[p+c] - y[q+c]); d > 1e-6 {
					t.Fatalf("node (%d, %d): half and whole differ by %.2g mm", i, j, d)
				}
				s := 1.0
				if c == 0 {
					s = -1
				}
				if d := math.Abs(s*y[m+c] - y[q+c]); d > 1e-6 {
					t.Fatalf("node (%d, %d): the whole is not symmetric, %.2g mm", i, j, d)
				}
			}
		}
	}
}

// TestRigidTurn: the same problem turned in space gives the turned shape.
func TestRigidTurn(t *testing.T) {
	sh, x := gutter(1, false)
	turned, y := gutter(1, false)
	// turn by 0.7 about z, then 0.4 about x
	turn := func(p [3]float64) [3]float64 {
		s, c := math.Sincos(0.7)
		p = [3]float64{c*p[0] - s*p[1], s*p[0] + c*p[1], p[2]}
		s, c = math.Sincos(0.4)
		return [3]float64{p[0], c*p[1] - s*p[2], s*p[1] + c*p[2]}
	}
	turned.Gravity = turn(turned.Gravity)
	turned.UStart.Normal = turn(turned.UStart.Normal)
	turned.VStart.Tangent = [][3]float64{turn([3]float64{0, 1, 0})}
	for k := 0; k < len(y); k += 3 {
		p := turn([3]float64(y[k : k+3]))
		copy(y[k:], p[:])
	}
	rest(t, sh, x, shell.Settings{Tolerance: 1e-9})
	rest(t, turned, y, shell.Settings{Tolerance: 1e-9})
	for k := 0; k < len(x); k += 3 {
		p := turn([3]float64(x[k : k+3]))
		for c := range 3 {
			if d := math.Abs(p[c] - y[k+c]); d > 1e-6 {
				t.Fatalf("node %d: off by %.2g mm", k/3, d)
			}
		}
	}
}

// TestScaling: all lengths and the bending length times s (rigidity times s³,
// stretch times s): the same angles, the same shape s times as large.
func TestScaling(t *testing.T) {
	sh, x := gutter(1, false)
	rest(t, sh, x, shell.Settings{Tolerance: 1e-9})
	for _, s := range []float64{0.3, 2.5} {
		big, y := gutter(s, false)
		rest(t, big, y, shell.Settings{Tolerance: 1e-9, StepCap: 8 * s})
		for k := range x {
			if d := math.Abs(y[k]/s - x[k]); d > 1e-6 {
				t.Fatalf("s = %g: coordinate %d off by %.2g mm", s, k, d)
			}
		}
	}
}

// TestEnergyIsAccountedFor: at every accepted step the energy changes by the
// work of the forces along the step, to 1e-6 of the larger.
func TestEnergyIsAccountedFor(t *testing.T) {
	sh, x := gutter(1, false)
	c := shell.Plane([3]float64{0, 0, 1}, -0.2)
	c.Stiffness, c.Skin = 5, 0.3
	sh.Contacts = []shell.Contact{c}
	meter, err := shell.NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	// Gauss–Legendre, 5 points on each of 20 pieces
	gx := [5]float64{-0.9061798459386640, -0.5384693101056831, 0, 0.5384693101056831, 0.9061798459386640}
	gw := [5]float64{0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665, 0.2369268850561891}
	last := append([]float64(nil), x...)
	e := meter.Energy(x).Total()
	at, g := make([]float64, len(x)), make([]float64, len(x))
	steps := 0
	rest(t, sh, x, shell.Settings{Progress: func(p shell.Progress) {
		steps++
		work := 0.0
		const pieces = 20
		for k := range pieces {
			for q := range gx {
				f := (float64(k) + (1+gx[q])/2) / pieces
				for i := range at {
					at[i] = last[i] + f*(p.Shape[i]-last[i])
				}
				meter.Gradient(at, g)
				for i := range at {
					work += gw[q] / 2 / pieces * g[i] * (p.Shape[i] - last[i])
				}
			}
		}
		if d := math.Abs(p.Energy - e - work); d > 1e-6*max(math.Abs(p.Energy-e), 1e-3) {
			t.Errorf("step %d: energy %+.9g µJ, work %+.9g µJ", steps, p.Energy-e, work)
		}
		e = p.Energy
		copy(last, p.Shape)
	}})
	if steps < 3 {
		t.Errorf("only %d steps were checked", steps)
	}
}

// TestCancelAndLimits: a cancelled context, an exhausted limit and a shape that
// is not finite end with their status and finite numbers.
func TestCancelAndLimits(t *testing.T) {
	sh, x := gutter(1, false)
	s, err := shell.NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	y := append([]float64(nil), x...)
	r := s.Solve(ctx, y, shell.Settings{Progress: func(shell.Progress) { cancel() }})
	if r.Status != shell.Cancelled || r.Steps != 1 {
		t.Errorf("cancelled: %v after %d steps", r.Status, r.Steps)
	}
	if r = s.Solve(context.Background(), append([]float64(nil), x...), shell.Settings{MaxIterations: 1}); r.Status != shell.IterationLimit || r.Iterations != 1 {
		t.Errorf("limited: %v after %d", r.Status, r.Iterations)
	}
	y[7] = math.NaN()
	if r = s.Solve(context.Background(), y, shell.Settings{}); r.Status != shell.NotFinite {
		t.Errorf("NaN: %v", r.Status)
	}
	if n := testing.AllocsPerRun(3, func() {
		copy(y, x)
		s.Solve(context.Background(), y, shell.Settings{})
	}); n != 0 {
		t.Errorf("a solve allocates %v times", n)
	}
}

// TestValidate: what is wrong is named.
func TestValidate(t *testing.T) {
	for name, spoil := range map[string]func(*shell.Sheet){
		"U has 1":      func(s *shell.Sheet) { s.U = s.U[:1] },
		"V[2]":         func(s *shell.Sheet) { s.V[2] = s.V[1] },
		"BendU":        func(s *shell.Sheet) { s.BendU = -1 },
		"StretchV":     func(s *shell.Sheet) { s.StretchV = 0 },
		"Mass":         func(s *shell.Sheet) { s.Mass = math.NaN() },
		"Gravity":      func(s *shell.Sheet) { s.Gravity[1] = math.Inf(1) },
		"UStart":       func(s *shell.Sheet) { s.UStart.Normal[0] = 2 },
		"VStart":       func(s *shell.Sheet) { s.VStart.Tangent = nil },
		"Held[0]":      func(s *shell.Sheet) { s.Held[0].I = 99 },
		"Fold":         func(s *shell.Sheet) { s.Fold = []float64{1} },
		"Frozen":       func(s *shell.Sheet) { s.Frozen = &shell.Frozen{} },
		"Contacts[0]":  func(s *shell.Sheet) { s.Contacts = []shell.Contact{{Radial: 1}} },
		"neighbouring": func(s *shell.Sheet) { s.VEnd = s.UStart },
		"nodes":        func(s *shell.Sheet) { s.U, s.V = lines(999, 1), lines(999, 1) },
	} {
		sh, _ := gutter(1, false)
		spoil(sh)
		if _, err := shell.NewSolver(sh); err == nil || !contains(err.Error(), name) {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

func contains(s, sub string) bool {
	for k := 0; k+len(sub) <= len(s); k++ {
		if s[k:k+len(sub)] == sub {
			return true
		}
	}
	return false
}

func BenchmarkGutter(b *testing.B) {
	sh, x := gutter(1, true)
	s, err := shell.NewSolver(sh)
	if err != nil {
		b.Fatal(err)
	}
	y := make([]float64, len(x))
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		copy(y, x)
		n += s.Solve(context.Background(), y, shell.Settings{}).Iterations
	}
	b.ReportMetric(float64(n)/float64(b.N), "factorisations/op")
}
