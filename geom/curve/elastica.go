package curve

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"

	"ruffwright/geom"
)

// ContactRatio is the half pitch ÷ panel length at which the loops of free
// neighbouring elasticas first touch (testdata/reference/elastica.csv: m =
// 0.731183025741041 there, by mpmath; TestContactOnset finds it again).
const ContactRatio = 0.1513484904277870

// Parameter and height ÷ half pitch at ContactRatio.
const (
	contactParameter = 0.731183025741041
	contactSlender   = 0.805138110101765 / ContactRatio
)

// minRatioElastica is the smallest half pitch ÷ length that is taken.
const minRatioElastica = 1e-9

// Elastica is the outer edge of a panel as an inextensible strip takes it when
// only the mirror planes at its crest and its trough hold it: it runs level
// through both, and is pressed between them by a level force, its height free.
// It is a Curve.
//
// Free form: the inflectional elastica of a half wave, B·θ” = −F·sin θ. With
// parameter m = sin²(θmax/2), K = K(m), E = E(m), panel length L:
//
//	half pitch/L = 2E/K − 1,  height/L = 2√m/K,  crest curvature·L = 4√m·K
//
// Touching form, half pitch/L < ContactRatio: neighbouring loops touch in a
// point on each mirror plane (never along a line: that would need a straight
// part without thrust), the tangent upright there. The level force is F₀ from
// crest to contact and F₁ between the contacts, F₀ − F₁ the contact's force;
// curvature is continuous. See elastica_touching.go.
type Elastica struct {
	length, halfPitch, height float64
	loop                      float64
	wave                      wave
	touch                     touch
}

// touch is what a touching elastica has besides: its part from crest to
// contact.
type touch struct {
	arc  float64 // to the contact, mm; 0 where free
	p    pendulum
	rate float64
	c, s float64 // C and S at the crest, v = K
}

// NewElastica returns the outer edge of a panel of arc length `length` (mm)
// between mirror planes halfPitch (mm) apart, free or touching, whichever it
// is. halfPitch/length must lie in [1e-9, 1]; 1 is the flat strip.
//
// Lengths come out to 1e-12 of the panel's length in the free form and 1e-10
// in the touching form (TestElasticaReference, TestElasticaContactReference).
func NewElastica(length, halfPitch float64) (Elastica, error) {
	if err := inRange("elastica", "length", length); err != nil {
		return Elastica{}, err
	}
	if err := inRange("elastica", "half pitch", halfPitch); err != nil {
		return Elastica{}, err
	}
	ratio := halfPitch / length
	if !(ratio >= minRatioElastica && ratio <= 1) {
		return Elastica{}, fmt.Errorf("curve: elastica: half pitch is %g mm for a panel of %g mm, a ratio of %g, want %g to 1", halfPitch, length, ratio, minRatioElastica)
	}
	if ratio < ContactRatio {
		return newTouching(length, halfPitch), nil
	}
	return newFree(length, halfPitch), nil
}

// newFree returns the free form for any halfPitch/length in (−0.5, 1], also
// where loops overlap.
func newFree(length, halfPitch float64) Elastica {
	m, mc := freeParameter(halfPitch / length)
	p := newPendulum(m, mc)
	rate := 2 * p.bigK / length
	e := Elastica{
		length: length, halfPitch: halfPitch,
		height: 4 * p.k / rate,
		loop:   halfPitch,
	}
	e.wave = wave{p: p, rate: rate, mid: geom.Vec2{X: halfPitch / 2, Y: -e.height / 2}, phi: math.Pi, cos: -1}
	if m > 0.5 {
		_, c := uprightArc(&p)
		e.loop = halfPitch + 2*c/rate
	}
	return e
}

// freeParameter returns the m (and 1 − m) with 2E/K − 1 = c.
//
// Newton's method from m = (1 − c)(1 − 0.164(1 − c)), which is off by at most
// 0.02 for c ≥ 0; E/K falls steadily with slope −½ at m = 0, so few steps do. The
// slope is d(E/K)/dm = (r − 1)/2m − r(r − m′)/2mm′ with r = E/K (DLMF 19.4).
func freeParameter(c float64) (m, mc float64) {
	r := (1 + c) / 2
	m = math.Min((1-c)*(1-0.164*(1-c)), 0.999)
	for range 30 {
		mc = 1 - m
		p := newPendulum(m, mc)
		got := p.bigE / p.bigK
		slope := -0.5
		if m > 1e-5 {
			slope = (got-1)/(2*m) - got*(got-mc)/(2*m*mc)
		}
		step := (r - got) / slope
		next := math.Min(math.Max(m+step, 0), (1+m)/2)
		done := math.Abs(next-m) <= 2e-16
		m = next
		if done {
			break
		}
	}
	return m, 1 - m
}

// uprightArc returns the v at which the tangent of a pendulum with m > ½
// is square to its force, cn v = k′/k, and C there.
//
// Near m = ½ both go to zero and C = v − 2N cancels; there χ = π/2 − φ starts
// at χ₀ = asin(2m − 1) and obeys χ” = −cos χ, so that C = ⅔χ₀v to within
// χ₀², which is used below χ₀ = 8e-6. Either way C is good to 1e-10.
func uprightArc(p *pendulum) (v, c float64) {
	m, mc := p.k*p.k, p.kc*p.kc
	return uprightArcOf(p, m-mc, m, mc)
}

func uprightArcOf(p *pendulum, excess, m, mc float64) (v, c float64) {
	cos2, sin2 := mc/m, excess/m
	v = math.Sqrt(sin2) * mathext.EllipticRF(cos2, cos2+mc*sin2, 1)
	if excess < 8e-6 {
		return v, 2.0 / 3 * excess * v
	}
	return v, p.at(v).c
}

// Length, HalfPitch and Height are as of a Curve, mm.
func (e *Elastica) Length() float64    { return e.length }
func (e *Elastica) HalfPitch() float64 { return e.halfPitch }
func (e *Elastica) Height() float64    { return e.height }

// LoopWidth returns the clear width of a loop, mm: twice the farthest reach of
// the crest's half loop (crest to inflection) from the crest's plane, the
// thickness of the cloth not taken off. It never exceeds two half pitches, and
// equals them where loops touch.
func (e *Elastica) LoopWidth() float64 { return e.loop }

// Touching tells whether neighbouring loops touch.
func (e *Elastica) Touching() bool { return e.touch.arc > 0 }

// At returns the place (mm) and tangent angle (rad) at arc length s; see Curve.
func (e *Elastica) At(s float64) (p geom.Vec2, theta float64) {
	s = clampArc(s, e.length)
	switch t := &e.touch; {
	case s < t.arc:
		r := t.p.at(t.p.bigK - s*t.rate)
		return t.place(r), r.phi() - math.Pi
	case s > e.length-t.arc:
		r := t.p.at(t.p.bigK - (e.length-s)*t.rate)
		return e.mirror(t.place(r)), r.phi() - math.Pi
	}
	return e.wave.at((s - e.length/2) * e.wave.rate)
}

func (t *touch) place(r place) geom.Vec2 {
	return geom.Vec2{X: (r.c - t.c) / t.rate, Y: (r.s - t.s) / t.rate}
}

// mirror turns p by half a turn about the panel's middle.
func (e *Elastica) mirror(p geom.Vec2) geom.Vec2 {
	return geom.Vec2{X: e.halfPitch - p.X, Y: -e.height - p.Y}
}
