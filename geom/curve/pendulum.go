package curve

import (
	"math"

	"ruffwright/geom"
)

// pendulum is the standard form of every bent strip here: the inflectional
// elastica of modulus k, measured from its inflection in the length 1/λ of its
// equation φ” = sin φ, where φ is the angle from the direction of the end
// force as a pull (so φ = π lies along a push). With v the arc length from the
// inflection, sn, cn, dn of v and parameter m = k²,
//
//	tan(φ/2) = k′/(k·cn v)
//	C(v) = ∫cos φ dv = v − 2N(v),  N(v) = k′²·∫dv/dn²
//	S(v) = ∫sin φ dv = dφ/dv = 2·k·k′·sn v/dn v
//
// (the pendulum sin(θ/2) = k·sn u of Love, art. 262 and 263 from memory,
// read from u = K backwards, φ = π − θ.) It holds from the flat wave (m → 0)
// to the taut strip whose bends sit in short layers at its ends (m → 1).
//
// The functions are quotients of theta series (DLMF 20.2 and 22.2): in the
// nome of m where m ≤ ½, and by Jacobi's imaginary transformation in the nome
// of 1 − m where m > ½, so that the nome never exceeds e^−π = 0.0432 and the
// first term left out is below 1e-16 of the sum. No digits cancel in N or S; the error of
// each is a few units in the last place of v (TestPendulumIdentities, against
// Carlson's integrals and Runge–Kutta).
type pendulum struct {
	k, kc  float64 // k and k′
	kind   pendulumKind
	q2, q4 float64 // 2q, 2q⁴
	q9     float64 // 2q⁹
	qq, q6 float64 // q², q⁶
	freq   float64 // argument of the series per unit of v
	slope  float64 // N grows by slope·v, and a periodic part
	rest   float64 // 1 − slope, without cancellation where flat
	cn, sd float64 // quotients of the theta constants
	bigK   float64 // K(m)
	bigE   float64 // E(m) = N(K)
	end    float64 // taut only: the v, and tan(φ/4) there, that fix the layer
	layer  float64
}

type pendulumKind uint8

const (
	flat  pendulumKind = iota // m ≤ ½: series in the nome of m
	steep                     // m > ½: hyperbolic series in the nome of 1 − m
	taut                      // 1 − m below any number: the separatrix
)

// newTaut returns the limit m → 1 in which v = end ≥ 35 shows the angle phi:
// tan(φ/4) grows as exp v, N = 1 − cos(φ/2) and S = 2·sin(φ/2) up to exp(−35).
func newTaut(end, phi float64) pendulum {
	return pendulum{k: 1, kind: taut, end: end, layer: math.Tan(phi / 4)}
}

func (p *pendulum) atTaut(v float64) place {
	t := p.layer * math.Exp(math.Abs(v)-p.end)
	r := 1 + t*t
	n, s := 2*t*t/r, 2*t/r
	half := geom.Vec2{X: (1 - t) * (1 + t) / r, Y: s}
	if v < 0 {
		n, s = -n, -s
	}
	return place{half, v - 2*n, 2 * s, 2 * (v - n)}
}

// newPendulum takes the parameter m and its complement mc = 1 − m, each to
// full relative accuracy; 0 ≤ m, 0 < mc.
func newPendulum(m, mc float64) pendulum {
	p := pendulum{k: math.Sqrt(m), kc: math.Sqrt(mc)}
	// The nome from ℓ = ½(1 − √k₁)/(1 + √k₁), k₁ the modulus complementary
	// to the one in use: q = ℓ + 2ℓ⁵ + 15ℓ⁹ + 150ℓ¹³ + … (Abramowitz
	// and Stegun 17.3.21, from memory; K and E that follow are checked by
	// TestPendulumIdentities).
	k1, m1 := p.kc, m
	if m > 0.5 {
		p.kind, k1, m1 = steep, p.k, mc
	}
	root := math.Sqrt(k1)
	l := m1 / (2 * (1 + k1) * (1 + root) * (1 + root))
	l4 := l * l * l * l
	q := l * (1 + l4*(2+l4*(15+l4*(150+l4*1707))))
	qq := q * q
	q4 := qq * qq
	q9 := q4 * q4 * q
	p.q2, p.q4, p.q9, p.qq, p.q6 = 2*q, 2*q4, 2*q9, qq, q4*qq
	t2 := 1 + p.qq + p.q6
	t3 := 1 + p.q2 + p.q4 + p.q9
	t4 := 1 - p.q2 + p.q4 - p.q9
	p.freq = 1 / (t3 * t3)
	p.sd = t3 * t3 / (t2 * t4)
	second := p.freq * p.freq * 4 * (p.q2 + 4*p.q4 + 9*p.q9) / t3
	if p.kind == steep {
		p.cn = t2 / t4
		p.slope = mc - second
		p.bigK = -0.5 * math.Log(q) / p.freq
		p.bigE = p.slope*p.bigK + p.freq
	} else {
		p.cn = t4 / t2
		p.slope = mc + second
		p.rest = m - second
		p.bigK = math.Pi / 2 / p.freq
		p.bigE = p.slope * p.bigK
	}
	return p
}

