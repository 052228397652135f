package curve

import (
	"math"
	"testing"
)

// TestRoot: roots of functions whose roots are known, to the last places.
func TestRoot(t *testing.T) {
	for _, c := range []struct {
		name    string
		f       func(float64) float64
		a, b, x float64
	}{
		{"cube", func(x float64) float64 { return x*x*x - 2 }, 0, 2, math.Cbrt(2)},
		{"falling", func(x float64) float64 { return math.Cos(x) }, 0, 3, math.Pi / 2},
		{"flat beside the root", func(x float64) float64 { return math.Pow(x-1, 9) }, 0, 3, 1},
		{"at the end", func(x float64) float64 { return x }, 0, 1, 0},
		{"step", func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0, 1, 0.3},
	} {
		x, ok := root(c.f, c.a, c.f(c.a), c.b, c.f(c.b))
		if !ok || math.Abs(x-c.x) > 8*0x1p-53*math.Max(1, c.x) && c.f(x) != 0 {
			t.Errorf("%s: %.17g, want %.17g", c.name, x, c.x)
		}
	}
	if _, ok := root(math.Cos, 0, 1, 1, math.Cos(1)); ok {
		t.Error("a root where the signs do not differ")
	}
	if _, ok := root(func(float64) float64 { return math.NaN() }, 0, -1, 1, 1); ok {
		t.Error("a root where f gives no number")
	}
}

// TestAmplitude: J₀ of the angle is the share again.
func TestAmplitude(t *testing.T) {
	for _, share := range []float64{-0.39, 0, 0.02, 0.5, 0.999} {
		if got := math.J0(Amplitude(share)); math.Abs(got-share) > 1e-12 {
			t.Errorf("J₀ of the amplitude of %g is %g", share, got)
		}
	}
}
