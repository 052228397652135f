package window

import (
	"context"
	"math"
	"reflect"
	"testing"

	"ruffwright/sim/shell"
)

// anchored are half sets sewn at both edges, the top and the bottom one, where the middle
// of their sticks begins, and how many levels they have.
var anchored = []struct {
	a      Anchor
	middle func(height float64) float64
	levels int
}{
	{Both, func(float64) float64 { return 15 }, 2},
	{Top, func(h float64) float64 { return 30 - h/2 }, 3},
	{Bottom, func(h float64) float64 { return h / 2 }, 3},
}

// drawing gives the frame of a half set sewn so, its sticks, and what draws them on.
func drawing(a Anchor) (f *frame, on *sticks, drawn func(levels []float64, firm float64) *shell.Sheet) {
	d := tabled(a, Crests, 8, 30, 30)
	if a == Bottom {
		d.Sewn = Troughs
	}
	f = newFrame(&d, d.Run(), Coarse)
	on = f.sticks()
	return f, on, func(levels []float64, firm float64) *shell.Sheet {
		sh := new(shell.Sheet)
		on.drawnOn(f, sh, levels, try{way{0, 1, 0.8}, firm})
		return sh
	}
}

// TestDrawnOn: how the sticks lie before they are drawn apart. Both edges: as far above
// the band's middle as below; one edge: half of what the set comes to away from what is
// sewn, and that floats.
func TestDrawnOn(t *testing.T) {
	for _, q := range anchored {
		f, on, drawn := drawing(q.a)
		d, p, sh := f.d, f.panels[0], drawn(nil, 1)
		if len(sh.Sticks) != 2 || len(sh.Levels) != q.levels {
			t.Fatalf("anchor %v: %d sticks, %d levels", q.a, len(sh.Sticks), len(sh.Levels))
		}
		apart := 0.8 * (on.height - 2*on.radius - d.Thickness_mm)
		for k, s := range sh.Sticks {
			side := 1 - 2*float64(k)
			for e, end := range s.Ends {
				if math.Abs(end.Height_mm-q.middle(on.height)-side*apart/2) > 1e-9 || end.Lift[e] != side || end.Lift[1-e] != 0 || q.levels == 3 && end.Lift[2] != 1 {
					t.Errorf("anchor %v, stick %d: %+v, middle %g, %g apart", q.a, k, end, q.middle(on.height), apart)
				}
			}
			want := [2]shell.StickEnd{{Out_mm: d.Width_mm / 2, Radius_mm: on.tip}, {Out_mm: d.Width_mm, Radius_mm: on.radius}}
			for e := range want {
				want[e].Height_mm, want[e].Lift = s.Ends[e].Height_mm, s.Ends[e].Lift
			}
			if !reflect.DeepEqual(s.Ends, want) || s.Clear != d.Thickness_mm/2 {
				t.Errorf("anchor %v, stick %d: %+v", q.a, k, s)
			}
		}
		if s := sh.Sticks[0]; s.Origin != [3]float64{} || s.Out != [3]float64{1, 0, 0} {
			t.Errorf("anchor %v: the crest's stick lies at %v, out %v", q.a, s.Origin, s.Out)
		}
		if s := sh.Sticks[1]; s.Origin != [3]float64{p.xt, p.yt, 0} || s.Out != [3]float64{p.cos, p.sin, 0} {
			t.Errorf("anchor %v: the trough's stick lies at %v, out %v", q.a, s.Origin, s.Out)
		}
	}
}

// TestPulled: sticks are pulled so that the cloth's own stiffness bears a tenth of it, as
// many times as firmly as is asked, and come 2 mm past the closed form at most. Taken up
// where an earlier forming left them they stand there, and their stops are where they
// were.
func TestPulled(t *testing.T) {
	for _, q := range anchored {
		f, on, drawn := drawing(q.a)
		d, sh := f.d, drawn(nil, 1)
		apart := 0.8 * (on.height - 2*on.radius - d.Thickness_mm)
		if most := sh.Levels[1].Most_mm; math.Abs(apart/2+most-(on.height/2-on.radius-d.Thickness_mm/2)-2) > 1e-9 {
			t.Errorf("anchor %v: stop at %g", q.a, most)
		}
		want := d.BendU_uNm * d.Width_mm / 2 / math.Pow(0.1*(on.radius+d.Thickness_mm/2), 2)
		for l, firmer := range drawn(nil, 4).Levels[:2] {
			if p := sh.Levels[l].Pull_mN; math.Abs(p/want-1) > 1e-9 || math.Abs(firmer.Pull_mN/p-4) > 1e-9 {
				t.Errorf("anchor %v: pulled with %g mN, want %g; four times as firmly with %g", q.a, p, want, firmer.Pull_mN)
			}
		}
		levels := []float64{1.5, -0.5, 2}[:q.levels]
		was := drawn(levels, 1)
		for l := range was.Levels[:2] {
			if math.Abs(was.Levels[l].Most_mm+levels[l]-sh.Levels[l].Most_mm) > 1e-9 {
				t.Errorf("anchor %v: the stop of level %d moved", q.a, l)
			}
		}
		for k := range was.Sticks {
			for e, end := range was.Sticks[k].Ends {
				up := 0.0
				for l, v := range levels {
					up += end.Lift[l] * v
				}
				if got := end.Height_mm - sh.Sticks[k].Ends[e].Height_mm; math.Abs(got-up) > 1e-9 {
					t.Errorf("anchor %v: end %d of stick %d begins %g mm higher, want %g", q.a, e, k, got, up)
				}
			}
		}
	}
}

