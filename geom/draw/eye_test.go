package draw

import (
	"math"
	"testing"

	"ruffwright/geom"
)

// The eye's axes are right-handed unit vectors, and turn and tilt look from
// where their names say.
func TestEye(t *testing.T) {
	for _, c := range []struct {
		turn, tilt float64
		toward     geom.Vec3
	}{
		{0, 0, geom.Vec3{Y: -1}}, // the wearer's front is at −y
		{90, 0, geom.Vec3{X: 1}}, // +x is the wearer's left
		{180, 0, geom.Vec3{Y: 1}},
		{0, 90, geom.Vec3{Z: 1}},
		{77, -90, geom.Vec3{Z: -1}},
	} {
		e := NewEye(c.turn, c.tilt)
		if d := e.Toward.Sub(c.toward).Norm(); d > 1e-12 {
			t.Errorf("turn %g tilt %g looks from %v, want %v", c.turn, c.tilt, e.Toward, c.toward)
		}
		if d := e.Right.Cross(e.Up).Sub(e.Toward).Norm(); d > 1e-12 {
			t.Errorf("turn %g tilt %g: right × up is off toward by %g", c.turn, c.tilt, d)
		}
	}
}

// In perspective what is nearer is larger, by distance over distance; what is behind
// the eye stays within five times. Without it, all has one scale.
func TestPerspective(t *testing.T) {
	e := NewEye(0, 0) // from −y: nearness is −y
	e.Scale = 2
	for _, c := range []struct{ far, near, want float64 }{
		{0, 50, 2}, {100, 0, 2}, {100, 50, 4}, {100, -100, 1}, {100, 99, 10}, {100, 500, 10},
	} {
		e.Far = c.far
		if p, z := e.See(geom.Vec3{X: 1, Y: -c.near}); math.Abs(p.X-c.want) > 1e-12 || math.Abs(z-c.near) > 1e-12 {
			t.Errorf("from %g mm, %g mm nearer: a mm is %g mm and %g near, want %g", c.far, c.near, p.X, z, c.want)
		}
	}
}

// What is fitted lies in the middle of its room and touches it on two sides, or has the
// largest scale that is wanted.
func TestFit(t *testing.T) {
	room := Rect{Pt(10, 20), Pt(50, 40)}
	pts := []geom.Vec3{{X: 5, Z: 1}, {X: 15, Z: 3}} // from the front 10 wide and 2 high
	for _, c := range []struct {
		most float64
		want Rect
	}{{100, Rect{Pt(10, 26), Pt(50, 34)}}, {2, Rect{Pt(20, 28), Pt(40, 32)}}} {
		e := NewEye(0, 0)
		got := e.Fit(room, c.most, pts)
		for _, d := range []float64{got.Min.X - c.want.Min.X, got.Min.Y - c.want.Min.Y, got.Max.X - c.want.Max.X, got.Max.Y - c.want.Max.Y} {
			if !(math.Abs(d) < 1e-9) {
				t.Fatalf("at most at %g it fills %v, want %v", c.most, got, c.want)
			}
		}
	}
	upright := NewEye(0, 0)
	if got := upright.Fit(room, 100, []geom.Vec3{{}, {Z: 4}}); math.Abs(got.Max.Y-got.Min.Y-20) > 1e-9 || got.Min.X != 30 {
		t.Errorf("a line upright fills %v", got)
	}
}
