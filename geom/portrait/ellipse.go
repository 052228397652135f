package portrait

import (
	"math"
	"slices"

	"ruffwright/geom"
)

// ellipse of a picture, px.
type ellipse struct {
	centre geom.Vec2
	a, b   float64   // half axes, a ≥ b > 0
	major  geom.Vec2 // unit vector along a
}

// fit gives the ellipse nearest to five or more points by direct least squares: of all
// conics with 4AC − B² = 1 the one with the least sum of squares (Fitzgibbon, Pilu and
// Fisher 1999), in the form of Halíř and Flusser (1998) that stays well conditioned:
// an eigenvector of a 3 × 3 matrix. ok is false where the points make no ellipse.
// Exact points give the ellipse to 1e-9 of its size; TestFit holds that, and the vector to
// LAPACK's.
func fit(points []geom.Vec2) (e ellipse, ok bool) {
	// Moved to their middle and scaled, which changes no ellipse but helps the figures.
	var mid geom.Vec2
	for _, p := range points {
		mid = mid.Add(p.Scale(1 / float64(len(points))))
	}
	var size float64
	for _, p := range points {
		size += p.Sub(mid).Norm() / float64(len(points))
	}
	if size == 0 {
		return e, false
	}
	conic, ok := directConic(points, mid, size)
	if !ok {
		return e, false
	}
	e, ok = axes(conic)
	e.centre = mid.Add(e.centre.Scale(size))
	e.a, e.b = size*e.a, size*e.b
	return e, ok
}

// directConic is the conic A x² + B x y + C y² + D x + E y + F = 0 of the scaled points.
func directConic(points []geom.Vec2, mid geom.Vec2, size float64) (conic [6]float64, ok bool) {
	var s1, s2, s3 matrix // quadratic with quadratic, with linear, linear with linear
	for _, p := range points {
		q := p.Sub(mid).Scale(1 / size)
		d1, d2 := [3]float64{q.X * q.X, q.X * q.Y, q.Y * q.Y}, [3]float64{q.X, q.Y, 1}
		for i := range 3 {
			for j := range 3 {
				s1[i][j] += d1[i] * d1[j]
				s2[i][j] += d1[i] * d2[j]
				s3[i][j] += d2[i] * d2[j]
			}
		}
	}
	inverse, ok := s3.inverse()
	if !ok { // all points on one line
		return conic, false
	}
	t := inverse.times(s2.transposed()) // the linear part is −t times the quadratic
	m := s2.times(t)
	for i := range 3 {
		for j := range 3 {
			m[i][j] = s1[i][j] - m[i][j]
		}
	}
	// The inverse of the constraint 4AC − B², which exchanges the outer rows.
	m = matrix{
		{m[2][0] / 2, m[2][1] / 2, m[2][2] / 2},
		{-m[1][0], -m[1][1], -m[1][2]},
		{m[0][0] / 2, m[0][1] / 2, m[0][2] / 2},
	}
	best := math.Inf(-1)
	for _, root := range m.eigenvalues() {
		v := m.eigenvector(root)
		if k := 4*v[0]*v[2] - v[1]*v[1]; k > best {
			best = k
			copy(conic[:3], v[:])
		}
	}
	for i := range 3 {
		for j := range 3 {
			conic[3+i] -= t[i][j] * conic[j]
		}
	}
	return conic, best > 1e-6 // of a unit vector: an ellipse not flatter than 1 to 1000
}

// axes turns a conic into centre and half axes; ok is false where it is no ellipse.
func axes(c [6]float64) (e ellipse, ok bool) {
	det := 4*c[0]*c[2] - c[1]*c[1]
	e.centre = geom.Vec2{X: (c[1]*c[4] - 2*c[2]*c[3]) / det, Y: (c[1]*c[3] - 2*c[0]*c[4]) / det}
	at := c[5] + (c[3]*e.centre.X+c[4]*e.centre.Y)/2 // the conic's value at the centre
	mean, half := (c[0]+c[2])/2, math.Hypot((c[0]-c[2])/2, c[1]/2)
	less, more := mean-half, mean+half
	if mean < 0 { // the same conic with the other sign
		less, more = mean+half, mean-half
	}
	a2, b2 := -at/less, -at/more
	if !(a2 > 0 && b2 > 0) || math.IsInf(a2, 0) { // NaN too
		return e, false
	}
	e.a, e.b = math.Sqrt(a2), math.Sqrt(b2)
	angle := 0.5 * math.Atan2(c[1], c[0]-c[2]) // of the greater coefficient: the minor axis
	if mean > 0 {
		angle += math.Pi / 2
	}
	e.major = geom.Vec2{X: math.Cos(angle), Y: math.Sin(angle)}
	if e.major.X < 0 || e.major.X == 0 && e.major.Y < 0 {
		e.major = e.major.Scale(-1)
	}
	return e, true
}

