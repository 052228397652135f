package light

import (
	"image/color"
	"math"
	"sync"

	"ruffwright/geom"
)

// light gives every node of the fine grid its brightness on either side.
func (s *Scene) light(f *fine, l lamp) {
	known := make([][2][]float32, len(s.Sheets)) // of every sheet: brightness in front and behind
	for _, p := range f.patches {
		t := &s.Sheets[p.sheet]
		if known[p.sheet][0] == nil {
			if s.baked != nil {
				known[p.sheet] = t.shine(&(*s.baked)[p.sheet], l)
			} else {
				known[p.sheet] = t.guess(l)
			}
		}
		for i := range p.cols {
			for r := range p.rows {
				k := p.first + i*p.rows + r
				f.front[k] = t.between(known[p.sheet][0], p, i, r)
				f.back[k] = t.between(known[p.sheet][1], p, i, r)
			}
		}
	}
}

// shine is the brightness of a sheet's nodes in a lamp's light, by what was baked: what
// falls on the side that is seen comes back in part, of what falls on the other a part
// comes through.
func (t *Sheet) shine(b *bakedSheet, l lamp) (out [2][]float32) {
	var f [terms]float32
	for k := range l {
		f[k] = float32(l[k])
	}
	lit := func(have *[terms]float32) (e float32) {
		for k := range f {
			e += f[k] * have[k]
		}
		return max(e, 0)
	}
	least := [2][]float32{make([]float32, len(b.front)), make([]float32, len(b.back))}
	for k := range b.front {
		least[0][k], least[1][k] = t.shown(lit(&b.front[k]), lit(&b.back[k]))
	}
	for side := range out {
		out[side] = b.spread(t, least[side])
		for k := range out[side] {
			out[side][k] *= t.own(k)
		}
	}
	return out
}

// spread gives all nodes of a sheet what is known at a few.
func (b *bakedSheet) spread(t *Sheet, known []float32) []float32 {
	out, n := make([]float32, len(t.V)), len(b.row)
	for i := range len(b.col) - 1 {
		for j := range n - 1 {
			p, q, u, v := known[i*n+j], known[(i+1)*n+j], known[i*n+j+1], known[(i+1)*n+j+1]
			wide, tall := b.col[i+1]-b.col[i], b.row[j+1]-b.row[j]
			for c := 0; c <= wide; c++ {
				x := float32(c) / float32(wide)
				from, to := p+(q-p)*x, u+(v-u)*x
				for r := 0; r <= tall; r++ {
					out[(b.col[i]+c)*t.Rows+b.row[j]+r] = from + (to-from)*float32(r)/float32(tall)
				}
			}
		}
	}
	return out
}

// shown is what is seen on either side of what falls on both, as bright as a print has it.
func (t *Sheet) shown(front, back float32) (f, b float32) {
	if t.Through == 0 {
		return tone(front), tone(back)
	}
	through := float32(Through(t.Through))
	r := 1 - through
	// White is cloth in full light with its other side in half of it.
	white := r + through/2
	return tone((r*front + through*back) / white), tone((r*back + through*front) / white)
}

// tone is how bright a print of so much light is, 0 to 1: a little more black and a
// little more white than there is, as an engraver has it.
func tone(light float32) float32 {
	x := min(max((light-0.05)/0.87, 0), 1)
	return x * (1.25 - 0.25*x)
}

func (t *Sheet) own(k int) float32 {
	if t.Tone == nil {
		return 1
	}
	return t.Tone[k]
}

