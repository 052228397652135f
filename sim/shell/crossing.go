package shell

import "math"

// Crossing is where a sheet passes through itself or its turned image.
type Crossing struct {
	// I, J is the node where the grid edge that pierces begins, AtI, AtJ the cell
	// it pierces; AtI counts on into the images of a round sheet, below 0 and above
	// the last line.
	I, J, AtI, AtJ int
	// Deep_mm is how far the nearer end of the edge lies beyond the cell's surface.
	Deep_mm float64
}

// Crossings returns the grid edges of a shape that pierce a cell of the sheet,
// or, of a round one, of its images before and after, by more than deep mm.
// Each cell stands for its two triangles. Edges and cells that are no farther
// apart than one line share nodes and are left out. Within a sheet that was never
// torn an odd number of layers exchanged shows as at least one such edge.
func (s *Sheet) Crossings(x []float64, deep float64) (list []Crossing) {
	n, nv := len(s.U), len(s.V)-1
	point := func(i, j int) [3]float64 { return s.Place(x, i, j) }
	from, to := 0, n-1
	if s.Round != nil {
		from, to = -n, 2*n
	}
	type box struct{ lo, hi [3]float64 }
	around := func(p ...[3]float64) (b box) {
		b.lo, b.hi = p[0], p[0]
		for _, q := range p[1:] {
			for r := range 3 {
				b.lo[r], b.hi[r] = min(b.lo[r], q[r]), max(b.hi[r], q[r])
			}
		}
		return
	}
	apart := func(a, b *box) bool {
		for r := range 3 {
			if a.lo[r] > b.hi[r] || b.lo[r] > a.hi[r] {
				return true
			}
		}
		return false
	}
	type quad struct {
		i, j int
		p    [4][3]float64
		box  box
	}
	rows := make([][]quad, 0, to-from)
	whole := make([]box, 0, to-from)
	for i := from; i < to; i++ {
		row := make([]quad, nv)
		for j := range row {
			q := quad{i: i, j: j, p: [4][3]float64{point(i, j), point(i+1, j), point(i, j+1), point(i+1, j+1)}}
			q.box = around(q.p[:]...)
			row[j] = q
		}
		b := row[0].box
		for j := range row {
			b = around(b.lo, b.hi, row[j].box.lo, row[j].box.hi)
		}
		rows, whole = append(rows, row), append(whole, b)
	}
	last := n
	if s.Round == nil {
		last = n - 1
	}
	for i := range n {
		for j := range nv + 1 {
			for _, step := range [2][2]int{{1, 0}, {0, 1}} {
				i2, j2 := i+step[0], j+step[1]
				if i2 > last || j2 > nv {
					continue
				}
				a, b := point(i, j), point(i2, j2)
				e := around(a, b)
				for r, row := range rows {
					if c := from + r; c+1 >= i-1 && c <= i2+1 || apart(&e, &whole[r]) {
						continue
					}
					for k := range row {
						q := &row[k]
						if apart(&e, &q.box) {
							continue
						}
						d := math.Max(pierce(a, b, q.p[0], q.p[1], q.p[2]), pierce(a, b, q.p[3], q.p[2], q.p[1]))
						if d > deep {
							list = append(list, Crossing{i, j, q.i, q.j, d})
						}
					}
				}
			}
		}
	}
	return list
}

// Place returns the position in a shape, mm, of node (i, j), i counted on into the
// images of a round sheet: below 0 and above the last line.
func (s *Sheet) Place(x []float64, i, j int) [3]float64 {
	n := len(s.U)
	turns := 0
	for i < 0 {
		i, turns = i+n, turns-1
	}
	for i >= n {
		i, turns = i-n, turns+1
	}
	p := [3]float64(x[3*s.Node(i, j):])
	for ; turns > 0; turns-- {
		p = apply(s.Round.Turn, p)
		for r := range 3 {
			p[r] += s.Round.Shift[r]
		}
	}
	for ; turns < 0; turns++ {
		for r := range 3 {
			p[r] -= s.Round.Shift[r]
		}
		p = apply(transposed(s.Round.Turn), p)
	}
	return p
}

// pierce returns how far beyond the triangle p, q, r the nearer of the ends a and
// b lies, 0 if the segment does not go through it.
func pierce(a, b, p, q, r [3]float64) float64 {
	m := cross(sub(q, p), sub(r, p))
	l := norm(m)
	if l == 0 {
		return 0
	}
	da, db := dot3(m, sub(a, p))/l, dot3(m, sub(b, p))/l
	if da*db >= 0 {
		return 0
	}
	t := da / (da - db)
	var z [3]float64
	for k := range 3 {
		z[k] = a[k] + t*(b[k]-a[k])
	}
	for _, e := range [3][2][3]float64{{p, q}, {q, r}, {r, p}} {
		if dot3(m, cross(sub(e[1], e[0]), sub(z, e[0]))) < 0 {
			return 0
		}
	}
	return math.Min(math.Abs(da), math.Abs(db))
}

// sub is kept out of line: the solver's program counts its bytes.
//
//go:noinline
func sub(a, b [3]float64) [3]float64 { return [3]float64{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
