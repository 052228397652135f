package window

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
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

// bent is a half set's start with its free nodes moved at random.
func bent(f *frame, r *rand.Rand) []float64 {
	x := f.start()
	for i := range f.u {
		for j := range f.v {
			k := 3 * (i*len(f.v) + j)
			for c := range 3 {
				if last := len(f.u) - 1; i > 0 && i < last || c == 2 || c == 0 && i == 0 {
					x[k+c] += 0.3 * (r.Float64() - 0.5)
				}
			}
		}
	}
	return x
}

// pull gives a sheet's energies and the forces on its nodes.
func pull(t *testing.T, sh *shell.Sheet, x []float64) (shell.Energies, []float64) {
	t.Helper()
	s, err := shell.NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	g := make([]float64, len(x))
	return s.Gradient(x, g), g
}

// TestRepeated: whatever shape a half set has, a window of the panels that its
// mirrors make has as many times its energy, every part of it, and at every node
// off the folds its forces; between mirrors and, with contact at nodes, closed; and
// there too with every node facing its like across the fold in a wall's stead.
func TestRepeated(t *testing.T) {
	set := Settings{Grid: Coarse}
	if err := set.defaults(); err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(4, 2))
	for name, d := range kinds() {
		half := newFrame(&d, d.Run(), Coarse)
		spots, x := half.spots, bent(half, r)
		for _, q := range []struct {
			n     int
			ends  End
			loose bool
		}{{2, Mirrored, false}, {3, Mirrored, false}, {2, Closed, false}, {4, Closed, false}, {2, Closed, true}} {
			if half.spots = nil; q.ends == Mirrored {
				half.spots = spots
			}
			f := newFrame(&d, d.repeated(q.n, q.ends, q.ends), Coarse)
			one, many := half.sheet(1, upright, false, nil, &set), f.sheet(1, upright, false, nil, &set)
			y := f.repeat(x)
			half.setBack(one, x)
			f.setBack(many, y)
			if q.loose {
				w := f.loosen(many)
				w.own = nil
				for k := range w.walls {
					w.face(k, func(int) bool { return true })
				}
				many.Pairs = w.own
			}
			e, g := pull(t, one, x)
			ee, h := pull(t, many, y)
			n := float64(q.n)
			for part, v := range map[string][2]float64{"bend": {e.Bend, ee.Bend}, "stretch": {e.Stretch, ee.Stretch}, "shear": {e.Shear, ee.Shear}, "gravity": {e.Gravity, ee.Gravity}, "contact": {e.Contact, ee.Contact}} {
				if v[0] == 0 || math.Abs(v[1]/v[0]/n-1) > 1e-9 {
					t.Errorf("%s, %+v: energy %s %.12g, of %g panels %.12g", name, q, part, v[0], n, v[1])
				}
			}
			if off := f.unlike(one, many, g, h); off > 1e-9*farthest(g, make([]float64, len(g))) {
				t.Errorf("%s, %+v: forces differ by %.2g mN", name, q, off)
			}
		}
	}
}

// unlike is by how much the forces h in a window's panels differ from the half
// set's g, off the folds, mN.
func (f *frame) unlike(half, sh *shell.Sheet, g, h []float64) (most float64) {
	for _, p := range f.panels {
		for i := 1; i < len(p.u)-1; i++ {
			for j := range f.v {
				at, like := 3*sh.Node(p.line(i), j), p.direction([3]float64(g[3*half.Node(i, j):]))
				most = max(most, farthest(h[at:at+3], like[:]))
			}
		}
	}
	return
}

// TestMoreFolds: three or four folds between mirrors, or closed, are at rest where
// the two are. Solved as from nothing they come to it; tucked, to one that is at rest and
// was formed as tall, within 1 mm: the inside of its tucks may lie otherwise, for
// no mirror keeps neighbours alike there.
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
			r, err := s.run("checking", s.released(w), x, shell.Settings{Warm: true})
			if moved := farthest(w.Shape, x); err != nil || r.Status.Early() || r.Steps > 2 || moved > 1e-3 {
				t.Errorf("%s, %+v: %v, %v after %d steps, moved by %.2g mm", name, q, err, r.Status, r.Steps, moved)
			}
			if testing.Short() && q.n > 2 {
				continue
			}
			c, err := Settle(context.Background(), d, d.repeated(q.n, q.ends, q.ends), quick, half) // which is no start for more folds
			if err != nil || !c.Converged() {
				t.Fatal(name, err, c.Form.Status, c.Release.Status)
			}
			apart := farthest(w.Shape, c.Shape)
			t.Logf("%s, %+v: %.2g mm apart, formed %.2g mm off its sticks, the half set %.2g; %d factorisations, of the half set %d", name, q, apart, c.FormedOff_mm, half.FormedOff_mm, c.Iterations, half.Iterations)
			if apart > 1e-3 && !d.Tucked() || math.Abs(c.FormedOff_mm-half.FormedOff_mm) > 1 || c.FormedOff_mm > 0 != d.Tucked() {
				t.Errorf("%s, %+v: %.2g mm apart, formed %.2g mm off its sticks, the half set %.2g", name, q, apart, c.FormedOff_mm, half.FormedOff_mm)
			}
		}
	}
}