// TestFromCoarse: a cold forming on the Fine grid begins with the Coarse one's shape and
// levels, and takes fewer factorisations from there than in the first of the ways; not so
// on the Coarse grid, in another way, taken up from levels, or of a run of more panels.
func TestFromCoarse(t *testing.T) {
	d := DefaultDesign()
	set := bare
	if err := set.defaults(); err != nil {
		t.Fatal(err)
	}
	at := func(g Grid, run Run, way int) *solver {
		q := set
		q.Grid, q.way = g, way
		return &solver{ctx: context.Background(), set: &q, f: newFrame(&d, run, g), sh: new(shell.Solver)}
	}
	c := &Window{Design: d, Grid: Fine}
	s := at(Fine, d.Run(), 0)
	x, up, err := s.fromCoarse(c, nil)
	if err != nil || len(x) != len(s.f.start()) || len(up) != 2 || s.count == 0 {
		t.Fatalf("%d numbers, levels %v, %d factorisations: %v", len(x), up, s.count, err)
	}
	if q := s.f.sticks(); math.Abs(s.f.tall(x)-q.height) > 2 {
		t.Errorf("begins %g mm tall, by geometry %g", s.f.tall(x), q.height)
	}
	for name, q := range map[string]struct {
		s      *solver
		g      Grid
		levels []float64
	}{
		"coarse": {at(Coarse, d.Run(), 0), Coarse, nil}, "as few lines along": {at(Grid{Coarse.NU, Fine.NV}, d.Run(), 0), Grid{Coarse.NU, Fine.NV}, nil},
		"as few across": {at(Grid{Fine.NU, Coarse.NV}, d.Run(), 0), Grid{Fine.NU, Coarse.NV}, nil}, "another way": {at(Fine, d.Run(), 1), Fine, nil},
		"levels": {at(Fine, d.Run(), 0), Fine, up}, "two panels": {at(Fine, d.repeated(2, Mirrored, Mirrored), 0), Fine, nil},
	} {
		if x, _, err := q.s.fromCoarse(&Window{Design: d, Grid: q.g}, q.levels); x != nil || err != nil || q.s.count != 0 {
			t.Errorf("%s: from a coarse one", name)
		}
	}
	d = RandomTucked(1) // hangs in the first way, the only one that is tried on the Coarse grid
	if x, _, err := at(Fine, d.Run(), 0).fromCoarse(&Window{Design: d, Grid: Fine}, nil); x != nil || err != nil {
		t.Errorf("from a coarse one that hangs beside its stick: %v", err)
	}
}

// TestWays: whichever way the sticks are put in, with slack or thin ones first, a set that
// has one shape ends round those that it is to dry on.
func TestWays(t *testing.T) {
	d := RandomTucked(2004)
	for way := range ways {
		set := quick
		set.way = way
		c := solved(t, d, set)
		q := newFrame(&d, d.Run(), Coarse).sticks()
		t.Logf("way %d: %.2f mm tall, by geometry %.2f", way, c.formedTall(), q.height)
		if math.Abs(c.formedTall()-q.height) > 0.5 {
			t.Errorf("way %d: %.2f mm tall, by geometry %.2f", way, c.formedTall(), q.height)
		}
	}
}

// TestFirmWalls: what the cloth presses on while sticks press it is three times as firm
// as else; formed without sticks it is as firm as 20 times the cloth's rigidity asks.
func TestFirmWalls(t *testing.T) {
	set := quick
	if err := set.defaults(); err != nil {
		t.Fatal(err)
	}
	for _, tuck := range []float64{0, 8} {
		d := tabled(Both, Crests, tuck, 34, 30)
		f := newFrame(&d, d.Run(), Coarse)
		bend, times := 20.0, 1.0
		if tuck > 0 {
			bend, times = 1, 3
		}
		damp, plain := f.damp(&set), f.sheet(bend, [3]float64{}, true, nil, &set)
		if damp.BendU != bend*d.BendU_uNm || damp.Gravity != [3]float64{} || len(damp.Contacts) != len(plain.Contacts) || len(plain.Contacts) < 3 {
			t.Fatalf("tuck %g: %+v", tuck, damp)
		}
		for k := range damp.Contacts {
			if got := damp.Contacts[k].Stiffness / plain.Contacts[k].Stiffness; math.Abs(got-times) > 1e-9 {
				t.Errorf("tuck %g, contact %d: %g times as firm", tuck, k, got)
			}
		}
	}
}
