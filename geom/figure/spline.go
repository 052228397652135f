package figure

import "ruffwright/geom"

// spline is the curve of least bending through the places of a line, n parts from one to the
// next: the cubic one whose curvature does not jump, by how far apart the places lie
// (Holladay, Mathematical Tables and Other Aids to Computation 11 (1957) 233). It ends with
// the tangents of the parabolas through its last three places.
func spline(line []geom.Vec3, n int) []geom.Vec3 {
	last := len(line) - 1
	if last < 1 || n < 1 {
		return line
	}
	gap, rise := make([]float64, last), make([]geom.Vec3, last)
	for k := range gap {
		d := line[k+1].Sub(line[k])
		gap[k] = max(d.Norm(), 1e-6)
		rise[k] = d.Scale(1 / gap[k])
	}
	end := func(k, next int) geom.Vec3 { // the tangent at an end, from its part and the next
		if last < 2 {
			return rise[k]
		}
		return rise[k].Add(rise[k].Sub(rise[next]).Scale(gap[k] / (gap[k] + gap[next])))
	}
	// The tangents, each by its neighbours', by Thomas's elimination.
	m, part := make([]geom.Vec3, last+1), make([]float64, last+1)
	for k := range m {
		a, b, c := 0.0, 2.0, 1.0
		var d geom.Vec3
		switch k {
		case 0:
			b, c, d = 1, 0, end(0, 1)
		case last:
			b, c, d = 1, 0, end(last-1, last-2)
		default:
			sum := gap[k-1] + gap[k]
			a, c = gap[k]/sum, gap[k-1]/sum
			d = rise[k-1].Scale(3 * a).Add(rise[k].Scale(3 * c))
		}
		if k > 0 {
			b -= a * part[k-1]
			d = d.Sub(m[k-1].Scale(a))
		}
		part[k], m[k] = c/b, d.Scale(1/b)
	}
	for k := last - 1; k >= 0; k-- {
		m[k] = m[k].Sub(m[k+1].Scale(part[k]))
	}
	out := make([]geom.Vec3, 0, last*n+1)
	for k := range last {
		for i := range n {
			t := float64(i) / float64(n)
			t2, t3 := t*t, t*t*t
			v := line[k].Scale(1 - 3*t2 + 2*t3).Add(line[k+1].Scale(3*t2 - 2*t3))
			out = append(out, v.Add(m[k].Scale(gap[k]*(t-2*t2+t3))).Add(m[k+1].Scale(gap[k]*(t3-t2))))
		}
	}
	return append(out, line[last])
}
