package window

import (
	"math"
	"testing"
)

// midway is a half set whose panel stands midway between its walls, straight
// down from crest to trough, nowhere near either; of a cloth so thick.
func midway(thickness float64) (*solver, *Window) {
	d := tabled(Top, Crests, 0, 30, 0)
	d.Pitch_mm, d.Thickness_mm = 40, thickness
	c := &Window{Design: d, Grid: Coarse}
	s := c.solver()
	c.U, c.V = s.f.u, s.f.v
	half := s.f.panels[0]
	for i, u := range c.U {
		for _, v := range c.V {
			share := 0.5
			if i == 0 {
				share = 0
			} else if i == len(c.U)-1 {
				share = 1
			}
			c.Shape = append(c.Shape, v, share*half.sector(v), 30-u)
		}
	}
	return s, c
}

// TestTouching: the outer edge meets a neighbour if one of its places does, near
// the wall that is not its own fold's and no farther off than skin and half the
// cloth; another line touches too, but is not where loops meet.
func TestTouching(t *testing.T) {
	nu, nv := Coarse.NU, Coarse.NV
	for _, q := range []struct {
		name        string
		i, j        int
		off         float64 // from the wall, of skin and half the cloth
		trough      bool
		touch, meet bool
	}{
		{"nothing near", 0, 0, 9, false, false, false},
		{"the crest's wall, at the edge", nu - 3, nv, 0.99, false, true, true},
		{"the crest's wall, not yet", nu - 3, nv, 1.01, false, false, false},
		{"the crest's wall, beside the crest", 2, nv, 0.5, false, false, false},
		{"the trough's wall, at the edge", 3, nv, 0.99, true, true, true},
		{"the trough's wall, not yet", 3, nv, 1.01, true, false, false},
		{"the trough's wall, beside the trough", nu - 2, nv, 0.5, true, false, false},
		{"the crest's wall, half way out", nu - 3, nv / 2, 0.9, false, true, false},
	} {
		s, c := midway(0.8)
		if q.off < 2 {
			near := q.off * (skin_mm + 0.4)
			k := 3*(q.i*len(c.V)+q.j) + 1
			if c.Shape[k] = near; q.trough {
				half := s.f.panels[0]
				c.Shape[k] = half.sector(c.Shape[k-1]) - near/half.cos
			}
		}
		s.touching(c)
		share := 0.0
		if q.touch {
			share = width(c.V, q.j) / c.Design.Width_mm
		}
		if c.LoopsMeet != q.meet || math.Abs(c.Contact-share) > 1e-12 {
			t.Errorf("%s: meet %v, over %.4f of the depth; want %v, %.4f", q.name, c.LoopsMeet, c.Contact, q.meet, share)
		}
	}
}

// TestThickness: cloth twice as thick leaves a loop so much narrower; every
// obstacle is felt half a thickness before the cloth's middle reaches it, so that
// two layers facing across a wall lie a thickness apart.
func TestThickness(t *testing.T) {
	s, c := midway(0.8)
	s.loops(c)
	wide := c.Loop_mm
	c.Design.Thickness_mm = 1.6
	if s.loops(c); math.Abs(wide-c.Loop_mm-0.8) > 1e-9 || wide < 10 {
		t.Errorf("a loop of %.3f mm is %.3f mm wide in cloth 0.8 mm thicker", wide, c.Loop_mm)
	}
	c.Design.Support, c.Design.SupportDrop_mm = true, 5
	set := *s.set
	sh := s.f.sheet(1, upright, false, nil, &set)
	half := s.f.panels[0]
	for k, p := range [][3]float64{{20, 0.8, 0}, {20, half.sector(20) - 0.8/half.cos, 0}, {-bandSkin_mm, 0, 0}, {20, 1, -5 + 0.8}} {
		if g := sh.Contacts[k].Gap(p); math.Abs(g) > 1e-9 {
			t.Errorf("obstacle %d: the gap of cloth that lies on it is %.3g mm", k, g)
		}
	}
	like := sh.Facing(sh.Node(3, 2), sh.Node(5, 2), [3]float64{0, 1, 0}, c.Design.Thickness_mm/2)
	x := make([]float64, 3*sh.Nodes())
	x[3*sh.Node(3, 2)+1] = 1.6
	if g := like.Gap(x); math.Abs(g) > 1e-12 {
		t.Errorf("layers a thickness apart have a gap of %.3g mm", g)
	}
}

// TestBowDirection: when the wearer bows, the weight of the front set turns outward
// and that of the back set inward, by the angle of the bow and along the middle of
// the half set: front loops fall away from the neck, back ones onto it.
func TestBowDirection(t *testing.T) {
	d := tabled(Top, Crests, 0, 30, 0)
	c := solved(t, d, Settings{Grid: Coarse, SkipOther: true, SkipTangents: true})
	s := c.solver()
	sn, cs := math.Sincos(s.f.panels[0].a / 2)
	for _, side := range []float64{1, -1} {
		g := s.bowGravity(30, side)
		out, along := g[0]*cs+g[1]*sn, g[1]*cs-g[0]*sn
		if math.Abs(out-side/2) > 1e-12 || math.Abs(along) > 1e-12 || math.Abs(g[2]+math.Sqrt(3)/2) > 1e-12 {
			t.Errorf("side %g: outward %.3f, along the neck %.3f, up %.3f", side, out, along, g[2])
		}
	}
	front, stands, back := c.mean(c.BowedFront, len(c.V)-1), c.mean(c.Shape, len(c.V)-1), c.mean(c.BowedBack, len(c.V)-1)
	t.Logf("out by %.1f mm in front, %.1f upright, %.1f at the back; up by %.1f, %.1f, %.1f", front[0], stands[0], back[0], front[2], stands[2], back[2])
	if front[0] < stands[0]+1 || back[0] > stands[0]+1 {
		t.Errorf("bowed, the front set reaches out by %.2f mm, the back set by %.2f; upright %.2f", front[0], back[0], stands[0])
	}
}

// TestWalls: the walls at mirrored ends are told to be images, which an
// antisymmetric movement does not press on, those inside a window are not, and a
// free end has none. A fold lies in its wall and is not pressed by it; the edge of
// a free end is.
func TestWalls(t *testing.T) {
	d := tabled(Both, Crests, 0, 57, 0)
	set := Settings{Grid: Coarse}
	if err := set.defaults(); err != nil {
		t.Fatal(err)
	}
	f := newFrame(&d, d.repeated(2, Mirrored, Free), Coarse)
	sh := f.sheet(1, upright, false, nil, &set)
	if len(f.walls) != 3 {
		t.Errorf("%d walls", len(f.walls))
	}
	for k, q := range []struct {
		image             bool
		begin, fold, edge float64 // weights at the outer end of these lines
	}{{true, 0, 0, 0}, {false, 0, 0, 0}, {false, 0, 0, f.share(Coarse.NV)}} {
		c := &sh.Contacts[k]
		for i, want := range map[int]float64{0: q.begin, Coarse.NU: q.fold, 2 * Coarse.NU: q.edge} {
			if got := c.Weight[sh.Node(i, Coarse.NV)]; c.Image != q.image || got != want {
				t.Errorf("wall %d of fold %d: image %v, weight %g on line %d, want %g", k, f.walls[k].at(), c.Image, got, i, want)
			}
		}
	}
}
