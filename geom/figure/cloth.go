package figure

import (
	"math"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
)

// cloth is the whole strip of a shape as one grid: columns along the strip,
// the panels joined at their marks, rows from the inner edge to the outer.
type cloth struct {
	cols, rows int         // nodes
	per        int         // cells a panel along the strip
	v          []geom.Vec3 // node (c, j) at c*rows + j
	lo, hi     []float64   // least and greatest z of each row
	dye        []float64   // of each node; nil: not dyed
}

func (c *cloth) at(col, row int) geom.Vec3 { return c.v[col*c.rows+row] }

// newCloth joins the panels first to last (last excluded), thinned to at most
// most cells.
func newCloth(shape pleat.Shape, first, last, most int) cloth {
	nu, nv := shape.NU, shape.NV
	n := last - first
	// The lines from neck to outer edge are nearly straight, the folds are round:
	// rows go first.
	for n*nu*nv > most && (nu > 6 || nv > 3) {
		if nv > 3 && (nv > nu/4 || nu <= 6) {
			nv--
		} else {
			nu--
		}
	}
	c := cloth{cols: n*nu + 1, rows: nv + 1, per: nu}
	c.v = make([]geom.Vec3, c.cols*c.rows)
	for k := range n {
		p := shape.Panels[first+k].V
		for i := 0; i <= nu; i++ {
			from := (i*shape.NU + nu/2) / nu * (shape.NV + 1)
			to := (k*nu + i) * c.rows
			for j := 0; j <= nv; j++ {
				v := p[from+(j*shape.NV+nv/2)/nv]
				if i == 0 && k > 0 { // the mark that two panels share
					v = v.Lerp(c.v[to+j], 0.5)
				}
				c.v[to+j] = v
			}
		}
	}
	c.lo, c.hi = make([]float64, c.rows), make([]float64, c.rows)
	for j := range c.rows {
		c.lo[j], c.hi[j] = math.Inf(1), math.Inf(-1)
		for col := range c.cols {
			z := c.at(col, j).Z
			c.lo[j], c.hi[j] = min(c.lo[j], z), max(c.hi[j], z)
		}
	}
	return c
}

// normal is the unit normal at a node by central differences; zero where the
// surface has none.
func (c *cloth) normal(col, row int) geom.Vec3 {
	i := col*c.rows + row
	a, b, p, q := i, i, i, i
	if col > 0 {
		a -= c.rows
	}
	if col < c.cols-1 {
		b += c.rows
	}
	if row > 0 {
		p--
	}
	if row < c.rows-1 {
		q++
	}
	n := c.v[b].Sub(c.v[a]).Cross(c.v[q].Sub(c.v[p]))
	l := n.Dot(n)
	if l == 0 {
		return geom.Vec3{}
	}
	return n.Scale(1 / math.Sqrt(l))
}

// dress says how cloth is painted.
type dress struct {
	pal      draw.Palette
	selected func(col int) bool // tinted woad; nil = none
	hatch    float64            // sheet mm between hatching lines along the strip, about; 0 = none
	inner    bool               // a faint line along the inner edge
	tone     *toned             // of cloth that is dyed
}