// off is about how far a point lies from the ellipse, px: the value of its equation over
// the slope (Sampson), exact to the second order in the distance.
func (e ellipse) off(p geom.Vec2) float64 {
	q := p.Sub(e.centre)
	u, v := q.Dot(e.major)/e.a, e.major.Cross(q)/e.b
	slope := 2 * math.Hypot(u/e.a, v/e.b)
	if slope == 0 {
		return e.b
	}
	return (u*u + v*v - 1) / slope
}

// matrix is 3 × 3.
type matrix [3][3]float64

func (m matrix) row(i int) geom.Vec3 { return geom.Vec3{X: m[i][0], Y: m[i][1], Z: m[i][2]} }

func (m matrix) transposed() (t matrix) {
	for i := range 3 {
		for j := range 3 {
			t[i][j] = m[j][i]
		}
	}
	return t
}

func (m matrix) times(n matrix) (p matrix) {
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				p[i][j] += m[i][k] * n[k][j]
			}
		}
	}
	return p
}

// inverse of a matrix; ok is false for one that has none, to 1e-12 of its size.
func (m matrix) inverse() (n matrix, ok bool) {
	a, b, c := m.row(0), m.row(1), m.row(2)
	det := a.Dot(b.Cross(c))
	if math.Abs(det) <= 1e-12*a.Norm()*b.Norm()*c.Norm() {
		return n, false
	}
	for j, col := range []geom.Vec3{b.Cross(c), c.Cross(a), a.Cross(b)} {
		n[0][j], n[1][j], n[2][j] = col.X/det, col.Y/det, col.Z/det
	}
	return n, true
}

// eigenvalues of a matrix whose eigenvalues are all real, as those of the fit are: the
// roots of its cubic by cosines (DLMF 1.11(iii), from memory), smoothed by Newton's steps.
func (m matrix) eigenvalues() []float64 {
	trace := m[0][0] + m[1][1] + m[2][2]
	minors := m[0][0]*m[1][1] - m[0][1]*m[1][0] + m[0][0]*m[2][2] - m[0][2]*m[2][0] + m[1][1]*m[2][2] - m[1][2]*m[2][1]
	det := m.row(0).Dot(m.row(1).Cross(m.row(2)))
	p := minors - trace*trace/3
	q := -2*trace*trace*trace/27 + trace*minors/3 - det
	r := math.Sqrt(math.Max(-p/3, 0))
	angle := 0.0
	if r > 0 {
		angle = math.Acos(min(max(-q/(2*r*r*r), -1), 1)) / 3
	}
	var roots []float64
	for k := range 3 {
		x := trace/3 + 2*r*math.Cos(angle-2*math.Pi*float64(k)/3)
		for range 3 {
			value, slope := ((x-trace)*x+minors)*x-det, (3*x-2*trace)*x+minors
			if step := value / slope; slope != 0 && math.Abs(step) < 0.1*math.Abs(x)+1e-9 {
				x -= step
			}
		}
		roots = append(roots, x)
	}
	slices.Sort(roots)
	return roots
}

// eigenvector of an eigenvalue, of length 1: square to the two rows that say most.
func (m matrix) eigenvector(root float64) [3]float64 {
	for i := range 3 {
		m[i][i] -= root
	}
	var best geom.Vec3
	for i := range 3 {
		if c := m.row(i).Cross(m.row((i + 1) % 3)); c.Norm() > best.Norm() {
			best = c
		}
	}
	best = best.Unit()
	return [3]float64{best.X, best.Y, best.Z}
}
