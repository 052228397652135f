package light

import "ruffwright/geom"

// cubic gives the weights of four places in a row for the part t of the way from the
// second to the third, 0 to 1, and those of the tangent there. The places lie so far apart
// along the line: before, here, after. The line's tangent at a place is that of the parabola
// through it and its two neighbours; with even gaps that is Catmull and Rom's line (Computer
// Aided Geometric Design, 1974). Were the gaps left out, a line would have a corner where
// they change. A gap is taken as an eighth to eight times of that between, so that no two
// places in one spoil the line.
func cubic(before, here, after, t float64) (w, slope [4]float64) {
	const most = 8
	a, b := clamp(before/here, 1./most, most), clamp(after/here, 1./most, most) // gaps, by that between
	if !(here > 0) {
		a, b = 1, 1
	}
	// The tangents at the second and the third place, by the four.
	from := [4]float64{-1 / (a * (1 + a)), (1 - a) / a, a / (1 + a), 0}
	to := [4]float64{0, -b / (1 + b), (b - 1) / b, 1 / (b * (1 + b))}
	t2 := t * t
	t3 := t2 * t
	// Hermite's cubic.
	w[1], w[2] = 1-3*t2+2*t3, 3*t2-2*t3
	slope[1], slope[2] = 6*t2-6*t, 6*t-6*t2
	for k := range w {
		w[k] += (t-2*t2+t3)*from[k] + (t3-t2)*to[k]
		slope[k] += (1-4*t+3*t2)*from[k] + (3*t2-2*t)*to[k]
	}
	return w, slope
}

// gaps are how far apart a sheet's lines lie, mm.
type gaps struct {
	mm   []float64
	ring bool
}

// at is the gap after a line; beyond the ends the lines go on as they came.
func (g gaps) at(k int) float64 {
	n := len(g.mm)
	switch {
	case g.ring:
		k = (k + n) % n
	case k < 0:
		k = -1 - k
	case k >= n:
		k = 2*n - 1 - k
	}
	return g.mm[min(max(k, 0), n-1)]
}

// gaps gives those between a sheet's columns and between its rows, each in the mean.
func (t *Sheet) gaps() (wide, tall gaps) {
	wide, tall = gaps{make([]float64, t.Cols-1), t.Ring}, gaps{make([]float64, t.Rows-1), false}
	for col := range t.Cols {
		for r := range t.Rows {
			v := t.V[col*t.Rows+r]
			if col+1 < t.Cols {
				wide.mm[col] += t.V[(col+1)*t.Rows+r].Sub(v).Norm() / float64(t.Rows)
			}
			if r+1 < t.Rows {
				tall.mm[r] += t.V[col*t.Rows+r+1].Sub(v).Norm() / float64(t.Cols)
			}
		}
	}
	return wide, tall
}

// Smooth is the cubic curve through the places of a line, n parts from one to the next:
// the curve that a sheet's hems are drawn by.
func Smooth(line []geom.Vec3, n int) []geom.Vec3 {
	if len(line) < 2 || n < 1 {
		return line
	}
	t := Sheet{Cols: 1, Rows: len(line), V: line}
	_, tall := t.gaps()
	made := t.line(0, n, tall)
	out := make([]geom.Vec3, len(made))
	for i := range made {
		out[i] = made[i].v
	}
	return out
}
