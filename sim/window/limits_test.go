package window

import (
	"errors"
	"math"
	"testing"
)

// TestLimits: each field is taken up to both ends of its range and refused just past
// them, with what was found and what is allowed.
func TestLimits(t *testing.T) {
	base := Design{Panel_mm: 60, Width_mm: 75, Pitch_mm: 10, Kappa_1pmm: 0.01, BandHeight_mm: 30, Anchor: Top, BendU_uNm: 15, BendV_uNm: 15, Mass_gm2: 100, Thickness_mm: 0.25}
	for name, q := range map[string]struct {
		at     func(d *Design) *float64
		lo, hi float64
	}{
		"Panel_mm": {func(d *Design) *float64 { d.Pitch_mm = 1; return &d.Panel_mm }, 3, 400}, "Width_mm": {func(d *Design) *float64 { return &d.Width_mm }, 5, 350},
		"Pitch_mm": {func(d *Design) *float64 { d.Kappa_1pmm = 0; return &d.Pitch_mm }, 0.3, 96}, "Kappa_1pmm": {func(d *Design) *float64 { d.Pitch_mm = 1; return &d.Kappa_1pmm }, 0, 0.25},
		"BandHeight_mm": {func(d *Design) *float64 { return &d.BandHeight_mm }, 2, 120},
		"TuckTop_mm":    {func(d *Design) *float64 { d.Panel_mm, d.Width_mm = 300, 200; return &d.TuckTop_mm }, 0, 60}, "TuckBottom_mm": {func(d *Design) *float64 { d.Panel_mm, d.Width_mm = 300, 200; return &d.TuckBottom_mm }, 0, 60},
		"LineGap_mm": {func(d *Design) *float64 { return &d.LineGap_mm }, 0, 60},
		"BendU_uNm":  {func(d *Design) *float64 { return &d.BendU_uNm }, 1e-4, 1e5}, "BendV_uNm": {func(d *Design) *float64 { return &d.BendV_uNm }, 1e-4, 1e5},
		"FrozenU_uNm": {func(d *Design) *float64 { return &d.FrozenU_uNm }, 0, 1e6}, "FrozenV_uNm": {func(d *Design) *float64 { return &d.FrozenV_uNm }, 0, 1e6},
		"Quality": {func(d *Design) *float64 { return &d.Quality }, 0, 1}, "Mass_gm2": {func(d *Design) *float64 { return &d.Mass_gm2 }, 1, 1000}, "Thickness_mm": {func(d *Design) *float64 { return &d.Thickness_mm }, 0.01, 3},
		"SupportDrop_mm": {func(d *Design) *float64 { return &d.SupportDrop_mm }, -60, 200}, "SupportSlope_deg": {func(d *Design) *float64 { return &d.SupportSlope_deg }, -60, 75},
	} {
		for _, v := range []float64{q.lo, q.hi, q.lo - 1e-5, q.hi + 1e-5, math.NaN()} {
			d := base
			*q.at(&d) = v
			err := d.Validate()
			var m Misfit
			if inside := v >= q.lo && v <= q.hi; inside != (err == nil) {
				t.Errorf("%s = %v: %v", name, v, err)
			} else if !inside && (!errors.As(err, &m) || m.Kind != OutOfRange || m.Field != name || m.Least != q.lo || m.Most != q.hi) {
				t.Errorf("%s = %v: %#v", name, v, err)
			}
		}
	}
	d := base
	if d.Sewn = Troughs + 1; d.Validate() == nil {
		t.Error("a third kind of sewing")
	}
	d = base
	if d.Anchor = Bottom + 1; d.Validate() == nil {
		t.Error("a third edge")
	}
}

// TestMisfits: fields that do not fit together, each just before its limit and just
// past it.
func TestMisfits(t *testing.T) {
	for _, q := range []struct {
		kind  MisfitKind
		field string
		most  float64
		set   func(d *Design, v float64)
	}{
		{TucksLong, "TuckTop_mm", 0.9 * 60, func(d *Design, v float64) {
			d.TuckTop_mm, d.TuckBottom_mm, d.BandHeight_mm = 25, v-25, 2
			d.Pitch_mm = 0.5
		}},
		{TuckDeep, "TuckTop_mm", 0.8 * 20, func(d *Design, v float64) { d.Width_mm, d.TuckTop_mm, d.TuckBottom_mm = 20, v, 3 }},
		{TuckDeep, "TuckBottom_mm", 0.8 * 20, func(d *Design, v float64) { d.Width_mm, d.TuckTop_mm, d.TuckBottom_mm = 20, 3, v }},
		{GapWide, "LineGap_mm", 0.8 * 50, func(d *Design, v float64) { d.Width_mm, d.LineGap_mm = 50, v }},
		{NoWave, "Pitch_mm", 2 * (0.98*60 - 24 - 6), func(d *Design, v float64) {
			d.TuckTop_mm, d.TuckBottom_mm, d.Pitch_mm, d.Kappa_1pmm, d.BandHeight_mm = 24, 6, v, 0, 2
		}},
		{NoOuterWave, "Pitch_mm", 2 * 0.98 * 60, func(d *Design, v float64) {
			d.TuckTop_mm, d.TuckBottom_mm, d.Kappa_1pmm, d.Width_mm, d.BandHeight_mm = 0, 0, 0.02, 50, 10
			d.Pitch_mm = v / 2
		}},
	} {
		for _, v := range []float64{q.most - 1e-6, q.most + 1e-6} {
			d := DefaultDesign()
			q.set(&d, v)
			err := d.Validate()
			var m Misfit
			if fits := v < q.most; fits != (err == nil) {
				t.Errorf("kind %d at %v: %v", q.kind, v, err)
			} else if !fits && (!errors.As(err, &m) || m.Kind != q.kind || m.Field != q.field || math.Abs(m.Value-v) > 1e-9 || math.Abs(m.Most-q.most) > 1e-9) {
				t.Errorf("kind %d at %v: %#v", q.kind, v, err)
			}
		}
	}
	d := DefaultDesign()
	d.TuckTop_mm, d.TuckBottom_mm = 10, 4
	d.Kappa_1pmm = 0.02
	chord := 2 * math.Sin(0.02*5/2) / 0.02
	if d.BandHeight_mm = math.Sqrt(46*46-chord*chord) - 1e-6; d.Validate() != nil {
		t.Error(d.Validate())
	}
	if d.BandHeight_mm += 2e-6; d.Validate() == nil {
		t.Error("a band that the cloth does not reach across")
	}
	if d.BandHeight_mm = 30; math.Abs(d.Slack()-46/math.Hypot(30, chord)) > 1e-12 {
		t.Errorf("slack %v", d.Slack())
	}
	if d.Kappa_1pmm = 0; math.Abs(d.Slack()-46/math.Hypot(30, 5)) > 1e-12 {
		t.Errorf("slack on a straight neckline %v", d.Slack())
	}
	if d.Anchor = Top; d.Slack() != 0 || !d.Tucked() {
		t.Error("one edge has no slack, and this a tuck")
	}
	if d.TuckTop_mm = 0; d.Tucked() {
		t.Error("a tuck at a fold that is not sewn counts")
	}
	if w := d.Weight_mN(); math.Abs(w-100e-6*9.80665*60*75) > 1e-12 {
		t.Errorf("the weight is %v mN", w)
	}
}

