package figure

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
)

// pulled is the ruff of a plan with another value of a field.
func pulled(t *testing.T, plan pleat.Plan, key string, value float64) (pleat.Plan, pleat.Shape) {
	t.Helper()
	s := plan.Given
	if err := s.Set(key, fmt.Sprintf("%.6f", value)); err != nil {
		t.Fatal(err)
	}
	p, err := pleat.NewPlan(s)
	if err != nil {
		t.Fatal(err)
	}
	f, err := p.Fold(16, 8)
	if err != nil {
		t.Fatal(err)
	}
	return p, f.Shape
}

// A handle stands at its field's value, lies on the sheet, and follows the hand: drawn
// again with a little more of its field, where the parts are held, it has gone so far as
// it said (to a third), and that way. Its number is one that is drawn.
func TestHandlesFollow(t *testing.T) {
	seen := map[string]bool{}
	for _, d := range append(designs(), design{"carried", "sound", []string{"support.kind", "supporter", "support.slope", "5"}, 16, 8}, design{"pitched", "sound", []string{"pleat.pitch", "9"}, 16, 8}) {
		plan, shape := d.make(t)
		for _, v := range Views {
			var held Held
			opt := Options{Held: &held, Plain: true, Width_mm: 240, Height_mm: 140}
			first, err := v.Draw(plan, shape, opt)
			if err != nil {
				t.Fatal(err)
			}
			held.Fixed = true
			for _, h := range first.Handles {
				name := fmt.Sprintf("%s %s %s", d.name, v.Name, h.Field)
				seen[v.Name+" "+h.Field] = true
				if !(draw.Rect{Min: h.At, Max: h.At}).Inside(draw.Rect{Max: draw.Pt(first.Width_mm, first.Height_mm)}) {
					t.Errorf("%s lies at %v, beyond the sheet", name, h.At)
				}
				if h.Number != (draw.Rect{}) && !slices.ContainsFunc(first.Labels(), func(l draw.Label) bool { return l.Box() == h.Number }) {
					t.Errorf("%s: no number is drawn at %v", name, h.Number)
				}
				if h.Turn != 0 {
					continue // it is turned like a dial: what it counts is all round
				}
				more := 0.5
				if h.Field == "pleat.pitch" { // the set is laid out about the nearest of the neckline's 720 stations
					more = 3
				}
				value := h.Value + more
				plan2, shape2 := pulled(t, plan, h.Field, value)
				again, err := v.Draw(plan2, shape2, opt)
				if err != nil {
					t.Fatal(err)
				}
				i := slices.IndexFunc(again.Handles, func(o draw.Handle) bool { return o.Field == h.Field })
				if i < 0 {
					t.Errorf("%s is gone when it is pulled", name)
					continue
				}
				if plan.TucksFitted || plan2.TucksFitted {
					continue // there is no room for more
				}
				now, want := again.Handles[i], h.Stands(value)
				if math.Abs(now.Value-value) > 0.3 {
					t.Errorf("%s stands at %g, set to %g", name, now.Value, value)
				}
				gone, said := math.Hypot(now.At.X-h.At.X, now.At.Y-h.At.Y), math.Hypot(want.X-h.At.X, want.Y-h.At.Y)
				if off := math.Hypot(now.At.X-want.X, now.At.Y-want.Y); off > said/3 {
					t.Errorf("%s: set to %g more it went %.3f mm from %v to %v, said %.3f to %v", name, more, gone, h.At, now.At, said, want)
				}
			}
		}
	}
	for _, want := range []string{
		"above ruff.depth", "above ruff.sets", "front ruff.height", "front ruff.depth", "side ruff.depth", "side ruff.height", "side band.height", "side support.drop", "side support.slope",
		"set ruff.height", "set band.height", "set pleat.pitch", "cut ruff.depth", "cut ruff.height", "cut pleat.tuck_top", "cut pleat.tuck_bottom", "cut support.drop",
		"flat pleat.panel", "flat ruff.depth", "flat pleat.tuck_top",
	} {
		if !seen[want] {
			t.Errorf("no view has the handle %s", want)
		}
	}
	for at := range seen {
		var view, key string
		fmt.Sscan(at, &view, &key)
		if !slices.Contains(Handled, key) {
			t.Errorf("%s is not among Handled", key)
		}
	}
}

// What would change nothing has no handle: the height where the length from fold to fold
// is the maker's, the number of sets beside own marks, a support that is not there.
func TestHandlesOfWhatDecides(t *testing.T) {
	for _, c := range []struct{ demo, key string }{{"few", "ruff.height"}, {"uneven", "ruff.sets"}, {"uneven", "pleat.panel"}, {"sound", "support.drop"}, {"sound", "pleat.pitch"}} {
		i := slices.IndexFunc(designs(), func(d design) bool { return d.name == c.demo })
		plan, shape := designs()[i].make(t)
		for _, v := range Views {
			d, err := v.Draw(plan, shape, Options{Plain: true})
			if err != nil {
				t.Fatal(err)
			}
			for _, h := range d.Handles {
				if h.Field == c.key {
					t.Errorf("%s of %s has the handle %s, which decides nothing there", v.Name, c.demo, c.key)
				}
			}
		}
	}
}

// Held, a part of the drawing keeps its scale and place when the ruff grows; let go, it
// is fitted to the sheet again.
func TestHeldStays(t *testing.T) {
	plan, shape := designs()[0].make(t)
	bigger, grown := pulled(t, plan, "ruff.depth", plan.Scheme.Ruff.Depth+30)
	for _, v := range Views {
		if v.Turned {
			continue
		}
		var held Held
		opt := Options{Held: &held, Plain: true}
		first, err := v.Draw(plan, shape, opt)
		if err != nil {
			t.Fatal(err)
		}
		held.Fixed = true
		stays, err := v.Draw(bigger, grown, opt)
		if err != nil {
			t.Fatal(err)
		}
		if stays.Scale != first.Scale {
			t.Errorf("%s: held at scale %g, it is drawn at %g", v.Name, first.Scale, stays.Scale)
		}
		held.Fixed = false
		free, err := v.Draw(bigger, grown, opt)
		if err != nil {
			t.Fatal(err)
		}
		if v.Name == "above" && free.Scale >= first.Scale {
			t.Errorf("%s: let go, a deeper ruff is drawn at scale %g, the first at %g", v.Name, free.Scale, first.Scale)
		}
	}
}