// reversed is the same run seen from its other end.
func (r Run) reversed() Run {
	q := Run{Start: r.End, End: r.Start}
	n := len(r.Folds)
	for k := range r.Folds {
		f := r.Folds[n-1-k]
		f.Station_mm = r.Folds[n-1].Station_mm - f.Station_mm
		q.Folds = append(q.Folds, f)
	}
	for k := range r.Panels_mm {
		q.Panels_mm = append(q.Panels_mm, r.Panels_mm[n-2-k])
	}
	return q
}

// uneven is a run of four folds, none like another: panels of three lengths, a trough
// that is not sewn. None is tucked: all sticks of a run stand level, so unlike tucked
// sets are not formed as they would be set.
func uneven(start, end End) (Design, Run) {
	d := tabled(Both, Crests, 0, 48, 30)
	return d, Run{
		Folds: []Fold{
			{Crest: true, Sewn: true, Height_mm: 48, Station_mm: 0},
			{Sewn: true, Height_mm: 0, Station_mm: 6},
			{Crest: true, Sewn: true, Height_mm: 44, Station_mm: 10},
			{Height_mm: -20, Station_mm: 17},
		},
		Panels_mm: []float64{64, 58, 50},
		Start:     start, End: end,
	}
}

// TestUneven: a run of unlike panels and folds comes to rest, seen from either end
// in the same shape, whether a crest or a trough comes first; what is sewn is where
// it is sewn; no panel leaves its sector by more than the skin; and the sets differ.
func TestUneven(t *testing.T) {
	for _, ends := range [][2]End{{Mirrored, Mirrored}, {Mirrored, Free}, {Free, Mirrored}} {
		d, run := uneven(ends[0], ends[1])
		a, err := Settle(context.Background(), d, run, quick, nil)
		if err != nil {
			t.Fatal(err)
		}
		b, err := Settle(context.Background(), d, run.reversed(), quick, nil)
		if err != nil {
			t.Fatal(err)
		}
		if !a.Converged() || !b.Converged() || a.Release.Strain > 0.03 || a.Release.Deepest > skin_mm {
			t.Errorf("%v: %v and %v, strain %.3f, %.2f mm deep in an obstacle", ends, a.Release.Status, b.Release.Status, a.Release.Strain, a.Release.Deepest)
		}
		f, off := newFrame(&d, run, Coarse), 0.0
		last := len(a.U) - 1
		for i := range a.U {
			for j := range a.V {
				p, q := a.Node(a.Formed, i, j), b.Node(b.Formed, last-i, j)
				off = max(off, math.Abs(p[2]-q[2]), math.Abs(outward(p, f.r0)-outward(q, f.r0)))
			}
		}
		if off > 1e-3 {
			t.Errorf("%v: formed from either end, %.2g mm apart", ends, off)
		}
		for k, p := range f.panels {
			for _, trough := range []bool{false, true} {
				q := p.fold(trough)
				at := a.Node(a.Shape, p.line(p.stitch(trough)), 0)
				sn, cs := math.Sincos(f.k * q.Station_mm)
				if want := [3]float64{(cs - 1) / f.k, sn / f.k, q.Height_mm}; q.Sewn && farthest(at[:], want[:]) > 1e-9 {
					t.Errorf("%v: panel %d is sewn at %v, not at %v", ends, k, at, want)
				}
			}
		}
		first, third := a.Node(a.Shape, 0, len(a.V)-1)[2], a.Node(a.Shape, 2*Coarse.NU, len(a.V)-1)[2]
		t.Logf("%v: crests at %.1f and %.1f mm, %d factorisations", ends, first, third, a.Iterations)
		if math.Abs(first-third) < 1 {
			t.Errorf("%v: crests unlike in all stand alike, at %.2f and %.2f mm", ends, first, third)
		}
	}
}