// guess is the brightness of a sheet's nodes where nothing was baked: of planes that
// see the less of the light the deeper they lie in a fold, on the side that looks into
// it, and the nearer to the neck.
func (t *Sheet) guess(l lamp) (out [2][]float32) {
	out = [2][]float32{make([]float32, len(t.V)), make([]float32, len(t.V))}
	for r := range t.Rows {
		lo, hi := math.Inf(1), math.Inf(-1)
		for col := range t.Cols {
			z := t.V[col*t.Rows+r].Z
			lo, hi = min(lo, z), max(hi, z)
		}
		in := 1 - float64(r)/float64(t.Rows-1)
		for col := range t.Cols {
			k := col*t.Rows + r
			normal := t.normal(col, r)
			front, back := float32(1), float32(1)
			if t.Through > 0 {
				high := 2*(t.V[k].Z-lo)/max(hi-lo, 1e-6) - 1
				free := func(up float64) float32 { return float32(clamp(0.5+0.5*up*high, 0.25, 1) * (1 - 0.5*in*in)) }
				front, back = free(normal.Z), free(-normal.Z)
			}
			f, b := t.shown(front*l.plain(normal), back*l.plain(normal.Scale(-1)))
			out[0][k], out[1][k] = t.own(k)*f, t.own(k)*b
		}
	}
	return out
}

// plain is the light on a plane of that normal that nothing shades.
func (l *lamp) plain(normal geom.Vec3) float32 {
	e := 0.0
	for k, y := range harmonics(normal) {
		e += l[k] * y * open[k]
	}
	return float32(max(e, 0))
}

// paint gives every pixel its colour.
func (s *Scene) paint(f *fine, d *depths, w window, pix []uint8) {
	var all sync.WaitGroup
	parts := crews
	for k := range parts {
		all.Go(func() {
			var at facet
			at.face = noFace
			for y := k; y < d.h; y += parts {
				for x, face := range d.face[y*d.w:][:d.w] {
					if face == noFace {
						continue
					}
					if face != at.face {
						at.set(s, f, face)
					}
					c := at.colour(float32(x)+0.5, float32(y)+0.5, float32(w.px))
					o := pix[4*(y*d.w+x):][:4]
					o[0], o[1], o[2], o[3] = c.R, c.G, c.B, 255
				}
			}
		})
	}
	all.Wait()
}

// facet is a triangle that is being painted: what varies over it, evenly.
type facet struct {
	face                                      uint32
	sheet                                     *Sheet
	x, y                                      float32 // of its first corner
	shine, pick, turn, along, step, out, fall even
}

// even is a value that varies evenly over a triangle, and never leaves what its corners
// have: a sliver's slopes mean little.
type even struct{ at, dx, dy, lo, hi float32 }

func (e *even) value(x, y float32) float32 {
	return held(e.at+e.dx*x+e.dy*y, e.lo, e.hi)
}

func (p *facet) set(s *Scene, f *fine, face uint32) {
	a, b, c, sheet := f.triangle(face)
	t := &s.Sheets[sheet]
	p.face, p.sheet, p.x, p.y = face, t, f.x[a], f.y[a]
	ux, uy, vx, vy := f.x[b]-p.x, f.y[b]-p.y, f.x[c]-p.x, f.y[c]-p.y
	area := ux*vy - uy*vx
	per := float32(0)
	if area != 0 {
		per = 1 / area
	}
	set := func(e *even, list []float32) {
		k, l, m := list[a], list[b], list[c]
		du, dv := l-k, m-k
		*e = even{k, (du*vy - dv*uy) * per, (dv*ux - du*vx) * per, least(k, l, m), most(k, l, m)}
	}
	// The side that the normal points to: the first triangle of a cell goes along the
	// columns first, the second along the row.
	if area < 0 {
		set(&p.shine, f.front)
	} else {
		set(&p.shine, f.back)
	}
	if t.Pick != nil {
		set(&p.pick, f.pick)
	}
	if t.Hatch_mm > 0 || t.Weave_mm > 0 {
		set(&p.along, f.along)
		set(&p.step, f.step)
		set(&p.turn, f.turn)
	}
	if t.Weave_mm > 0 {
		set(&p.out, f.out)
		set(&p.fall, f.down)
	}
}

