package shell

import "testing"

// benchSheet is a frozen corrugated sheet of 24 × 12 cells between mirror
// planes, the size of the product's fine grid.
func benchSheet(b *testing.B) (*Solver, []float64) {
	sh, _ := everything(1)
	sh.U, sh.V = nil, nil
	for k := range 25 {
		sh.U = append(sh.U, 2.5*float64(k))
	}
	for k := range 13 {
		sh.V = append(sh.V, 6*float64(k))
	}
	sh.Held, sh.Fold, sh.Contacts, sh.VStart = []Hold{{I: 0, J: 0, Axes: All}}, nil, nil, Edge{}
	n := sh.Nodes()
	f := &Frozen{BendU: 50, BendV: 30, U: make([]float64, n), V: make([]float64, n), UV: make([]float64, 24*12)}
	x := make([]float64, 3*n)
	for k := range n {
		f.U[k], f.V[k] = 0.03, 0.001
		x[3*k], x[3*k+1], x[3*k+2] = sh.V[k%13], 0.3*sh.U[k/13], 0.9*sh.U[k/13]
	}
	for k := range f.UV {
		f.UV[k] = 0.002
	}
	sh.Frozen = f
	s, err := NewSolver(sh)
	if err != nil {
		b.Fatal(err)
	}
	s.spread(x)
	s.measureStrains(s.strain, s.skew)
	return s, x
}

func BenchmarkAssemble(b *testing.B) {
	s, _ := benchSheet(b)
	b.ReportAllocs()
	for b.Loop() {
		s.assemble(&s.sym, &s.base, &s.work, 0.5, false)
	}
}

func BenchmarkEnergy(b *testing.B) {
	s, _ := benchSheet(b)
	b.ReportAllocs()
	for b.Loop() {
		s.evaluate(false)
	}
}

func BenchmarkGradient(b *testing.B) {
	s, _ := benchSheet(b)
	b.ReportAllocs()
	for b.Loop() {
		s.evaluate(true)
	}
}

func BenchmarkLag(b *testing.B) {
	s, _ := benchSheet(b)
	b.ReportAllocs()
	for b.Loop() {
		s.lag(s.x, s.px, 0.5)
		s.foresee(s.x, s.px, 0.5)
	}
}

func BenchmarkBackSubstitution(b *testing.B) {
	s, _ := benchSheet(b)
	s.assemble(&s.sym, &s.base, &s.work, 1, false)
	s.work.Shift(1)
	if ok, _ := s.work.Factor(); !ok {
		b.Fatal("not positive definite")
	}
	b.ReportAllocs()
	for b.Loop() {
		s.work.Solve(s.p)
	}
}
