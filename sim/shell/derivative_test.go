package shell

import (
	"math"
	"math/rand/v2"
	"testing"
)

// everything is a small sheet with every energy at work: graded grid, two
// mirror planes at an angle, a clamp, hinges, a frozen shape with a crease,
// two planes, a cylinder, a cone and a tie.
func everything(seed uint64) (*Sheet, []float64) {
	r := rand.New(rand.NewPCG(seed, 3))
	sh := &Sheet{
		U: []float64{0, 1.5, 3, 5, 6.5}, V: []float64{0, 2, 4.5, 8},
		BendU: 20, BendV: 13, StretchU: 300, StretchV: 200, Shear: 90, Mass: 150, Gravity: [3]float64{0.3, 0.1, -0.9},
		UStart: Edge{Kind: Mirror, Normal: [3]float64{0, 1, 0}},
		VStart: Edge{Kind: Clamped, Tangent: [][3]float64{{0.8, 0, 0.6}}},
		Held:   []Hold{{I: 0, J: 0, Axes: All}, {I: 2, J: 0, Axes: First | Third}, {I: 4, J: 0, Axes: Third}, {I: 3, J: 1, Axes: First, In: [3]float64{math.Sin(0.3), -math.Cos(0.3), 0}}},
	}
	a := 0.3
	sh.UEnd = Edge{Kind: Mirror, Normal: [3]float64{math.Sin(a), -math.Cos(a), 0}, Offset: -5}
	sh.Fold = make([]float64, sh.Nodes())
	for k := range sh.Fold {
		sh.Fold[k] = 0.2 + 0.8*r.Float64()
	}
	nu, nv := len(sh.U)-1, len(sh.V)-1
	f := &Frozen{BendU: 50, BendV: 30, Shear: 70, U: make([]float64, sh.Nodes()), V: make([]float64, sh.Nodes()), UV: make([]float64, nu*nv), Skew: make([]float64, nu*nv)}
	for _, c := range [][]float64{f.U, f.V, f.UV, f.Skew} {
		for k := range c {
			c[k] = 0.3 * (r.Float64() - 0.5)
		}
	}
	f.U[7], f.UV[3], f.Skew[5] = math.NaN(), math.NaN(), math.NaN()
	sh.Frozen = f
	x := make([]float64, 3*sh.Nodes())
	for i, u := range sh.U {
		for j, v := range sh.V {
			n := sh.Node(i, j)
			x[3*n] = v + 0.4*(r.Float64()-0.5)
			x[3*n+1] = u*0.9 + 0.4*(r.Float64()-0.5)
			x[3*n+2] = 2*math.Sin(u) + 0.4*(r.Float64()-0.5)
			if i == 0 {
				x[3*n+1] = 0
			}
			if i == nu {
				e := sh.UEnd
				d := dot3(e.Normal, [3]float64(x[3*n:3*n+3])) - e.Offset
				for c := range 3 {
					x[3*n+c] -= d * e.Normal[c]
				}
			}
		}
	}
	pl := Plane([3]float64{0, 1, 0}, 2)
	pl.Stiffness, pl.Skin = 40, 1.5
	pl.Back = make([]float64, sh.Nodes())
	for k := range pl.Back {
		pl.Back[k] = 0.3 * r.Float64()
	}
	cy := Outside([2]float64{-5, 0}, 7)
	cy.Stiffness, cy.Skin = 30, 1
	co := Above([2]float64{-5, 0}, 5, -0.5, 0.4)
	co.Stiffness, co.Skin = 25, 1.1
	ti := Outside([2]float64{-5, 0}, 5)
	ti.Stiffness, ti.Tie, ti.Weight = 60, true, make([]float64, sh.Nodes())
	ti.Weight[sh.Node(2, 0)], ti.Weight[sh.Node(4, 0)] = 1, 0.5
	sh.Contacts = []Contact{pl, cy, co, ti}
	sh.Spots = Spots(sh.U, sh.V)
	for _, c := range []Contact{Plane([3]float64{0.6, 0, 0.8}, 2.5), Outside([2]float64{-5, 0}, 8)} {
		c.Stiffness, c.Skin, c.Between = 3, 1.2, true
		c.Weight, c.Back = make([]float64, len(sh.Spots)), make([]float64, len(sh.Spots))
		for k, q := range sh.Spots {
			c.Weight[k], c.Back[k] = q.Area, 0.3*r.Float64()
		}
		sh.Contacts = append(sh.Contacts, c)
	}
	return sh, x
}

