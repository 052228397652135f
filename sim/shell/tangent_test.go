package shell_test

import (
	"math"
	"testing"

	"ruffwright/sim/shell"
)

// TestAntisymmetricIsTheWhole: the antisymmetric tangent of half a panel moves
// it as the whole panel moves under a sideways load, and the symmetric one as
// under an upright load.
func TestAntisymmetricIsTheWhole(t *testing.T) {
	half, x := gutter(1, false)
	whole, y := gutter(1, true)
	rest(t, half, x, shell.Settings{Tolerance: 1e-10})
	rest(t, whole, y, shell.Settings{Tolerance: 1e-10})
	a, err := shell.NewSolver(half)
	if err != nil {
		t.Fatal(err)
	}
	b, err := shell.NewSolver(whole)
	if err != nil {
		t.Fatal(err)
	}
	for axis, parity := range map[int]shell.Parity{0: shell.Antisymmetric, 2: shell.Symmetric} {
		load := func(sh *shell.Sheet) (l, m []float64) {
			l, m = make([]float64, 3*sh.Nodes()), make([]float64, 3*sh.Nodes())
			for i := range sh.U {
				for j := range sh.V {
					w := 7 * 5.0
					if i == len(sh.U)-1 || i == 0 {
						w /= 2
					}
					if j == 0 || j == len(sh.V)-1 {
						w /= 2
					}
					l[3*sh.Node(i, j)+axis] = 1e-4 * w
				}
			}
			return
		}
		la, ma := load(half)
		lb, mb := load(whole)
		if a.Response(x, la, ma, parity) || b.Response(y, lb, mb, shell.Symmetric) {
			t.Fatal("a stiffness is not positive definite")
		}
		top := 0.0
		for i := range half.U {
			for j := range half.V {
				p, q := 3*half.Node(i, j), 3*whole.Node(6+i, j)
				for c := range 3 {
					top = max(top, math.Abs(mb[q+c]))
					if d := math.Abs(ma[p+c] - mb[q+c]); d > 1e-6 {
						t.Fatalf("axis %d, node (%d, %d): half %.6g, whole %.6g", axis, i, j, ma[p+c], mb[q+c])
					}
				}
			}
		}
		if top < 1e-3 {
			t.Errorf("axis %d: nothing moves", axis)
		}
	}
	// a second tangent after an antisymmetric one is not disturbed by it
	l, m := make([]float64, len(x)), make([]float64, len(x))
	l[len(l)-1] = 1
	a.Response(x, l, m, shell.Symmetric)
	first := m[len(m)-1]
	a.Response(x, l, m, shell.Antisymmetric)
	a.Response(x, l, m, shell.Symmetric)
	if m[len(m)-1] != first {
		t.Errorf("symmetric response %v, then %v", first, m[len(m)-1])
	}
}
