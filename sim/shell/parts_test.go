package shell

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// TestClearOf: a triangle is passed over exactly where one axis shows all of it as
// far from the place as asked, and then no place of it is nearer.
func TestClearOf(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	over := [2]int{}
	for range 4000 {
		var p [4][3]float64
		for k := range p {
			for c := range 3 {
				p[k][c] = 2*r.Float64() - 1
			}
		}
		p[0][r.IntN(3)] += 1.2 * (2*r.Float64() - 1)
		const far = 0.5
		want := false
		for c := range 3 {
			d := [3]float64{p[1][c] - p[0][c], p[2][c] - p[0][c], p[3][c] - p[0][c]}
			want = want || slices.Min(d[:]) >= far || slices.Max(d[:]) <= -far
		}
		if got := clearOf(&p[0], &p[1], &p[2], &p[3], far); got != want {
			t.Fatalf("%v: passed over %v", p, got)
		}
		if _, d := nearest(p[0], p[1], p[2], p[3]); want && d < far {
			t.Fatalf("%v: passed over at %g", p, d)
		}
		over[map[bool]int{false: 0, true: 1}[want]]++
	}
	if min(over[0], over[1]) < 400 {
		t.Errorf("passed over and not: %v", over)
	}
}

// TestFailedRow: a matrix with one pivot below 0 fails at its row, whichever of its
// group of four that is; one that has none, at none.
func TestFailedRow(t *testing.T) {
	for n := range 12 {
		for bad := -1; bad < n; bad++ {
			var b Band
			b.Resize(n, 2)
			for i := range n {
				b.Add(i, i, 4)
				if i > 0 {
					b.Add(i, i-1, 1)
				}
			}
			if bad >= 0 {
				b.Add(bad, bad, -5)
			}
			if ok, failed := b.Factor(); ok != (bad < 0) || failed != bad {
				t.Errorf("order %d, pivot %d below 0: %v, %d", n, bad, ok, failed)
			}
		}
	}
	var b Band
	if b.Resize(0, 3); b.MeanDiagonal() != 0 {
		t.Error("the mean of no diagonal")
	}
}

// TestRingsBand: closed, a sheet's half-bandwidth is no more than twice the open
// sheet's: the lines are numbered from both ends in turn.
func TestRingsBand(t *testing.T) {
	band := func(round *Round, nu int) int {
		sh := &Sheet{U: lines01(nu), V: lines01(4), BendU: 1, BendV: 1, StretchU: 1, StretchV: 1, Round: round}
		s, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		seen := map[int]bool{}
		for q := range s.nodes {
			seen[s.inOrder(q)] = true
		}
		if len(seen) != s.nodes {
			t.Errorf("%d nodes numbered of %d", len(seen), s.nodes)
		}
		return s.sym.kd
	}
	for _, nu := range []int{8, 9} {
		open, closed := band(nil, nu), band(&Round{Step: 1, Turn: itself.s, Shift: [3]float64{float64(nu + 1)}}, nu)
		if open != 3*10+2 || closed > 2*open {
			t.Errorf("%d cells: half-bandwidth %d, closed %d", nu, open, closed)
		}
	}
}

// TestFrames: a frame's first axis is the normal it is asked for, the third as near
// upright as may be (near y for a normal that is upright itself), the second square
// to both; the same normal has the same frame.
func TestFrames(t *testing.T) {
	s := new(Solver)
	for _, n := range [][3]float64{{1, 0, 0}, {0, 1, 0}, {0.6, 0.8, 0}, {0.48, 0.64, 0.6}, {0, 0, 1}, {0, math.Sqrt(1 - 0.95*0.95), -0.95}} {
		f := s.frames
		k := s.frameOf(n)
		if int(k) != len(f) || s.frameOf(n) != k {
			t.Errorf("%v: frame %d of %d", n, k, len(f))
		}
		m := s.frames[k]
		first, second, third := [3]float64(m[:3]), [3]float64(m[3:6]), [3]float64(m[6:])
		if first != n || math.Abs(norm(second)-1) > 1e-12 || math.Abs(norm(third)-1) > 1e-12 || math.Abs(dot3(first, second)) > 1e-12 || math.Abs(dot3(third, n)) > 1e-12 || math.Abs(dot3(cross(third, first), second)-1) > 1e-12 {
			t.Errorf("%v: %v", n, m)
		}
		up := 2
		if math.Abs(n[2]) > 0.9 {
			up = 1
		}
		if want := math.Sqrt(1 - n[up]*n[up]); math.Abs(third[up]-want) > 1e-12 {
			t.Errorf("%v: third axis %v", n, third)
		}
	}
}

