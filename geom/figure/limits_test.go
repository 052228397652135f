package figure

import (
	"math"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
)

// What the options allow they allow to their limits, and nothing beyond.
func TestLimits(t *testing.T) {
	for _, c := range []struct {
		name   string
		set    func(o *Options, x float64)
		lo, hi float64
		step   float64
	}{
		{"width", func(o *Options, x float64) { o.Width_mm, o.Height_mm = x, 100 }, 80, 1000, 0.1},
		{"height", func(o *Options, x float64) { o.Width_mm, o.Height_mm = 100, x }, 80, 1000, 0.1},
		{"turn", func(o *Options, x float64) { o.Turn_deg = x }, -1e6, 1e6, 1},
		{"tilt", func(o *Options, x float64) { o.Tilt_deg = x }, -90, 90, 0.1},
		{"zoom", func(o *Options, x float64) { o.Zoom = x }, 0, 10, 0.1},
		{"scale", func(o *Options, x float64) { o.Scale = x }, 0, 1e6, 1},
		{"bow", func(o *Options, x float64) { o.Bow_deg = x }, 0, 90, 0.1},
		{"pan across", func(o *Options, x float64) { o.PanX_mm = x }, -1e5, 1e5, 1},
		{"pan up", func(o *Options, x float64) { o.PanY_mm = x }, -1e5, 1e5, 1},
		{"set", func(o *Options, x float64) { o.Set = int(x) }, 0, 1e6, 1},
	} {
		for x, ok := range map[float64]bool{c.lo: true, c.hi: true, c.lo - c.step: false, c.hi + c.step: false} {
			var o Options
			c.set(&o, x)
			if _, err := o.filled(); (err == nil) != ok {
				t.Errorf("%s %g: %v", c.name, x, err)
			}
		}
	}
	for given, want := range map[float64]float64{0: 1, 0.1: 0.2, 3: 3} {
		if o, _ := (Options{Zoom: given}).filled(); o.Zoom != want {
			t.Errorf("zoom %g is %g, want %g", given, o.Zoom, want)
		}
	}
	for given, want := range map[float64]float64{0: 6, 2: 2, 7: 6} {
		if got := (Options{Scale: given}).most(); got != want {
			t.Errorf("scale %g is at most %g, want %g", given, got, want)
		}
	}
	if o, _ := (Options{Notes: []Note{{Where: WhereOuter, At: []int{-1, 0, 1, 2}}, {Where: "moon"}}}).filled(); len(o.Notes[0].At) != 2 || o.Notes[0].Where != WhereOuter || o.Notes[1].Where != WhereWhole {
		t.Errorf("notes %v", o.Notes)
	}
}

// A mark lies where its fold is, at the neck or at the outer edge; what lies beyond the
// strip or within 1 mm of the sheet's border is not pointed at.
func TestMarked(t *testing.T) {
	plan, shape := designs()[0].make(t)
	s := &sheet{Sheet: &draw.Sheet{}, plan: plan, shape: shape, opt: Options{Plain: true}}
	s.Width_mm, s.Height_mm = 100, 80
	e := draw.NewEye(0, 90)
	for _, c := range []struct {
		m     int
		place string
		x, y  float64
		ok    bool
	}{
		{3, WhereOuter, 50, 40, true}, {3, WhereTucks, 50, 40, true}, {plan.Panels, WhereOuter, 50, 40, true}, {plan.Panels + 1, WhereOuter, 50, 40, false},
		{3, WhereOuter, 1.1, 1.1, true}, {3, WhereOuter, 98.9, 78.9, true}, {3, WhereOuter, 0.9, 40, false}, {3, WhereOuter, 50, 0.9, false}, {3, WhereOuter, 99.1, 40, false}, {3, WhereOuter, 50, 79.1, false},
	} {
		j := shape.NV
		if c.place == WhereTucks {
			j = 0
		}
		v := innerAt(shape, min(c.m, plan.Panels), j)
		e.Mid, e.X, e.Y = v, c.x, c.y
		at, ok := s.onWhole(e, nil).mark(c.m, c.place)
		if ok != c.ok || ok && math.Hypot(at.X-c.x, at.Y-c.y) > 1e-9 {
			t.Errorf("mark %d, %s, at %g, %g: found at %v, %v", c.m, c.place, c.x, c.y, at, ok)
		}
	}
}

// Panels of a single cell are drawn in every view; places of 100 m and a ruff within
// 1 mm of the neck's middle are not.
func TestCoarsestShape(t *testing.T) {
	plan, shape := designs()[1].make(t)
	coarse := pleat.Shape{NU: 1, NV: 1}
	for _, p := range shape.Panels {
		nv := shape.NV
		last := shape.NU * (nv + 1)
		coarse.Panels = append(coarse.Panels, pleat.Panel{V: []geom.Vec3{p.V[0], p.V[nv], p.V[last], p.V[last+nv]}})
	}
	for _, v := range Views {
		d, err := v.Draw(plan, coarse, Options{Tilt_deg: 30})
		if err == nil {
			err = sound(d)
		}
		if err != nil {
			t.Errorf("%s: %v", v.Name, err)
		}
	}
	for to, ok := range map[geom.Vec3]bool{{X: 99999}: true, {Z: 1e5}: false, {X: 5e4, Y: -5e4}: false} {
		coarse.Panels[2].V[1] = to
		if err := checkShape(plan, coarse); (err == nil) != ok {
			t.Errorf("a place at %v: %v", to, err)
		}
	}
	for reach, ok := range map[float64]bool{1: true, 0.9: false} {
		for _, p := range coarse.Panels {
			for i := range p.V {
				p.V[i] = geom.Vec3{Y: reach}
			}
		}
		if err := checkShape(plan, coarse); (err == nil) != ok {
			t.Errorf("a reach of %g mm: %v", reach, err)
		}
	}
}
