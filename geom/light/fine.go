package light

import (
	"math"

	"ruffwright/geom"
)

// fine is what of a scene is drawn: the part of its sheets that may be seen in the
// window, refined until their curves are smooth there, as the camera sees it.
type fine struct {
	x, y  []float32 // of every node: where it lies, pixels of the window
	q     []float32 // how near it is: Camera.depth
	turn  []float32 // cosine between the normal and the way to the eye
	front []float32 // how bright it is, 0 to 1, seen from the side that its normal points to
	back  []float32 // and from the other
	pick  []float32 // which of the sheet's tints
	along []float32 // mm along the strip, for hatching and weave
	out   []float32 // mm from the first row
	step  []float32 // how much along changes from pixel to pixel, mm
	down  []float32 // how much out does

	patches []patch
	cells   []cell
	round   []float32 // of every sheet that closes: how far it is once round, mm; of others 0
}

// patch is a run of a sheet's columns, a grid of nodes from first on.
type patch struct {
	sheet, first int
	cols, rows   int
	col          int // of the sheet, in which it begins
	lastCol      int // of the sheet, in which it ends
	n, m         int // cells for one of the sheet's, along its columns and along its rows
}

// cell is four nodes: a, its neighbour a + rows in the next column, and those after
// them in the row.
type cell struct {
	a     uint32
	rows  uint16
	sheet uint16
}

// triangle gives the nodes of the triangle t: two to a cell.
func (f *fine) triangle(t uint32) (a, b, c uint32, sheet int) {
	e := f.cells[t>>1]
	across := e.a + uint32(e.rows)
	if t&1 == 0 {
		return e.a, across, across + 1, int(e.sheet)
	}
	return e.a, across + 1, e.a + 1, int(e.sheet)
}

// Limits of refinement: cells for one of the sheet's, and nodes in all.
const (
	mostAlong  = 8
	mostAcross = 4
	mostNodes  = 400000
)

// refine gives the scene as the camera sees it in the window. A curve is followed to
// flat pixels (0: as the sheet's own nodes have it).
func (s *Scene) refine(c *Camera, w window, flat float64) *fine {
	f := &fine{round: make([]float32, len(s.Sheets))}
	for i := range s.Sheets {
		t := &s.Sheets[i]
		if t.Ring {
			f.round[i] = t.lengths()[t.Cols-1]
		}
		for _, run := range t.seen(c, w) {
			n, m := 1, 1
			if flat > 0 {
				n, m = t.smooth(run, c, w, flat)
			}
			for (run[1]-run[0])*n*(t.Rows-1)*m+len(f.x) > mostNodes && n*m > 1 {
				n, m = max(1, n-1), max(1, m-1)
			}
			f.add(t, i, run, n, m)
			f.place(t, c, w)
		}
	}
	return f
}

// seen gives the runs of a sheet's columns, from one node to another, that may be seen
// in the window.
func (t *Sheet) seen(c *Camera, w window) (runs [][2]int) {
	const edge = 4 // pixels about the window: lines are wide, and curves leave their chords
	out := func(col int) (sides int) {
		sides = 15
		for r := range t.Rows {
			x, y, _ := c.See(t.V[col*t.Rows+r])
			px, py := w.at(x, y)
			sides &= beyond(px, py, w, edge)
		}
		return sides
	}
	was := out(0)
	for col := 1; col < t.Cols; col++ {
		is := out(col)
		if was&is == 0 {
			if n := len(runs); n > 0 && runs[n-1][1] == col-1 {
				runs[n-1][1] = col
			} else {
				runs = append(runs, [2]int{col - 1, col})
			}
		}
		was = is
	}
	return runs
}

// beyond names the sides of the window that a place lies beyond.
func beyond(x, y float32, w window, edge float32) (sides int) {
	if x < -edge {
		sides |= 1
	}
	if x > float32(w.w)+edge {
		sides |= 2
	}
	if y < -edge {
		sides |= 4
	}
	if y > float32(w.h)+edge {
		sides |= 8
	}
	return sides
}

// smooth says how many cells are needed for one of the sheet's so that chords leave
// the curves by at most flat pixels.
func (t *Sheet) smooth(run [2]int, c *Camera, w window, flat float64) (n, m int) {
	// An arc leaves its chord by an eighth of the second difference.
	var along, across float64
	for col := run[0]; col <= run[1]; col++ {
		for r := range t.Rows {
			v := t.V[col*t.Rows+r]
			if a, b, ok := t.beside(col, r); ok {
				along = max(along, v.Scale(2).Sub(a).Sub(b).Norm())
			}
			if r > 0 && r < t.Rows-1 {
				across = max(across, v.Scale(2).Sub(t.V[col*t.Rows+r-1]).Sub(t.V[col*t.Rows+r+1]).Norm())
			}
		}
	}
	k := c.Scale * w.px / 8 / flat
	return int(clamp(math.Ceil(math.Sqrt(along*k)), 1, mostAlong)), int(clamp(math.Ceil(math.Sqrt(across*k)), 1, mostAcross))
}