// paint adds the cloth to the body: lit faces, hatching where it is dark, the
// outlines of folds and the hem.
//
// The light falls from the sheet's upper left, over the eye's shoulder; the
// side turned to the eye is lit, whichever it is. Deep places (towards the
// neck, and below the crests as the eye sees them) lie in shade.
func (c *cloth) paint(b *draw.Body, e *draw.Eye, d dress) {
	light := e.Light()
	base := uint32(len(b.Vertices))
	n := c.cols * c.rows
	bright := make([]float32, n)
	plain, tinted := d.pal.Ramp()
	rows := c.shades(e.Scale)
	for col := range c.cols {
		ramp := &plain
		if d.selected != nil && d.selected(col) {
			ramp = &tinted
		}
		for j := range c.rows {
			i := col*c.rows + j
			v := c.v[i]
			nrm := c.normal(col, j)
			to := e.Toward
			if e.Far != 0 {
				to = e.From(v)
			}
			t := nrm.Dot(light)
			if nrm.Dot(to) < 0 {
				t = -t
			}
			t = 0.5 + 0.5*t
			t *= t
			// How deep the place lies below the crests, for this eye.
			low := (v.Z - rows[j].lo) * rows[j].perHeight
			side := -to.Z
			if to.Z > 0 {
				low, side = 1-low, to.Z
			}
			deep := side*low*0.55 + rows[j].inward*0.45
			t = clamp((0.17+0.89*t)*(1-deep), 0, 1)
			bright[i] = float32(t)
			p, z := e.See(v)
			tint := ramp[int(t*255+0.5)]
			if d.tone != nil {
				tint = d.tone.color(c.dye[i], t)
			}
			b.Vertices = append(b.Vertices, draw.Vertex{X: float32(p.X), Y: float32(p.Y), Z: float32(z), Color: tint})
		}
	}
	// Hatching follows the lines from neck to outer edge, evenly along the
	// cloth: every so many columns, or several lines within a cell.
	step, lines, most := 0.0, 1, 0.0
	if d.hatch > 0 {
		var long float64
		for col := 1; col < c.cols; col++ {
			long += c.at(col, c.rows-1).Sub(c.at(col-1, c.rows-1)).Norm()
		}
		if cell := long / float64(c.cols-1) * e.Scale; cell > 0 {
			step = math.Max(1, d.hatch/cell)
			lines = int(clamp(math.Round(cell/d.hatch), 1, 12))
			most = math.Min(0.5, 0.27/cell)
		}
	}
	thin := 0.13 * float32(clamp(0.3+0.6*e.Scale, 0.4, 1)) // half of a line between two steps of a dye
	turns := make([]bool, c.rows-1)
	for col := 0; col < c.cols-1; col++ {
		lined := step > 0 && math.Floor(float64(col)/step) != math.Floor(float64(col-1)/step)
		for j := 0; j < c.rows-1; j++ {
			i := uint32(col*c.rows + j)
			q := [4]uint32{base + i, base + i + uint32(c.rows), base + i + uint32(c.rows) + 1, base + i + 1}
			va, vb, vc, vd := b.Vertices[q[0]], b.Vertices[q[1]], b.Vertices[q[2]], b.Vertices[q[3]]
			first := len(b.Triangles)
			b.Triangles = append(b.Triangles, q[0], q[1], q[2], q[0], q[2], q[3])
			if lined {
				d0, d1 := hatchDark(bright[i])*rows[j].line, hatchDark(bright[i+1])*rows[j+1].line
				ink := d.pal.Hatch
				if d.tone != nil {
					ink, d0, d1 = d.tone.ink, dense(c.dye[i]), dense(c.dye[i+1])
				}
				if d0 > 0 || d1 > 0 {
					for k := range lines {
						b.Hatch(va, vb, vc, vd, float32(k)/float32(lines), [2]float32{d0, d1}, float32(most), ink)
					}
				}
			}
			if d.tone != nil {
				at := [4]float64{c.dye[i], c.dye[i+uint32(c.rows)], c.dye[i+uint32(c.rows)+1], c.dye[i+1]}
				isolines(b, [4]draw.Vertex{va, vb, vc, vd}, at, thin, d.tone.ink)
			}
			// The outline of a fold: here the cloth turns its other side.
			turned := (vb.X-va.X)*(vd.Y-va.Y)-(vb.Y-va.Y)*(vd.X-va.X) > 0
			if col > 0 && turned != turns[j] {
				b.Ribbon(va, vd, 0.1*rows[j].line, 0.1*rows[j+1].line, 0.25, d.pal.Hatch)
			}
			turns[j] = turned
			if j == c.rows-2 { // the hem
				w := 0.13 * rows[j+1].line
				b.Ribbon(vd, vc, w, w, 0.3, d.pal.Hatch)
			}
			if j == 0 && d.inner {
				w := 0.07 * rows[0].line
				b.Ribbon(va, vb, w, w, 0.3, d.pal.Hatch)
			}
			if col == 0 || col == c.cols-2 { // the strip's ends
				s, t := va, vd
				if col > 0 {
					s, t = vb, vc
				}
				b.Ribbon(s, t, 0.13, 0.13, 0.3, d.pal.Hatch)
			}
			b.Face(first, (va.Z+vb.Z+vc.Z+vd.Z)/4)
		}
	}
}

