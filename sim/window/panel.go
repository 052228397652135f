package window

import "math"

// panel is the cloth between two folds, described from its crest to its trough:
// in the frame of the crest x points out from the neckline, y along it towards the
// trough, z up. Its two radial planes, y = 0 at the crest and o + sin·x − cos·y = 0
// at the trough, meet in the neck's axis.
type panel struct {
	crest, trough *Fold
	first, step   int       // the window's grid line at the crest, and ±1 towards the trough
	length, room  float64   // of the cloth, and along the neckline, mm
	u             []float64 // grid lines from the crest, mm
	ic, it        int       // those of the sewn points: tuck at crest, tuck at trough
	tc, tt        float64   // tucks that count
	a             float64   // the angle of the two planes
	sin, cos      float64
	o             float64 // the trough plane's gap is o + sin·x − cos·y
	r0            float64 // the neckline's radius
	xt, yt        float64 // the trough's mark
	turn          float64 // the crest's angle round the neck in the window
}

// newPanel lays n cells on the panel of p mm from fold a to fold b of a window on a
// neckline of curvature k, whose grid lines begin at from.
func newPanel(a, b *Fold, p, k float64, from, n int) *panel {
	q := &panel{crest: a, trough: b, first: from, step: 1, length: p, r0: 1 / k}
	if !a.Crest {
		q.crest, q.trough, q.first, q.step = b, a, from+n, -1
	}
	q.turn = k * q.crest.Station_mm
	q.room = b.Station_mm - a.Station_mm
	q.a = k * q.room
	q.sin, q.cos = math.Sincos(q.a)
	q.o = q.sin / k
	s := math.Sin(q.a / 2)
	q.xt, q.yt = -2*s*s/k, q.sin/k
	q.tc, q.tt = q.crest.tuck(), q.trough.tuck()
	q.layU(n)
	return q
}

// layU puts grid lines exactly at the tucks' points, in tucks half as many again
// as their share of the panel, at least three a tuck and four between.
func (p *panel) layU(n int) {
	cells := func(t float64) int {
		if t == 0 {
			return 0
		}
		return min(max(3, int(math.Round(1.5*float64(n)*t/p.length))), (n-4)/2)
	}
	nc, nt := cells(p.tc), cells(p.tt)
	p.ic, p.it = nc, n-nt
	p.u = make([]float64, n+1)
	for i := range p.u {
		switch {
		case i < nc:
			p.u[i] = p.tc * float64(i) / float64(nc)
		case i <= n-nt:
			p.u[i] = p.tc + (p.length-p.tc-p.tt)*float64(i-nc)/float64(n-nt-nc)
		default:
			p.u[i] = p.length - p.tt*float64(n-i)/float64(nt)
		}
	}
}

// line is the window's grid line of the panel's i-th from the crest.
func (p *panel) line(i int) int { return p.first + p.step*i }

// sector returns y on the trough plane at x.
func (p *panel) sector(x float64) float64 { return (p.o + p.sin*x) / p.cos }

// toTrough is how far a point in the crest's frame is from the trough's plane, mm.
func (p *panel) toTrough(x [3]float64) float64 { return p.o + p.sin*x[0] - p.cos*x[1] }

// direction turns a direction in the crest's frame into the window's.
func (p *panel) direction(d [3]float64) [3]float64 {
	sn, cs := math.Sincos(p.turn)
	y := float64(p.step) * d[1]
	return [3]float64{cs*d[0] - sn*y, sn*d[0] + cs*y, d[2]}
}

// at carries a point in the crest's frame to its place in the window: a panel that
// begins at its trough is mirrored, and all are turned about the neck's axis.
func (p *panel) at(x [3]float64) [3]float64 {
	sn, half := math.Sin(p.turn), math.Sin(p.turn/2)
	x = p.direction(x)
	x[0] -= 2 * half * half * p.r0
	x[1] += sn * p.r0
	return x
}

// plane gives the radial plane of the crest or the trough in the window, on a
// neckline of curvature k: its unit normal into the panel and the offset along it.
func (p *panel) plane(trough bool, k float64) (normal [3]float64, offset float64) {
	normal = [3]float64{0, 1, 0}
	if trough {
		normal = [3]float64{p.sin, -p.cos, 0}
	}
	normal = p.direction(normal)
	return normal, -normal[0] / k
}

// from is the panel's i-th line from the crest or from the trough, counted from
// the crest.
func (p *panel) from(trough bool, i int) int {
	if trough {
		return len(p.u) - 1 - i
	}
	return i
}

// stitch is the line of the sewn point at the crest or the trough.
func (p *panel) stitch(trough bool) int {
	if trough {
		return p.it
	}
	return p.ic
}

// tuckLines are how many grid lines from the crest or the trough cloth counts as
// that fold's: those of its tuck, at least 1.
func (p *panel) tuckLines(trough bool) int { return max(p.from(trough, p.stitch(trough)), 1) }

// inTuck reports that the i-th line from the crest is the crest's or the trough's.
func (p *panel) inTuck(i int) bool {
	return i <= p.tuckLines(false) || p.from(true, i) <= p.tuckLines(true)
}

// fold is the crest or the trough.
func (p *panel) fold(trough bool) *Fold {
	if trough {
		return p.trough
	}
	return p.crest
}

// sewnRow is the height of the stitches of a panel that one edge of the band holds,
// of the crest's where both do, mm.
func (p *panel) sewnRow() float64 {
	if p.crest.Sewn {
		return p.crest.Height_mm
	}
	return p.trough.Height_mm
}
