package curve

import (
	"fmt"
	"math"

	"ruffwright/geom"
)

// Curve is the edge of one panel, from a crest to the next trough, seen along
// the panel's width: X from 0 in the crest's mirror plane to HalfPitch in the
// trough's, Y upward, the crest point at the origin, the trough point at
// (HalfPitch, −Height). Lengths are mm.
//
// Arc length s is counted from the crest; an s outside [0, Length] counts as
// the nearer end, NaN as 0. The tangent angle theta (radians, from +X) is 0 at
// both ends and negative where the curve descends.
type Curve interface {
	// Length returns the arc length from crest to trough, mm.
	Length() float64
	// HalfPitch returns the distance of the two mirror planes, mm.
	HalfPitch() float64
	// Height returns how far the trough point lies below the crest point, mm.
	Height() float64
	// At returns the place (mm) and the tangent angle (rad) at arc length s.
	At(s float64) (p geom.Vec2, theta float64)
}

// maxLength bounds every length taken, mm: a kilometre, to keep the arithmetic
// away from overflow.
const maxLength = 1e6

// inRange reports a length of what that is not in (0, maxLength] mm.
func inRange(what, name string, x float64) error {
	if x > 0 && x <= maxLength {
		return nil
	}
	return fmt.Errorf("curve: %s: %s is %g mm, want above 0 and up to %g mm", what, name, x, float64(maxLength))
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// clampArc puts s into [0, length].
func clampArc(s, length float64) float64 {
	if !(s > 0) {
		return 0
	}
	return math.Min(s, length)
}

// wave is an arc of a pendulum about its inflection, turned and scaled into a
// Curve's frame.
type wave struct {
	p    pendulum
	rate float64   // λ: v per mm
	mid  geom.Vec2 // the inflection
	phi  float64   // φ where the curve runs along +X
	cos  float64   // of phi
	sin  float64
}

// at returns the place and the tangent angle at v, counted from the inflection.
func (w *wave) at(v float64) (p geom.Vec2, theta float64) {
	r := w.p.at(v)
	p.X = w.mid.X + (w.cos*r.c+w.sin*r.s)/w.rate
	p.Y = w.mid.Y - (w.sin*r.c-w.cos*r.s)/w.rate
	return p, r.phi() - w.phi
}
