package window

import (
	"math"
	"slices"
	"testing"

	"ruffwright/geom/curve"
	"ruffwright/sim/shell"
)

// sewnAt gives where the stitch of a half set's crest or trough is in space.
func sewnAt(p *panel, trough bool) [3]float64 {
	sn, cs := math.Sincos(p.fold(trough).Station_mm / p.r0)
	return [3]float64{p.r0 * (cs - 1), p.r0 * sn, p.fold(trough).Height_mm}
}

// onPlaces checks what every shape of a half set must show, solved or not: stitches
// at their places, the folds in their planes, what lies in a tuck in its fold's plane,
// a second line as high as the first, the inner edge within near mm of the neckline.
func onPlaces(t *testing.T, name string, f *frame, x []float64, near float64) {
	t.Helper()
	p, nv, nu := f.panels[0], len(f.v), len(f.panels[0].u)-1
	at := func(i, j int) [3]float64 { return [3]float64(x[3*(i*nv+j):]) }
	for _, trough := range []bool{false, true} {
		off := func(i, j int) float64 {
			if q := at(i, j); trough {
				return p.toTrough(q)
			} else {
				return q[1]
			}
		}
		for j := range f.v {
			if d := off(p.from(trough, 0), j); math.Abs(d) > 1e-9 {
				t.Errorf("%s: the fold is %.2g mm off its plane on line %d", name, d, j)
			}
		}
		if !p.fold(trough).Sewn {
			continue
		}
		stitch, lines := p.stitch(trough), []int{0}
		got, want := at(stitch, 0), sewnAt(p, trough)
		if farthest(got[:], want[:]) > 1e-9 {
			t.Errorf("%s: sewn at %v, not at %v", name, got, want)
		}
		if f.jg > 0 {
			lines = append(lines, f.jg)
			if z := at(stitch, f.jg)[2]; z != p.fold(trough).Height_mm {
				t.Errorf("%s: second line at %v", name, z)
			}
		}
		for _, j := range lines {
			for i := 0; p.from(trough, i) != stitch; i++ {
				if d := off(p.from(trough, i), j); math.Abs(d) > 1e-9 {
					t.Errorf("%s: line %d of the tuck is %.2g mm off its plane on line %d", name, i, d, j)
				}
			}
		}
	}
	for i := range nu + 1 {
		if d := math.Abs(outward(at(i, 0), f.r0)); d > near && i >= p.ic && i <= p.it {
			t.Errorf("%s: line %d begins %.2g mm off the neckline", name, i, d)
		}
	}
}

// TestStart: a cold start stands on its places; between the stitches it drops as the band is high, beyond the
// tucks' reach by what a free wave of its length over its room does.
func TestStart(t *testing.T) {
	for name, d := range kinds() {
		f := newFrame(&d, d.Run(), Fine)
		x, p, nv := f.start(), f.panels[0], len(f.v)
		onPlaces(t, name, f, x, 1e-9)
		for j, v := range f.v {
			z := func(i int) float64 { return x[3*(i*nv+j)+2] }
			if got := z(p.ic) - z(p.it); j == 0 && d.Anchor == Both && math.Abs(got-d.BandHeight_mm) > 1e-9 {
				t.Errorf("%s: between the stitches it drops by %.4f", name, got)
			}
			if j == nv-1 || p.tc+p.tt == 0 && d.Anchor != Both {
				// a wave of the angle φ sin πs, J₀(φ) = room/length, drops by the length
				// times ∫ sin(φ sin πs) ds, the Struve function H₀(φ)
				top := curve.Amplitude(p.room * (1 + d.Kappa_1pmm*v) / d.Panel_mm)
				drop := 0.0
				for k := range 4000 {
					drop += d.Panel_mm / 4000 * math.Sin(top*math.Sin(math.Pi*(float64(k)+0.5)/4000))
				}
				if got := z(0) - z(len(p.u)-1); math.Abs(got-drop) > 1e-3*drop {
					t.Errorf("%s, line %d: drops by %.4f mm, want %.4f", name, j, got, drop)
				}
			}
		}
	}
}

// TestStartRows: the rows of a cold start keep to their sector and are as far apart as
// the cloth is wide; the outer one is as long as the cloth.
func TestStartRows(t *testing.T) {
	for name, d := range kinds() {
		f := newFrame(&d, d.Run(), Fine)
		x, p, nv := f.start(), f.panels[0], len(f.v)
		for j, v := range f.v {
			long := 0.0
			for i := range p.u {
				q := [3]float64(x[3*(i*nv+j):])
				if q[1] < -1e-9 || p.toTrough(q) < -1e-9 {
					t.Errorf("%s: node (%d, %d) is out of its sector", name, i, j)
				}
				if i > 0 {
					long += farthest(q[:], x[3*((i-1)*nv+j):3*((i-1)*nv+j)+3])
				}
				if j > 0 {
					step := farthest(q[:], x[3*(i*nv+j-1):3*(i*nv+j-1)+3])
					if h := v - f.v[j-1]; step < 0.6*h || step > 1.6*h {
						t.Errorf("%s: from (%d, %d) outward %.3g mm, of the cloth %.3g", name, i, j-1, step, h)
					}
				}
			}
			if j == nv-1 && math.Abs(long/d.Panel_mm-1) > 0.02 {
				t.Errorf("%s: the outer edge is %.2f mm long of %g", name, long, d.Panel_mm)
			}
		}
	}
}

