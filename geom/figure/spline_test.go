package figure

import (
	"math"
	"testing"

	"ruffwright/geom"
)

// A spline passes through its places, and where it does its curvature does not jump. A
// parabola's places give the parabola, to its ends.
func TestSpline(t *testing.T) {
	const n = 400
	line := []geom.Vec3{{X: 0}, {X: 2, Z: 1}, {X: 2.5, Z: 3}, {X: 5, Z: 2}, {X: 9, Z: 2.5}, {X: 9.5}}
	made := spline(line, n)
	if len(made) != (len(line)-1)*n+1 {
		t.Fatalf("%d places", len(made))
	}
	// The second derivative by the way along the chords, just before and just after a place.
	second := func(k, side int) geom.Vec3 {
		at := k*n + side
		h := line[min(k+max(side, 0), len(line)-1)].Sub(line[k+min(side, 0)]).Norm() / n
		return made[at-1].Add(made[at+1]).Sub(made[at].Scale(2)).Scale(1 / h / h)
	}
	for k, v := range line {
		if off := made[k*n].Sub(v).Norm(); off > 1e-12 {
			t.Errorf("place %d is %.3g mm off", k, off)
		}
		if k == 0 || k == len(line)-1 {
			continue
		}
		if jump := second(k, 1).Sub(second(k, -1)).Norm(); jump > 0.05*second(k, 1).Norm()+0.02 {
			t.Errorf("at place %d its curvature jumps by %.3f a mm", k, jump)
		}
	}
	var flat []geom.Vec3
	for i := range 7 {
		x := float64(i) + 0.2*float64(i%2)
		flat = append(flat, geom.Vec3{X: x, Z: 1e-4 * x * x})
	}
	for i, v := range spline(flat, 5) {
		if off := math.Abs(v.Z - 1e-4*v.X*v.X); off > 1e-9 {
			t.Errorf("place %d is %.3g mm off the parabola", i, off)
		}
	}
	if one := spline(line[:1], 4); len(one) != 1 {
		t.Errorf("%d places of one", len(one))
	}
	for _, v := range spline([]geom.Vec3{{X: 1}, {X: 1}, {X: 2}}, 3) {
		if math.IsNaN(v.X + v.Y + v.Z) {
			t.Error("two places in one spoil the line")
		}
	}
}
