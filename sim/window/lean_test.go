package window

import (
	"context"
	"math"
	"testing"

	"ruffwright/sim/measure"
	"ruffwright/sim/shell"
)

// TestGreenhill: a strip clamped at its foot stands up by itself to the height
// l³ = 7.8373 B/w, w its weight per area, and not beyond (A. G. Greenhill,
// Proc. Camb. Phil. Soc. 4, 65, 1881: 7.8373 is 9/4 of the square of the first
// zero 1.86635 of the Bessel function J₋⅓). Pushed sideways and let go, by the
// code that judges loops, the shorter one returns, the longer one stays down.
func TestGreenhill(t *testing.T) {
	const bend, mass = 15.3, 100.0
	critical := math.Cbrt(7.8373 * bend / shell.WeightPerArea(mass))
	for _, q := range []struct {
		share float64
		want  measure.Lean
	}{{0.8, measure.LeanReturns}, {0.985, measure.LeanReturns}, {1.015, measure.LeanStays}, {1.2, measure.LeanStays}} {
		sh := &shell.Sheet{U: []float64{0, 8}, BendU: bend, BendV: bend, StretchU: 8000, StretchV: 8000, Shear: 60, Mass: mass,
			VStart: shell.Edge{Kind: shell.Clamped, Tangent: [][3]float64{{0, 0, 1}}}}
		const n = 24
		for j := range n + 1 {
			sh.V = append(sh.V, q.share*critical*float64(j)/n)
		}
		x := make([]float64, 3*sh.Nodes())
		for i, u := range sh.U {
			sh.Held = append(sh.Held, shell.Hold{I: i, J: 0, Axes: shell.All})
			for j, v := range sh.V {
				copy(x[3*sh.Node(i, j):], []float64{u, 0, v})
			}
		}
		set := new(Settings)
		s := &solver{ctx: context.Background(), set: set, sh: new(shell.Solver)}
		w := &loose{sheet: sh, f: &frame{panels: []*panel{{u: sh.U}}}, nv: n, r0: 1e6, scale: sh.Weight() * sh.V[n]}
		got, mm, err := s.pushOver(w, x, [3]float64{0, 1, 0}, 0.25)
		t.Logf("%.3f of %.1f mm: %q, %.1f mm, %d factorisations", q.share, critical, got, mm, s.count)
		if err != nil || got != q.want {
			t.Errorf("%.3f of the height: %q, want %q (%v)", q.share, got, q.want, err)
		}
	}
}

// TestFollow: what loops do that are pushed over and let go. Sewn at the top edge
// without tuck and starch, the tangent has a negative pivot and yet the loops come
// back, as they did in whole strips that another program solved; limp cloth on a
// band so high that the inner edge is taut goes over and stays there.
func TestFollow(t *testing.T) {
	limp := tabled(Both, Crests, 0, 59.5, 0)
	limp.BendU_uNm, limp.BendV_uNm = 3, 3
	for _, q := range []struct {
		name string
		d    Design
		want measure.Lean
	}{{"top edge, crests", tabled(Top, Crests, 0, 30, 0), measure.LeanReturns}, {"both edges, taut", limp, measure.LeanStays}} {
		told := false // on the way, whatever the window's own grid
		c := solved(t, q.d, Settings{Grid: Grid{18, 9}, SkipBow: true, SkipOther: true, Follow: true, Progress: func(phase string, _ int) {
			told = told || phase == "pushing the loops sideways"
		}})
		if !told {
			t.Errorf("%s: nothing was told while the loops were pushed", q.name)
		}
		t.Logf("%s: %v, %q by %.1f mm, %d factorisations", q.name, c.LateralStable, c.Leans, c.Leans_mm, c.Extra)
		if c.LateralStable || c.Leans != q.want || (c.Leans_mm >= leanLeast_mm) != (q.want == measure.LeanStays) || c.Extra > leanWork+50 {
			t.Errorf("%s: stable %v, %q by %.1f mm after %d factorisations", q.name, c.LateralStable, c.Leans, c.Leans_mm, c.Extra)
		}
		c = solved(t, q.d, Settings{Grid: Coarse, SkipBow: true, SkipOther: true})
		if c.Leans != measure.LeanUnasked || c.Extra != 2 {
			t.Errorf("%s: followed without being asked", q.name)
		}
	}
}

