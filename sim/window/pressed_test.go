package window

import (
	"math"
	"slices"
	"testing"

	"ruffwright/sim/shell"
)

// TestBetween: pressed by area, a wall bears as many nodes' weights as the panel has
// in the Fine grid. What is held lies at nothing: from there its clearance grows evenly
// over 4 mm of cloth, along the panel and, past the end of a tuck, out from the lines
// it is sewn on.
func TestBetween(t *testing.T) {
	for _, gap := range []float64{0, 9} {
		d := tabled(Both, Crests, 12, 35, 0)
		d.TuckBottom_mm, d.LineGap_mm = 5, gap
		f := newFrame(&d, d.repeated(2, Mirrored, Mirrored), Fine)
		for k := range f.walls {
			w := &f.walls[k]
			c := shell.Plane([3]float64{0, 1, 0}, 0)
			f.between(&c, w)
			sum := 0.0
			for _, v := range c.Weight {
				sum += v
			}
			if !c.Between || math.Abs(sum-24*12) > 1e-9 {
				t.Errorf("wall %d bears %g of %d nodes", k, sum, 24*12)
			}
			for n := range f.spots {
				q := &f.spots[n]
				fold := f.start_mm(w.at())
				u := math.Abs(q.U - fold)
				if inside := (q.U-fold)*float64(2*w.panel+1-2*w.at()) > 0 && u < 60; inside != (c.Weight[n] > 0) {
					t.Fatalf("wall %d, %g mm along the strip: weight %g", k, q.U, c.Weight[n])
				} else if !inside {
					continue
				}
				out := q.V
				if gap > 0 {
					out = math.Min(out, math.Abs(q.V-gap))
				}
				far := math.Min(u, math.Hypot(math.Max(u-w.p.fold(w.trough).tuck(), 0), out))
				if want := (0.5 + d.Thickness_mm/2) * math.Max(0, 1-far/4); math.Abs(c.Back[n]-want) > 1e-9 {
					t.Fatalf("wall %d, %g mm from the fold, %g out: back by %g, want %g", k, u, q.V, c.Back[n], want)
				}
			}
		}
	}
}

// TestObstacles: who bears on what, and how firmly: each node once, a fold for both its
// panels; the band four times as firm, its tie five.
func TestObstacles(t *testing.T) {
	d := tabled(Both, Crests, 0, 57, 30)
	d.Support, d.SupportDrop_mm = true, 5
	set := Settings{Grid: Fine}
	if err := set.defaults(); err != nil {
		t.Fatal(err)
	}
	f := newFrame(&d, d.repeated(2, Mirrored, Mirrored), Fine)
	sh := f.sheet(20, upright, true, nil, &set)
	if len(sh.Contacts) != 4+3 {
		t.Fatalf("%d obstacles", len(sh.Contacts))
	}
	k := 20 * 4 * (2*d.BendU_uNm + 5*d.Weight_mN())
	total := func(w []float64) (s float64) {
		for _, v := range w {
			s += v
		}
		return
	}
	for n, q := range []struct{ stiffness, skin, weight float64 }{
		{k, 0.5, 23 * 12}, {k, 0.5, 23 * 12}, {k, 0.5, 23 * 12}, {k, 0.5, 23 * 12},
		{4 * k, 0.1, 2 * 25 * 12}, {k, 0.5, 2 * 25 * 12}, {5 * k, 0, 2 * 25},
	} {
		c := &sh.Contacts[n]
		if math.Abs(c.Stiffness/q.stiffness-1) > 1e-9 || c.Skin != q.skin || math.Abs(total(c.Weight)-q.weight) > 1e-9 || c.Tie != (n == 6) {
			t.Errorf("obstacle %d: stiffness %g, skin %g, weight %g, tie %v; want %+v", n, c.Stiffness, c.Skin, total(c.Weight), c.Tie, q)
		}
	}
	if tie := sh.Contacts[6].Weight; tie[sh.Node(24, 0)] != 2 || tie[sh.Node(3, 0)] != 1 || tie[sh.Node(3, 1)] != 0 {
		t.Error("the tie holds the inner edge alone")
	}
	z := &shell.Frozen{BendU: 70, BendV: 90}
	if got, want := f.press(1, z), k/20+90; math.Abs(got-want) > 1e-9 {
		t.Errorf("frozen it presses with %g, want %g", got, want)
	}
	if g := sh.Contacts[4].Gap([3]float64{0.3, 0, 9}); math.Abs(g-0.4) > 1e-9 {
		t.Errorf("the neck lies %g mm before the cloth at 0.3", g)
	}
}

