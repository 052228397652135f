package shell

import "math"

// Crossing is where a sheet passes through itself or one of its images.
type Crossing struct {
	// I, J is the node where the grid edge that pierces begins, AtI, AtJ the cell
	// it pierces; AtI counts on into the images, below 0 and above the last line.
	I, J, AtI, AtJ int
	// Deep_mm is how far the nearer end of the edge lies beyond the cell's surface.
	Deep_mm float64
}

// Quad is a cell of a sheet or of its images in a shape.
type Quad struct {
	I, J    int           // its first node; I counts on into the images
	P       [4][3]float64 // its nodes (I, J), (I+1, J), (I, J+1), (I+1, J+1), mm
	Corners [4]int32      // the same as Sheet.Corner numbers them
	Box
}

// Triangles are the two that stand for the cell, by their corners.
func (q *Quad) Triangles() [2][3]int32 {
	c := &q.Corners
	return [2][3]int32{{c[0], c[1], c[2]}, {c[3], c[2], c[1]}}
}

// Box is a box along x, y and z.
type Box struct{ Lo, Hi [3]float64 }

func around(p ...[3]float64) (b Box) {
	b.Lo, b.Hi = p[0], p[0]
	for _, q := range p[1:] {
		for r := range 3 {
			b.Lo[r], b.Hi[r] = min(b.Lo[r], q[r]), max(b.Hi[r], q[r])
		}
	}
	return
}

// apart reports that two boxes have no place in common.
func (b *Box) apart(c *Box) bool {
	for r := range 3 {
		if b.Lo[r] > c.Hi[r] || c.Lo[r] > b.Hi[r] {
			return true
		}
	}
	return false
}

// Distance is how far p is from the box, mm; 0 inside.
func (b *Box) Distance(p [3]float64) float64 {
	s := 0.0
	for r := range 3 {
		d := max(b.Lo[r]-p[r], p[r]-b.Hi[r], 0)
		s += d * d
	}
	return math.Sqrt(s)
}

// Quads returns the cells between grid lines from and to of a shape, line by line,
// counted on into the images as far as Corner does; beyond a free edge there are
// none.
func (s *Sheet) Quads(x []float64, from, to int) (rows [][]Quad) {
	for i := from; i < to; i++ {
		row := make([]Quad, 0, len(s.V)-1)
		for j := range len(s.V) - 1 {
			q, all := Quad{I: i, J: j}, true
			for m := range q.P {
				c, ok := s.Corner(i+m&1, j+m>>1)
				if all = all && ok; all {
					q.P[m], q.Corners[m] = s.place(x, c), int32(c)
				}
			}
			if q.Box = around(q.P[:]...); all {
				row = append(row, q)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// Crossings returns the grid edges of a shape that pierce a cell of the sheet or
// of its images by more than deep mm. Each cell stands for its two triangles.
// Edges and cells that are no farther apart than one line share nodes and are left
// out. Within a sheet that was never torn an odd number of layers exchanged shows
// as at least one such edge.
func (s *Sheet) Crossings(x []float64, deep float64) (list []Crossing) {
	n := len(s.U)
	rows := s.Quads(x, 1-n, 2*n-2)
	whole := make([]Box, len(rows))
	for r, row := range rows {
		if len(row) > 0 {
			whole[r] = row[0].Box
		}
		for k := range row {
			whole[r] = around(whole[r].Lo, whole[r].Hi, row[k].Lo, row[k].Hi)
		}
	}
	pierced := func(i, j int, a, b [3]float64, last int) {
		e := around(a, b)
		for r, row := range rows {
			if c := r + 1 - n; c+1 >= i-1 && c <= last+1 || len(row) == 0 || e.apart(&whole[r]) {
				continue
			}
			for k := range row {
				q := &row[k]
				if e.apart(&q.Box) {
					continue
				}
				d := math.Max(pierce(a, b, q.P[0], q.P[1], q.P[2]), pierce(a, b, q.P[3], q.P[2], q.P[1]))
				if d > deep {
					list = append(list, Crossing{i, j, q.I, q.J, d})
				}
			}
		}
	}
	for i := range n {
		for j := range s.V {
			a := s.place(x, s.Node(i, j))
			if c, ok := s.Corner(i+1, j); ok {
				pierced(i, j, a, s.place(x, c), i+1)
			}
			if j+1 < len(s.V) {
				pierced(i, j, a, s.place(x, s.Node(i, j+1)), i)
			}
		}
	}
	return list
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
