package shell

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
)

// sector is everything's sheet between its two mirror planes, free along v, with
// contact with both.
func sector(t *testing.T, seed uint64) (half, whole *Sheet, x, y []float64) {
	t.Helper()
	half, x = everything(seed)
	half.Contacts, half.Spots = half.Contacts[:4], nil // those at nodes
	half.VStart = Edge{}
	half.Gravity = [3]float64{0, 0, -0.9}
	half.Held = []Hold{{I: 0, J: 0, Axes: All}, {I: 2, J: 0, Axes: All}, {I: 4, J: 0, Axes: Third}, {I: 3, J: 1, Axes: First, In: OfUEnd}}
	other := Plane(half.UEnd.Normal, half.UEnd.Offset+0.1)
	other.Stiffness, other.Skin = 35, 1.2
	half.Contacts = append(half.Contacts, other)
	inside := make([]float64, half.Nodes())
	for i := 1; i < len(half.U)-1; i++ {
		for j := range half.V {
			inside[half.Node(i, j)] = 1 + 0.1*float64(i)
		}
	}
	axis := half.UEnd.Offset / half.UEnd.Normal[0] // where the two planes meet
	for k := range half.Contacts {
		if c := &half.Contacts[k]; c.Radial != 0 {
			c.Radius += c.Axis[0] - axis
			c.Axis = [2]float64{axis, 0}
		}
		if e, _ := half.mirrorOf(&half.Contacts[k]); e != nil {
			half.Contacts[k].Weight = inside
		}
	}
	whole, err := half.Unfold()
	if err != nil {
		t.Fatal(err)
	}
	return half, whole, x, half.UnfoldShape(x)
}

// TestUnfolded: the whole of two halves has twice their energy, every part of
// it, and their forces; where the half is at rest so is the whole.
func TestUnfolded(t *testing.T) {
	for seed := range uint64(3) {
		half, whole, x, y := sector(t, seed)
		a, err := NewSolver(half)
		if err != nil {
			t.Fatal(err)
		}
		b, err := NewSolver(whole)
		if err != nil {
			t.Fatal(err)
		}
		p, q := a.Energy(x), b.Energy(y)
		for name, v := range map[string][2]float64{"bend": {p.Bend, q.Bend}, "frozen": {p.Frozen, q.Frozen}, "stretch": {p.Stretch, q.Stretch}, "shear": {p.Shear, q.Shear}, "gravity": {p.Gravity, q.Gravity}, "contact": {p.Contact, q.Contact}} {
			if v[0] == 0 || math.Abs(v[1]/v[0]-2) > 1e-11 {
				t.Errorf("seed %d: energy %s %.12g, of the whole %.12g", seed, name, v[0], v[1])
			}
		}
		g, w := make([]float64, len(x)), make([]float64, len(y))
		a.Gradient(x, g)
		b.Gradient(y, w)
		top := largest(w)
		for i := 1; i < a.nu; i++ { // on fold lines the half's force lacks the image's
			for j := range half.V {
				for c := range 3 {
					if d := g[3*half.Node(i, j)+c] - w[3*whole.Node(i, j)+c]; math.Abs(d) > 1e-11*top {
						t.Fatalf("seed %d, node (%d, %d): force off by %.2g of %.3g", seed, i, j, d, top)
					}
				}
			}
		}
		ra := a.Solve(context.Background(), x, Settings{Tolerance: 1e-9})
		rb := b.Solve(context.Background(), half.UnfoldShape(x), Settings{Tolerance: 1e-8, Warm: true})
		if ra.Status != Converged || rb.Status != Converged || rb.Steps > 1 {
			t.Errorf("seed %d: %v, then the whole %v in %d steps", seed, ra.Status, rb.Status, rb.Steps)
		}
	}
}

