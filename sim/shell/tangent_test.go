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

// TestImageGoesAlong: what presses on a mirror's plane presses on its own image, at
// nodes and between them, which goes along in an antisymmetric movement: that is as
// if the plane were not there. A symmetric movement it hinders.
func TestImageGoesAlong(t *testing.T) {
	for _, between := range []bool{false, true} {
		sh, x := gutter(1, false)
		c := shell.Plane([3]float64{1, 0, 0}, 2)
		c.Stiffness, c.Skin, c.Image, c.Between = 50, 4, true, between
		if between {
			sh.Spots = shell.Spots(sh.U, sh.V)
		}
		load, with, without := make([]float64, len(x)), make([]float64, len(x)), make([]float64, len(x))
		for k := range load {
			load[k] = 1e-3
		}
		for _, parity := range []shell.Parity{shell.Symmetric, shell.Antisymmetric} {
			for contacts, move := range map[*[]shell.Contact][]float64{{c}: with, {}: without} {
				sh.Contacts = *contacts
				s, err := shell.NewSolver(sh)
				if err != nil {
					t.Fatal(err)
				}
				if s.Response(x, load, move, parity) {
					t.Fatal("the stiffness is not positive definite")
				}
			}
			off := 0.0
			for k := range with {
				off = max(off, math.Abs(with[k]-without[k]))
			}
			if (off > 1e-12) != (parity == shell.Symmetric) {
				t.Errorf("between nodes %v, parity %v: the plane makes a difference of %.2g mm", between, parity, off)
			}
		}
	}
}

// TestStable: a strip clamped upright stands under its own weight up to a length
// of 1.986 (B/w)^⅓ (Greenhill 1881: 7.8373 = l³w/B), and a solve that begins
// straight ends straight above it too.
func TestStable(t *testing.T) {
	const b, mass, cells = 50.0, 100.0, 40
	c := math.Cbrt(b / shell.WeightPerArea(mass))
	greenhill := math.Cbrt(7.8373) * c
	for share, stands := range map[float64]bool{0.98: true, 1.02: false} {
		l := share * greenhill
		sh := &shell.Sheet{
			U: lines(2, l/10), V: lines(cells, l), BendU: b, BendV: b,
			StretchU: 8000, StretchV: 8000, Shear: 60, Mass: mass, Gravity: [3]float64{0, 0, -1},
			VStart: shell.Edge{Kind: shell.Clamped, Tangent: [][3]float64{{0, 0, 1}}},
		}
		x := make([]float64, 3*sh.Nodes())
		for i, u := range sh.U {
			sh.Held = append(sh.Held, shell.Hold{I: i, J: 0, Axes: shell.All})
			for j, v := range sh.V {
				k := 3 * sh.Node(i, j)
				x[k], x[k+2] = u, v
			}
		}
		rest(t, sh, x, shell.Settings{})
		s, err := shell.NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		for k := 1; k < len(x); k += 3 {
			if x[k] != 0 {
				t.Fatalf("node %d left the plane by %g mm", k/3, x[k])
			}
		}
		if got := s.Stable(x); got != stands {
			t.Errorf("%.2f of Greenhill's length: stable %v", share, got)
		}
	}
}
