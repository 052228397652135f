package shell

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestNearest: no place of a triangle, on a fine net of shares, is nearer than the
// one found, and the one found is as far as said.
func TestNearest(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 7))
	random := func() (p [3]float64) {
		for k := range p {
			p[k] = 2*r.Float64() - 1
		}
		return
	}
	for range 300 {
		p, a, b, c := random(), random(), random(), random()
		if r.IntN(10) == 0 {
			c = b // no area
		}
		share, d := nearest(p, a, b, c)
		at := func(x, y, z float64) float64 {
			var q [3]float64
			for k := range q {
				q[k] = x*a[k] + y*b[k] + z*c[k] - p[k]
			}
			return norm(q)
		}
		if sum := share[0] + share[1] + share[2]; math.Abs(sum-1) > 1e-12 || min(share[0], share[1], share[2]) < -1e-12 || math.Abs(at(share[0], share[1], share[2])-d) > 1e-12 {
			t.Fatalf("shares %v, distance %v", share, d)
		}
		const n = 40
		for i := range n + 1 {
			for j := range n + 1 - i {
				if q := at(float64(i)/n, float64(j)/n, float64(n-i-j)/n); q < d-1e-12 && b != c {
					t.Fatalf("%.6g is nearer than %.6g", q, d)
				}
			}
		}
	}
}

// TestNearForce: the force of a node pressed on a patch is the energy's gradient,
// images of a round sheet included, and it pulls on nothing as a whole: across a
// mere shift the forces cancel.
func TestNearForce(t *testing.T) {
	sh := &Sheet{U: lines01(6), V: lines01(4), BendU: 1, BendV: 1, StretchU: 1, StretchV: 1, Mass: 1,
		Round: &Round{Step: 1, Turn: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}, Shift: [3]float64{7, 0, 0}}}
	r := rand.New(rand.NewPCG(2, 7))
	x := make([]float64, 3*sh.Nodes())
	for i := range sh.U {
		for j := range sh.V {
			copy(x[3*sh.Node(i, j):], []float64{float64(i) + 0.2*r.Float64(), float64(j) + 0.2*r.Float64(), 0.3 * r.Float64()})
		}
	}
	n := int32(sh.Nodes())
	// node (3, 2), put above the corner where the set meets its images
	x[3*sh.Node(3, 2)], x[3*sh.Node(3, 2)+2] = 6.4, 0.9
	sh.Near = []Near{
		{Node: sh.Node(3, 2), Stiffness: 50, Skin: 0.5, Clear: 0.1, Weight: 1.5, Back: 0.02, Patch: [][3]int32{
			{int32(sh.Node(6, 1)), 2*n + int32(sh.Node(0, 1)), int32(sh.Node(6, 2))}, {2*n + int32(sh.Node(0, 2)), int32(sh.Node(6, 2)), 2*n + int32(sh.Node(0, 1))}}},
	}
	s, err := NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	g := make([]float64, len(x))
	s.Gradient(x, g)
	if e := s.Energy(x); e.Contact == 0 {
		t.Fatal("nothing touches")
	}
	worst, top := 0.0, largest(g)
	for k := range x {
		E := func(h float64) float64 {
			y := append([]float64(nil), x...)
			y[k] += h
			return s.Energy(y).Total()
		}
		const h = 1e-4
		worst = max(worst, math.Abs((8*(E(h)-E(-h))-(E(2*h)-E(-2*h)))/(12*h)-g[k]))
	}
	if worst > 1e-7*top {
		t.Errorf("force off by %.1e of %.1e", worst, top)
	}
	for c := range 3 {
		sum := 0.0
		for k := c; k < len(g); k += 3 {
			sum += g[k]
		}
		if math.Abs(sum) > 1e-10*top {
			t.Errorf("the forces along axis %d add up to %.1e", c, sum)
		}
	}
	for name, spoil := range map[string]func(*Near){
		"node":   func(q *Near) { q.Node = sh.Nodes() },
		"corner": func(q *Near) { q.Patch = [][3]int32{{0, 1, 3 * n}} },
		"skin":   func(q *Near) { q.Skin = 0 },
		"clear":  func(q *Near) { q.Clear = math.NaN() },
	} {
		q := *sh
		q.Near = []Near{sh.Near[0]}
		if spoil(&q.Near[0]); q.Validate() == nil {
			t.Errorf("%s: not refused", name)
		}
	}
}

func lines01(n int) (c []float64) {
	for k := range n + 1 {
		c = append(c, float64(k))
	}
	return
}
