package shell

import (
	"math"
	"math/rand/v2"
	"testing"
)

// folded is a crumpled fold of 12 × 8 cells with two sticks somewhere near it.
func folded(seed uint64) (*Sheet, []float64) {
	r := rand.New(rand.NewPCG(seed, 12))
	sh := &Sheet{BendU: 1, BendV: 1, StretchU: 1, StretchV: 1, Shear: 1, Levels: []Level{{Most_mm: 1}}}
	for k := range 13 {
		sh.U = append(sh.U, 2*float64(k))
	}
	for k := range 9 {
		sh.V = append(sh.V, 3*float64(k)+0.1*float64(k*k))
	}
	sh.Spots = Spots(sh.U, sh.V)
	var x []float64
	for _, u := range sh.U {
		for _, v := range sh.V {
			for _, p := range [3]float64{v, 4 * math.Sin(u/5), 6 * math.Cos(u/5)} {
				x = append(x, p+r.Float64()-0.5)
			}
		}
	}
	for k := range 2 {
		q := Stick{Out: [3]float64{1, 0, 0}, Clear: 0.1, Stiffness: 1, Skin: 0.2}
		q.Ends[0] = StickEnd{5, 12 * (r.Float64() - 0.5), 1.5, []float64{1}}
		q.Ends[1] = StickEnd{25, 12 * (r.Float64() - 0.5), 3 * r.Float64(), []float64{1}}
		q.Weight = make([]float64, len(sh.Spots))
		for n := range sh.Spots {
			if sh.Spots[n].V > 5 && n%3 != k {
				q.Weight[n] = 1
			}
		}
		sh.Sticks = append(sh.Sticks, q)
	}
	return sh, x
}

// TestGrips: passing over grips leaves out no spot that feels a stick, against all spots
// one by one, and most are passed over.
func TestGrips(t *testing.T) {
	felt, passed, grips := 0, 0, 0
	for seed := range uint64(60) {
		sh, x := folded(seed)
		s, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		s.spread(x)
		for k := range sh.Sticks {
			q := &sh.Sticks[k]
			var found []int
			s.onStick(k, func(_ *axis, n int, _ *Spot, _ [3]float64, _ float64) { found = append(found, n) })
			a := q.axis(s.levels(s.x))
			for n := range sh.Spots {
				if q.Weight[n] == 0 || a.gap(sh.Spots[n].At(s.x)) >= q.Skin {
					continue
				}
				if len(found) == 0 || found[0] != n {
					t.Fatalf("seed %d: stick %d: spot %d feels it and is not found; next found %v", seed, k, n, found)
				}
				found = found[1:]
				felt++
			}
			if len(found) > 0 {
				t.Fatalf("seed %d: stick %d: spots %v are found and do not feel it", seed, k, found)
			}
			for _, g := range s.grips[s.gripsOf[k]:s.gripsOf[k+1]] {
				grips++
				if a.clears(&sh.Spots[g.first], g.less, s.x) {
					passed++
				}
			}
		}
	}
	t.Logf("%d spots felt; %d of %d grips passed over", felt, passed, grips)
	if felt < 1000 || passed < grips/2 {
		t.Error("too few to mean anything")
	}
}