// TestAnchors: which folds are sewn where, both edges and one.
func TestAnchors(t *testing.T) {
	for _, q := range []struct {
		a                   Anchor
		w                   Sewn
		crest, trough       bool
		crestZ, troughZ     float64
		crestTuck, troughTk float64
	}{
		{Both, Crests, true, true, 30, 0, 8, 5}, {Both, Troughs, true, true, 30, 0, 8, 5},
		{Top, Crests, true, false, 30, 30, 8, 0}, {Top, Troughs, false, true, 30, 30, 0, 5},
		{Bottom, Crests, true, false, 0, 0, 8, 0}, {Bottom, Troughs, false, true, 0, 0, 0, 5},
	} {
		d := tabled(q.a, q.w, 8, 30, 0)
		d.TuckBottom_mm = 5
		r := d.Run()
		c, u := r.Folds[0], r.Folds[1]
		if !c.Crest || u.Crest || c.Sewn != q.crest || u.Sewn != q.trough || c.Height_mm != q.crestZ || u.Height_mm != q.troughZ || c.tuck() != q.crestTuck || u.tuck() != q.troughTk || c.Station_mm != 0 || u.Station_mm != d.Pitch_mm/2 || r.Panels_mm[0] != d.Panel_mm {
			t.Errorf("%v %v: %+v", q.a, q.w, r)
		}
		if row := newFrame(&d, r, Coarse).panels[0].sewnRow(); row != map[bool]float64{true: q.crestZ, false: q.troughZ}[q.crest] {
			t.Errorf("%v %v: sewn at %v", q.a, q.w, row)
		}
	}
}

// TestSeedsStay: a seed that a report or a test names means the same design always.
func TestSeedsStay(t *testing.T) {
	sum := func(of func(uint64) Design) (s [19]float64) {
		for seed := range uint64(200) {
			d := of(seed)
			support := 0.0
			if d.Support {
				support = 1
			}
			for k, v := range []float64{d.Panel_mm, d.Width_mm, d.Pitch_mm, d.Kappa_1pmm, d.BandHeight_mm, float64(d.Anchor), float64(d.Sewn), d.TuckTop_mm, d.TuckBottom_mm, d.LineGap_mm,
				d.BendU_uNm, d.BendV_uNm, d.FrozenU_uNm, d.FrozenV_uNm, d.Quality, d.Mass_gm2, d.Thickness_mm, d.SupportSlope_deg + support, d.SupportDrop_mm} {
				s[k] += v / 200
			}
		}
		return
	}
	for k, q := range []struct {
		of   func(uint64) Design
		want [19]float64
	}{
		{RandomDesign, [19]float64{48.3511377929, 84.1348902299, 13.1499978762, 0.0218049247606, 25.0843280078, 1.085, 0.535, 3.18216202056, 2.09182156352, 2.05462989284, 26.0962338296, 26.8227063873, 327.566330204, 359.363996139, 0.68357865601, 107.864190903, 0.352600991994, 4.65727751649, 8.19215826957}},
		{RandomTucked, [19]float64{64.0729511565, 78.2750597777, 13.3650055947, 0.015898623121, 37.9933853617, 0.97, 0.305, 8.68409250009, 8.68409250009, 0, 16.5944794424, 16.6091325802, 575.298520007, 574.79201643, 0.906193859056, 120.706561208, 0.235141495074, 0, 0}},
	} {
		got := sum(q.of)
		for i, v := range got {
			if !(math.Abs(v-q.want[i]) <= 1e-9*math.Abs(v)) {
				t.Errorf("designs %d: the mean of number %d is %.12g, it was %.12g", k, i, v, q.want[i])
			}
		}
		if t.Failed() {
			t.Logf("%.12g", got)
		}
	}
}