// TestForceScale: the weight and ten times the force that bends the sheet, at most
// ten thousand mean nodes' weights.
func TestForceScale(t *testing.T) {
	sh := &Sheet{U: lines01(5), V: lines01(2), BendU: 3, BendV: 7, StretchU: 1, StretchV: 1}
	scale := func() float64 {
		s, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		return s.forceScale()
	}
	bent := 10 * 7 * max(2.0/25, 5.0/4)
	if got := scale(); math.Abs(got-bent) > 1e-9 {
		t.Errorf("without weight %g, want %g", got, bent)
	}
	sh.Frozen = &Frozen{BendU: 11, BendV: 2, U: make([]float64, 18), V: make([]float64, 18), UV: make([]float64, 10)}
	sh.GradeU.Bend = []float64{1, 2, 1, 1, 1, 1}
	if got, want := scale(), bent/7*18*2; math.Abs(got-want) > 1e-9 {
		t.Errorf("stiffened %g, want %g", got, want)
	}
	sh.Mass, sh.Gravity = 1e5, [3]float64{0, 2, 0} // 0.98 mN/mm², twice
	weight := 2 * 1e5 * 1e-6 * 9.80665 * 10
	if got, want := scale(), bent/7*18*2+weight; math.Abs(got-want) > 1e-9 {
		t.Errorf("with weight %g, want %g", got, want)
	}
	sh.Mass = 0.1
	if got, want := scale(), 1e4*weight*1e-6/18; math.Abs(got-want) > 1e-9*want {
		t.Errorf("light %g, want %g", got, want)
	}
}

// TestDefaults: what a solve does where it is told nothing.
func TestDefaults(t *testing.T) {
	sh := &Sheet{U: []float64{1, 2, 5}, V: []float64{-2, 0, 4}, BendU: 1, StretchU: 1, StretchV: 1}
	s, err := NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	n := newton{s: s}
	if n.defaults(); n.set.MaxIterations != 400 || n.set.Tolerance != 1e-6 || n.set.StepCap != 2.5 || n.set.Corrections != 4 || math.Abs(n.res.Tolerance-1e-6*s.forceScale()) > 1e-18 {
		t.Errorf("%+v, %+v", n.set, n.res)
	}
	n = newton{s: s, set: Settings{MaxIterations: 7, Tolerance: 1e-3, StepCap: 0.5, Corrections: -1}}
	if n.defaults(); n.set.MaxIterations != 7 || n.set.Tolerance != 1e-3 || n.set.StepCap != 0.5 || n.set.Corrections != -1 {
		t.Errorf("%+v", n.set)
	}
}

// TestRecent: the highest of the last four energies, and of a fifth.
func TestRecent(t *testing.T) {
	r := recent{}
	if r.fill(3); r.top(2) != 3 || r.top(4) != 4 {
		t.Error("the highest of the last four")
	}
	for k := range 4 {
		if r.push(1); (r.top(0) == 3) != (k < 3) {
			t.Errorf("the highest after %d new ones: %g", k+1, r.top(0))
		}
	}
}

// TestPatienceEnds: 25 steps without a new low end it, for 10, 30, 70 and then 100 steps that
// go down only; a new low begins anew.
func TestPatienceEnds(t *testing.T) {
	p := patience{lowest: -10}
	for _, plain := range []int{10, 30, 70, 100, 100} {
		steps := 1
		for ; !p.spent(-10*(1+1e-10)) && steps < 1000; steps++ { // no new low
		}
		if steps != 25 || p.plain != plain {
			t.Errorf("patience ends after %d steps, for %d; want 25, %d", steps, p.plain, plain)
		}
		for p.plain > 0 {
			if p.spent(-10) {
				t.Error("patience ends while steps go down only")
			}
		}
		p.since = 0
	}
	for range 24 {
		p.spent(-10)
	}
	if p.spent(-11) || p.lowest != -11 || p.since != 0 {
		t.Errorf("a new low does not give patience: %+v", p)
	}
}