// TestRoundDerivatives compares gradient and Hessian of a closed sheet, its pairs
// pressed, with differences, away from the mirrors' symmetry.
func TestRoundDerivatives(t *testing.T) {
	for seed := range uint64(2) {
		_, whole, _, y := sector(t, seed)
		r := rand.New(rand.NewPCG(seed, 5))
		for k := range y {
			y[k] += 0.2 * (r.Float64() - 0.5)
		}
		for k := range whole.Pairs { // some against a place between three nodes
			if p := &whole.Pairs[k]; k%3 == 0 {
				p.N[2], p.N[3] = (p.N[1]+5)%whole.Nodes(), (p.N[0]+7)%whole.Nodes()
				p.D[2], p.D[3] = [3]float64{0.02, 0.01, -0.03}, [3]float64{0, 0.02, 0.01}
			}
		}
		s, err := NewSolver(whole)
		if err != nil {
			t.Fatal(err)
		}
		pressed := 0
		for k := range whole.Pairs {
			if p := &whole.Pairs[k]; p.Gap(y)+p.Back < p.Skin {
				pressed++
			}
		}
		g, h := derivatives(t, s, y)
		t.Logf("seed %d: %d unknowns, half-band %d, %d of %d pairs pressed, gradient %.1e, Hessian %.1e", seed, s.sym.n, s.sym.kd, pressed, len(whole.Pairs), g, h)
		if g > 1e-8 || h > 1e-7 || pressed < 3 {
			t.Errorf("seed %d: gradient off by %.1e, Hessian by %.1e, %d pairs pressed", seed, g, h, pressed)
		}
	}
}

// TestTube: a closed strip of length l bent to a circle keeps the bending energy
// ½ B W (2π)²/l of a thin ring (1/r = 2π/l all round).
func TestTube(t *testing.T) {
	const n, l, width, b = 64, 100.0, 10.0, 15.0
	sh := &Sheet{V: []float64{0, width / 2, width}, BendU: b, BendV: b, StretchU: 1e4, StretchV: 1e4, Shear: 100, Mass: 1,
		Round: &Round{Step: l / n, Turn: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}, Planes: [2][3]float64{{1, 0, 0}, {0, 1, 0}}}}
	x := []float64{}
	for i := range n {
		sh.U = append(sh.U, l*float64(i)/n)
		sn, cs := math.Sincos(2*math.Pi*float64(i)/n + 0.2*math.Sin(4*math.Pi*float64(i)/n))
		for _, v := range sh.V {
			x = append(x, l/(2*math.Pi)*sn, l/(2*math.Pi)*cs, v)
		}
	}
	sh.Held = []Hold{{I: 0, J: 1, Axes: All}, {I: n / 2, J: 1, Axes: First | Third}, {I: n / 4, J: 1, Axes: Third}}
	s, err := NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	r := s.Solve(context.Background(), x, Settings{})
	want := 0.5 * b * width * 4 * math.Pi * math.Pi / l
	if r.Status != Converged || math.Abs(r.Energy.Total()/want-1) > 0.003 {
		t.Errorf("%v: energy %.6g µJ, the ring's %.6g", r.Status, r.Energy.Total(), want)
	}
	if len(sh.U) != n || math.Abs(sh.Weight()/(WeightPerArea(1)*l*width)-1) > 1e-12 {
		t.Error("the closing step is left out of the weight")
	}
	for name, spoil := range map[string]func(*Sheet){
		"step":   func(q *Sheet) { q.Round.Step = 0 },
		"turn":   func(q *Sheet) { q.Round.Turn[0] = 2 },
		"plane":  func(q *Sheet) { q.Round.Planes[1] = [3]float64{} },
		"mirror": func(q *Sheet) { q.UStart = Edge{Kind: Mirror, Normal: [3]float64{1, 0, 0}} },
		"pair":   func(q *Sheet) { q.Pairs = []Pair{{N: [4]int{1, 1}, D: [4][3]float64{{1}, {1}}, Stiffness: 1, Skin: 1}} },
	} {
		q, ring := *sh, *sh.Round
		q.Round = &ring
		if spoil(&q); q.Validate() == nil {
			t.Errorf("%s: not refused", name)
		}
	}
}
