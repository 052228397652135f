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

// bend returns the gap's first and second derivatives by the five.
//
// With q = 1/(1 + m²) and F = n² + q e² the gap is √F less what is linear: e is linear
// in z, and bilinear in s and the heights through the slope m.
func (a *axis) bend(p [3]float64) (d [five]float64, dd [five][five]float64) {
	s, n, e := a.own(p)
	t := (s - a.q.Ends[0].Out_mm) / a.long
	m := a.slope
	q := 1 / (1 + m*m)
	de := [five]float64{outward: -m, upward: 1, innerEnd: t - 1, outerEnd: -t}
	dm := [five]float64{innerEnd: -1 / a.long, outerEnd: 1 / a.long}
	dist := max(math.Sqrt(n*n+q*e*e), 1e-9)
	q1, q2 := -2*m*q*q, q*q*(8*m*m*q-2)
	var f [five]float64
	for i := range five {
		f[i] = q1*dm[i]*e*e + 2*q*e*de[i]
	}
	f[sideways] = 2 * n
	for i := range five {
		d[i] = f[i] / (2 * dist)
		for j := range five {
			dde := 0.0 // s with a height
			if i == outward {
				dde = -dm[j]
			} else if j == outward {
				dde = -dm[i]
			}
			g := q2*dm[i]*dm[j]*e*e + 2*e*q1*(dm[i]*de[j]+dm[j]*de[i]) + 2*q*(de[i]*de[j]+e*dde)
			if i == sideways && j == sideways {
				g = 2
			}
			dd[i][j] = g/(2*dist) - f[i]*f[j]/(4*dist*dist*dist)
		}
	}
	d[outward] -= a.taper
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
			d, _ := a.bend(p)
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

// onStick gives touched every spot that feels a stick at s.x, its place and gap.
func (s *Solver) onStick(k int, touched func(a *axis, n int, spot *Spot, p [3]float64, gap float64)) {
	q, a := &s.sheet.Sticks[k], &s.on
	*a = q.axis(s.levels(s.x))
	for n, w := range q.Weight {
		if w == 0 {
			continue
		}
		spot := &s.sheet.Spots[n]
		p := spot.At(s.x)
		if gap := a.gap(p); gap < q.Skin {
			touched(a, n, spot, p, gap)
		}
	}
}

func (a *axis) force(gap float64) (phi, d1, d2 float64) {
	c := Contact{Stiffness: a.q.Stiffness, Skin: a.q.Skin}
	return c.force(gap)
}

// border is what the levels add to a band matrix A of the nodes: H = (A B; Bᵀ C).
// It is factored by its Schur complement S = C − BᵀA⁻¹B, which is as small as there
// are levels; H is positive definite where A and S are.
type border struct {
	b, y [][]float64 // per level: a column of B, and of A⁻¹B
	c    []float64   // C, after factor the Cholesky factor of S, by rows
}

func (r *border) resize(levels, unknowns int) {
	r.b, r.y, r.c = resized(r.b, levels), resized(r.y, levels), resized(r.c, levels*levels)
	for k := range levels {
		r.b[k], r.y[k] = resized(r.b[k], unknowns), resized(r.y[k], unknowns)
	}
}

// assembleSticks adds the sticks' second derivatives to the band and fills s.border;
// of what their curvature and their turning make, keep.
func (s *Solver) assembleSticks(m *unknowns, b *Band, keep float64) {
	levels := len(s.sheet.Levels)
	for k := range levels {
		clear(s.border.b[k])
	}
	clear(s.border.c)
	for k := range levels {
		_, _, d2 := s.sheet.Levels[k].stop(s.levels(s.x)[k])
		s.border.c[k*levels+k] = d2
	}
	for k := range s.sheet.Sticks {
		s.onStick(k, func(a *axis, n int, spot *Spot, p [3]float64, gap float64) {
			_, d1, d2 := a.force(gap)
			w := a.q.Weight[n]
			d, h := a.bend(p)
			for i := range h {
				for j := range h[i] {
					h[i][j] = w * (d2*d[i]*d[j] + keep*d1*h[i][j])
				}
			}
			s.addStick(m, b, a, spot, &h)
		})
	}
}

// addStick adds the second derivatives h by the five of one spot.
func (s *Solver) addStick(m *unknowns, b *Band, a *axis, spot *Spot, h *[five][five]float64) {
	var at, full [9]float64
	for i := range 3 {
		row := a.push(h[i][:])
		copy(at[3*i:], row[:])
	}
	for r := range 3 { // and its rows, as columns
		col := a.push([]float64{at[r], at[3+r], at[6+r]})
		for i := range 3 {
			full[3*i+r] = col[i]
		}
	}
	var block [9]float64
	for i := range spot.n {
		for j := range i + 1 {
			if f := spot.c[i] * spot.c[j]; f != 0 {
				for r := range block {
					block[r] = f * full[r]
				}
				m.add(s, b, spot.n[i], spot.n[j], &block)
			}
		}
	}
	in, out := a.q.Ends[0].Lift, a.q.Ends[1].Lift
	for l := range in {
		var d [3]float64
		for i := range d {
			d[i] = h[i][innerEnd]*in[l] + h[i][outerEnd]*out[l]
		}
		g := a.push(d[:])
		for c, n := range spot.n {
			m.addColumn(s, s.border.b[l], n, spot.c[c], g)
		}
		for k := range in {
			s.border.c[l*len(in)+k] += in[l]*(h[innerEnd][innerEnd]*in[k]+h[innerEnd][outerEnd]*out[k]) + out[l]*(h[outerEnd][innerEnd]*in[k]+h[outerEnd][outerEnd]*out[k])
		}
	}
}

// addColumn adds f times g, by the x, y, z of a node, to a column of the unknowns.
func (m *unknowns) addColumn(s *Solver, column []float64, node int32, f float64, g [3]float64) {
	if q := m.frame[node]; q >= 0 {
		g = apply(s.frames[q], g)
	}
	for r := range g {
		if i := m.at[3*int(node)+r]; i >= 0 {
			column[i] += f * g[r]
		}
	}
}

// factor factors s.work with the levels beside it and says whether the whole is
// positive definite. shift was added to the diagonal of the band.
func (s *Solver) factor(shift float64) bool {
	if ok, _ := s.work.Factor(); !ok {
		return false
	}
	r := &s.border
	k := len(r.b)
	for i := range k {
		copy(r.y[i], r.b[i])
		s.work.Solve(r.y[i])
	}
	for i := range k { // of S, then its factor, row by row
		for j := range i + 1 {
			v := r.c[i*k+j]
			for n, f := range r.b[i] {
				v -= f * r.y[j][n]
			}
			if i == j {
				v += shift
			}
			for n := range j {
				v -= r.c[i*k+n] * r.c[j*k+n]
			}
			if i > j {
				v /= r.c[j*k+j]
			} else if v > 0 {
				v = math.Sqrt(v)
			} else {
				return false
			}
			r.c[i*k+j] = v
		}
	}
	return true
}

// solve overwrites x, the unknowns and behind them the levels, with H⁻¹x, after factor.
func (s *Solver) solve(x []float64) {
	r := &s.border
	k, n := len(r.b), s.sym.n
	s.work.Solve(x[:n])
	y := x[n:]
	for i := range k { // y = S⁻¹(y − BᵀA⁻¹x)
		for q, f := range r.b[i] {
			y[i] -= f * x[q]
		}
		for j := range i {
			y[i] -= r.c[i*k+j] * y[j]
		}
		y[i] /= r.c[i*k+i]
	}
	for i := k - 1; i >= 0; i-- {
		for j := i + 1; j < k; j++ {
			y[i] -= r.c[j*k+i] * y[j]
		}
		y[i] /= r.c[i*k+i]
	}
	for i := range k {
		for q, f := range r.y[i] {
			x[q] -= f * y[i]
		}
	}
}
