package window

import "math"

// warmable reports whether a solve of d on the frame f may start from c: sewn
// alike, the tucks' grid lines the same, each length nearly so; on sticks, all but the
// neckline's curvature the same.
func (c *Window) warmable(f *frame, g Grid) bool {
	if c == nil || c.Grid != g || !c.Converged() || len(f.panels) > 1 {
		return false
	}
	d, o, half := f.d, &c.Design, f.panels[0]
	if f.sticks() != nil {
		// Which of its shapes the inside of a tuck takes hangs on the way it is formed: so
		// only sets of the same ruff follow each other.
		was := *o
		was.Kappa_1pmm = d.Kappa_1pmm
		return was == *d
	}
	ot, ob := o.tucks()
	near := func(a, b, within float64) bool { return math.Abs(a/b-1) < within }
	return o.Anchor == d.Anchor && (d.Anchor == Both || o.Sewn == d.Sewn) &&
		ot == half.tc && ob == half.tt && o.LineGap_mm == d.LineGap_mm && half.sameLines(c.U) &&
		near(o.Panel_mm, d.Panel_mm, 0.05) && near(o.Width_mm, d.Width_mm, 0.1) && near(o.Pitch_mm, d.Pitch_mm, 0.2) &&
		math.Abs(o.BandHeight_mm-d.BandHeight_mm) < 0.1*d.Panel_mm && math.Abs(o.Kappa_1pmm-d.Kappa_1pmm) < 0.006
}

// sameLines reports whether the grid lines u of another panel count as many
// cells to each tuck as this one's.
func (p *panel) sameLines(u []float64) bool {
	const rounding_mm = 1e-6
	long := u[len(u)-1]
	return math.Abs(u[p.ic]-p.tc) < rounding_mm && math.Abs(long-u[p.it]-p.tt) < rounding_mm
}

// drift is how a shape moved, beyond what adapt does, while the neckline's
// curvature alone grew by turn: the next around the neckline goes on like that.
// The zero value is of a shape that came another way.
type drift struct {
	moved     []float64 // mm
	turn_1pmm float64
}

// longest is how many times as far as it was seen a drift is followed.
const longest = 2

// onward is where a shape of warm begins here: adapted, and drifted on.
func (s *solver) onward(shape []float64, d *drift, warm *Window) []float64 {
	turn := s.turned(warm)
	if d.turn_1pmm == 0 || turn == 0 {
		return s.adapt(shape, warm)
	}
	share := min(max(turn/d.turn_1pmm, -longest), longest)
	x := append([]float64(nil), shape...)
	for k, m := range d.moved {
		x[k] += share * m
	}
	return s.adapt(x, warm)
}

// drifted is how x came from warm's shape.
func (s *solver) drifted(x, shape []float64, warm *Window) drift {
	d := drift{turn_1pmm: s.turned(warm)}
	if d.turn_1pmm == 0 {
		return drift{}
	}
	d.moved = s.adapt(shape, warm)
	for k, v := range x {
		d.moved[k] = v - d.moved[k]
	}
	return d
}

// turned is by how much the neckline's curvature grew since warm, in 1/mm; 0 too
// if that is not all that changed.
func (s *solver) turned(warm *Window) float64 {
	was := warm.Design
	was.Kappa_1pmm = s.f.d.Kappa_1pmm
	if was != *s.f.d {
		return 0
	}
	return s.f.d.Kappa_1pmm - warm.Design.Kappa_1pmm
}

// adapt moves another window's shape onto this one's planes and places, by shifts
// that go over evenly from the crest to the trough.
func (s *solver) adapt(shape []float64, warm *Window) []float64 {
	f, half, was := s.f, s.f.panels[0], warm.Design.Run().Folds
	x := append([]float64(nil), shape...)
	nu, nv := len(half.u)-1, len(f.v)-1
	at := func(i, j int) []float64 { k := 3 * (i*(nv+1) + j); return x[k : k+3 : k+3] }
	crest, trough := half.crest.Height_mm-was[0].Height_mm, half.trough.Height_mm-was[1].Height_mm
	if !half.crest.Sewn {
		crest = trough
	}
	if !half.trough.Sewn {
		trough = crest
	}
	for j := range nv + 1 {
		out := f.v[j] - warm.V[j]
		last := at(nu, j)
		g := half.toTrough([3]float64{last[0] + out, last[1], 0})
		to := [3]float64{out - g*half.sin, g * half.cos, trough}
		for i := range nu + 1 {
			w := 0.0
			if i >= half.it {
				w = 1
			} else if i > half.ic {
				w = (half.u[i] - half.u[half.ic]) / (half.u[half.it] - half.u[half.ic])
			}
			p := at(i, j)
			p[0] += (1-w)*out + w*to[0]
			p[1] += w * to[1]
			p[2] += (1-w)*crest + w*to[2]
		}
		at(0, j)[1] = 0
	}
	onTrough := func(p []float64) {
		g := half.toTrough([3]float64(p))
		p[0] -= g * half.sin
		p[1] += g * half.cos
	}
	rows := []int{0}
	if f.jg > 0 {
		rows = append(rows, f.jg)
	}
	for _, j := range rows {
		if half.crest.Sewn {
			for i := range half.ic + 1 {
				at(i, j)[1] = 0
			}
			at(half.ic, j)[2] = half.crest.Height_mm
		}
		if half.trough.Sewn {
			for i := half.it; i <= nu; i++ {
				onTrough(at(i, j))
			}
			at(half.it, j)[2] = half.trough.Height_mm
		}
	}
	if half.crest.Sewn {
		copy(at(half.ic, 0), []float64{0, 0, half.crest.Height_mm})
	}
	if half.trough.Sewn {
		copy(at(half.it, 0), []float64{half.xt, half.yt, half.trough.Height_mm})
	}
	return x
}
