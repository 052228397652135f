package window

import (
	"math"

	"ruffwright/geom/curve"
)

// place carries the shapes of the panels, each given in its crest's frame and line
// by line from there, into one shape of the window.
func (f *frame) place(of func(p *panel) []float64) []float64 {
	nv := len(f.v)
	x := make([]float64, 3*f.lines()*nv)
	for _, p := range f.panels {
		shape := of(p)
		for i := range p.u {
			if p.line(i) >= f.lines() { // the first line again
				continue
			}
			for j := range f.v {
				q := p.at([3]float64(shape[3*(i*nv+j):]))
				copy(x[3*(p.line(i)*nv+j):], q[:])
			}
		}
	}
	return x
}

// start returns the shape a cold solve begins with.
func (f *frame) start() []float64 { return f.place(f.wave) }

// repeat gives the shape that a half set's mirrors make: it in every panel.
func (f *frame) repeat(half []float64) []float64 {
	return f.place(func(*panel) []float64 { return half })
}

// wave is the shape of one panel to begin with. Every line along u has the tangent
// angle φm sin(πs) between its sewn points, with J₀(φm) the chord over the length,
// pressed into the sector; inside a tuck the cloth is folded inward in the fold's
// plane, by a depth that fades as 1 − v/4t. Row after row x follows from the length
// along v. The sewn points lie on their places.
func (f *frame) wave(p *panel) []float64 {
	nu, nv := len(p.u)-1, len(f.v)-1
	x := make([]float64, 3*(nu+1)*(nv+1))
	at := func(i, j int) []float64 { k := 3 * (i*(nv+1) + j); return x[k : k+3 : k+3] }
	ys, zs := make([]float64, nu+1), make([]float64, nu+1) // share of the sector, height
	for j, v := range f.v {
		f.curve(p, v, ys, zs)
		for i := range p.u {
			q := at(i, j)
			s := ys[i]
			q[2] = zs[i]
			if j == 0 {
				y := s * p.yt
				q[1] = y
				q[0] = math.Sqrt(max(f.r0*f.r0-y*y, 0)) - f.r0
				if i >= p.it && p.tt > 0 || i == nu {
					q[0], q[1] = p.xt, p.yt
				}
				continue
			}
			b := at(i, j-1)
			h := v - f.v[j-1]
			y := s * p.sector(b[0]+h)
			dy, dz := y-b[1], q[2]-b[2]
			q[0] = b[0] + math.Sqrt(max(h*h-dy*dy-dz*dz, 0.04*h*h))
			q[1] = s * p.sector(q[0])
		}
	}
	f.stitch(p, at)
	return x
}

// stitch puts what is sewn of a panel's shape on its places.
func (f *frame) stitch(p *panel, at func(i, j int) []float64) {
	if f.jg > 0 && p.crest.Sewn {
		for i := range p.ic + 1 {
			at(i, f.jg)[1] = 0
		}
		at(p.ic, f.jg)[2] = p.crest.Height_mm
	}
	if f.jg > 0 && p.trough.Sewn {
		for i := p.it; i < len(p.u); i++ {
			q := at(i, f.jg)
			q[1] = p.sector(q[0])
		}
		at(p.it, f.jg)[2] = p.trough.Height_mm
	}
	if p.crest.Sewn {
		copy(at(p.ic, 0), []float64{0, 0, p.crest.Height_mm})
	}
	if p.trough.Sewn {
		copy(at(p.it, 0), []float64{p.xt, p.yt, p.trough.Height_mm})
	}
}

// curve fills the shape of a panel's line at v: share of the sector's width and
// height of each grid line.
func (f *frame) curve(p *panel, v float64, ys, zs []float64) {
	d := f.d
	fade := func(t float64) float64 {
		if t == 0 {
			return 0
		}
		return t * max(0, 1-v/(4*t))
	}
	tc, tt := fade(p.tc), fade(p.tt)
	l := p.length - tc - tt
	c := min(p.room*(1+d.Kappa_1pmm*v), 0.995*l)
	top := curve.Amplitude(c / l)
	// the curve, finely, as running sums
	const n = 256
	var cy, cz [n + 1]float64
	for k := range n {
		s, cs := math.Sincos(top * math.Sin(math.Pi*(float64(k)+0.5)/n))
		cy[k+1] = cy[k] + l*cs/n
		cz[k+1] = cz[k] + l*s/n
	}
	drop := cz[n]
	squeeze := 1.0
	crest, trough := 0.0, 0.0
	switch {
	case p.crest.Sewn && p.trough.Sewn:
		// between the stitches the drop is the band's; it opens to the free one over a
		// tuck's reach
		high, low := p.crest.Height_mm, p.trough.Height_mm
		reach := max(4*max(p.tc, p.tt), 0.3*d.Width_mm)
		m := max(0, 1-v/reach)
		squeeze = m*(high-low)/drop + 1 - m
		crest = (high+low)/2 + squeeze*drop/2
		trough = crest - squeeze*drop
	case p.crest.Sewn:
		crest = p.crest.Height_mm
		trough = crest - drop
	default:
		trough = p.trough.Height_mm
		crest = trough + drop
	}
	for i, u := range p.u {
		switch {
		case u < tc:
			ys[i], zs[i] = 0, crest-(tc-u)
		case u > p.length-tt:
			ys[i], zs[i] = 1, trough+(u-(p.length-tt))
		default:
			q := (u - tc) / l * n
			k := min(int(q), n-1)
			w := q - float64(k)
			ys[i] = min(max((cy[k]+w*(cy[k+1]-cy[k]))/c, 0), 1)
			zs[i] = crest - squeeze*(cz[k]+w*(cz[k+1]-cz[k]))
		}
	}
	ys[0], ys[len(ys)-1] = 0, 1
}
