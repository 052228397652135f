package shell_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"

	"ruffwright/sim/shell"
)

// testBand fills a diagonally dominant band matrix from a seed.
func testBand(n, kd int, seed uint64) *shell.Band {
	r := rand.New(rand.NewPCG(seed, 1))
	b := new(shell.Band)
	b.Resize(n, kd)
	_, kd = b.Size()
	for i := range n {
		for j := max(0, i-kd); j < i; j++ {
			b.Add(i, j, r.Float64()-0.5)
		}
		b.Add(i, i, float64(kd)+1)
	}
	return b
}

// TestBandAgainstGonum compares factor and solution with gonum v0.17's
// BandCholesky over odd sizes, narrow and full bands.
func TestBandAgainstGonum(t *testing.T) {
	for _, c := range []struct{ n, kd int }{{1, 0}, {2, 0}, {3, 0}, {2, 1}, {5, 1}, {7, 3}, {9, 8}, {8, 20}, {30, 5}, {31, 6}, {64, 13}, {121, 57}} {
		b := testBand(c.n, c.kd, uint64(c.n))
		_, kd := b.Size()
		a := mat.NewSymBandDense(c.n, kd, nil)
		rhs := make([]float64, c.n)
		for i := range c.n {
			rhs[i] = math.Sin(float64(i))
			for j := max(0, i-kd); j <= i; j++ {
				a.SetSymBand(i, j, b.At(i, j))
			}
		}
		var ch mat.BandCholesky
		if !ch.Factorize(a) {
			t.Fatal("gonum refuses the matrix")
		}
		var want mat.VecDense
		if err := ch.SolveVecTo(&want, mat.NewVecDense(c.n, rhs)); err != nil {
			t.Fatal(err)
		}
		if ok, row := b.Factor(); !ok {
			t.Fatalf("n=%d kd=%d: failed at row %d", c.n, kd, row)
		}
		x := append([]float64(nil), rhs...)
		b.Solve(x)
		for i := range x {
			if d := math.Abs(x[i] - want.AtVec(i)); d > 1e-12 {
				t.Errorf("n=%d kd=%d: x[%d] off by %.2g", c.n, kd, i, d)
			}
		}
		// L Lᵀ gives the matrix back
		for i := range c.n {
			for j := max(0, i-kd); j <= i; j++ {
				s := 0.0
				for k := range j + 1 {
					s += b.At(i, k) * b.At(j, k)
				}
				if d := math.Abs(s - a.At(i, j)); d > 1e-12*float64(kd+1) {
					t.Errorf("n=%d kd=%d: (LLᵀ)(%d,%d) off by %.2g", c.n, kd, i, j, d)
				}
			}
		}
	}
}

// TestBandIndefinite: a matrix that is not positive definite is reported with
// the row of its first bad pivot.
func TestBandIndefinite(t *testing.T) {
	for row := range 12 {
		b := testBand(12, 4, 7)
		b.Add(row, row, -100)
		if ok, at := b.Factor(); ok || at != row {
			t.Errorf("row %d: got %v, %d", row, ok, at)
		}
	}
	b := testBand(6, 2, 7)
	b.Add(3, 3, math.NaN())
	if ok, _ := b.Factor(); ok {
		t.Error("a NaN pivot was accepted")
	}
}

func benchmarkFactor(b *testing.B, n, kd int) {
	a, w := testBand(n, kd, 12345), new(shell.Band)
	w.Resize(n, kd)
	b.ReportAllocs()
	for b.Loop() {
		w.CopyFrom(a)
		if ok, _ := w.Factor(); !ok {
			b.Fatal("not positive definite")
		}
	}
	b.ReportMetric(float64(n)*float64(kd*(kd+3))*float64(b.N)/b.Elapsed().Seconds()*1e-9, "GFlop/s")
}

func BenchmarkFactor459(b *testing.B)  { benchmarkFactor(b, 459, 57) }
func BenchmarkFactor975(b *testing.B)  { benchmarkFactor(b, 975, 80) }
func BenchmarkFactor1683(b *testing.B) { benchmarkFactor(b, 1683, 104) }
