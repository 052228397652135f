package figure

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
)

// An outer edge that lies 5 mm lower than the inner is said to fall by that.
func TestDroopFalls(t *testing.T) {
	plan, shape := designs()[1].make(t)
	low := lowered(shape, 5)
	sec := newSection(plan, low, cutMark(plan, 3, 0), nil)
	if math.Abs(sec.droop-5) > 0.05 {
		t.Errorf("droop %.3f, want 5", sec.droop)
	}
	d, err := Named("side").Draw(plan, low, Options{})
	if err != nil || !strings.Contains(d.Desc, "falls 5") {
		t.Errorf("%q, %v", d.Desc, err)
	}
}

// The section is cut where it is said to be: a quarter of the way round from the
// side, beside the opening from the front.
func TestCutMark(t *testing.T) {
	plan, _ := designs()[0].make(t)
	for _, part := range []float64{0.01, 0.25, 0.8} {
		if m := cutMark(plan, 0, part); math.Abs(float64(m)-part*float64(plan.Panels)) > 2 {
			t.Errorf("at %g of %d panels it is cut at mark %d", part, plan.Panels, m)
		}
	}
}

// Twice the zoom is twice the scale.
func TestZoom(t *testing.T) {
	plan, shape := designs()[1].make(t)
	scale := func(zoom float64) float64 {
		d, err := Named("hand").Draw(plan, shape, Options{Zoom: zoom, Tilt_deg: 20})
		if err != nil {
			t.Fatal(err)
		}
		return d.Scale
	}
	if a, b := scale(1), scale(2); math.Abs(b-2*a) > 1e-9 {
		t.Errorf("scale %g, at twice the zoom %g", a, b)
	}
}

// The legend begins with the least length: for droop the lightest dye, for gaps,
// where less room is dyed deeper, the deepest.
func TestLegendOrder(t *testing.T) {
	plan, shape := designs()[0].make(t)
	for i, want := range []float64{0.1, 0.9} {
		d, err := Named("above").Draw(plan, shape, Options{Tone: tones(t, plan, shape)[i]})
		if err != nil {
			t.Fatal(err)
		}
		dyes := map[any]bool{}
		for k := range toneSteps {
			dyes[draw.Light().Dye((float64(k)+0.5)/toneSteps)] = true
		}
		for _, it := range d.Items {
			if p, ok := it.(draw.Path); ok && p.Closed && dyes[p.Fill] {
				if p.Fill != draw.Light().Dye(want) {
					t.Errorf("tone %d begins with %v", i, p.Fill)
				}
				break
			}
		}
	}
}

// The selected set's cloth is tinted from its first fold to its last.
func TestSelectedColumns(t *testing.T) {
	plan, shape := designs()[0].make(t)
	c := newCloth(shape, 0, len(shape.Panels))
	s := &sheet{Sheet: &draw.Sheet{Pal: draw.Light()}, plan: plan, opt: Options{Set: 3}}
	lo, hi, _ := setPanels(plan, 3)
	seen := s.dress(c, 0).sheet(&c)
	if len(seen.Tints) != 2 || seen.Tints[0] == seen.Tints[1] {
		t.Fatalf("%d tints", len(seen.Tints))
	}
	for col := range c.cols {
		if got, want := seen.Pick[col*c.rows] == 1, col >= lo*c.per && col <= hi*c.per; got != want {
			t.Errorf("column %d of the set's %d to %d: %v", col, lo*c.per, hi*c.per, got)
		}
	}
}

// All sets of a regular ruff have the same bottom loop; that of the last is measured
// on the side where it has a neighbour.
func TestLoopOfTheLastSet(t *testing.T) {
	plan, shape := designs()[0].make(t)
	bottom := func(n int) float64 {
		lo, hi, _ := setPanels(plan, n)
		u := unroll(plan, shape, nil, lo, hi, lo+1)
		_, mm := u.loops(plan.Scheme.Cloth.Thickness)
		return mm
	}
	if a, b := bottom(plan.Crests/2), bottom(plan.Crests); math.Abs(a-b) > 0.3 {
		t.Errorf("bottom loop %.2f mm, of the last set %.2f", a, b)
	}
}

// A stitch over the band's top edge goes down the inside, one over the bottom edge
// up: none stands beyond the band.
func TestStitchesLieOnTheBand(t *testing.T) {
	for _, d := range designs() {
		plan, shape := d.make(t)
		threads := stitches(plan, shape, 3, draw.Light().Thread)
		if len(threads) == 0 {
			t.Errorf("%s has no stitches", d.name)
		}
		for _, thread := range threads {
			for _, v := range thread.V {
				if v.Z < -1e-9 || v.Z > plan.Scheme.Band.Height+1e-9 {
					t.Fatalf("%s: a stitch reaches %.1f mm up a band of %g", d.name, v.Z, plan.Scheme.Band.Height)
				}
			}
		}
	}
}

// lowered is the shape with its outer edge so far down, the inner where it was.
func lowered(shape pleat.Shape, mm float64) pleat.Shape {
	low := pleat.Shape{NU: shape.NU, NV: shape.NV}
	for _, p := range shape.Panels {
		q := pleat.Panel{V: slices.Clone(p.V)}
		for i := range q.V {
			q.V[i].Z -= mm * float64(i%(shape.NV+1)) / float64(shape.NV)
		}
		low.Panels = append(low.Panels, q)
	}
	return low
}
