package curve

import "math"

// root returns a root of f between a and b, where f(a) = fa and f(b) = fb have
// opposite signs (or one is zero): inverse quadratic interpolation while it is
// safe, bisection where it is not (Chandrupatla, Advances in Engineering
// Software 28, 1997; from memory). It stops when the root is known to 4 units
// in the last place, or after 120 evaluations. ok is false where the signs do not
// differ or f gives NaN.
func root(f func(float64) float64, a, fa, b, fb float64) (x float64, ok bool) {
	switch {
	case fa == 0:
		return a, true
	case fb == 0:
		return b, true
	case !(fa < 0 && fb > 0 || fa > 0 && fb < 0):
		return 0, false
	}
	t := 0.5
	c, fc := a, fa
	for range 120 {
		x = a + t*(b-a)
		fx := f(x)
		if math.IsNaN(fx) {
			return 0, false
		}
		if (fx > 0) == (fa > 0) {
			c, fc = a, fa
		} else {
			c, fc, b, fb = b, fb, a, fa
		}
		a, fa = x, fx
		best, fbest := a, fa
		if math.Abs(fb) < math.Abs(fa) {
			best, fbest = b, fb
		}
		near := 4 * 0x1p-53 * math.Abs(best) / math.Abs(b-a)
		if fbest == 0 || near > 0.5 || b == a {
			return best, true
		}
		xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
		t = 0.5
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			t = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		t = math.Min(math.Max(t, near), 1-near)
		x = best
	}
	return x, true
}

// Amplitude returns the largest tangent angle φ, radians, of a wave whose angle is
// φ sin πs along its length and whose chord is that share of it, −0.4 < share < 1:
// J₀(φ) = share. Many a solve starts from it.
func Amplitude(share float64) float64 {
	lo, hi := 0.0, 3.8
	for range 60 {
		m := (lo + hi) / 2
		if math.J0(m) > share {
			lo = m
		} else {
			hi = m
		}
	}
	return lo
}
