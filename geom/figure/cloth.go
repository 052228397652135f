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
