package shell

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestSpots: the spots' areas add up to the sheet's; a shape that is straight
// along u and a cubic along v is met exactly; and a pressure that is a cubic
// along each side is summed exactly: ∫∫ u³v³ = u⁴v⁴/16.
func TestSpots(t *testing.T) {
	u, v := []float64{0, 1.5, 3, 5, 6.5}, []float64{0, 2, 4.5, 8, 13}
	f := func(u, v float64) float64 { return (2 - 0.3*u) * (1 + v - 0.2*v*v + 0.03*v*v*v) }
	x := make([]float64, 0, 3*len(u)*len(v))
	for _, a := range u {
		for _, b := range v {
			x = append(x, f(a, b), a, b)
		}
	}
	area, sum := 0.0, 0.0
	for _, q := range Spots(u, v) {
		area += q.Area
		sum += q.Area * math.Pow(q.U*q.V, 3)
		p := q.At(x)
		if want := [3]float64{f(q.U, q.V), q.U, q.V}; math.Abs(p[0]-want[0]) > 1e-11 || math.Abs(p[1]-want[1]) > 1e-12 || math.Abs(p[2]-want[2]) > 1e-12 {
			t.Errorf("at (%v, %v): %v, want %v", q.U, q.V, p, want)
		}
	}
	if want := 6.5 * 13; math.Abs(area/want-1) > 1e-12 {
		t.Errorf("area %v, want %v", area, want)
	}
	if want := math.Pow(6.5*13, 4) / 16; math.Abs(sum/want-1) > 1e-12 {
		t.Errorf("∫∫ u³v³ = %v, want %v", sum, want)
	}
}

// TestSpotsOfFewLines: with fewer than four lines along v the curve through all
// of them serves.
func TestSpotsOfFewLines(t *testing.T) {
	for n := 2; n <= 4; n++ {
		v := []float64{0, 2, 3, 7}[:n]
		var x []float64
		for range 2 {
			for _, b := range v {
				x = append(x, math.Pow(b, float64(n-1)), 0, b)
			}
		}
		for _, q := range Spots([]float64{0, 1}, v) {
			if p := q.At(x); math.Abs(p[0]-math.Pow(q.V, float64(n-1))) > 1e-10 || math.Abs(p[2]-q.V) > 1e-12 {
				t.Errorf("%d lines, v = %v: %v", n, q.V, p)
			}
		}
	}
}

// TestRidge: a ridge pressed into a plane is pushed back with the same force
// whatever the mesh across it, to 2 % where a cell is five times as wide as what
// touches; against the integral of the pressure in closed form. The roof
// z = s·|u − 10| lies with its ridge at a gap g below the skin's edge w: with
// pressure k(w − gap)²/(2w) per mm² the force a mm of ridge is k(w − g)³/(3ws).
func TestRidge(t *testing.T) {
	const slope, k, w, g = 0.3, 40, 0.5, 0.1
	want := k * math.Pow(w-g, 3) / (3 * w * slope) * 6
	for _, n := range []int{8, 12, 20, 32} {
		sh := &Sheet{V: []float64{0, 2, 4, 6}, StretchU: 1, StretchV: 1}
		for i := range n + 1 {
			sh.U = append(sh.U, 20*float64(i)/float64(n))
		}
		sh.Spots = Spots(sh.U, sh.V)
		c := Plane([3]float64{0, 0, 1}, 0)
		c.Stiffness, c.Skin, c.Between = k, w, true
		for _, q := range sh.Spots {
			c.Weight = append(c.Weight, q.Area)
		}
		sh.Contacts = []Contact{c}
		s, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		x, grad := make([]float64, 3*sh.Nodes()), make([]float64, 3*sh.Nodes())
		for i, u := range sh.U {
			for j, v := range sh.V {
				copy(x[3*sh.Node(i, j):], []float64{u, v, g + slope*math.Abs(u-10)})
			}
		}
		s.Gradient(x, grad)
		force := 0.0
		for q := 2; q < len(grad); q += 3 {
			force -= grad[q]
		}
		t.Logf("%d cells: %.4f mN, in closed form %.4f", n, force, want)
		if math.Abs(force/want-1) > 0.02 {
			t.Errorf("%d cells: %.4f mN, in closed form %.4f", n, force, want)
		}
	}
}

// TestBetweenRefuses: spots of another grid, weights for other spots, a tie.
func TestBetweenRefuses(t *testing.T) {
	grid := []float64{0, 1, 2, 3}
	c := Plane([3]float64{0, 0, 1}, 0)
	c.Stiffness, c.Skin, c.Between = 1, 1, true
	base := Sheet{U: grid, V: grid, StretchU: 1, StretchV: 1, Spots: Spots(grid, grid), Contacts: []Contact{c}}
	if err := base.Validate(); err != nil {
		t.Fatal(err)
	}
	for name, change := range map[string]func(*Sheet){
		"another grid": func(s *Sheet) { s.U = grid[:3] },
		"weights":      func(s *Sheet) { s.Contacts[0].Weight = make([]float64, s.Nodes()) },
		"tie":          func(s *Sheet) { s.Contacts[0].Tie = true },
	} {
		s := base
		s.Contacts = append([]Contact(nil), base.Contacts...)
		if change(&s); s.Validate() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// TestFoldHalves: across a fold the frozen moment's normal halves the angle of
// its two sides whatever the steps beside it, so that a frozen fold is at rest
// in its own shape and holds it: D·n̂ is |D|. With the slope of a smooth curve it
// was 0.2 |D| where the one step is three times the other.
func TestFoldHalves(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 20 {
		hl, hr, half := 0.5+3*r.Float64(), 0.5+3*r.Float64(), 0.2+r.Float64()
		sh := &Sheet{U: []float64{0, hl, hl + hr}, V: []float64{0, 1, 2}, StretchU: 1, StretchV: 1, Fold: make([]float64, 9)}
		x := make([]float64, 27)
		for i := range sh.U {
			for j := range sh.V {
				n := sh.Node(i, j)
				sh.Fold[n] = 0.1
				a := sh.U[i] - hl
				x[3*n], x[3*n+1], x[3*n+2] = a*math.Cos(half), sh.V[j], -math.Abs(a)*math.Sin(half)
			}
		}
		s, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		z := s.Freeze(x, 1, 1, -1, 0, 1)
		want := 4 * math.Sin(half) / (hl + hr)
		// the normal is blunted: to (ε² /2)(1/cos² − 1)
		if got := math.Abs(z.U[sh.Node(1, 1)]); math.Abs(got/want-1) > 2e-3 {
			t.Errorf("steps %.2f and %.2f, turned by %.2f: κ₀ %.5f, want %.5f", hl, hr, 2*half, got, want)
		}
	}
}

// TestBetweenAllocatesNothing: contact between nodes keeps the Newton loop free
// of allocations.
func TestBetweenAllocatesNothing(t *testing.T) {
	sh, x := everything(1)
	s, err := NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	s.spread(x)
	if n := testing.AllocsPerRun(20, func() {
		s.evaluate(true)
		s.assemble(&s.sym, &s.base, &s.work, 0.5, false)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
