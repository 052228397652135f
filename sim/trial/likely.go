package trial

import "math"

// likely is how well one place of the lattice goes with the readings. What moves the
// readings beside the lattice's values (shear, forming, the card's slope) is taken as
// normal about what was taken for granted, and their effect as straight: so the
// readings are normal together, and their covariance is known.
type likely struct {
	n    int
	r    [Readings]Reading           // those that were read
	d    [Readings]float64           // read less model
	cov  [Readings][Readings]float64 // of those
	ln   float64                     // of the density, but for a constant
	chi2 float64
}

// at lays out the covariance of the readings at a place; without leaves one of them out.
func (q *Read) at(c *cell, shear float64, without Reading) (l likely) {
	for r := range Readings {
		if q.Has[r] && r != without {
			l.r[l.n], l.d[l.n] = r, q.At[r]-c.of[r].y
			l.n++
		}
	}
	for i := range l.n {
		for k := range i + 1 {
			l.cov[i][k] = q.joint(c, l.r[i], l.r[k], shear)
			l.cov[k][i] = l.cov[i][k]
		}
	}
	l.factor()
	return
}

// joint is the covariance of two readings.
func (q *Read) joint(c *cell, a, b Reading, shear float64) float64 {
	m, n := &c.of[a], &c.of[b]
	v := m.shear*n.shear*shear*shear + m.form*n.form*priorFormed*priorFormed
	if a == b {
		ruler, tilt := or(q.Ruler_mm, ruler_mm), m.tilt*or(q.Tilt_deg, tilt_deg)
		v += ruler*ruler + q.Miss_mm[a]*q.Miss_mm[a] + m.off*m.off + tilt*tilt
	}
	return v
}

// factor makes of cov its Cholesky factor, of d that solved by it, and the density.
func (l *likely) factor() {
	ln := 0.0
	for i := range l.n {
		for k := range i + 1 {
			s := l.cov[i][k]
			for m := range k {
				s -= l.cov[i][m] * l.cov[k][m]
			}
			if i == k {
				l.cov[i][i] = math.Sqrt(math.Max(s, 1e-12))
				ln += math.Log(l.cov[i][i])
			} else {
				l.cov[i][k] = s / l.cov[k][k]
			}
		}
		for m := range i {
			l.d[i] -= l.cov[i][m] * l.d[m]
		}
		l.d[i] /= l.cov[i][i]
		l.chi2 += l.d[i] * l.d[i]
	}
	l.ln = -ln - l.chi2/2
}

// given is what another quantity is expected to be, given the readings: by with, its
// covariance with each of them, and its variance of its own.
func (l *likely) given(with func(Reading) float64, own float64) (mean, variance float64) {
	var z [Readings]float64
	variance = own
	for i := range l.n {
		z[i] = with(l.r[i])
		for m := range i {
			z[i] -= l.cov[i][m] * z[m]
		}
		z[i] /= l.cov[i][i]
		mean += z[i] * l.d[i]
		variance -= z[i] * z[i]
	}
	return mean, math.Max(variance, 1e-12)
}

// shear is how uncertain the shear is, in its logarithm.
func (t *Table) shear() float64 {
	if t.Card.scheme.Starch.Shear > 0 {
		return measuredShear
	}
	return priorShear
}

// weigh gives each place of the lattice its share, by the readings but one.
func (t *Table) weigh(q *Read, without Reading) []float64 {
	cells, shear := t.lattice(), t.shear()
	w := make([]float64, len(cells))
	most := math.Inf(-1)
	for i := range cells {
		l := q.at(&cells[i], shear, without)
		w[i] = cells[i].ln + l.ln
		most = math.Max(most, w[i])
	}
	sum := 0.0
	for i, ln := range w {
		w[i] = math.Exp(ln - most)
		sum += w[i]
	}
	for i := range w {
		w[i] /= sum
	}
	return w
}

// formed is how much taller the sets were formed.
func (t *Table) formed(q *Read, w []float64) Bounds {
	var mean, square float64
	cells, shear := t.lattice(), t.shear()
	for i := range cells {
		if w[i] < 1e-9 {
			continue
		}
		c := &cells[i]
		l := q.at(c, shear, Readings)
		m, v := l.given(func(r Reading) float64 { return c.of[r].form * priorFormed * priorFormed }, priorFormed*priorFormed)
		mean += w[i] * m
		square += w[i] * (v + m*m)
	}
	half := normal90 * math.Sqrt(math.Max(0, square-mean*mean))
	return Bounds{mean, mean - half, mean + half}
}

// tail is how seldom a reading may lie so far off what the others let it be before it is
// said to contradict them.
const tail = 0.002

// wrong gives the readings that the others leave no room for, the worst first.
func (t *Table) wrong(q *Read) (list []Reading) {
	cells, shear := t.lattice(), t.shear()
	var p [Readings]float64
	for r := range Readings {
		if !q.Has[r] {
			continue
		}
		below := 0.0
		for i, w := range t.weigh(q, r) {
			if w < 1e-9 {
				continue
			}
			c := &cells[i]
			l := q.at(c, shear, r)
			m, v := l.given(func(o Reading) float64 { return q.joint(c, o, r, shear) }, q.joint(c, r, r, shear))
			below += w * 0.5 * math.Erfc((m+c.of[r].y-q.At[r])/math.Sqrt(2*v))
		}
		if p[r] = 2 * math.Min(below, 1-below); p[r] < tail {
			at := len(list)
			for at > 0 && p[list[at-1]] > p[r] {
				at--
			}
			list = append(list[:at], append([]Reading{r}, list[at:]...)...)
		}
	}
	return list
}
