package shell

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"
)

// graded returns a strip of 100 mm, one cell wide, along u or along v, whose lines
// beyond 61.25 mm have the tip's numbers, others 1. The lines are 2.5 mm
// apart; that is half way between two of them.
func graded(along uint8, mass, bend, stretch float64) *Sheet {
	const n = 40
	long, wide := make([]float64, n+1), []float64{0, 5}
	g := Grade{Mass: make([]float64, n+1), Bend: make([]float64, n+1), Stretch: make([]float64, n+1)}
	for k := range long {
		long[k], g.Mass[k], g.Bend[k], g.Stretch[k] = 2.5*float64(k), 1, 1, 1
		if long[k] > 61.25 {
			g.Mass[k], g.Bend[k], g.Stretch[k] = mass, bend, stretch
		}
	}
	clamp := Edge{Kind: Clamped, Tangent: [][3]float64{{1, 0, 0}}}
	sh := &Sheet{U: long, V: wide, GradeU: g, UStart: clamp, Held: []Hold{{I: 0, J: 0, Axes: All}, {I: 0, J: 1, Axes: All}}}
	if along == 1 {
		sh.U, sh.V, sh.GradeU, sh.GradeV = wide, long, Grade{}, g
		sh.UStart, sh.VStart = Edge{}, clamp
		sh.Held[1] = Hold{I: 1, J: 0, Axes: All}
	}
	return sh
}

// flat is a graded strip's shape before it hangs, along x.
func flat(sh *Sheet) []float64 {
	x := make([]float64, 3*sh.Nodes())
	for i, u := range sh.U {
		for j, v := range sh.V {
			k := 3 * sh.Node(i, j)
			if x[k], x[k+1] = u, v; len(sh.U) == 2 {
				x[k], x[k+1] = v, u
			}
		}
	}
	return x
}

// TestGradedCantilever hangs a level strip whose tip section is heavier and stiffer
// and compares the tip's sag with the moment-area theorem (Mohr's): with M(x) the
// moment of the weight beyond x, sag = ∫ M(x)(L − x)/B(x) dx. For w per length up
// to a and mw from there to the end, r times as stiff, c = L − a:
//
//	M = mw(L − x)²/2                 beyond a
//	M = mwc(c/2 + a − x) + w(a − x)²/2  before it
//
// The sag is small beside the length (linear theory is off by its square).
func TestGradedCantilever(t *testing.T) {
	const l, a, b, mass = 100.0, 61.25, 4e4, 20.0
	for _, c := range []struct{ mass, bend float64 }{{1, 1}, {6, 1}, {1, 0.2}, {3, 27}} {
		w := WeightPerArea(mass)
		want, n := 0.0, 1600
		for k := range n { // midpoint rule; a lies on a cell's edge
			x := l * (float64(k) + 0.5) / float64(n)
			m, stiff := c.mass*w*(l-x)*(l-x)/2, c.bend*b
			if x < a {
				m, stiff = c.mass*w*(l-a)*((l-a)/2+a-x)+w*(a-x)*(a-x)/2, b
			}
			want += m * (l - x) / stiff * l / float64(n)
		}
		for along := range uint8(2) {
			sh := graded(along, c.mass, c.bend, 1)
			sh.BendU, sh.BendV, sh.StretchU, sh.StretchV, sh.Shear = b, b, 1e4, 1e4, 1e4
			sh.Mass, sh.Gravity = mass, [3]float64{0, 0, -1}
			x := flat(sh)
			s, err := NewSolver(sh)
			if err != nil {
				t.Fatal(err)
			}
			if r := s.Solve(context.Background(), x, Settings{}); r.Status.Early() {
				t.Fatal(r.Status, r.Iterations, r.Residual, r.Tolerance)
			}
			if got := -x[len(x)-1]; math.Abs(got/want-1) > 2e-3 {
				t.Errorf("tip %g times as heavy, %g times as stiff, direction %d: sag %.5g mm, want %.5g", c.mass, c.bend, along, got, want)
			}
			if got, want := sh.Weight(), 5*w*(a+c.mass*(l-a)); math.Abs(got/want-1) > 1e-12 {
				t.Errorf("weight %v mN, want %v", got, want)
			}
		}
	}
}

// TestGradedSprings hangs the strip on its end, two springs in series: under its
// own weight each part lengthens by its mean tension over its stiffness.
func TestGradedSprings(t *testing.T) {
	const l, a, k, mass = 100.0, 61.25, 100.0, 100.0
	for _, stretch := range []float64{1, 0.25, 8} {
		w, c := WeightPerArea(mass), l-a
		want := (w*a*(c+a/2) + w*c*c/2/stretch) / k
		for along := range uint8(2) {
			sh := graded(along, 1, 1, stretch)
			sh.BendU, sh.BendV, sh.StretchU, sh.StretchV, sh.Shear = 10, 10, k, k, 10
			sh.Mass, sh.Gravity = mass, [3]float64{1, 0, 0}
			x := flat(sh)
			s, err := NewSolver(sh)
			if err != nil {
				t.Fatal(err)
			}
			if r := s.Solve(context.Background(), x, Settings{}); r.Status.Early() {
				t.Fatal(r.Status, r.Iterations, r.Residual, r.Tolerance)
			}
			// the strain is up to 0.1 %, and e = ½(λ² − 1) is a share of that stiffer
			if got := x[len(x)-3] - l; math.Abs(got/want-1) > 3e-3 {
				t.Errorf("tip %g times as stiff, direction %d: longer by %.5g mm, want %.5g", stretch, along, got, want)
			}
		}
	}
}

// TestGradeOfOnes: cloth graded by ones is the same to the last bit.
func TestGradeOfOnes(t *testing.T) {
	sh, x := everything(2)
	a, err := NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	n := max(len(sh.U), len(sh.V))
	ones := slices.Repeat([]float64{1}, n)
	graded := *sh
	graded.GradeU = Grade{ones[:len(sh.U)], ones[:len(sh.U)], ones[:len(sh.U)]}
	graded.GradeV = Grade{ones[:len(sh.V)], ones[:len(sh.V)], ones[:len(sh.V)]}
	b, err := NewSolver(&graded)
	if err != nil {
		t.Fatal(err)
	}
	if p, q := a.Energy(x), b.Energy(x); p != q {
		t.Errorf("energies %+v, graded by ones %+v", p, q)
	}
	if d := math.Abs(sh.Weight() - graded.Weight()); d > 1e-12*sh.Weight() {
		t.Errorf("weight differs by %v mN", d)
	}
}

func TestGradeRefuses(t *testing.T) {
	for want, change := range map[string]func(*Sheet){
		"GradeU.Mass has 2 entries":    func(s *Sheet) { s.GradeU.Mass = []float64{1, 2} },
		"GradeV.Bend[1] = -1":          func(s *Sheet) { s.GradeV.Bend = []float64{1, -1, 1, 1} },
		"GradeV.Stretch[2] = 0":        func(s *Sheet) { s.GradeV.Stretch = []float64{1, 1, 0, 1} },
		"GradeU.Bend[0] = NaN":         func(s *Sheet) { s.GradeU.Bend = []float64{math.NaN(), 1, 1, 1, 1} },
		"GradeV.Stretch has 5 entries": func(s *Sheet) { s.GradeV.Stretch = make([]float64, 5) },
	} {
		sh, _ := everything(1)
		change(sh)
		if _, err := NewSolver(sh); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}