// TestBesideTuck: of a tucked panel all nodes bear on the walls but those on the folds
// and those that a stitch line holds in a tuck.
func TestBesideTuck(t *testing.T) {
	d := tabled(Both, Crests, 9, 42, 0)
	d.LineGap_mm = 6
	set := Settings{Grid: Fine}
	if err := set.defaults(); err != nil {
		t.Fatal(err)
	}
	f := newFrame(&d, d.Run(), Fine)
	f.spots = nil // at nodes
	w := f.beside(0, f.sheet(1, upright, false, nil, &set))
	p := f.panels[0]
	for i := range p.u {
		for j := range f.v {
			held := i == 0 || i == len(p.u)-1 || (i <= p.ic || i >= p.it) && (j == 0 || j == f.jg)
			if got := w[i*len(f.v)+j]; (got == 0) != held || !held && math.Abs(got-width(f.v, j)*12/75) > 1e-12 {
				t.Fatalf("node (%d, %d) of a tucked panel bears %g", i, j, got)
			}
		}
	}
}

// TestSetBack: formed with many times its rigidity the cloth pressed with as many times
// the force; released, an obstacle stands back so far that what is left of it balances:
// the force falls as the square of the skin's part pressed in.
func TestSetBack(t *testing.T) {
	d := tabled(Both, Crests, 0, 57, 0)
	set := Settings{Grid: Coarse}
	if err := set.defaults(); err != nil {
		t.Fatal(err)
	}
	f := newFrame(&d, d.Run(), Coarse)
	formed := f.start()
	n := 3 * (5*len(f.v) + 4)
	formed[n+1] = d.Thickness_mm/2 + 0.2 // 0.3 mm into the skin of the crest's wall
	forming, sh := f.sheet(20, upright, false, nil, &set), f.sheet(1, upright, false, nil, &set)
	f.setBack(sh, formed)
	at := [3]float64(formed[n:])
	was := forming.Contacts[0].Press(forming.Contacts[0].Gap(at)) / 20
	if now := sh.Contacts[0].Press(sh.Contacts[0].Gap(at) + sh.Contacts[0].Back[n/3]); math.Abs(now/was-1) > 1e-9 || was <= 0 {
		t.Errorf("it presses with %g mN, formed with 20 times %g", now, was)
	}
	// with a frozen part the obstacle is firmer, and stands back farther
	z := &shell.Frozen{BendU: 500, BendV: 500, U: make([]float64, sh.Nodes()), V: make([]float64, sh.Nodes()), UV: make([]float64, 16*8)}
	sh = f.sheet(1, upright, false, z, &set)
	f.setBack(sh, formed)
	if now := sh.Contacts[0].Press(sh.Contacts[0].Gap(at) + sh.Contacts[0].Back[n/3]); math.Abs(now/was-1) > 1e-9 {
		t.Errorf("frozen it presses with %g mN, formed with 20 times %g", now, was)
	}
	for k, b := range sh.Contacts[0].Back {
		if q := [3]float64(formed[3*k:]); (b > 0) != (sh.Contacts[0].Gap(q) < 0.5) {
			t.Fatalf("an obstacle that node %d does not feel stands back by %g", k, b)
		}
	}
}

// TestThread: a limp half set sewn at its crest alone hangs all its weight on that
// stitch, and the whole set twice as much; what the stitch pulls besides, out from the
// neck, adds at right angles.
func TestThread(t *testing.T) {
	c := solved(t, tabled(Top, Crests, 0, 30, 0), quick)
	s := c.solver()
	if err := s.sh.Reset(s.released(c)); err != nil {
		t.Fatal(err)
	}
	g := make([]float64, len(c.Shape))
	s.sh.Gradient(c.Shape, g)
	if math.Abs(math.Abs(g[2])/c.Design.Weight_mN()-1) > 1e-4 {
		t.Errorf("the stitch bears %g of %g mN", g[2], c.Design.Weight_mN())
	}
	if want := 2 * math.Hypot(g[0], g[2]) / 1000; math.Abs(c.Thread_N/want-1) > 1e-9 || c.Thread_N < 2e-3*c.Design.Weight_mN() {
		t.Errorf("the thread bears %g N, want %g", c.Thread_N, want)
	}
	// a trough's stitch too, in its own plane; starched along the strip alone
	d := tabled(Top, Troughs, 0, 30, 30)
	d.FrozenV_uNm, d.Kappa_1pmm = 0, 0.03
	b := solved(t, d, quick)
	if b.frozen == nil || b.frozen.BendU != d.FrozenU_uNm {
		t.Fatal("nothing is frozen")
	}
	s = b.solver()
	if err := s.sh.Reset(s.released(b)); err != nil {
		t.Fatal(err)
	}
	s.sh.Gradient(b.Shape, g)
	half := s.f.panels[0]
	at := g[3*half.it*len(b.V):]
	if want := 2 * math.Hypot(at[0]*half.cos+at[1]*half.sin, at[2]) / 1000; math.Abs(b.Thread_N/want-1) > 1e-9 || math.Abs(at[2])/b.Design.Weight_mN() < 1-1e-4 {
		t.Errorf("a trough's stitch bears %g N, want %g", b.Thread_N, want)
	}
}

