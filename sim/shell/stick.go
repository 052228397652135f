package shell

import (
	"fmt"
	"math"
)

// Stick is a rigid round stick, perhaps tapered, drawn into a fold of the sheet,
// without friction. Its axis is a straight line in the upright plane through Origin
// that Out spans with z, and moves up and down with the levels (Level). It presses on
// the sheet's spots: with s and n how far a spot lies out and beside the plane, and e
// how far above the axis,
//
//	gap = √(n² + e²/(1 + m²)) − r(s) − Clear
//
// where m is the axis's slope and r the radius, both linear between the ends.
type Stick struct {
	Origin [3]float64 // mm; where s, n and heights are 0
	Out    [3]float64 // of length 1, level
	// The two ends: how far out, how high before the levels are added, and the
	// radius there, mm. Ends[1].Out_mm is larger.
	Ends [2]StickEnd
	// Clear is half the sheet's thickness, mm; Stiffness in mN/mm per spot of weight
	// 1 and Skin in mm are as in Contact.
	Clear, Stiffness, Skin float64
	// Weight is given spot by spot; 0 for spots that never feel it.
	Weight []float64
}

// StickEnd is one end of a stick.
type StickEnd struct {
	Out_mm, Height_mm, Radius_mm float64
	// Lift is how far a level of 1 mm lifts this end, mm: one number per level.
	Lift []float64
}

// lifted is how far the levels lift the end, mm.
func (e *StickEnd) lifted(levels []float64) (up float64) {
	for k, v := range e.Lift {
		up += v * levels[k]
	}
	return
}

// Level is a height that sticks share, an unknown beside the nodes. It begins at 0.
type Level struct {
	Pull_mN float64 // the force that drives it up, ≥ 0
	Most_mm float64 // the height at which a stop bears the whole pull
}

// stopSkin_mm is how far below Most_mm the stop begins to bear; with 0.1 and 2 as with 0.5.
const stopSkin_mm = 0.5

// stop returns the energy of a level's pull and stop at the height y, and its two
// derivatives.
func (l *Level) stop(y float64) (e, d1, d2 float64) {
	c := Contact{Stiffness: 2 * l.Pull_mN / stopSkin_mm, Skin: stopSkin_mm}
	e, d1, d2 = c.force(l.Most_mm - y)
	return e - l.Pull_mN*y, -d1 - l.Pull_mN, d2
}

// validateSticks names the first stick that makes none.
func (s *Sheet) validateSticks() error {
	for k := range s.Sticks {
		if q := &s.Sticks[k]; !q.valid(len(s.Spots), len(s.Levels)) {
			return fmt.Errorf("shell: Sticks[%d] = %+v; all finite, Out level and of length 1, the second end farther out, radii ≥ 0, a Lift per Level (%d) and a Weight ≥ 0 per Spot (%d)", k, *q, len(s.Levels), len(s.Spots))
		}
	}
	for k, l := range s.Levels {
		if !finite(l.Pull_mN+l.Most_mm) || l.Pull_mN < 0 {
			return fmt.Errorf("shell: Levels[%d] = %+v; both finite, Pull_mN ≥ 0", k, l)
		}
	}
	if len(s.Levels) > 0 && len(s.Sticks) == 0 {
		return fmt.Errorf("shell: %d Levels and no Sticks", len(s.Levels))
	}
	return nil
}

func (q *Stick) valid(spots, levels int) bool {
	sum := norm(q.Origin) + q.Clear
	for _, e := range &q.Ends {
		if sum += e.Out_mm + e.Height_mm + e.Radius_mm; e.Radius_mm < 0 || len(e.Lift) != levels {
			return false
		}
		for _, v := range e.Lift {
			sum += v
		}
	}
	for _, w := range q.Weight {
		if !presses(q.Stiffness, q.Skin, w) {
			return false
		}
	}
	return finite(sum) && q.Out[2] == 0 && math.Abs(norm(q.Out)-1) < 1e-9 && q.Ends[1].Out_mm > q.Ends[0].Out_mm && len(q.Weight) == spots
}

// axis is a stick where its levels have it: the line height + slope·(s − Ends[0].Out_mm).
type axis struct {
	q             *Stick
	beside        [3]float64 // the plane's normal
	long          float64    // between the ends, mm
	height, slope float64
	taper         float64 // of the radius
}

func (q *Stick) axis(levels []float64) axis {
	a := axis{q: q, beside: [3]float64{-q.Out[1], q.Out[0], 0}, long: q.Ends[1].Out_mm - q.Ends[0].Out_mm}
	a.height = q.Ends[0].Height_mm + q.Ends[0].lifted(levels)
	a.slope = (q.Ends[1].Height_mm + q.Ends[1].lifted(levels) - a.height) / a.long
	a.taper = (q.Ends[1].Radius_mm - q.Ends[0].Radius_mm) / a.long
	return a
}

