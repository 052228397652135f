package shell

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
)

// ring is everything's sheet closed onto its image, turned by a tenth of a circle,
// with nodes that face each other and the images before and after.
func ring(seed uint64) (*Sheet, []float64) {
	sh, x := everything(seed)
	sh.UStart, sh.UEnd, sh.VStart = Edge{}, Edge{}, Edge{}
	sh.Contacts, sh.Spots = sh.Contacts[:4], nil // those at nodes
	sn, cs := math.Sincos(-0.6)
	sh.Round = &Round{Step: 1.8, Turn: [9]float64{cs, -sn, 0, sn, cs, 0, 0, 0, 1}, Shift: [3]float64{-1, 7, 0.5}}
	nu, nv := len(sh.U), len(sh.V)-1
	for k := nu * nv; len(sh.Frozen.UV) < k; { // of the closing cells
		sh.Frozen.UV, sh.Frozen.Skew = append(sh.Frozen.UV, 0.1), append(sh.Frozen.Skew, 0.2)
	}
	for i := range nu {
		for j := range sh.V {
			c, _ := sh.Corner(2*nu-3-i, j) // images before and after, and the sheet itself
			p := sh.Facing(sh.Node(i, j), c, [3]float64{0.6, 0.8, 0}, 0.1)
			p.Stiffness, p.Skin, p.Weight, p.Back = 30, 4, 1.5, 0.1
			sh.Pairs = append(sh.Pairs, p)
		}
	}
	return sh, x
}

// TestRoundDerivatives compares gradient and Hessian of a closed sheet, its pairs
// pressed, with differences.
func TestRoundDerivatives(t *testing.T) {
	for seed := range uint64(2) {
		sh, y := ring(seed)
		for k := range sh.Pairs { // some against a place between three nodes
			if p := &sh.Pairs[k]; k%3 == 0 && p.N[1] != p.N[0] {
				p.N[2], p.N[3] = (p.N[1]+5)%sh.Nodes(), (p.N[0]+7)%sh.Nodes()
				p.D[2], p.D[3] = [3]float64{0.02, 0.01, -0.03}, [3]float64{0, 0.02, 0.01}
			}
		}
		s, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		pressed := 0
		for k := range sh.Pairs {
			if p := &sh.Pairs[k]; p.Gap(y)+p.Back < p.Skin {
				pressed++
			}
		}
		g, h := derivatives(t, s, y)
		t.Logf("seed %d: %d unknowns, half-band %d, %d of %d pairs pressed, gradient %.1e, Hessian %.1e", seed, s.sym.n, s.sym.kd, pressed, len(sh.Pairs), g, h)
		if g > 1e-8 || h > 1e-7 || pressed < 3 {
			t.Errorf("seed %d: gradient off by %.1e, Hessian by %.1e, %d pairs pressed", seed, g, h, pressed)
		}
	}
}

// TestFacing: the gap of two that face each other is half their distance less the
// clearance, whichever image the other is in; a node that faces its own image in a
// mirror has the gap of the mirror's plane; no image lies beyond a free edge.
func TestFacing(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	open, x := everything(1)
	closed, y := ring(1)
	for _, q := range []struct {
		sh *Sheet
		x  []float64
	}{{open, x}, {closed, y}} {
		n := len(q.sh.U)
		for i := 1 - n; i < 2*n-1; i++ {
			for j := range q.sh.V {
				a := r.IntN(q.sh.Nodes())
				c, ok := q.sh.Corner(i, j)
				p, at := [3]float64(q.x[3*a:]), q.sh.place(q.x, c)
				d := sub(p, at)
				l := norm(d)
				if !ok || l == 0 {
					continue
				}
				for k := range d {
					d[k] /= l
				}
				f := q.sh.Facing(a, c, d, 0.125)
				if g := f.Gap(q.x); math.Abs(g-(l/2-0.125)) > 1e-12 {
					t.Fatalf("corner %d of line %d, node %d: gap %.12g, half the distance less 0.125 is %.12g", c, i, a, g, l/2-0.125)
				}
			}
		}
	}
	for end, e := range []Edge{open.UStart, open.UEnd} {
		plane := Plane(e.Normal, e.Offset+0.125)
		for i := range open.U {
			mirrored := -i
			if end == 1 {
				mirrored = 2*(len(open.U)-1) - i
			}
			c, ok := open.Corner(mirrored, 2)
			if !ok || i == 0 && end == 0 || i == len(open.U)-1 && end == 1 {
				continue
			}
			a := open.Node(i, 2)
			f := open.Facing(a, c, e.Normal, 0.125)
			if g, want := f.Gap(x), plane.Gap([3]float64(x[3*a:])); c%open.Nodes() != a || math.Abs(g-want) > 1e-12 {
				t.Errorf("end %d, line %d: corner %d, gap %.12g, of the plane %.12g", end, i, c, g, want)
			}
		}
	}
	open.UEnd = Edge{}
	if _, ok := open.Corner(len(open.U), 0); ok {
		t.Error("something lies beyond a free edge")
	}
}

// TestRoughPair: where a pair's nodes lie farther apart than the band is wide, the
// blocks on the diagonal that stand for it are nowhere softer than it is.
func TestRoughPair(t *testing.T) {
	sh, x := ring(1)
	s, err := NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	s.spread(x)
	r := rand.New(rand.NewPCG(6, 1))
	p, kd := &sh.Pairs[2], s.sym.kd
	stiffness := func(v []float64) (sum float64) {
		clear(s.work.a)
		s.assemblePair(&s.sym, &s.work, p)
		for i := range v {
			for j := max(0, i-kd); j <= i; j++ {
				h := s.work.At(i, j) * v[i] * v[j]
				if sum += h; i != j {
					sum += h
				}
			}
		}
		return
	}
	for range 20 {
		v := make([]float64, s.sym.n)
		for k := range v {
			v[k] = r.Float64() - 0.5
		}
		s.sym.kd = kd
		exact := stiffness(v)
		s.sym.kd = 0
		if rough := stiffness(v); rough < exact || exact <= 0 {
			t.Fatalf("stiffness %.6g, roughly %.6g", exact, rough)
		}
	}
}

// TestTube: a closed strip of length l bent to a circle keeps the bending energy
// ½ B W (2π)²/l of a thin ring (1/r = 2π/l all round).
func TestTube(t *testing.T) {
	const n, l, width, b = 64, 100.0, 10.0, 15.0
	sh := &Sheet{V: []float64{0, width / 2, width}, BendU: b, BendV: b, StretchU: 1e4, StretchV: 1e4, Shear: 100, Mass: 1,
		Round: &Round{Step: l / n, Turn: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}}}
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