// TestBob: what the tangent foretells of one more weight is what a little more weight
// does, per weight.
func TestBob(t *testing.T) {
	for name, d := range map[string]Design{"top": tabled(Top, Crests, 0, 30, 30), "both": tabled(Both, Crests, 0, 57, 0)} {
		set := quick
		set.SkipTangents = false
		c := solved(t, d, set)
		s := c.solver()
		if err := s.sh.Reset(s.released(c)); err != nil {
			t.Fatal(err)
		}
		nv := len(c.V) - 1
		var z [2]float64
		const more = 0.002
		for k, f := range []float64{1 - more, 1 + more} {
			x := append([]float64(nil), c.Shape...)
			s.sh.SetGravity([3]float64{0, 0, -f})
			if r, err := s.again("checking", x, shell.Settings{Warm: true}); err != nil || r.Status.Early() {
				t.Fatal(r.Status, err)
			}
			z[k] = c.mean(x, nv)[2]
		}
		if sinks := (z[0] - z[1]) / (2 * more); math.Abs(sinks/c.Vertical_mm_per_g-1) > 0.02 {
			t.Errorf("%s: a weight more sinks it by %g mm, the tangent says %g", name, sinks, c.Vertical_mm_per_g)
		}
	}
}

// TestMeasures: what is measured on a shape made by hand.
func TestMeasures(t *testing.T) {
	s, c := midway(0.8)
	c.Design.Kappa_1pmm = s.f.k
	c.Formed = append([]float64(nil), c.Shape...)
	for k := 2; k < len(c.Formed); k += 3 {
		c.Formed[k] += 7
	}
	s.measure(c)
	top, bottom := 30.0, 30.0-60
	nu, nv := len(c.U)-1, len(c.V)-1
	reach := 0.0
	for i := range c.U { // by the trapezoidal rule over the cloth
		p := c.Node(c.Shape, i, nv)
		w := map[bool]float64{true: 0.5, false: 1}[i == 0 || i == nu] * 60 / float64(nu) / 60
		reach += w * (math.Hypot(p[0]+s.f.r0, p[1]) - s.f.r0)
	}
	inner := 0.0
	for i := range c.U {
		p := c.Node(c.Shape, i, 0)
		w := map[bool]float64{true: 0.5, false: 1}[i == 0 || i == nu] / float64(nu)
		inner += w * (math.Hypot(p[0]+s.f.r0, p[1]) - s.f.r0)
	}
	for name, v := range map[string][2]float64{
		"top": {c.TopOuter_mm, top}, "bottom": {c.BottomOuter_mm, bottom}, "height": {c.HeightOuter_mm, 60}, "inner height": {c.HeightInner_mm, 60},
		"reach": {c.Reach_mm, reach}, "droop": {c.Droop_mm, 7}, "tilt": {c.Tilt_deg, 0},
		"pitch outside": {c.PitchOuter_mm, c.Design.Pitch_mm * (1 + c.Design.Kappa_1pmm*reach)},
	} {
		if math.Abs(v[0]-v[1]) > 1e-6 {
			t.Errorf("%s: %g, want %g", name, v[0], v[1])
		}
	}
	if !c.FlapsFall {
		t.Error("flaps that hang below their stitch do not fall")
	}
	for k := 2; k < len(c.Shape); k += 3 { // turned up in its sewn row, and the outer edge lifted
		c.Shape[k] = 60 - c.Shape[k] + 0.5*c.Shape[k-2]
	}
	if s.measure(c); c.FlapsFall || math.Abs(c.Tilt_deg-180/math.Pi*math.Atan2(0.5*c.Design.Width_mm, reach-inner)) > 1e-6 || c.HeightOuter_mm > 0 {
		t.Errorf("turned up: fall %v, tilt %g, height %g", c.FlapsFall, c.Tilt_deg, c.HeightOuter_mm)
	}
}

