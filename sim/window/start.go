package window

import "math"

// start returns the shape a cold solve begins with. Every line along u has the
// tangent angle φm sin(πs) between its sewn points, with J₀(φm) the chord over
// the length, pressed into the sector; inside a tuck the cloth is folded inward
// in the mirror plane, by a depth that fades as 1 − v/4t. Row after row x
// follows from the length along v. The sewn points lie on their places.
func (f *frame) start() []float64 {
	d := f.d
	nu, nv := len(f.u)-1, len(f.v)-1
	x := make([]float64, 3*(nu+1)*(nv+1))
	at := func(i, j int) []float64 { k := 3 * (i*(nv+1) + j); return x[k : k+3 : k+3] }
	ys, zs := make([]float64, nu+1), make([]float64, nu+1) // share of the sector, height
	for j, v := range f.v {
		f.wave(v, ys, zs)
		for i := range f.u {
			p := at(i, j)
			s := ys[i]
			p[2] = zs[i]
			if j == 0 {
				y := s * f.yt
				p[1] = y
				p[0] = math.Sqrt(max(f.r0*f.r0-y*y, 0)) - f.r0
				if i >= f.it && f.tt > 0 || i == nu {
					p[0], p[1] = f.xt, f.yt
				}
				continue
			}
			q := at(i, j-1)
			h := v - f.v[j-1]
			y := s * f.sector(q[0]+h)
			dy, dz := y-q[1], p[2]-q[2]
			p[0] = q[0] + math.Sqrt(max(h*h-dy*dy-dz*dz, 0.04*h*h))
			p[1] = s * f.sector(p[0])
		}
	}
	if d.crestsSewn() {
		p := at(f.ic, 0)
		p[0], p[1], p[2] = 0, 0, d.crestHeight()
	}
	if d.troughsSewn() {
		p := at(f.it, 0)
		p[0], p[1], p[2] = f.xt, f.yt, d.troughHeight()
	}
	if f.jg > 0 {
		if d.crestsSewn() {
			for i := range f.ic + 1 {
				at(i, f.jg)[1] = 0
			}
			at(f.ic, f.jg)[2] = d.crestHeight()
		}
		if d.troughsSewn() {
			for i := f.it; i <= nu; i++ {
				p := at(i, f.jg)
				p[1] = f.sector(p[0])
			}
			at(f.it, f.jg)[2] = d.troughHeight()
		}
	}
	return x
}

// wave fills the shape of the line at v: share of the sector's width and height
// of each grid line.
func (f *frame) wave(v float64, ys, zs []float64) {
	d := f.d
	fade := func(t float64) float64 {
		if t == 0 {
			return 0
		}
		return t * max(0, 1-v/(4*t))
	}
	tc, tt := fade(f.tc), fade(f.tt)
	l := d.Panel_mm - tc - tt
	c := min(d.Pitch_mm/2*(1+d.Kappa_1pmm*v), 0.995*l)
	top := amplitude(c / l)
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
	case d.Anchor == Both:
		// between the stitches the drop is the band's height; it opens to the
		// free one over a tuck's reach
		reach := max(4*max(f.tc, f.tt), 0.3*d.Width_mm)
		m := max(0, 1-v/reach)
		squeeze = m*d.BandHeight_mm/drop + 1 - m
		crest = d.BandHeight_mm/2 + squeeze*drop/2
		trough = crest - squeeze*drop
	case d.Sewn == Crests:
		crest = d.crestHeight()
		trough = crest - drop
	default:
		trough = d.troughHeight()
		crest = trough + drop
	}
	for i, u := range f.u {
		switch {
		case u < tc:
			ys[i], zs[i] = 0, crest-(tc-u)
		case u > d.Panel_mm-tt:
			ys[i], zs[i] = 1, trough+(u-(d.Panel_mm-tt))
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

// amplitude returns φ with J₀(φ) = share, −0.4 < share < 1.
func amplitude(share float64) float64 {
	lo, hi := 0.0, 3.8
	for range 60 {
		m := (lo + hi) / 2
		if math.J0(m) > share {
			lo = m
		} else {
			hi = m
		}
	}
	return lo
}
