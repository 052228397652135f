package geom

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// ellipse has semi-axes a ≥ b > 0 along X and Y. It is read by arc length in
// the quarter X, Y ≥ 0, from the end of the shorter axis, (0, b).
type ellipse struct {
	a, b    float64
	mc, m   float64 // (b/a)² and 1 − (b/a)²
	quarter float64 // a·E(m): a quarter of the perimeter
}

func newEllipse(a, b float64) ellipse {
	r := b / a
	e := ellipse{a: a, b: b, mc: r * r, m: (1 - r) * (1 + r)}
	e.quarter = a * mathext.CompleteE(e.m)
	return e
}

// arc returns the arc length from (0, b) to the point of eccentric angle φ,
// whose sine and cosine are s and c ≥ 0:
//
//	a·E(φ|m) = a·[s·R_F(c², Δ², 1) − (m/3)·s³·R_D(c², Δ², 1)],  Δ² = c² + (b/a)²·s²
//
// (DLMF 19.25.9 to .11, from memory, as gonum's EllipticE, which this is but
// for Δ², formed here without the cancellation in 1 − m·s²: at a 1000:1 ellipse
// that costs ten digits of Δ² near the sharp end.)
func (e ellipse) arc(s, c float64) float64 {
	x, y := c*c, c*c+e.mc*s*s
	return e.a * s * (mathext.EllipticRF(x, y, 1) - e.m/3*s*s*mathext.EllipticRD(x, y, 1))
}

// at returns place, unit tangent and curvature at arc length d in [0, quarter]
// from (0, b).
//
// Newton's method for arc(φ) = d. The arc is an increasing, concave function
// of φ, so a tangent never falls below it: from d/a, which is at or before the
// root, the iterates climb to the root without overshoot and need no bracket.
// Near the sharp end of a flat ellipse the approach is linear (factor 1/2)
// until φ is within b/a of the end, which bounds the work by log2(a/b) plus a
// handful of steps; 60 is never reached. The residual it stops at, 4e-16 of the
// quarter, is the place's error, because |dpos| = ds.
func (e ellipse) at(d float64) (pos, tangent Vec2, curvature float64) {
	phi := math.Min(math.Max(d/e.a, 0), math.Pi/2)
	s, c := math.Sincos(phi)
	if d >= e.quarter {
		s, c = 1, 0
	} else {
		for range 60 {
			speed := e.a * math.Hypot(c, math.Sqrt(e.mc)*s)
			step := (d - e.arc(s, c)) / speed
			phi = math.Min(phi+step, math.Pi/2)
			s, c = math.Sincos(phi)
			c = math.Max(c, 0)
			if math.Abs(step)*speed <= 4e-16*e.quarter {
				break
			}
		}
	}
	h := math.Hypot(e.a*c, e.b*s)
	return Vec2{e.a * s, e.b * c}, Vec2{e.a * c / h, -e.b * s / h}, e.a * e.b / (h * h * h)
}