// colour is that of a pixel's middle.
func (p *facet) colour(x, y, px float32) color.NRGBA {
	t := p.sheet
	x, y = x-p.x, y-p.y
	shine, tint := p.shine.value(x, y), 0
	if t.Pick != nil {
		tint = min(max(int(p.pick.value(x, y)), 0), len(t.Tints)-1)
	}
	if t.Hatch_mm == 0 && t.Weave_mm == 0 {
		return t.Tints[tint][level(shine)]
	}
	step := p.step.value(x, y)
	if t.Weave_mm > 0 && float32(t.Weave_mm) > 2*step {
		shine *= t.woven(p.along.value(x, y), step, p.out.value(x, y), p.fall.value(x, y))
	}
	ground := t.Tints[tint][level(shine)]
	if t.Hatch_mm == 0 {
		return ground
	}
	dark := (0.5 - shine) / 0.4
	if t.Dense != nil {
		dark = t.Dense[tint]
	}
	if dark <= 0 {
		return ground
	}
	// Cloth seen on its edge takes none: lines would stand across it as a comb.
	facing := held((abs(p.turn.value(x, y))-0.06)/0.2, 0, 1)
	return mix(ground, t.Ink, facing*t.hatched(p.along.value(x, y), step, min(dark, 1), px))
}

func abs(x float32) float32 { return float32(math.Abs(float64(x))) }

// hatched is how much ink lies on a pixel: lines at even steps along the strip, the
// darker the fuller. Where cloth turns away from the eye every other line ends, so
// that they keep their distance on the sheet.
func (t *Sheet) hatched(along, step, dark, px float32) float32 {
	wanted := float32(t.Hatch_mm) * px * step // mm of cloth between two lines that are Hatch_mm apart on the sheet
	// Steps halve and double: those of a coarser ruling lie among those of a finer.
	coarse := math.Float32frombits(math.Float32bits(wanted) & 0x7f800000) // the power of two below
	fading := wanted/coarse - 1                                           // 0 to 1: the finer lines go
	half := float32(t.Hatch_mm) * px * 0.13 * (0.3 + 0.7*dark)            // of a line's width, pixels
	off := along / (2 * coarse)
	off = abs(off - float32(floor(off+0.5))) // of two lines' way: 0 on one of the coarser, ½ on a finer
	per := 2 * coarse / step
	ink := lay(off*per, half)
	if fading < 1 {
		ink = max(ink, lay((0.5-off)*per, half*(1-fading)))
	}
	return ink * min(1, 1.5*dark) * 0.85
}

// lay is how much of a pixel a line covers whose middle is so many pixels away; one
// thinner than a pixel is paler instead.
func lay(off, half float32) float32 {
	return held(half+0.5-off, 0, 1) * held(2*half, 0, 1)
}

// woven is how light the cloth's threads are at a place, where the eye is near enough to
// tell them apart: plain weave, over one and under one.
func (t *Sheet) woven(along, step, out, down float32) float32 {
	mm := float32(t.Weave_mm)
	near := min(max((mm/max(step, down)-2)/4, 0), 1) // pixels a thread: from 2 on, 6 in full
	if near == 0 {
		return 1
	}
	u, v := float64(along/mm), float64(out/mm)
	over := float32(math.Cos(math.Pi*u) * math.Cos(math.Pi*v))
	edge := float32(math.Abs(math.Sin(math.Pi*u)) * math.Abs(math.Sin(math.Pi*v)))
	return 1 - near*(0.05*(1-edge)-0.025*over*over)
}

func level(shine float32) int { return int(held(shine, 0, 1)*255 + 0.5) }

// mix is a with the part t of b over it.
func mix(a, b color.NRGBA, t float32) color.NRGBA {
	if t <= 0 {
		return a
	}
	k := int32(min(t, 1)*256 + 0.5)
	f := func(x, y uint8) uint8 { return uint8((int32(x)*(256-k) + int32(y)*k + 128) >> 8) }
	return color.NRGBA{R: f(a.R, b.R), G: f(a.G, b.G), B: f(a.B, b.B), A: 255}
}