// own are a place in the stick's own coordinates: s out, n beside, e above the axis.
func (a *axis) own(p [3]float64) (s, n, e float64) {
	for r := range p {
		p[r] -= a.q.Origin[r]
	}
	s = dot3(p, a.q.Out)
	return s, dot3(p, a.beside), p[2] - a.height - a.slope*(s-a.q.Ends[0].Out_mm)
}

// gap is how far a place is from the stick's surface, Clear taken off.
func (a *axis) gap(p [3]float64) float64 {
	s, n, e := a.own(p)
	return math.Sqrt(n*n+e*e/(1+a.slope*a.slope)) - a.q.Ends[0].Radius_mm - a.taper*(s-a.q.Ends[0].Out_mm) - a.q.Clear
}

// A gap depends on five numbers: the place's s, n and z, and the two ends' heights.
const (
	outward = iota
	sideways
	upward
	innerEnd
	outerEnd
	five
)

// lean returns the gap's first derivatives by the five, as halves of F's over √F, and
// what bend needs as well.
//
// With q = 1/(1 + m²) and F = n² + q e² the gap is √F less what is linear: e is linear
// in z, and bilinear in s and the heights through the slope m.
func (a *axis) lean(p [3]float64) (d [five]float64, w lever) {
	s, n, e := a.own(p)
	t := (s - a.q.Ends[0].Out_mm) / a.long
	m := a.slope
	q := 1 / (1 + m*m)
	w = lever{
		e: e, q: q, q1: -2 * m * q * q,
		de:   [five]float64{outward: -m, upward: 1, innerEnd: t - 1, outerEnd: -t},
		dm:   [five]float64{innerEnd: -1 / a.long, outerEnd: 1 / a.long},
		dist: max(math.Sqrt(n*n+q*e*e), 1e-9),
	}
	for i := range five {
		w.f[i] = w.q1*w.dm[i]*e*e + 2*q*e*w.de[i]
	}
	w.f[sideways] = 2 * n
	for i := range five {
		d[i] = w.f[i] / (2 * w.dist)
	}
	d[outward] -= a.taper
	return d, w
}

// lever is what the gap's first derivatives are made of: e, q, q's derivative by m, those
// of e, of m and of F by the five, and √F.
type lever struct {
	e, q, q1  float64
	de, dm, f [five]float64
	dist      float64
}

// bend returns the gap's first and second derivatives by the five.
func (a *axis) bend(p [3]float64) (d [five]float64, dd [five][five]float64) {
	d, w := a.lean(p)
	e, q, q1 := w.e, w.q, w.q1
	q2 := q * q * (8*a.slope*a.slope*q - 2)
	for i := range five {
		for j := range i + 1 {
			dde := 0.0 // s with a height
			if i == outward {
				dde = -w.dm[j]
			} else if j == outward {
				dde = -w.dm[i]
			}
			g := q2*w.dm[i]*w.dm[j]*e*e + 2*e*q1*(w.dm[i]*w.de[j]+w.dm[j]*w.de[i]) + 2*q*(w.de[i]*w.de[j]+e*dde)
			if i == sideways && j == sideways {
				g = 2
			}
			dd[i][j] = g/(2*w.dist) - w.f[i]*w.f[j]/(4*w.dist*w.dist*w.dist)
			dd[j][i] = dd[i][j]
		}
	}
	return d, dd
}

// push turns derivatives by a place's s, n and z into ones by its x, y, z.
func (a *axis) push(d []float64) (g [3]float64) {
	for r := range g {
		g[r] = d[outward]*a.q.Out[r] + d[sideways]*a.beside[r]
	}
	g[2] += d[upward]
	return
}

// levels are the levels in s.x, s.px or s.g, which follow the nodes there.
func (s *Solver) levels(x []float64) []float64 { return x[3*(s.nodes+len(s.ghosts)):] }

// evaluateSticks returns the energy of the sticks' contact less the work of what
// pulls them and, when grad is set, adds its gradient to s.g.
func (s *Solver) evaluateSticks(grad bool) (energy float64) {
	at := s.levels(s.x)
	for k := range s.sheet.Levels {
		e, d1, _ := s.sheet.Levels[k].stop(at[k])
		if energy += e; grad {
			s.levels(s.g)[k] += d1
		}
	}
	for k := range s.sheet.Sticks {
		s.onStick(k, func(a *axis, n int, spot *Spot, p [3]float64, gap float64) {
			phi, d1, _ := a.force(gap)
			w := a.q.Weight[n]
			if energy += w * phi; !grad {
				return
			}
			d, _ := a.lean(p)
			g := a.push(d[:])
			for c, m := range spot.n {
				for r := range g {
					s.g[3*int(m)+r] += spot.c[c] * w * d1 * g[r]
				}
			}
			for l := range at {
				s.levels(s.g)[l] += w * d1 * (d[innerEnd]*a.q.Ends[0].Lift[l] + d[outerEnd]*a.q.Ends[1].Lift[l])
			}
		})
	}
	return energy
}

func (a *axis) force(gap float64) (phi, d1, d2 float64) {
	c := Contact{Stiffness: a.q.Stiffness, Skin: a.q.Skin}
	return c.force(gap)
}
