package cloth

import "math"

// normal95 is the normal distribution's 97.5 % quantile: half of a 95 % interval
// in standard errors.
const normal95 = 1.959963984540054

// student95 is Student's t for a two-sided 95 % interval with ν >= 1 degrees of
// freedom, rounded down to a whole number (on the wide side). ν may be +Inf.
// For whole ν the distribution has a closed form in the angle atan(t/√ν)
// (Abramowitz and Stegun 26.7.3, 26.7.4), solved by bisection; beyond 400 their
// series 26.7.5 in 1/ν. Within 5e-9 at ν = 1, 1e-9 beyond (TestStudent, against gonum).
func student95(freedom float64) float64 {
	if !(freedom >= 2) {
		freedom = 1
	}
	if freedom > 400 {
		z := normal95
		z2 := z * z
		g1 := z * (z2 + 1) / 4
		g2 := z * ((5*z2+16)*z2 + 3) / 96
		g3 := z * (((3*z2+19)*z2+17)*z2 - 15) / 384
		nu := math.Floor(freedom)
		if math.IsInf(nu, 1) {
			return z
		}
		return z + (g1+(g2+g3/nu)/nu)/nu
	}
	nu := int(freedom)
	lo, hi := 0.0, math.Pi/2
	for range 60 {
		mid := (lo + hi) / 2
		if twoSided(mid, nu) < 0.95 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return math.Sqrt(float64(nu)) * math.Tan((lo+hi)/2)
}

// twoSided is the chance that |t| < √ν tan(angle), ν >= 1.
func twoSided(angle float64, nu int) float64 {
	sin, cos := math.Sincos(angle)
	if nu%2 == 1 {
		sum, term := 0.0, cos
		for k := 1; k <= nu-2; k += 2 {
			sum += term
			term *= cos * cos * float64(k+1) / float64(k+2)
		}
		return 2 / math.Pi * (angle + sin*sum)
	}
	sum, term := 0.0, 1.0
	for k := 0; k <= nu-2; k += 2 {
		sum += term
		term *= cos * cos * float64(k+1) / float64(k+2)
	}
	return sin * sum
}
