package window

// carry brings a half set's shape on another grid onto this one: along each line by the
// cubic through four of its nodes, along the strip never across a tuck's point, where
// the cloth is creased. What is sewn is put back on its places.
func (f *frame) carry(from *frame, shape []float64) []float64 {
	p, was := f.panels[0], from.panels[0]
	n, m := len(f.v), len(from.v)
	across := make([]float64, 3*len(was.u)*n) // the old lines along u, the new ones along v
	for i := range was.u {
		for j, v := range f.v {
			weigh(from.v, v, func(k int, w float64) {
				for r := range 3 {
					across[3*(i*n+j)+r] += w * shape[3*(i*m+k)+r]
				}
			})
		}
	}
	x := make([]float64, 3*len(p.u)*n)
	parts := [][3]int{{0, p.ic, 0}, {p.ic, p.it, was.ic}, {p.it, len(p.u) - 1, was.it}}
	ends := []int{was.ic, was.it, len(was.u) - 1}
	for k, part := range parts {
		old := was.u[part[2] : ends[k]+1]
		for i := part[0]; i <= part[1]; i++ {
			if len(old) < 2 { // no tuck: the fold is on no line of its own
				continue
			}
			for j := range f.v {
				at := x[3*(i*n+j):][:3]
				clear(at)
				weigh(old, p.u[i], func(q int, w float64) {
					for r := range at {
						at[r] += w * across[3*((part[2]+q)*n+j)+r]
					}
				})
			}
		}
	}
	f.stitch(p, func(i, j int) []float64 { return x[3*(i*n+j):][:3] })
	return x
}

// weigh gives the nodes c, at least two, by which the value at x comes from Lagrange's
// cubic through the four about it, or through all where there are fewer, and their weights.
func weigh(c []float64, x float64, give func(k int, w float64)) {
	m := min(4, len(c))
	lo := 0
	for lo+m < len(c) && c[lo+m/2] < x {
		lo++
	}
	for k := range m {
		w := 1.0
		for r := range m {
			if r != k {
				w *= (x - c[lo+r]) / (c[lo+k] - c[lo+r])
			}
		}
		give(lo+k, w)
	}
}