// TestBlend: what a whole step, a shortened one and a short one do to projection and
// damping.
func TestBlend(t *testing.T) {
	n := newton{theta: 0.9}
	for _, q := range []struct {
		share, theta float64
	}{{1, 0.6}, {2, 0.4}, {0.7, 0.4}, {0.3, 0.82}, {0.2, 1}} {
		if n.blend(&line{first: 0.7, share: q.share}); math.Abs(n.theta-q.theta) > 1e-12 {
			t.Errorf("after a share of %g: %g of the projection, want %g", q.share, n.theta, q.theta)
		}
	}
	n.theta = 0.029
	if n.blend(&line{first: 1, share: 1}); n.theta != 0 {
		t.Errorf("a little projection stays: %g", n.theta)
	}

	s := new(Solver)
	s.base.Resize(2, 0)
	s.base.Shift(1.1e9)
	n = newton{s: s, damp: 64, set: Settings{StepCap: 2}}
	for _, q := range []struct{ far, damp float64 }{{1, 64}, {0.99, 8}, {0.5, 0}} {
		if n.relax(q.far); n.damp != q.damp {
			t.Errorf("after a step of %g the damping is %g, want %g", q.far, n.damp, q.damp)
		}
	}
	if largest([]float64{1, -3, 2}) != 3 || (&Solver{nodes: 3}).farthest([]float64{1, 0, 0, 0, 3, 4, 2, 2, 2}) != 5 {
		t.Error("the largest")
	}
}

// TestStalls: a step that fails makes the model more careful each time: all
// projection, then a shift of the diagonal that grows tenfold.
func TestStalls(t *testing.T) {
	sh, x := everything(2)
	s, err := NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	s.spread(x)
	clear(s.strain)
	n := newton{s: s}
	mean := s.base.MeanDiagonal()
	for k, shift := range []float64{0, 1e-4 * mean, 1e-3 * mean, 1e-2 * mean} {
		if n.stall(k + 1); n.theta != 1 || math.Abs(n.shift-shift) > 1e-12*mean || largest(s.strain) == 0 {
			t.Errorf("stall %d: projection %g, shift %g, want %g", k+1, n.theta, n.shift, shift)
		}
	}
}

// TestCreaseLimits: a fold too sharp to have a normal holds no frozen shape: below 0.35 of
// |x_u × x_v|, at a hinge below 0.1. What is held is the curvature times the quality.
func TestCreaseLimits(t *testing.T) {
	for _, hinge := range []bool{false, true} {
		for _, q := range []struct {
			normal float64 // |x_u × x_v| at the fold
			held   bool
		}{{0.36, true}, {0.34, hinge}, {0.11, hinge}, {0.09, false}} {
			sh := &Sheet{U: lines01(4), V: lines01(3), BendU: 1, BendV: 1, StretchU: 1, StretchV: 1}
			if hinge {
				sh.Fold = slices.Repeat([]float64{0.5}, sh.Nodes())
			}
			s, err := NewSolver(sh)
			if err != nil {
				t.Fatal(err)
			}
			x := make([]float64, 3*sh.Nodes())
			rise := math.Sqrt(1 - q.normal*q.normal)
			for i, u := range sh.U { // two flats that meet on the line u = 2
				for j, v := range sh.V {
					copy(x[3*sh.Node(i, j):], []float64{q.normal * u, v, rise * math.Abs(u-2)})
				}
			}
			whole, half := s.Freeze(x, 2, 3, 1, 4, 1), s.Freeze(x, 2, 3, 1, 4, 0.5)
			at := sh.Node(2, 1)
			if math.IsNaN(whole.U[at]) == q.held || math.IsNaN(whole.V[at]) == q.held || whole.BendU != 2 || whole.BendV != 3 || whole.Twist != 1 {
				t.Errorf("hinge %v, normal %g: %v and %v are held", hinge, q.normal, whole.U[at], whole.V[at])
			}
			// the second difference 2·rise along the normal, which ε blunts
			want := 2 * rise * math.Sqrt(1+blunt*blunt) * q.normal / math.Sqrt(q.normal*q.normal+blunt*blunt)
			if q.held && (math.Abs(math.Abs(whole.U[at])-want) > 1e-12 || half.U[at] != whole.U[at]/2 || whole.V[at] != 0) {
				t.Errorf("hinge %v, normal %g: κ₀ %g, half of it %g; want %g", hinge, q.normal, whole.U[at], half.U[at], want)
			}
			if k := sh.Node(1, 1); math.Abs(whole.U[k]) > 1e-12 {
				t.Errorf("a flat place holds %g", whole.U[k])
			}
		}
	}
}

// TestStatus: each status in words, and only rest is no error.
func TestStatus(t *testing.T) {
	for k, words := range []string{"not run", "converged", "iteration limit", "stalled", "cancelled", "not finite", "status 6"} {
		s := Status(k)
		if s.String() != words || s.Early() != (s != Converged) || (s.Err() == nil) != (s == Converged) {
			t.Errorf("%d: %q, early %v, %v", k, s, s.Early(), s.Err())
		}
	}
}

