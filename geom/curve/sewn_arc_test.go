package curve

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The two fast solves against the slow ones behind them, which rest on
// brackets alone.
func TestSolveArcBracketed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		gamma := rapid.Float64Range(0.05, 1.55).Draw(t, "gamma")
		k, free := freeArc(gamma)
		f := rapid.Float64Range(0.15, 0.99).Draw(t, "share of the free excess")
		fast := firmArc(gamma, f*free, k)
		slow := firmBracketed(gamma, f*free, math.Log(math.Sqrt((1-k)*(1+k))/k))
		sameArc(t, "firm", fast, slow)
		excess := free + (MaxSlack-1-free)*rapid.Float64Range(0.001, 1).Draw(t, "share of the rest")
		sameArc(t, "loose", looseArc(gamma, excess), looseBracketed(gamma, excess))
	})
}

func sameArc(t *rapid.T, what string, a, b arc) {
	if math.Abs(a.w-b.w) > 1e-8*b.w || math.Abs(a.phi-b.phi) > 1e-8 || math.Abs(a.p.k-b.p.k) > 1e-8 {
		t.Fatalf("%s: Newton w %v φ %v k %v, brackets %v %v %v", what, a.w, a.phi, a.p.k, b.w, b.phi, b.p.k)
	}
}