// TestDerivatives compares the gradient with central differences of the energy
// and the Hessian with central differences of the gradient, symmetric and
// antisymmetric, all energies at once. Fourth-order differences; what is left is rounding and that kink.
func TestDerivatives(t *testing.T) {
	for seed := range uint64(4) {
		sh, x := everything(seed)
		if seed == 3 { // cloth that differs from line to line, a line without weight or bend
			sh.GradeU = Grade{Mass: []float64{1, 3, 0, 1, 2}, Bend: []float64{1, 5, 0, 1, 0.2}, Stretch: []float64{1, 2, 0.1, 1, 3}}
			sh.GradeV = Grade{Mass: []float64{2, 1, 4, 0.5}, Bend: []float64{1, 0.3, 8, 2}, Stretch: []float64{1, 4, 0.5, 2}}
		}
		s, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		worstG, worstH := derivatives(t, s, x)
		t.Logf("seed %d: %d unknowns, half-band %d, gradient %.1e, Hessian %.1e", seed, s.sym.n, s.sym.kd, worstG, worstH)
		if worstG > 1e-8 || worstH > 1e-7 {
			t.Errorf("seed %d: gradient off by %.1e, Hessian by %.1e", seed, worstG, worstH)
		}
	}
}

// derivatives returns how far the gradient and the Hessian of a shape are from
// differences, as shares of the largest force and of the mean diagonal.
func derivatives(t *testing.T, s *Solver, x []float64) (worstG, worstH float64) {
	t.Helper()
	e := s.Energy(x)
	for name, v := range map[string]float64{"bend": e.Bend, "frozen": e.Frozen, "stretch": e.Stretch, "shear": e.Shear, "gravity": e.Gravity, "contact": e.Contact} {
		if v == 0 {
			t.Errorf("energy %s is not at work", name)
		}
	}
	m := &s.sym
	grad := func(x []float64) []float64 {
		s.spread(x)
		s.evaluate(true)
		s.foldGhosts()
		r := make([]float64, m.n)
		m.collect(s, r)
		return r
	}
	unit := make([]float64, m.n)
	p := make([]float64, 3*s.nodes)
	moved := func(k int, h float64) []float64 {
		clear(unit)
		unit[k] = 1
		m.scatter(s, unit, p)
		y := append([]float64(nil), x...)
		for i := range y {
			y[i] += h * p[i]
		}
		return y
	}
	g := grad(x)
	s.spread(x)
	s.measureStrains(s.strain, s.skew)
	s.assemble(m, &s.base, &s.work, 0, false)
	gs, hs := largest(g), s.work.MeanDiagonal()
	const h = 2e-4 // short: contact has a kink in its third derivative
	for k := range m.n {
		E := func(h float64) float64 { return s.Energy(moved(k, h)).Total() }
		d := (8*(E(h)-E(-h)) - (E(2*h) - E(-2*h))) / (12 * h)
		worstG = max(worstG, math.Abs(d-g[k])/gs)
		a, b, c, e := grad(moved(k, h)), grad(moved(k, -h)), grad(moved(k, 2*h)), grad(moved(k, -2*h))
		for i := range m.n {
			d := (8*(a[i]-b[i]) - (c[i] - e[i])) / (12 * h)
			worstH = max(worstH, math.Abs(d-s.work.At(max(i, k), min(i, k)))/hs)
		}
	}
	return
}
