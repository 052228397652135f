package figure

import (
	"ruffwright/geom"
	"ruffwright/geom/pleat"
)

// cloth is the whole strip of a shape as one grid: columns along the strip,
// the panels joined at their marks, rows from the inner edge to the outer.
type cloth struct {
	cols, rows int         // nodes
	per        int         // cells a panel along the strip
	v          []geom.Vec3 // node (c, j) at c*rows + j
	dye        []float64   // of each node; nil: not dyed
}

func (c *cloth) at(col, row int) geom.Vec3 { return c.v[col*c.rows+row] }

// newCloth joins the panels first to last (last excluded).
func newCloth(shape pleat.Shape, first, last int) cloth {
	n := last - first
	c := cloth{cols: n*shape.NU + 1, rows: shape.NV + 1, per: shape.NU}
	c.v = make([]geom.Vec3, c.cols*c.rows)
	for k := range n {
		for i, v := range shape.Panels[first+k].V {
			to := k*shape.NU*c.rows + i
			if i < c.rows && k > 0 { // the mark that two panels share
				v = v.Lerp(c.v[to], 0.5)
			}
			c.v[to] = v
		}
	}
	return c
}

// refine gives the cloth with n cells along the strip for one, by the cubic curves that
// light draws it by, for views that enlarge.
func (c *cloth) refine(n int) cloth {
	f := cloth{cols: (c.cols-1)*n + 1, rows: c.rows, per: c.per * n}
	f.v = make([]geom.Vec3, f.cols*f.rows)
	if c.dye != nil {
		f.dye = make([]float64, len(f.v))
	}
	line := make([]geom.Vec3, c.cols)
	for j := range c.rows {
		for col := range line {
			line[col] = c.at(col, j)
		}
		for col, v := range spline(line, n) {
			f.v[col*f.rows+j] = v
		}
		for col := range f.cols {
			if f.dye != nil {
				k, part := min(col/n, c.cols-2), float64(col)/float64(n)
				part -= float64(k)
				at := k*c.rows + j
				f.dye[col*f.rows+j] = c.dye[at] + (c.dye[at+c.rows]-c.dye[at])*part
			}
		}
	}
	return f
}

// part is the cloth of the panels from one of its own to another, which is left out.
func (c *cloth) part(from, to int) cloth {
	p := cloth{cols: (to-from)*c.per + 1, rows: c.rows, per: c.per}
	first, n := from*c.per*c.rows, p.cols*p.rows
	p.v = c.v[first:][:n]
	if c.dye != nil {
		p.dye = c.dye[first:][:n]
	}
	return p
}

func clamp(x, lo, hi float64) float64 { return max(lo, min(hi, x)) }