// TestStartInTucks: in a tuck the cloth of a cold start goes straight inward from the
// stitch.
func TestStartInTucks(t *testing.T) {
	for name, d := range kinds() {
		f := newFrame(&d, d.Run(), Fine)
		x, p, nv := f.start(), f.panels[0], len(f.v)
		for i, u := range p.u {
			z, in := x[3*i*nv+2], 0.0
			if i < p.ic {
				in = x[3*p.ic*nv+2] - z - (p.tc - u)
			} else if i > p.it {
				in = z - x[3*p.it*nv+2] - (u - (p.length - p.tt))
			}
			if math.Abs(in) > 1e-9 {
				t.Errorf("%s: line %d of a tuck is %.3f mm off", name, i, in)
			}
		}
	}
}

// TestGridLines: lines stand exactly at the tucks' ends, at equal steps in each part,
// half as many again in a tuck as its share, at least three.
func TestGridLines(t *testing.T) {
	for _, q := range []struct {
		top, bottom float64
		n, ic, nt   int
	}{{0, 0, 24, 0, 0}, {12, 12, 24, 7, 7}, {2, 12, 24, 3, 7}, {20, 0, 24, 10, 0}, {28, 28, 16, 6, 6}, {0, 6, 10, 0, 3}} {
		p := newPanel(&Fold{Crest: true, Sewn: true, Tuck_mm: q.top}, &Fold{Sewn: true, Tuck_mm: q.bottom, Station_mm: 5}, 60, 0.01, 0, q.n)
		if p.ic != q.ic || q.n-p.it != q.nt || p.u[p.ic] != q.top || math.Abs(p.u[p.it]-(60-q.bottom)) > 1e-12 || p.u[0] != 0 || math.Abs(p.u[q.n]-60) > 1e-12 {
			t.Errorf("%+v: %d and %d, %v", q, p.ic, q.n-p.it, p.u)
		}
		for i := 1; i < q.n; i++ {
			if i != p.ic && i != p.it && math.Abs(p.u[i+1]-2*p.u[i]+p.u[i-1]) > 1e-9 {
				t.Errorf("%+v: uneven at line %d", q, i)
			}
		}
		if p.sameLines(p.u) != true || p.sameLines(slices.Repeat([]float64{1}, q.n+1)) != (q.top == 1) && q.top+q.bottom > 0 {
			t.Errorf("%+v: the same lines", q)
		}
	}
}

// TestGradedLines: the lines from the band outward are a geometric row, one of them
// moved to the second stitch line.
func TestGradedLines(t *testing.T) {
	for _, tuck := range []float64{0, 8} {
		for _, gap := range []float64{0, 1, 6, 70} {
			d := tabled(Top, Crests, tuck, 30, 0)
			d.LineGap_mm = gap
			f := newFrame(&d, d.Run(), Fine)
			a, n := map[bool]float64{false: 1.5, true: 1.6}[tuck > 0], len(f.v)-1
			ratio := (f.v[n] - f.v[n-1]) / (f.v[n-1] - f.v[n-2]) // of a geometric row
			if f.v[0] != 0 || f.v[n] != d.Width_mm || !slices.IsSorted(f.v) || math.Abs(ratio-math.Exp(a/float64(n))) > 1e-9 && f.jg < n-2 {
				t.Errorf("tuck %g, gap %g: %v", tuck, gap, f.v)
			}
			if gap > 0 && (f.v[f.jg] != gap || f.jg < 1 || f.jg > n-2) || gap == 0 && f.jg != 0 {
				t.Errorf("tuck %g: second line at %g of %v", tuck, gap, f.v)
			}
		}
	}
}