// TestWindow: the whole set with its panels' real contact rests where the half set
// between its mirror planes does, within the contact's skin, and has twice its
// energy.
func TestWindow(t *testing.T) {
	c := solved(t, tabled(Both, Crests, 0, 57, 0), Settings{Grid: Coarse, SkipBow: true, SkipOther: true, SkipTangents: true})
	s, set, err := c.solver().repeat(c, 2, Closed)
	if err != nil {
		t.Fatal(err)
	}
	w, start := s.f.loosen(s.released(set)), set.Shape
	x := append([]float64(nil), start...)
	work := 0
	rest, err := s.downhill(w, x, upright, func() bool { return false }, &work)
	if err != nil || !rest {
		t.Fatalf("not at rest after %d factorisations: %v", work, err)
	}
	e := s.whole.Energy(x).Total() / 2
	t.Logf("moved by %.3f mm, energy %.4f and %.4f µJ, %d factorisations", farthest(start, x), e, c.Release.Energy.Total(), work)
	if farthest(start, x) > skin_mm || math.Abs(e/c.Release.Energy.Total()-1) > 1e-3 {
		t.Errorf("moved by %.3f mm, energy %.6g, of the half set %.6g µJ", farthest(start, x), e, c.Release.Energy.Total())
	}
	if n := w.through(x, 0.1); n != 0 {
		t.Errorf("panels pass through each other in %d places", n)
	}
	for _, q := range []struct {
		i, at int
		want  bool
	}{{3, 9, true}, {1, -1, true}, {1, -9, false}, {9, -1, false}, {17, 15, true}, {17, 9, false}, {25, 15, false}, {31, 33, true}, {31, 40, false}} {
		if w.oneTuck(q.i, q.at) != q.want {
			t.Errorf("lines %d and %d are of one panel or tuck: %v", q.i, q.at, !q.want)
		}
	}
	// the same shape with its neighbours pushed into each other is seen
	for i := range c.Grid.NU {
		for j := range c.V {
			x[3*w.sheet.Node(i, j)+1] += 6
		}
	}
	if w.through(x, 0.1) == 0 {
		t.Error("panels that pass through each other are not seen")
	}
}

// TestNearLists: what a node may touch is all cloth across its walls that is near
// enough, but for the lines that are of its own layer, beside it, or of its tuck.
func TestNearLists(t *testing.T) {
	for name, d := range map[string]Design{"tucked": tabled(Both, Crests, 8, 42, 0), "no tuck": tabled(Both, Crests, 0, 57, 0)} {
		nearLists(t, name, solved(t, d, quick))
	}
}

func nearLists(t *testing.T, name string, c *Window) {
	s, set, err := c.solver().repeat(c, 2, Closed)
	if err != nil {
		t.Fatal(err)
	}
	w, sh := s.f.loosen(s.released(set)), s.f.sheet(1, upright, false, nil, s.set)
	nu, lines, nodes := Coarse.NU, 2*Coarse.NU, sh.Nodes()
	line := func(corner int32) int { // counted on into the images
		i := int(corner) % nodes / len(c.V)
		return i + [3]int{0, -lines, lines}[int(corner)/nodes]
	}
	tuck := func(fold int) int { return s.f.panels[0].tuckLines(fold/nu%2 != 0) }
	const reach = 20
	listed := map[int]int{}
	past := map[int]bool{} // nodes beside a fold that are kept from cloth past its tuck
	for _, q := range w.near(set.Shape, reach) {
		i := q.Node / len(c.V)
		listed[q.Node] += len(q.Patch)
		fold := (i + nu/2) / nu * nu
		in := max(i-fold, fold-i) <= tuck(fold)
		for _, tri := range q.Patch {
			for _, corner := range tri {
				at := line(corner)
				if max(i-at, at-i) < guard || in && max(at-fold, fold-at) < tuck(fold) {
					t.Fatalf("%s: a node of line %d is kept from line %d, its own layer or tuck", name, i, at)
				}
				if (i < fold) == (at > fold) {
					past[i] = true
				}
			}
		}
	}
	for _, i := range []int{1, nu - 1, nu + 1, lines - 1} {
		if !past[i] {
			t.Errorf("%s: nodes of line %d are not kept from the cloth across their fold", name, i)
		}
	}
	// midway between the folds nothing is left out
	quads, most := sh.Quads(set.Shape, -nu, 3*nu), 2*(c.Design.Thickness_mm/2+skin_mm)+2*reach
	for _, i := range []int{nu / 2, nu + nu/2} {
		for j := range c.V {
			near, at := 0, sh.Node(i, j)
			for k := range 4 * nu {
				if panel := k/nu - 1; panel != i/nu-1 && panel != i/nu+1 {
					continue
				}
				for m := range quads[k] {
					if quads[k][m].Distance([3]float64(set.Shape[3*at:])) < most {
						near += 2
					}
				}
			}
			if near == 0 || listed[at] != near {
				t.Errorf("%s: of node (%d, %d) %d triangles are listed, %d are near", name, i, j, listed[at], near)
			}
		}
	}
}

// solver returns a solver of a test's window, a half set.
func (c *Window) solver() *solver {
	set := &Settings{Grid: c.Grid}
	_ = set.defaults()
	return &solver{ctx: context.Background(), set: set, f: newFrame(&c.Design, c.Design.Run(), c.Grid), sh: new(shell.Solver)}
}
