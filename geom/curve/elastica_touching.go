package curve

import (
	"math"

	"gonum.org/v1/gonum/mathext"

	"ruffwright/geom"
)

// Touching loops. Write m₁ = ½ + δ for the pendulum between the contacts and
// m₀ = ½ + δ₀ for the one from crest to contact, λ² the force over the bending
// rigidity. Each pendulum stands upright at the contact, where κ² = λ²(4m − 2).
// Between mirror planes D apart:
//
//	crest to contact      λ₀·D = X₀(m₀)          (its reach, in its own unit)
//	inflection to contact λ₁·D = 2·C₁(m₁)
//	curvature at contact  λ₀²·δ₀ = λ₁²·δ  ⇒  δ₀·X₀(m₀)² = δ·(2C₁(m₁))²
//
// so one unknown, δ, gives the whole shape in units of D; it runs from 0 (an
// endless panel: loops of the right-angled elastica m = ½ joined by a straight
// part) to 0.2312 (first touch, where both pendulums are one). X₀ hardly
// changes, 0.60 to 0.64, so the last equation is solved by repeated
// substitution.
type touchingForm struct {
	inner, outer pendulum
	v1, c1       float64 // inflection to contact
	u0, x0       float64 // crest to contact
	drop0        float64 // its drop
}

func newTouchingForm(delta float64) touchingForm {
	var f touchingForm
	f.inner = newPendulum(0.5+delta, 0.5-delta)
	f.v1, f.c1 = uprightArcOf(&f.inner, 2*delta, 0.5+delta, 0.5-delta)
	want := delta * 4 * f.c1 * f.c1
	d0, last, shift := 0.0, 0.0, 0.0
	for i := range 40 {
		m, mc := 0.5+d0, 0.5-d0
		sin2 := 0.5 / m
		cos2 := d0 / m
		sin := math.Sqrt(sin2)
		y := cos2 + mc*sin2
		f.u0 = sin * mathext.EllipticRF(cos2, y, 1)
		f.x0 = f.u0 - 2*m/3*sin*sin2*mathext.EllipticRD(cos2, y, 1)
		f.drop0 = 2 * math.Sqrt(m) * (1 - math.Sqrt(cos2))
		next := math.Min(want/(f.x0*f.x0), 0.4)
		if math.Abs(next-d0) <= 4e-16*next {
			break
		}
		// Aitken's extrapolation on every second pass.
		step := next - d0
		if i%2 == 1 && shift != 0 && step != shift {
			next = math.Min(math.Max(d0-step*(d0-last)/(step-shift), 0), 0.4)
		}
		last, shift, d0 = d0, step, next
	}
	f.outer = newPendulum(0.5+d0, 0.5-d0)
	return f
}

// slender returns the panel's length and height in units of the half pitch.
func (f *touchingForm) slender() (length, height float64) {
	return 2*f.u0/f.x0 + f.v1/f.c1, 2*f.drop0/f.x0 + f.inner.at(f.v1).s/f.c1
}

// The δ of ContactRatio, and the logarithm of the least δ searched.
const (
	contactDelta = contactParameter - 0.5
	leastDelta   = 1e-10
)

// touchingBy returns the δ at which measure, of the form's length and height in
// half pitches and falling as δ grows, is zero; the nearer end where it is not zero between them.
func touchingBy(measure func(length, height float64) float64) float64 {
	g := func(y float64) float64 {
		f := newTouchingForm(math.Exp(y))
		return measure(f.slender())
	}
	a, b := math.Log(leastDelta), math.Log(contactDelta)
	ga, gb := g(a), g(b)
	if gb >= 0 {
		return contactDelta
	}
	y, ok := root(g, a, ga, b, gb)
	if !ok {
		return leastDelta
	}
	return math.Exp(y)
}

// newTouching returns the touching form; halfPitch/length in
// [minRatioElastica, ContactRatio].
func newTouching(length, halfPitch float64) Elastica {
	want := math.Log(length / halfPitch)
	delta := touchingBy(func(l, _ float64) float64 { return math.Log(l) - want })
	f := newTouchingForm(delta)
	rate0, rate1 := f.x0/halfPitch, 2*f.c1/halfPitch
	_, h := f.slender()
	e := Elastica{
		length: length, halfPitch: halfPitch,
		height: h * halfPitch,
		loop:   2 * halfPitch,
	}
	e.wave = wave{p: f.inner, rate: rate1, mid: geom.Vec2{X: halfPitch / 2, Y: -e.height / 2}, phi: math.Pi, cos: -1}
	crest := f.outer.at(f.outer.bigK)
	e.touch = touch{arc: f.u0 / rate0, p: f.outer, rate: rate0, c: crest.c, s: crest.s}
	return e
}