// place is what a pendulum shows at one v: half = (k·cn, k′), whose polar
// angle is φ/2, and C, S; push = v + C, which is small for a flat wave and then
// keeps its digits.
type place struct {
	half geom.Vec2
	c, s float64
	push float64
}

// at reads the pendulum at v, |v| ≤ 3K.
func (p *pendulum) at(v float64) place {
	switch p.kind {
	case steep:
		return p.atSteep(v)
	case taut:
		return p.atTaut(v)
	}
	s1, c1 := math.Sincos(p.freq * v)
	c2, s2 := (c1-s1)*(c1+s1), 2*s1*c1
	c4, s4 := (c2-s2)*(c2+s2), 2*s2*c2
	c6, s6 := c2*c4-s2*s4, s2*c4+c2*s4
	c3, s3 := c2*c1-s2*s1, s2*c1+c2*s1
	c5, s5 := c4*c1-s4*s1, s4*c1+c4*s1
	th1 := s1 - p.qq*s3 + p.q6*s5
	th2 := c1 + p.qq*c3 + p.q6*c5
	th3 := 1 + p.q2*c2 + p.q4*c4 + p.q9*c6
	th4 := 1 - p.q2*c2 + p.q4*c4 - p.q9*c6
	d3 := -2 * (p.q2*s2 + 2*p.q4*s4 + 3*p.q9*s6)
	push := 2 * (p.rest*v - p.freq*d3/th3)
	return place{geom.Vec2{X: p.k * p.cn * th2 / th4, Y: p.kc}, push - v, 2 * p.k * p.kc * p.sd * th1 / th3, push}
}

func (p *pendulum) atSteep(v float64) place {
	// Into |r| ≤ K: a half turn, 2K, changes the sign of cn and sd and adds 2E to N.
	r, n, sign := v, 0.0, 1.0
	for r > p.bigK {
		r, n, sign = r-2*p.bigK, n+2*p.bigE, -sign
	}
	for r < -p.bigK {
		r, n, sign = r+2*p.bigK, n-2*p.bigE, -sign
	}
	x := p.freq * r
	var s1, c1 float64
	if math.Abs(x) < 0.3 {
		s1 = math.Sinh(x) // exp(x) − exp(−x) would cancel
		c1 = math.Sqrt(1 + s1*s1)
	} else {
		e := math.Exp(x)
		s1, c1 = (e-1/e)/2, (e+1/e)/2
	}
	c2, s2 := c1*c1+s1*s1, 2*s1*c1
	c4, s4 := c2*c2+s2*s2, 2*s2*c2
	c6, s6 := c2*c4+s2*s4, s2*c4+c2*s4
	c3, s3 := c2*c1+s2*s1, s2*c1+c2*s1
	c5, s5 := c4*c1+s4*s1, s4*c1+c4*s1
	c7, s7 := c6*c1+s6*s1, s6*c1+c6*s1
	q12 := p.q6 * p.q6
	th1 := s1 - p.qq*s3 + p.q6*s5 - q12*s7
	th2 := c1 + p.qq*c3 + p.q6*c5 + q12*c7
	th3 := 1 + p.q2*c2 + p.q4*c4 + p.q9*c6
	th4 := 1 - p.q2*c2 + p.q4*c4 - p.q9*c6
	d3 := 2 * (p.q2*s2 + 2*p.q4*s4 + 3*p.q9*s6)
	n += p.slope*r + p.freq*d3/th3
	return place{geom.Vec2{X: sign * p.k * p.cn * th4 / th2, Y: p.kc}, v - 2*n, sign * 2 * p.k * p.kc * p.sd * th1 / th3, 2 * (v - n)}
}

// phi returns φ in (0, 2π).
func (p place) phi() float64 { return 2 * math.Atan2(p.half.Y, p.half.X) }