// TestAdapt: a shape taken over by a slightly different half set stands on its places;
// one that differs by its height alone moves up with what is sewn, whole where one
// edge holds it.
func TestAdapt(t *testing.T) {
	for name, d := range kinds() {
		old := &Window{Design: d, Grid: Coarse}
		was := newFrame(&d, d.Run(), Coarse)
		old.U, old.V = was.u, was.v
		x := was.start()
		changed := d
		changed.BandHeight_mm -= 1.5
		changed.Kappa_1pmm *= 1.1
		changed.Pitch_mm *= 1.05
		changed.Width_mm += 2
		s := &solver{f: newFrame(&changed, changed.Run(), Coarse)}
		onPlaces(t, name, s.f, s.adapt(x, old), 0.05)

		raised := d
		raised.BandHeight_mm += 2
		s = &solver{f: newFrame(&raised, raised.Run(), Coarse)}
		y, p := s.adapt(x, old), s.f.panels[0]
		for i, u := range p.u {
			share := min(max((u-p.u[p.ic])/(p.u[p.it]-p.u[p.ic]), 0), 1)
			want := map[Anchor]float64{Top: 2, Bottom: 0, Both: 2 * (1 - share)}[d.Anchor]
			for j := range s.f.v {
				k := 3 * (i*len(s.f.v) + j)
				if math.Abs(y[k+2]-x[k+2]-want) > 1e-9 || math.Hypot(y[k]-x[k], y[k+1]-x[k+1]) > 1e-9 {
					t.Fatalf("%s: node (%d, %d) moves by %.3g, %.3g, %.3g mm, want 0, 0, %.3g", name, i, j, y[k]-x[k], y[k+1]-x[k+1], y[k+2]-x[k+2], want)
				}
			}
		}
		wider := d
		wider.Width_mm += 2
		s = &solver{f: newFrame(&wider, wider.Run(), Coarse)}
		y = s.adapt(x, old)
		k := 3 * (5*len(s.f.v) + len(s.f.v) - 1)
		if math.Hypot(y[k]-x[k]-2, y[k+2]-x[k+2]) > 0.1 {
			t.Errorf("%s: 2 mm wider the outer edge moves out by %.3g mm", name, y[k]-x[k])
		}
	}
}

// TestWarmable: what another half set may be used to start from; formed on sticks, only
// the same ruff's elsewhere around the neck.
func TestWarmable(t *testing.T) {
	done := shell.Result{Status: shell.Converged}
	var c *Window
	for _, tuck := range []float64{0, 8} {
		d := tabled(Both, Crests, tuck, 34, 30)
		f := newFrame(&d, d.Run(), Coarse)
		c = &Window{Design: d, Grid: Coarse, U: f.u, V: f.v, Form: done, Release: done}
		if !c.warmable(f, Coarse) || c.warmable(f, Fine) || (*Window)(nil).warmable(f, Coarse) {
			t.Error("the same design")
		}
		two := newFrame(&d, d.repeated(2, Mirrored, Mirrored), Coarse)
		if c.warmable(two, Coarse) {
			t.Error("two panels from one")
		}
		for name, q := range map[string]struct {
			plain, tucked bool
			do            func(d *Design)
		}{
			"panel": {true, false, func(d *Design) { d.Panel_mm *= 1.049 }}, "panel, far": {false, false, func(d *Design) { d.Panel_mm *= 1.06 }},
			"width": {true, false, func(d *Design) { d.Width_mm *= 1.09 }}, "width, far": {false, false, func(d *Design) { d.Width_mm *= 1.12 }},
			"pitch": {true, false, func(d *Design) { d.Pitch_mm *= 1.15 }}, "pitch, far": {false, false, func(d *Design) { d.Pitch_mm *= 1.3 }},
			"band": {true, false, func(d *Design) { d.BandHeight_mm -= 5.9 }}, "band, far": {false, false, func(d *Design) { d.BandHeight_mm -= 6.1 }},
			"curve": {true, true, func(d *Design) { d.Kappa_1pmm += 0.0059 }}, "curve, far": {false, true, func(d *Design) { d.Kappa_1pmm += 0.0061 }},
			"curve, less": {false, true, func(d *Design) { d.Kappa_1pmm -= 0.0061 }},
			"anchor":      {false, false, func(d *Design) { d.Anchor = Top }}, "sewn": {true, false, func(d *Design) { d.Sewn = Troughs }},
			"tuck": {tuck == 0, false, func(d *Design) { d.TuckTop_mm = tuck * 1.01 }}, "other tuck": {tuck == 0, false, func(d *Design) { d.TuckBottom_mm = tuck * 0.99 }},
			"a tuck": {false, false, func(d *Design) { d.TuckTop_mm = 5 }},
			"gap":    {false, false, func(d *Design) { d.LineGap_mm = 5 }}, "starch": {true, false, func(d *Design) { d.FrozenU_uNm = 0 }},
			"stick": {false, false, func(d *Design) { d.Stick_mm = 7 }},
		} {
			e := d
			q.do(&e)
			want := q.plain
			if tuck > 0 {
				want = q.tucked || e == d
			}
			if got := c.warmable(newFrame(&e, e.Run(), Coarse), Coarse); got != want {
				t.Errorf("tuck %g, %s: %v", tuck, name, got)
			}
		}
	}
	c.Release.Status = shell.Stalled
	if c.warmable(newFrame(&c.Design, c.Design.Run(), Coarse), Coarse) {
		t.Error("from a shape that is not at rest")
	}
	top := tabled(Top, Crests, 0, 30, 0)
	c = &Window{Design: top, Grid: Coarse, U: newFrame(&top, top.Run(), Coarse).u, Form: done, Release: done}
	top.Sewn = Troughs
	if c.warmable(newFrame(&top, top.Run(), Coarse), Coarse) {
		t.Error("troughs from crests")
	}
}