// TestPopped: a tuck has popped whose fold lies on the outer side of its stitch, up at
// a crest, down at a trough, by more than a tenth of its depth.
func TestPopped(t *testing.T) {
	d := tabled(Both, Crests, 10, 35, 0)
	d.TuckBottom_mm = 6
	for _, q := range []struct {
		crest, trough float64 // of the fold over its stitch, mm
		popped        bool
	}{{-10, 6, false}, {0.99, -0.59, false}, {1.01, 6, true}, {-10, -0.61, true}} {
		c := &Window{Design: d, Grid: Coarse}
		s := c.solver()
		c.U, c.V, c.Shape = s.f.u, s.f.v, s.f.start()
		p, nv := s.f.panels[0], len(c.V)
		c.Shape[2] = c.Shape[3*p.ic*nv+2] + q.crest
		c.Shape[3*(len(c.U)-1)*nv+2] = c.Shape[3*p.it*nv+2] + q.trough
		if got := s.popped(c); got != q.popped {
			t.Errorf("%+v: %v", q, got)
		}
	}
}

// TestLoopWidth: a loop's width is found between the grid lines: that of half a circle
// to a hundredth of a cell's sagitta.
func TestLoopWidth(t *testing.T) {
	s, c := midway(0.8)
	nu, nv := len(c.U)-1, len(c.V)-1
	const wide = 11.0
	for i := range c.U { // the crest's loop a half ellipse, its top between two lines
		p := 3 * (i*len(c.V) + nv)
		q := float64(i) - 3.3
		c.Shape[p+1] = wide - 0.2*q*q
		if i > nu/2 {
			c.Shape[p+1] = 5
		}
	}
	s.loops(c)
	if want := 2*wide - 0.8; math.Abs(c.Loop_mm-want) > 1e-9 {
		t.Errorf("a loop %g mm wide, want %g", c.Loop_mm, want)
	}
}

// TestSumsUp: what the whole solve came to, said in the measures.
func TestSumsUp(t *testing.T) {
	for _, q := range []struct {
		form, release shell.Status
		status        string
	}{{shell.Converged, shell.Converged, "converged"}, {shell.Stalled, shell.Converged, "forming: stalled"}, {shell.Converged, shell.IterationLimit, "iteration limit"}} {
		c := &Window{Design: tabled(Top, Crests, 0, 30, 0), Grid: Grid{18, 9}, Form: shell.Result{Status: q.form}, Release: shell.Result{Status: q.release, Residual: 3, Deepest: 0.2}}
		s := c.solver()
		c.Iterations, s.count = 4, 10
		s.sum(c)
		done := q.status == "converged"
		if c.Status != q.status || c.Values.Converged != done || c.TangentsDone != done || c.OtherDone != done || c.Extra != 6 || c.Mesh != "18 × 9" || c.Residual_mN != 3 || c.Deepest_mm != 0.2 || c.Panel_mm != 60 {
			t.Errorf("%+v: %+v", q, c.Values)
		}
		s.set.SkipTangents, s.set.SkipOther = true, true
		if s.sum(c); c.TangentsDone || c.OtherDone {
			t.Error("what was left out is said to be done")
		}
	}
}

// TestMeshOfItself: a window on a grid as fine as the finest, along or across, is not
// held against it.
func TestMeshOfItself(t *testing.T) {
	for _, g := range []Grid{{Finest.NU, 8}, {16, Finest.NV}} {
		c := &Window{Design: tabled(Both, Crests, 0, 57, 0), Grid: g}
		s := c.solver()
		if err := s.finer(c); err != nil || c.MeshDone || s.count != 0 {
			t.Errorf("%v: %v, %d factorisations", g, err, s.count)
		}
	}
	bad := Settings{Stretch_Npm: 1e8}
	if bad.defaults() == nil {
		t.Error("cloth that does not stretch at all")
	}
	for _, g := range []Grid{{9, 8}, {201, 8}, {10, 3}, {10, 101}} {
		if g.validate() == nil {
			t.Errorf("%v is taken", g)
		}
	}
	if slices.ContainsFunc([]Grid{{10, 4}, {200, 100}}, func(g Grid) bool { return g.validate() != nil }) {
		t.Error("the least and the largest grid are refused")
	}
}
