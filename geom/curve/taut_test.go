package curve

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// traced is the length of an S round two circles, added up from a polygon drawn with
// ruler and compass: n chords of each arc, and the straight line between the ends of
// the arcs, whose direction is found by trying: where it touches both circles.
func traced(rise, halfPitch, r float64, n int) float64 {
	// crest circle at (0, rise), trough circle at (halfPitch, 0): the strip runs level
	// over the top of the first, turns down by phi, crosses, and turns up by phi
	end := func(phi float64) (x, y float64) { return r * math.Sin(phi), rise + r*math.Cos(phi) }
	begin := func(phi float64) (x, y float64) { return halfPitch - r*math.Sin(phi), -r * math.Cos(phi) }
	miss := func(phi float64) float64 { // the line's direction is not the arcs'
		ax, ay := end(phi)
		bx, by := begin(phi)
		return (bx-ax)*math.Sin(phi) + (by-ay)*math.Cos(phi)
	}
	lo, hi := 0.0, 0.0
	for miss(hi) < 0 && hi < math.Pi { // the first that does
		lo, hi = hi, hi+0.001
	}
	for range 100 {
		if m := (lo + hi) / 2; miss(m) < 0 {
			lo = m
		} else {
			hi = m
		}
	}
	ax, ay := end(lo)
	bx, by := begin(lo)
	return 2*float64(n)*2*r*math.Sin(lo/float64(n)/2) + math.Hypot(bx-ax, by-ay)
}

// TestTaut: the length against a polygon drawn round the circles; the height and the
// radius undo it; thinner sticks make it taller, up to the length itself.
func TestTaut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(1, 30).Draw(t, "half pitch")
		r := rapid.Float64Range(0.02, 1).Draw(t, "radius/half pitch") * a
		least := math.Sqrt(max(0, 4*r*r-a*a))
		rise := least + rapid.Float64Range(0.01, 5).Draw(t, "rise")*a
		l := TautLength(rise, a, r)
		if want := traced(rise, a, r, 4000); math.Abs(l/want-1) > 1e-6 {
			t.Fatalf("%g mm long, drawn %g", l, want)
		}
		h, err := TautHeight(l, a, r)
		if err != nil || math.Abs(h-rise-2*r) > 1e-9*l {
			t.Fatalf("%g mm tall, want %g: %v", h, rise+2*r, err)
		}
		if more, err := TautHeight(l, a, 1.02*r); err != nil || more > h {
			return // so thick that they lift it, or just do not
		}
		back, err := TautRadius(l, a, h)
		if err != nil || math.Abs(back-r) > 1e-6*a {
			t.Fatalf("radius %g, want %g: %v", back, r, err)
		}
		if thin, _ := TautHeight(l, a, 0.9*r); !(thin > h && thin < l) {
			t.Fatalf("%g mm tall round thinner sticks, %g round these, of %g mm", thin, h, l)
		}
	})
	if TautLength(1, 1, 2) != 0 {
		t.Error("sticks through each other")
	}
	for _, c := range [][3]float64{{0, 1, 1}, {10, 0, 1}, {10, 1, 0}, {10, 1, 1.1}, {5, 1, 1}, {math.NaN(), 1, 1}} {
		if h, err := TautHeight(c[0], c[1], c[2]); err == nil {
			t.Errorf("%v: %g mm tall", c, h)
		}
	}
	for _, h := range []float64{0, math.NaN(), math.Inf(1)} {
		if r, err := TautRadius(60, 8, h); err == nil {
			t.Errorf("%g mm tall: radius %g", h, r)
		}
	}
	if r, err := TautRadius(60, 8, 61); err != nil || r > 1e-6 {
		t.Errorf("taller than the strip: radius %g, %v", r, err)
	}
	if r, err := TautRadius(60, 8, 20); err != nil || math.Abs(r-8) > 1e-6 {
		t.Errorf("lower than the thickest sticks make it: radius %g, %v", r, err)
	}
}

// TestTautOfLoops: sticks round which a strip stands as tall as its own free loops are a
// little thinner than those loops, from loops that touch to open waves.
func TestTautOfLoops(t *testing.T) {
	for _, a := range []float64{0.08, 0.15, 0.2, 0.3} {
		e, err := NewElastica(1, a)
		if err != nil {
			t.Fatal(err)
		}
		r, err := TautRadius(1, a, e.Height())
		if err != nil || 2*r > e.LoopWidth() || 2*r < 0.92*e.LoopWidth() {
			t.Errorf("half pitch %g: stick %.4f in a loop of %.4f: %v", a, 2*r, e.LoopWidth(), err)
		}
	}
}