// TestClosedUneven: two unlike panels closed onto each other come to the same shape
// from whichever fold the run begins, and the cloth from the last line to the first
// counts as the rest of it. Tucked such a run is refused.
func TestClosedUneven(t *testing.T) {
	d, run := uneven(Closed, Closed)
	run.Folds, run.Panels_mm = run.Folds[:3], run.Panels_mm[:2]
	run.Folds[2] = run.Folds[0]
	run.Folds[2].Station_mm = 11
	other := Run{Folds: []Fold{run.Folds[1], run.Folds[0], run.Folds[1]}, Panels_mm: []float64{58, 64}, Start: Closed, End: Closed}
	for k, at := range []float64{0, 5, 11} {
		other.Folds[k].Station_mm = at
	}
	tuck := run
	tuck.Folds = slices.Clone(run.Folds)
	tuck.Folds[1].Tuck_mm = 6
	if _, err := Settle(context.Background(), d, tuck, quick, nil); !errors.Is(err, errClosed) {
		t.Errorf("tucked: %v", err)
	}
	a, err := Settle(context.Background(), d, run, quick, nil)
	if err != nil {
		t.Fatal(err)
	}
	b, err := Settle(context.Background(), d, other, quick, nil)
	if err != nil || !a.Converged() || !b.Converged() {
		t.Fatal(err, a.Release.Status, b.Release.Status)
	}
	f, off := newFrame(&d, run, Coarse), 0.0
	for i := range a.U {
		for j := range a.V {
			p, q := a.Node(a.Formed, i, j), b.Node(b.Formed, (i+Coarse.NU)%len(a.U), j)
			off = max(off, math.Abs(p[2]-q[2]), math.Abs(outward(p, f.r0)-outward(q, f.r0)))
		}
	}
	if off > 1e-3 {
		t.Errorf("formed from either fold, %.2g mm apart", off)
	}
	sum := 0.0
	for i := range a.U {
		sum += f.step(i)
	}
	if math.Abs(sum-64-58) > 1e-9 || f.step(0) <= f.u[1]-f.u[0] == (f.u[1]-f.u[0] < f.u[len(f.u)-1]-f.u[len(f.u)-2]) {
		t.Errorf("the steps beside the lines add up to %.6g mm of 122; at the first line it is %.4g mm", sum, f.step(0))
	}
}

// TestFreeEnd: where a strip ends it opens, and that fades: three panels on the sets
// stand as if there were no end, within 1 mm, and the free edge, past its place in
// the ring, still hangs from its stitch.
func TestFreeEnd(t *testing.T) {
	d := tabled(Both, Crests, 0, 57, 0)
	half := solved(t, d, quick)
	run := d.repeated(3, Mirrored, Free)
	c, err := Settle(context.Background(), d, run, quick, nil)
	if err != nil || !c.Converged() {
		t.Fatal(err, c.Release.Status)
	}
	nv, last := len(c.V)-1, len(c.U)-1
	ring := newFrame(&d, run, Coarse).repeat(half.Shape)
	begin, end := c.edge(c.Shape, 0, ring), c.edge(c.Shape, last, ring)
	t.Logf("the first crest %.2f mm off its place in the ring, the free edge %.1f mm", begin, end)
	if begin > 1 || end < 5 {
		t.Errorf("the first crest is %.2f mm off its place in the ring, the free edge %.1f mm", begin, end)
	}
	sewn, free := c.Node(c.Shape, last, 0), c.Node(c.Shape, last, nv)
	if long := farthest(sewn[:], free[:]); long < 0.9*d.Width_mm || long > 1.01*d.Width_mm || sewn[2] != 0 {
		t.Errorf("the free edge is %.1f mm long, sewn at %v", long, sewn)
	}
}

// edge is how far the outer end of grid line i is from where it is in another
// shape, mm.
func (c *Window) edge(shape []float64, i int, other []float64) float64 {
	p, q := c.Node(shape, i, len(c.V)-1), c.Node(other, i, len(c.V)-1)
	return farthest(p[:], q[:])
}

// TestRunRefuses: what is wrong with a run is named.
func TestRunRefuses(t *testing.T) {
	for name, spoil := range map[string]func(*Run){
		"Panels_mm;": func(r *Run) { r.Panels_mm = r.Panels_mm[:2] },
		"at least 2": func(r *Run) { r.Folds, r.Panels_mm = r.Folds[:1], nil },
		"Start":      func(r *Run) { r.Start = Closed },
		"End":        func(r *Run) { r.End = 7 },
		"again": func(r *Run) {
			r.Start, r.End = Closed, Closed
			r.Folds[3].Crest = true
			r.Folds[2].Crest = false
			r.Folds[1].Crest = true
			r.Folds[0].Crest = false
		},
		"Station_mm":    func(r *Run) { r.Folds[1].Station_mm = math.NaN() },
		"Tuck_mm":       func(r *Run) { r.Folds[1].Tuck_mm = -1 },
		"Height_mm":     func(r *Run) { r.Folds[2].Height_mm = math.Inf(1) },
		"Crest":         func(r *Run) { r.Folds[1].Crest = true },
		"Sewn":          func(r *Run) { r.Folds[0].Sewn, r.Folds[1].Sewn, r.Folds[2].Sewn = false, false, false },
		"Panels_mm[1]":  func(r *Run) { r.Folds[1].Station_mm, r.Folds[2].Station_mm = 10, 6 },
		"Panels_mm[2]":  func(r *Run) { r.Panels_mm[2] = 6 },
		"3 of it":       func(r *Run) { r.Folds[1].Tuck_mm, r.Panels_mm[1] = 6, 9 },
		"Panels_mm[0] ": func(r *Run) { r.Panels_mm[0] = math.Inf(1) },
	} {
		d, r := uneven(Mirrored, Mirrored)
		spoil(&r)
		if _, err := Settle(context.Background(), d, r, quick, nil); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: error %v", name, err)
		}
	}
}
