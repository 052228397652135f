package cloth

import (
	"errors"
	"math"
)

// The heavy cantilever. With lengths in bending lengths, the slope θ below
// level at arc length σ from the clamp obeys
//
//	θ″ = −(λ − σ) cos θ,  θ(0) = 0,  θ′(λ) = 0,  λ = L/c.
//
// Counted from the free end, t = λ − σ, the length drops out of the equation:
//
//	θ¨ = −t cos θ,  θ(t=0) = α,  θ˙(t=0) = 0,  and λ is the first t where θ = 0.
//
// So every hanging strip is an initial-value problem in its tip slope α alone:
// nothing is shot at, and no solution escapes (θ falls monotonically). The
// equation is stepped by Taylor series of order 24 (coefficients of sin θ and
// cos θ by recurrence), the step set by the last coefficients. For steep tips
// the complement ψ = π/2 − θ is carried, with its own relative accuracy, since
// ψ(0) ~ exp(−⅔ λ^1.5) is what the length depends on. The unknown is p = ln tan
// α, on which ln λ and ln tan(droop) depend smoothly and monotonically over the
// whole range; ∂θ/∂α is carried along, so Newton needs two to four trials.
//
// Error: below 2e-13 in ln λ and ln tan(droop), held by TestElasticaDigits
// against 30-digit values and by TestCantileverReference (1e-10, the reference's
// accuracy) against an independent boundary-value solution.

const (
	order     = 24    // of the Taylor series
	seriesTol = 1e-17 // last terms ÷ the series' scale
	maxSteps  = 400   // 9 are used at λ = 3, 52 at 20
	maxTrials = 40

	// SpanMax is the longest strip, in bending lengths, that Hang takes:
	// its droop is 89.1°.
	SpanMax = 20
	// DroopMax_deg is the steepest droop that Span takes.
	DroopMax_deg = 89
	// Below spanTiny the strip is a straight cantilever: droop = λ³/8 with a
	// relative error of order λ⁶.
	spanTiny = 1e-3
)

var errNotConverged = errors.New("cloth: the hanging strip did not settle (this is a fault of the program)")

// Hanging is the shape of a strip hanging from a level edge, lengths in bending
// lengths.
type Hanging struct {
	Span      float64 // overhang ÷ bending length, λ
	TipX      float64 // of the tip, level distance from the edge
	TipDrop   float64 // of the tip, below the edge
	TipSlope  float64 // rad, below level, of the strip's end
	Droop     float64 // rad, below level, of the line from the edge to the tip
	Curvature float64 // at the edge, × bending length
	Energy    float64 // of bending, × bending length ÷ rigidity
}

// trial is one integration from the tip, with derivatives to p = ln tan α.
type trial struct {
	span, x, drop, rate, moment float64 // rate = θ˙ at the clamp, moment = ∫ t sin θ dt
	spanP, xP, dropP            float64 // d/dp
	alpha                       float64
	steps                       int
}

// march is an integration from the tip: the state at t and the Taylor series there.
type march struct {
	t, theta, psi        float64 // the one of θ and ψ that is carried: ψ if steep
	rate, eta, etaRate   float64 // θ˙, ∂θ/∂p and its derivative by t
	steep                bool
	scale                float64            // of θ or ψ
	a, c, s, e           [order + 1]float64 // coefficients of θ, cos θ, sin θ, ∂θ/∂p
	sinThetaP, cosThetaP [order + 1]float64 // of sin θ ∂θ/∂p, cos θ ∂θ/∂p
}

// fromTip integrates the strip whose tip slope has ln tan α = p.
func fromTip(p float64) (trial, error) {
	m := march{steep: p > 0, eta: 0.5 / math.Cosh(p)}
	var r trial
	if m.steep {
		m.psi = math.Atan(math.Exp(-p))
		r.alpha = math.Pi/2 - m.psi
	} else {
		m.theta = math.Atan(math.Exp(p))
		r.alpha = m.theta
	}
	m.scale = math.Min(math.Exp(-math.Abs(p)), 1)
	for r.steps = 1; r.steps <= maxSteps; r.steps++ {
		m.expand()
		h, end := m.reach()
		m.integrate(h, &r)
		m.advance(h)
		if end {
			r.span, r.rate = m.t, m.rate
			r.spanP = -m.eta / m.rate
			r.xP += r.spanP // the end at the clamp moves: cos 0 = 1, sin 0 = 0
			return r, nil
		}
	}
	return r, errNotConverged
}

