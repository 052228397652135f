package curve

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"

	"ruffwright/geom"
)

// MaxSlack is the largest slack that NewSewnElastica takes: longer strips crumple.
const MaxSlack = 3.5

// SewnElastica is the inner edge of a panel whose crest and trough are both
// sewn: an inextensible strip that runs level through two points, half a pitch
// apart and the trough's lower by the rise, with its length given. It is a
// Curve with Height() = rise.
//
// The stitches carry a level and an upright force, so the curve is an arc of the
// inflectional elastica turned by an angle: two unknowns, the modulus and the
// arc's end w, for two conditions. Of the curves symmetric under a half turn about
// the middle, their inflection, it is the one reached from the taut strip by paying
// out length, of least energy (TestSewnChain). Neighbours in the way are not looked
// at: see Overlap.
type SewnElastica struct {
	length, halfPitch, rise float64
	overlap                 float64
	end                     float64 // w
	wave                    wave
}

// SlackError says that a strip is shorter than the straight way between the
// points it is sewn to.
type SlackError struct {
	Length   float64 // mm
	Straight float64 // mm
}

func (e *SlackError) Error() string {
	return fmt.Sprintf("curve: sewn elastica: length is %g mm, shorter than the straight way between its sewn points, %g mm", e.Length, e.Straight)
}

// NewSewnElastica returns the inner edge of arc length `length` (mm) between
// points halfPitch (mm) apart level and rise (mm) apart upright. halfPitch > 0,
// rise ≥ 0, slack = length/√(halfPitch² + rise²) in [1, MaxSlack]; a slack
// below 1 by no more than rounding (1e-12) counts as 1, the straight line; less
// gives a *SlackError.
//
// The far end is met to 1e-10 of the length, mostly 1e-13 (TestSewnShape); an
// error says so if ever it is not.
func NewSewnElastica(length, halfPitch, rise float64) (SewnElastica, error) {
	const what = "sewn elastica"
	if err := inRange(what, "length", length); err != nil {
		return SewnElastica{}, err
	}
	if err := inRange(what, "half pitch", halfPitch); err != nil {
		return SewnElastica{}, err
	}
	if !(rise >= 0 && rise <= maxLength) {
		return SewnElastica{}, fmt.Errorf("curve: %s: rise is %g mm, want 0 to %g mm", what, rise, float64(maxLength))
	}
	straight := math.Hypot(halfPitch, rise)
	excess := (length - straight) / straight
	if excess < -1e-12 {
		return SewnElastica{}, &SlackError{length, straight}
	}
	if excess > MaxSlack-1 {
		return SewnElastica{}, fmt.Errorf("curve: %s: length is %g mm, %.3g times the straight way between its sewn points (%g mm), want 1 to %g times", what, length, 1+excess, straight, MaxSlack)
	}
	gamma := math.Atan2(rise, halfPitch)
	a := solveArc(gamma, math.Max(excess, 0))
	miss := a.miss(halfPitch/length, rise/length)
	if !(miss <= 1e-10) && excess < 1e-12 {
		// The excess is rounding, and so would be any bend found for it.
		a = straightArc(gamma)
		miss = a.miss(halfPitch/length, rise/length)
	}
	if !(miss <= 1e-10) {
		return SewnElastica{}, fmt.Errorf("curve: %s: the curve found for length %g mm, half pitch %g mm, rise %g mm ends %g mm off", what, length, halfPitch, rise, miss*length)
	}
	sin, cos := math.Sincos(a.phi)
	e := SewnElastica{length: length, halfPitch: halfPitch, rise: rise, end: a.w}
	e.wave = wave{p: a.p, rate: 2 * a.w / length, mid: geom.Vec2{X: halfPitch / 2, Y: -rise / 2}, phi: a.phi, cos: cos, sin: sin}
	e.overlap = e.reach()
	return e, nil
}

// reach is how far the curve reaches past its mirror planes. Its extremes lie where
// its tangent is upright: each such angle φ at two places of the wave.
func (e *SewnElastica) reach() (most float64) {
	w := &e.wave
	for _, phi := range [2]float64{w.phi - math.Pi/2, w.phi + math.Pi/2} {
		v, ok := w.p.where(phi)
		if !ok {
			continue
		}
		for _, v := range [2]float64{v, 4*w.p.bigK - v} {
			if v >= 0 && v < e.end {
				p, _ := w.at(v)
				most = math.Max(most, math.Max(p.X-e.halfPitch, -p.X))
			}
		}
	}
	if most < 1e-12*e.length {
		return 0
	}
	return most
}

// Length, HalfPitch and Height, the rise, are as of a Curve, mm.
func (e *SewnElastica) Length() float64    { return e.length }
func (e *SewnElastica) HalfPitch() float64 { return e.halfPitch }
func (e *SewnElastica) Height() float64    { return e.rise }

// Overlap returns how far the curve reaches past the mirror planes X = 0 and
// X = HalfPitch, mm: there the neighbouring panel is in its way. 0 where it
// keeps between them.
func (e *SewnElastica) Overlap() float64 { return e.overlap }

// At returns the place (mm) and tangent angle (rad) at arc length s; see Curve.
func (e *SewnElastica) At(s float64) (p geom.Vec2, theta float64) {
	return e.wave.at(e.from(s))
}

// from returns v at arc length s; exactly ±w at the ends, where a nearly
// straight strip turns within less than the rounding of s.
func (e *SewnElastica) from(s float64) float64 {
	s = clampArc(s, e.length)
	switch s {
	case 0:
		return -e.end
	case e.length:
		return e.end
	}
	return (s - e.length/2) * e.wave.rate
}

// where returns the first v ≥ 0 at which the pendulum shows the angle phi.
func (p *pendulum) where(phi float64) (v float64, ok bool) {
	if !(phi > 0 && phi < 2*math.Pi) {
		return 0, false
	}
	sin, cos := math.Sincos(phi / 2)
	if p.kind == taut {
		return p.end + math.Log(math.Tan(phi/4)/p.layer), true
	}
	// cn v = k′cos(φ/2)/(k·sin(φ/2)) = cos χ
	c := p.kc * cos / (p.k * sin)
	if !(c >= -1 && c <= 1) {
		return 0, false
	}
	s := math.Sqrt((1 - c) * (1 + c))
	v = s * mathext.EllipticRF(c*c, c*c+p.kc*p.kc*s*s, 1)
	if c < 0 {
		v = 2*p.bigK - v
	}
	return v, true
}