// beside gives the nodes before and after one in its row; ok is false at an end.
func (t *Sheet) beside(col, r int) (a, b geom.Vec3, ok bool) {
	before, after := col-1, col+1
	if t.Ring {
		if before < 0 {
			before = t.Cols - 2
		}
		if after >= t.Cols {
			after = 1
		}
	}
	if before < 0 || after >= t.Cols {
		return a, b, false
	}
	return t.V[before*t.Rows+r], t.V[after*t.Rows+r], true
}

// add appends the nodes of a run of columns and its cells.
func (f *fine) add(t *Sheet, sheet int, run [2]int, n, m int) {
	p := patch{
		sheet: sheet, first: len(f.x), cols: (run[1]-run[0])*n + 1, rows: (t.Rows-1)*m + 1,
		col: run[0], lastCol: run[1], n: n, m: m,
	}
	f.patches = append(f.patches, p)
	total := p.first + p.cols*p.rows
	for _, list := range []*[]float32{&f.x, &f.y, &f.q, &f.turn, &f.front, &f.back, &f.pick, &f.along, &f.out, &f.step, &f.down} {
		*list = append(*list, make([]float32, total-len(*list))...)
	}
	for col := range p.cols - 1 {
		for r := range p.rows - 1 {
			f.cells = append(f.cells, cell{uint32(p.first + col*p.rows + r), uint16(p.rows), uint16(sheet)})
		}
	}
}

// frame is a place of a surface with its two tangents: along the columns and along the rows.
type frame struct{ v, along, across geom.Vec3 }

// place works out the nodes of the last patch as the camera sees them. Between the nodes
// the surface is made of cubics through them either way (cubic).
func (f *fine) place(t *Sheet, c *Camera, w window) {
	p := f.patches[len(f.patches)-1]
	lines := map[int][]frame{} // of the sheet's columns: refined along their rows
	wide, tall := t.gaps()
	line := func(col int) []frame {
		if known, ok := lines[col]; ok {
			return known
		}
		made := t.line(col, p.m, tall)
		lines[col] = made
		delete(lines, col-4)
		return made
	}
	long := t.lengths()
	for i := range p.cols {
		col, part := p.col+i/p.n, float64(i%p.n)/float64(p.n)
		var four [4][]frame
		if part > 0 {
			four = [4][]frame{line(col - 1), line(col), line(col + 1), line(col + 2)}
		} else {
			four = [4][]frame{line(col - 1), line(col), line(col + 1)}
		}
		ahead := long[col]
		if part > 0 {
			ahead += (long[col+1] - long[col]) * float32(part)
		}
		weights, slopes := cubic(wide.at(col-1), wide.at(col), wide.at(col+1), part)
		for r := range p.rows {
			var at frame
			if part > 0 {
				for k, l := range four {
					g := &l[r]
					at.v = at.v.Add(g.v.Scale(weights[k]))
					at.along = at.along.Add(g.v.Scale(slopes[k]))
					at.across = at.across.Add(g.across.Scale(weights[k]))
				}
			} else {
				at = four[1][r]
				for k, l := range four[:3] {
					at.along = at.along.Add(l[r].v.Scale(slopes[k]))
				}
			}
			k := p.first + i*p.rows + r
			f.see(k, at, c, w)
			f.along[k] = ahead
		}
	}
	f.carry(t, p)
	if t.Hatch_mm > 0 || t.Weave_mm > 0 {
		f.slopes(p)
	}
}

// slopes works out how much the strip's two ways change from pixel to pixel.
func (f *fine) slopes(p patch) {
	for i := range p.cols {
		for r := range p.rows {
			k := p.first + i*p.rows + r
			a, b, c, d := k, k, k, k
			if i > 0 {
				a -= p.rows
			}
			if i < p.cols-1 {
				b += p.rows
			}
			if r > 0 {
				c--
			}
			if r < p.rows-1 {
				d++
			}
			ux, uy, vx, vy := f.x[b]-f.x[a], f.y[b]-f.y[a], f.x[d]-f.x[c], f.y[d]-f.y[c]
			area := float32(math.Abs(float64(ux*vy-uy*vx))) + 1e-6
			f.step[k] = (f.along[b] - f.along[a]) * float32(math.Hypot(float64(vx), float64(vy))) / area
			f.down[k] = (f.out[d] - f.out[c]) * float32(math.Hypot(float64(ux), float64(uy))) / area
		}
	}
}