// expand finds the series at t, from ψ to θ where the strip is steep no more.
func (m *march) expand() {
	if m.steep && m.psi > math.Pi/4 {
		m.steep, m.theta = false, math.Pi/2-m.psi
	}
	if m.steep {
		m.s[0], m.c[0] = math.Cos(m.psi), math.Sin(m.psi)
		m.scale = m.psi
	} else {
		m.s[0], m.c[0] = math.Sincos(m.theta)
	}
	a, c, s, e := &m.a, &m.c, &m.s, &m.e
	a[0], a[1], e[0], e[1] = 0, m.rate, m.eta, m.etaRate
	gPrev, cPrev := 0.0, 0.0
	for k := 0; k <= order; k++ {
		if k > 0 {
			var cs, ss float64
			for j := 1; j <= k; j++ {
				ja := float64(j) * a[j]
				cs += ja * s[k-j]
				ss += ja * c[k-j]
			}
			c[k], s[k] = -cs/float64(k), ss/float64(k)
		}
		var gk, qk float64
		for j := 0; j <= k; j++ {
			gk += s[j] * e[k-j]
			qk += c[j] * e[k-j]
		}
		m.sinThetaP[k], m.cosThetaP[k] = gk, qk
		if k+2 <= order {
			d := 1 / float64((k+1)*(k+2))
			a[k+2] = -(m.t*c[k] + cPrev) * d
			e[k+2] = (m.t*gk + gPrev) * d
		}
		gPrev, cPrev = gk, c[k]
	}
}

// reach is how far the series goes with its last three terms below tolerance
// (three, because from t = 0 only every third is not zero), or to the clamp, where
// θ = 0; end says which.
func (m *march) reach() (h float64, end bool) {
	h = 2
	for k := order - 2; k <= order; k++ {
		if last := math.Max(math.Abs(m.a[k])/m.scale, math.Abs(m.e[k])/math.Abs(m.eta)); last > 0 {
			h = math.Min(h, math.Pow(seriesTol/last, 1/float64(k)))
		}
	}
	if !m.steep && m.theta+sum(&m.a, h) <= 0 {
		return root(&m.a, m.theta, h), true
	}
	return h, false
}

// integrate adds to r what the strip spans over the step h, and its moment.
func (m *march) integrate(h float64, r *trial) {
	var x, z, moment, xp, zp float64
	hk := h
	for k := 0; k <= order; k++ {
		w := hk / float64(k+1)
		x += m.c[k] * w
		z += m.s[k] * w
		sp := 0.0
		if k > 0 {
			sp = m.s[k-1]
		}
		moment += (m.t*m.s[k] + sp) * w
		xp -= m.sinThetaP[k] * w
		zp += m.cosThetaP[k] * w
		hk *= h
	}
	r.x, r.drop, r.moment = r.x+x, r.drop+z, r.moment+moment
	r.xP, r.dropP = r.xP+xp, r.dropP+zp
}

func (m *march) advance(h float64) {
	d := sum(&m.a, h)
	m.rate, m.eta, m.etaRate = slope(&m.a, h), sum(&m.e, h), slope(&m.e, h)
	m.t += h
	if m.steep {
		m.psi -= d
	} else {
		m.theta += d
	}
}

func sum(a *[order + 1]float64, h float64) float64 {
	v := a[order]
	for k := order - 1; k >= 0; k-- {
		v = v*h + a[k]
	}
	return v
}

func slope(a *[order + 1]float64, h float64) float64 {
	v := order * a[order]
	for k := order - 1; k >= 1; k-- {
		v = v*h + float64(k)*a[k]
	}
	return v
}

// root finds where theta + the series, falling, is zero in 0..h: Newton kept
// within its bracket.
func root(a *[order + 1]float64, theta, h float64) float64 {
	lo, hi, x := 0.0, h, h/2
	for range 80 {
		f := theta + sum(a, x)
		if f > 0 {
			lo = x
		} else {
			hi = x
		}
		next := x - f/slope(a, x)
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-x) <= 4e-16*next {
			return next
		}
		x = next
	}
	return x
}

