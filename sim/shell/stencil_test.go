package shell

import (
	"math"
	"testing"
)

// TestYarn: the yarns' widths are positive and add up to the sheet's, and towards
// a free edge they integrate a strain that is even at a mirror to third order
// (∫₀¹ cos² 2t dt = ½ + sin 4/8); bare tributary widths do it to second.
func TestYarn(t *testing.T) {
	for _, c := range [][]float64{{0, 1}, {0, 2, 3}, {0, 1, 1.5, 4, 9, 10}} {
		for start := Free; start <= Clamped; start++ {
			for end := Free; end <= Clamped; end++ {
				sum := 0.0
				for k := range c {
					w := yarn(c, k, start, end)
					if w <= 0 {
						t.Errorf("%v, edges %d and %d: width %d is %v", c, start, end, k, w)
					}
					sum += w
				}
				if d := sum - c[len(c)-1]; math.Abs(d) > 1e-12 {
					t.Errorf("%v, edges %d and %d: off by %v", c, start, end, d)
				}
			}
		}
	}
	exact := 0.5 + math.Sin(4)/8
	errors := func(n int) (corrected, bare float64) {
		c := make([]float64, n+1)
		for k := range c {
			c[k] = float64(k) / float64(n)
		}
		for k, x := range c {
			f := math.Cos(2*x) * math.Cos(2*x)
			corrected += f * yarn(c, k, Mirror, Free)
			bare += f * tributary(c, k)
		}
		return math.Abs(corrected - exact), math.Abs(bare - exact)
	}
	a, p := errors(40)
	b, q := errors(80)
	t.Logf("orders %.2f and %.2f", math.Log2(a/b), math.Log2(p/q))
	if math.Log2(a/b) < 2.8 || math.Log2(p/q) > 2.1 {
		t.Errorf("errors %.2g, %.2g, with bare widths %.2g, %.2g", a, b, p, q)
	}
}
