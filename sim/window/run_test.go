package window

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"ruffwright/sim/shell"
)

// kinds are designs of every kind of fold: both edges and one, tucked and not, a
// second stitch line.
func kinds() map[string]Design {
	second := tabled(Both, Crests, 12, 35, 30)
	second.LineGap_mm = 6
	return map[string]Design{
		"both": tabled(Both, Crests, 0, 57, 0), "both, tuck, starch": tabled(Both, Crests, 12, 35, 30),
		"top, crests": tabled(Top, Crests, 0, 30, 0), "bottom, troughs, tuck": tabled(Bottom, Troughs, 10, 30, 5),
		"second line": second,
	}
}

// TestRepeated: whatever shape a half set has, a window of the panels that its
// mirrors make has as many times its energy, every part of it, and at every node
// off the folds its forces; between mirrors and, with contact at nodes, closed.
// What faces its like across a fold presses as the wall did.
func TestRepeated(t *testing.T) {
	set := Settings{Grid: Coarse}
	if err := set.defaults(); err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(4, 2))
	for name, d := range kinds() {
		half := newFrame(&d, d.Run(), Coarse)
		x := half.start()
		for i := range half.u {
			for j := range half.v {
				k := 3 * (i*len(half.v) + j)
				for c := range 3 {
					if last := len(half.u) - 1; i > 0 && i < last || c == 2 || c == 0 && i == 0 {
						x[k+c] += 0.3 * (r.Float64() - 0.5)
					}
				}
			}
		}
		for _, q := range []struct {
			n     int
			ends  End
			loose bool
		}{{2, Mirrored, false}, {3, Mirrored, false}, {2, Closed, false}, {4, Closed, false}, {2, Closed, true}} {
			half.spots = nil
			f := newFrame(&d, d.repeated(q.n, q.ends, q.ends), Coarse)
			if q.ends == Mirrored && half.tucked() {
				half.spots = shell.Spots(half.u, half.v)
			}
			one, many := half.sheet(1, upright, false, nil, &set), f.sheet(1, upright, false, nil, &set)
			half.settle(one, x, half.forming())
			f.settle(many, f.repeat(x), f.forming())
			if q.loose { // every node faces its like
				w := f.loosen(many)
				w.own = nil
				for k := range w.walls {
					w.face(k, func(int) bool { return true })
				}
				many.Pairs = w.own
			}
			a, b := shell.Solver{}, shell.Solver{}
			if err := a.Reset(one); err != nil {
				t.Fatal(err)
			}
			if err := b.Reset(many); err != nil {
				t.Fatal(err)
			}
			y := f.repeat(x)
			g, h := make([]float64, len(x)), make([]float64, len(y))
			e, ee := a.Gradient(x, g), b.Gradient(y, h)
			n := float64(q.n)
			for part, v := range map[string][2]float64{"bend": {e.Bend, ee.Bend}, "stretch": {e.Stretch, ee.Stretch}, "shear": {e.Shear, ee.Shear}, "gravity": {e.Gravity, ee.Gravity}, "contact": {e.Contact, ee.Contact}} {
				if v[0] == 0 || math.Abs(v[1]/v[0]/n-1) > 1e-9 {
					t.Errorf("%s, %+v: energy %s %.12g, of %g panels %.12g", name, q, part, v[0], n, v[1])
				}
			}
			top := 0.0
			for _, v := range g {
				top = max(top, math.Abs(v))
			}
			for k, p := range f.panels {
				for i := 1; i < Coarse.NU; i++ {
					for j := range f.v {
						at, like := 3*many.Node(p.line(i), j), [3]float64(g[3*one.Node(i, j):])
						like = p.direction(like)
						for c := range 3 {
							if math.Abs(h[at+c]-like[c]) > 1e-9*top {
								t.Fatalf("%s, %+v: panel %d, node (%d, %d): force %.9g, of the half set %.9g", name, q, k, i, j, h[at:at+3], like)
							}
						}
					}
				}
			}
		}
	}
}

// TestMoreFolds: three or four folds between mirrors, or closed, are at rest where
// the two are. Solved as from nothing they come to it; tucked, to one as near as
// two starts of a half set do (TestWarm).
func TestMoreFolds(t *testing.T) {
	for name, d := range kinds() {
		half := solved(t, d, quick)
		for _, q := range []struct {
			n    int
			ends End
		}{{2, Mirrored}, {3, Mirrored}, {2, Closed}} {
			if q.ends == Closed && d.Tucked() {
				continue // its contact is at nodes
			}
			s, w, err := half.solver().repeat(half, q.n, q.ends)
			if err != nil {
				t.Fatal(err)
			}
			x := append([]float64(nil), w.Shape...)
			r, err := s.run("checking", s.released(w), x, true)
			if moved := farthest(w.Shape, x); err != nil || r.Status.Early() || r.Steps > 2 || moved > 1e-3 {
				t.Errorf("%s, %+v: %v, %v after %d steps, moved by %.2g mm", name, q, err, r.Status, r.Steps, moved)
			}
			if testing.Short() && q.n > 2 {
				continue
			}
			c, err := Settle(context.Background(), d, d.repeated(q.n, q.ends, q.ends), quick, nil)
			if err != nil || !c.Converged() {
				t.Fatal(name, err, c.Form.Status, c.Release.Status)
			}
			apart, most := farthest(w.Shape, c.Shape), 1e-3
			if d.Tucked() {
				most = 3
			}
			t.Logf("%s, %+v: %.2g mm apart, %d factorisations, of the half set %d", name, q, apart, c.Iterations, half.Iterations)
			if apart > most {
				t.Errorf("%s, %+v: %.2g mm apart", name, q, apart)
			}
		}
	}
}