// TestDownhill: asked to go downhill a solve never raises the energy, and left alone
// it does; a limit of steps ends it at a shape that is handed back.
func TestDownhill(t *testing.T) {
	for _, downhill := range []bool{true, false} {
		sh := &Sheet{U: lines01(12), V: []float64{0, 4}, BendU: 20, BendV: 20, StretchU: 1e5, StretchV: 1e5, Shear: 1e3, Mass: 4000, Gravity: [3]float64{0, 0, -1},
			UStart: Edge{Kind: Clamped, Tangent: [][3]float64{{1, 0, 0}}}, Held: []Hold{{Axes: All}, {J: 1, Axes: All}}}
		x := make([]float64, 3*sh.Nodes())
		for i, u := range sh.U {
			for j, v := range sh.V {
				copy(x[3*sh.Node(i, j):], []float64{u, v, 0})
			}
		}
		s, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		last, rose := 0.0, false
		r := s.Solve(context.Background(), x, Settings{Downhill: downhill, Corrections: -1, MaxIterations: 1000, Progress: func(p Progress) {
			rose = rose || p.Energy > last+1e-9*math.Abs(last)
			last = p.Energy
		}})
		t.Logf("downhill %v: %v after %d factorisations, rose %v", downhill, r.Status, r.Iterations, rose)
		if rose == downhill || !downhill && r.Status != Converged {
			t.Errorf("downhill %v: the energy rose: %v; %v after %d", downhill, rose, r.Status, r.Iterations)
		}
	}
}

// TestHeldFeelNothing: a node that cannot move is not pressed, whatever it lies in; one
// that may move along one axis is, and one of no weight is not.
func TestHeldFeelNothing(t *testing.T) {
	sh := &Sheet{U: lines01(2), V: lines01(2), BendU: 1, BendV: 1, StretchU: 1, StretchV: 1}
	c := Plane([3]float64{0, 0, 1}, 1)
	c.Stiffness, c.Skin, c.Weight = 1, 0.5, slices.Repeat([]float64{1}, 9)
	sh.Contacts = []Contact{c}
	for n := range 8 { // all but the last held on every axis
		sh.Held = append(sh.Held, Hold{I: n / 3, J: n % 3, Axes: All})
	}
	x := make([]float64, 27)
	energy := func() float64 {
		s, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		return s.Energy(x).Contact
	}
	phi, _, _ := c.force(-1)
	if e := energy(); math.Abs(e-phi) > 1e-12 {
		t.Errorf("one free node of nine in an obstacle: %g, want %g", e, phi)
	}
	if sh.Held[3].Axes = First | Second; math.Abs(energy()-2*phi) > 1e-12 {
		t.Errorf("two of nine: %g, want %g", energy(), 2*phi)
	}
	if c.Weight[8] = 0; math.Abs(energy()-phi) > 1e-12 {
		t.Errorf("one of two of no weight: %g, want %g", energy(), phi)
	}
}

// TestQuads: a sheet's own cells, and no more beyond a free edge; beyond a mirror as
// many as are asked for.
func TestQuads(t *testing.T) {
	sh := &Sheet{U: lines01(3), V: lines01(2), BendU: 1, BendV: 1, StretchU: 1, StretchV: 1, UEnd: Edge{Kind: Mirror, Normal: [3]float64{-1, 0, 0}, Offset: -3}}
	x := make([]float64, 3*sh.Nodes())
	for i, u := range sh.U {
		for j, v := range sh.V {
			copy(x[3*sh.Node(i, j):], []float64{u, v, 0})
		}
	}
	rows := sh.Quads(x, -2, 6)
	for k, row := range rows {
		i := k - 2
		if want := map[bool]int{true: 2}[i >= 0 && i < 6]; len(row) != want {
			t.Errorf("row %d has %d cells, want %d", i, len(row), want)
			continue
		}
		for j := range row {
			q := &row[j]
			lo, hi := [3]float64{float64(i), float64(j), 0}, [3]float64{float64(i + 1), float64(j + 1), 0}
			if q.I != i || q.J != j || q.Lo != lo || q.Hi != hi || q.P[0] != lo || q.P[3] != hi {
				t.Errorf("cell (%d, %d): %+v", i, j, q)
			}
			if d := q.Distance([3]float64{hi[0] + 3, hi[1] + 4, 0}); d != 5 || q.Distance([3]float64{lo[0] + 0.5, lo[1] + 0.5, 0}) != 0 {
				t.Errorf("cell (%d, %d): %g away", i, j, d)
			}
		}
	}
}
