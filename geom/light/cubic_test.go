package light

import (
	"math"
	"testing"

	"ruffwright/geom"
)

// TestCubicUneven: where the gaps between places change from one to the next, the line through
// them has no corner: through places of a circle, each gap twice or half the one before, the
// tangent turns as the circle's does, and the line leaves the circle by little.
func TestCubicUneven(t *testing.T) {
	const radius = 10
	var line []geom.Vec3
	angle, step := 0.0, 0.06
	for i := range 24 {
		line = append(line, geom.Vec3{X: radius * math.Cos(angle), Z: radius * math.Sin(angle)})
		if angle += step; i%6 == 5 {
			if step *= 2; i%12 == 11 {
				step /= 4
			}
		}
	}
	made := Smooth(line, 16)
	most, off := 0.0, 0.0
	for i := 16; i+17 < len(made); i++ {
		off = max(off, math.Abs(made[i].Norm()-radius))
		a, b := made[i].Sub(made[i-1]), made[i+1].Sub(made[i])
		bend := math.Acos(min(1, a.Dot(b)/a.Norm()/b.Norm())) / ((a.Norm() + b.Norm()) / 2)
		most = max(most, bend)
	}
	// The circle bends by 1/radius.
	if most > 1.6/radius || off > 0.004*radius {
		t.Errorf("the line bends by up to %.3f a mm and leaves the circle by %.4f mm", most, off)
	}
}

// TestCubicEven: with even gaps it is Catmull and Rom's line; and gaps of nothing spoil no
// number.
func TestCubicEven(t *testing.T) {
	for _, at := range []float64{0, 0.2, 0.5, 1} {
		w, slope := cubic(3, 3, 3, at)
		t2, t3 := at*at, at*at*at
		want := [4]float64{(-at + 2*t2 - t3) / 2, (2 - 5*t2 + 3*t3) / 2, (at + 4*t2 - 3*t3) / 2, (t3 - t2) / 2}
		steep := [4]float64{(-1 + 4*at - 3*t2) / 2, (-10*at + 9*t2) / 2, (1 + 8*at - 9*t2) / 2, (3*t2 - 2*at) / 2}
		for k := range w {
			if math.Abs(w[k]-want[k]) > 1e-12 || math.Abs(slope[k]-steep[k]) > 1e-12 {
				t.Errorf("at %g: weights %v and %v, want %v and %v", at, w, slope, want, steep)
			}
		}
		for _, g := range [][3]float64{{0, 0, 0}, {0, 1, 0}, {1, 0, 1}, {1, 1e-300, 1e300}} {
			w, slope := cubic(g[0], g[1], g[2], at)
			sum, steep := 0.0, 0.0
			for k := range w {
				sum, steep = sum+w[k], steep+slope[k]
			}
			if !(math.Abs(sum-1) < 1e-9 && math.Abs(steep) < 1e-9) {
				t.Errorf("gaps %v at %g: weights %v and %v", g, at, w, slope)
			}
		}
	}
}