// shade is what a row's nodes have in common for the light.
type shade struct {
	lo, perHeight float64 // (z − lo)·perHeight is 0 at the row's lowest node, 1 at its highest
	inward        float64 // 0 at the outer edge to 1 at the neck, squared
	line          float32 // how full outlines are drawn: less where folds crowd on the sheet
}

func (c *cloth) shades(scale float64) []shade {
	rows := make([]shade, c.rows)
	for j := range rows {
		in := 1 - float64(j)/float64(c.rows-1)
		rows[j] = shade{lo: c.lo[j] - 0.5, perHeight: 1, inward: in * in}
		// Room that a panel takes on the sheet, mm; 2 and more: full lines.
		var room float64
		for col := c.per; col < c.cols; col += c.per {
			room += c.at(col, j).XY().Sub(c.at(col-c.per, j).XY()).Norm()
		}
		room *= scale * float64(c.per) / float64(c.cols-1)
		rows[j].line = float32(clamp(room/2, 0.25, 1))
		if h := c.hi[j] - c.lo[j]; h > 1e-6 {
			rows[j].lo, rows[j].perHeight = c.lo[j], 1/h
		}
	}
	return rows
}

// hatchDark swells an engraver's line with the dark: nothing in the light, 1 in
// full shade.
func hatchDark(bright float32) float32 {
	return min(1, max(0, (0.46-bright)/0.38))
}

// refine gives the cloth with n cells along the strip for one, by cubic curves
// through the nodes (Catmull and Rom's), for views that enlarge.
func (c *cloth) refine(n int) cloth {
	f := cloth{cols: (c.cols-1)*n + 1, rows: c.rows, per: c.per * n, lo: c.lo, hi: c.hi}
	f.v = make([]geom.Vec3, f.cols*f.rows)
	if c.dye != nil {
		f.dye = make([]float64, len(f.v))
	}
	for col := range f.cols {
		k, part := col/n, float64(col%n)/float64(n)
		if k == c.cols-1 {
			k, part = k-1, 1
		}
		for j := range c.rows {
			b, d := c.at(k, j), c.at(k+1, j)
			// Beyond the ends the curve goes on as it came.
			a, e := b.Scale(2).Sub(d), d.Scale(2).Sub(b)
			if k > 0 {
				a = c.at(k-1, j)
			}
			if k+2 < c.cols {
				e = c.at(k+2, j)
			}
			t, t2, t3 := part, part*part, part*part*part
			v := b.Scale(2).Add(d.Sub(a).Scale(t)).
				Add(a.Scale(2).Sub(b.Scale(5)).Add(d.Scale(4)).Sub(e).Scale(t2)).
				Add(b.Scale(3).Sub(a).Sub(d.Scale(3)).Add(e).Scale(t3))
			f.v[col*f.rows+j] = v.Scale(0.5)
			if f.dye != nil {
				at := k*c.rows + j
				f.dye[col*f.rows+j] = c.dye[at] + (c.dye[at+c.rows]-c.dye[at])*part
			}
		}
	}
	return f
}

func clamp(x, lo, hi float64) float64 { return max(lo, min(hi, x)) }

// body is an empty body with room for a whole ruff's cloth, what 40 sets take
// hatched all over: of the drawing that may be used up, or new.
func (o Options) body(c cloth) *draw.Body {
	b, n := o.Again.Reuse(), c.cols*c.rows
	b.Grow(n*6+12000, n*14+24000, n+6000)
	return b
}