// see puts one node onto the window.
func (f *fine) see(k int, at frame, c *Camera, w window) {
	x, y, near := c.See(at.v)
	f.x[k], f.y[k] = w.at(x, y)
	f.q[k] = float32(c.depth(near))
	normal := at.along.Cross(at.across)
	if l := normal.Dot(normal); l > 0 {
		f.turn[k] = float32(normal.Dot(c.From(at.v)) / math.Sqrt(l))
	}
}

// carry gives the nodes of a patch what varies slowly: tint, and how far out they lie.
func (f *fine) carry(t *Sheet, p patch) {
	outs := t.outs()
	for i := range p.cols {
		for r := range p.rows {
			k := p.first + i*p.rows + r
			row, part := r/p.m, float32(r%p.m)/float32(p.m)
			f.out[k] = outs[row]
			if part > 0 {
				f.out[k] += (outs[row+1] - outs[row]) * part
			}
			if t.Pick != nil {
				f.pick[k] = t.between(t.Pick, p, i, r)
			}
		}
	}
}

// between is a value of the sheet's nodes at a node of a patch.
func (t *Sheet) between(values []float32, p patch, i, r int) float32 {
	col, u := p.col+i/p.n, float32(i%p.n)/float32(p.n)
	row, v := r/p.m, float32(r%p.m)/float32(p.m)
	at := func(c, r int) float32 { return values[min(c, t.Cols-1)*t.Rows+min(r, t.Rows-1)] }
	x := at(col, row)
	if u > 0 {
		x += (at(col+1, row) - x) * u
	}
	if v > 0 {
		y := at(col, row+1)
		if u > 0 {
			y += (at(col+1, row+1) - y) * u
		}
		x += (y - x) * v
	}
	return x
}

// line is a column of nodes, with m cells for one of the sheet's. Beyond the ends
// columns go on as they came.
func (t *Sheet) line(col, m int, tall gaps) []frame {
	node := func(r int) geom.Vec3 { return t.node(col, r) }
	out := make([]frame, (t.Rows-1)*m+1)
	for i := range out {
		r, part := i/m, float64(i%m)/float64(m)
		a, b, c := node(r-1), node(r), node(r+1)
		w, s := cubic(tall.at(r-1), tall.at(r), tall.at(r+1), part)
		if part == 0 {
			out[i] = frame{v: b, across: a.Scale(s[0]).Add(b.Scale(s[1])).Add(c.Scale(s[2]))}
			continue
		}
		d := node(r + 2)
		out[i].v = a.Scale(w[0]).Add(b.Scale(w[1])).Add(c.Scale(w[2])).Add(d.Scale(w[3]))
		out[i].across = a.Scale(s[0]).Add(b.Scale(s[1])).Add(c.Scale(s[2])).Add(d.Scale(s[3]))
	}
	return out
}

// node is the sheet's, and what would come before its first and after its last.
func (t *Sheet) node(col, r int) geom.Vec3 {
	last := t.Cols - 1
	switch {
	case t.Ring && col < 0:
		col += last
	case t.Ring && col > last:
		col -= last
	case col < 0:
		return t.node(0, r).Scale(2).Sub(t.node(-col, r))
	case col > last:
		return t.node(last, r).Scale(2).Sub(t.node(2*last-col, r))
	}
	switch {
	case r < 0:
		return t.V[col*t.Rows].Scale(2).Sub(t.V[col*t.Rows-r])
	case r > t.Rows-1:
		return t.V[(col+1)*t.Rows-1].Scale(2).Sub(t.V[col*t.Rows+2*(t.Rows-1)-r])
	}
	return t.V[col*t.Rows+r]
}

// lengths is how far each column lies along the last row, mm.
func (t *Sheet) lengths() []float32 {
	out := make([]float32, t.Cols+1)
	far := 0.0
	for col := 1; col < t.Cols; col++ {
		far += t.V[(col+1)*t.Rows-1].Sub(t.V[col*t.Rows-1]).Norm()
		out[col] = float32(far)
	}
	out[t.Cols] = out[t.Cols-1]
	return out
}

// outs is how far each row lies from the first, mm, on the middle column.
func (t *Sheet) outs() []float32 {
	out := make([]float32, t.Rows+1)
	far, mid := 0.0, t.Cols/2*t.Rows
	for r := 1; r < t.Rows; r++ {
		far += t.V[mid+r].Sub(t.V[mid+r-1]).Norm()
		out[r] = float32(far)
	}
	out[t.Rows] = out[t.Rows-1]
	return out
}

func clamp(x, lo, hi float64) float64 { return max(lo, min(hi, x)) }