// solve finds the p at which f, increasing in p, is zero; f returns its value
// and derivative. It returns the last trial, its p, and the small step in p that
// is left (below 1e-8, so that a first-order correction ends at rounding).
func solve(p float64, f func(trial) (v, d float64)) (r trial, at, step float64, err error) {
	lo, hi := math.Inf(-1), math.Inf(1)
	for range maxTrials {
		r, err = fromTip(p)
		if err != nil {
			return trial{}, 0, 0, err
		}
		v, d := f(r)
		if v > 0 {
			hi = p
		} else {
			lo = p
		}
		step = math.Max(-8, math.Min(8, -v/d))
		if math.Abs(step) < 1e-8 {
			return r, p, step, nil
		}
		if p+step <= lo || p+step >= hi {
			step = (lo+hi)/2 - p
		}
		p += step
	}
	return trial{}, 0, 0, errNotConverged
}

// spanStart guesses p for a strip of length λ: the straight cantilever's tip slope
// λ³/6; for long strips the Airy growth of ψ from the tip, exp(⅔ λ^1.5) λ^(−¼),
// its constant fitted.
func spanStart(span float64) float64 {
	if span > 2.2 {
		return 2./3*math.Pow(span, 1.5) - math.Log(span)/4 - 1.27
	}
	return math.Log(span * span * span / 6)
}

// tanStart guesses p for a droop of the tangent given: tip slope = 4/3 droop for
// the straight cantilever; for long strips ⅔ λ^1.5 with tan(droop) = λ^1.5/√2,
// the constant fitted.
func tanStart(tan float64) float64 {
	if tan > 1.2 {
		return 2./3*math.Sqrt2*tan - 0.35
	}
	return math.Log(4. / 3 * tan)
}

// bySpan solves for the strip of length λ, spanTiny <= λ <= SpanMax.
func bySpan(span float64) (r trial, at, step float64, err error) {
	return solve(spanStart(span), func(r trial) (float64, float64) {
		return math.Log(r.span / span), r.spanP / r.span
	})
}

// byTan solves for the strip whose droop has the tangent given.
func byTan(tan float64) (r trial, at, step float64, err error) {
	return solve(tanStart(tan), func(r trial) (float64, float64) {
		return math.Log(r.drop / r.x / tan), r.dropP/r.drop - r.xP/r.x
	})
}

// Hang is the whole shape of a strip of the span given: its overhang in bending
// lengths, 0.001 to SpanMax. Each part is within 1e-12 of its size
// (TestElasticaDigits). A reference for sheets as well as something to draw.
func Hang(span float64) (Hanging, error) {
	if err := within("overhang in bending lengths", span, spanTiny, SpanMax, ""); err != nil {
		return Hanging{}, err
	}
	_, p, dp, err := bySpan(span)
	if err != nil {
		return Hanging{}, err
	}
	r, err := fromTip(p + dp)
	if err != nil {
		return Hanging{}, err
	}
	return Hanging{
		Span:      span,
		TipX:      r.x,
		TipDrop:   r.drop,
		TipSlope:  r.alpha,
		Droop:     math.Atan2(r.drop, r.x),
		Curvature: -r.rate,
		// From how the energy scales with B, w and L at equilibrium (U = L ∂E/∂L −
		// 2V with ∂E/∂L = −w·drop): no second quadrature of the curvature is needed.
		Energy: r.span*r.drop - 2*r.moment,
	}, nil
}

// Span is the overhang in bending lengths at which a strip droops by the angle given,
// 0 to 89°: the angle below level of the line from the edge to the tip. Span(41.5) = 2.00035: at that angle the
// bending length is half the overhang, which is why testers have it. Within
// 1e-12 of its size (TestElasticaDigits).
func Span(droop_deg float64) (float64, error) {
	if err := within("droop", droop_deg, 0, DroopMax_deg, "degrees"); err != nil {
		return 0, err
	}
	span, _, err := spanOf(droop_deg)
	return span, err
}

// spanOf is Span with its derivative d ln λ / d droop, per degree (0 for the
// smallest droops, where it is not asked for).
func spanOf(droop_deg float64) (span, logSlope float64, err error) {
	rad := droop_deg * (math.Pi / 180)
	if rad < spanTiny*spanTiny*spanTiny/8 {
		return math.Cbrt(8 * rad), 0, nil
	}
	r, _, dp, err := byTan(math.Tan(rad))
	if err != nil {
		return 0, 0, err
	}
	// d droop/dp = sin cos · d ln tan/dp
	droopP := math.Sin(rad) * math.Cos(rad) * (r.dropP/r.drop - r.xP/r.x)
	return r.span + dp*r.spanP, r.spanP / r.span / droopP * (math.Pi / 180), nil
}
