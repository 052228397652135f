package stage

import (
	"image/color"
	"math"

	"ruffwright/geom/draw"
)

// ink collects triangles: positions in pixels, colours straight (not
// premultiplied).
type ink struct {
	x, y  []float32
	tint  []color.NRGBA
	index []uint32
}

func (k *ink) vertex(x, y float64, c color.NRGBA) uint32 {
	k.x, k.y, k.tint = append(k.x, float32(x)), append(k.y, float32(y)), append(k.tint, c)
	return uint32(len(k.x) - 1)
}

// stroke lays a line of the given width (px) along the polyline, with round
// caps and joins.
func (k *ink) stroke(line []draw.Point, closed bool, width float64, c color.NRGBA) {
	if len(line) == 0 {
		return
	}
	half := width / 2
	n := len(line)
	if closed {
		n++
	}
	at := func(i int) draw.Point { return line[i%len(line)] }
	for i := 1; i < n; i++ {
		a, b := at(i-1), at(i)
		dx, dy := b.X-a.X, b.Y-a.Y
		d := math.Hypot(dx, dy)
		if d < 1e-9 {
			continue
		}
		nx, ny := -dy/d*half, dx/d*half
		p0 := k.vertex(a.X+nx, a.Y+ny, c)
		k.vertex(a.X-nx, a.Y-ny, c)
		k.vertex(b.X+nx, b.Y+ny, c)
		k.vertex(b.X-nx, b.Y-ny, c)
		k.index = append(k.index, p0, p0+1, p0+2, p0+1, p0+3, p0+2)
	}
	if c.A < 255 {
		return // round ends would darken a thin wash where they overlap
	}
	for i, p := range line {
		inner := closed || i > 0 && i < len(line)-1
		if inner && (half < 0.8 || straight(at(i+len(line)-1), p, at(i+1))) {
			continue // a thin or straight join shows no gap
		}
		k.disc(p, half, c)
	}
}

// straight reports whether b lies within 8° of the way from a to c: the gap of
// the join is then below 0.07 of the line's half width.
func straight(a, b, c draw.Point) bool {
	ux, uy, vx, vy := b.X-a.X, b.Y-a.Y, c.X-b.X, c.Y-b.Y
	return ux*vx+uy*vy > 0.99*math.Hypot(ux, uy)*math.Hypot(vx, vy)
}

// disc fills a circle, with sides short enough that it is round within 0.1 px.
func (k *ink) disc(p draw.Point, r float64, c color.NRGBA) {
	if r <= 0 {
		return
	}
	n := max(6, min(64, int(math.Ceil(math.Pi/math.Acos(1-min(0.5, 0.1/r))))))
	middle := k.vertex(p.X, p.Y, c)
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		k.vertex(p.X+r*cos, p.Y+r*sin, c)
		k.index = append(k.index, middle, middle+1+uint32(i), middle+1+uint32((i+1)%n))
	}
}

// dashes cuts a polyline into the strokes of a dash pattern (on, off, on …),
// all in px. A pattern that makes no sense gives the whole line.
func dashes(line []draw.Point, closed bool, pattern []float64) [][]draw.Point {
	total := 0.0
	for _, d := range pattern {
		if !(d >= 0) {
			return [][]draw.Point{line}
		}
		total += d
	}
	if !(total > 0.5) || len(line) < 2 {
		return [][]draw.Point{line}
	}
	if closed {
		line = append(append([]draw.Point(nil), line...), line[0])
	}
	var out [][]draw.Point
	part, left := 0, pattern[0]
	current := []draw.Point{line[0]}
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		d := math.Hypot(b.X-a.X, b.Y-a.Y)
		for done := 0.0; d-done > 1e-9; {
			step := min(left, d-done)
			done += step
			left -= step
			t := done / d
			p := draw.Point{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t}
			if part%2 == 0 {
				current = append(current, p)
			}
			for n := 0; left <= 1e-9 && n < len(pattern)+1; n++ {
				if part%2 == 0 && len(current) > 0 {
					out = append(out, current)
				}
				part++
				left = pattern[part%len(pattern)]
				current = []draw.Point{p}
				if part%2 != 0 {
					current = nil
				}
			}
		}
	}
	if part%2 == 0 && len(current) > 1 {
		out = append(out, current)
	}
	return out
}

// fill covers a simple polygon (its corners in order, either way round), by
// cutting off ears; what is left of a polygon that is not simple is fanned.
func (k *ink) fill(line []draw.Point, c color.NRGBA) {
	line = distinct(line)
	if len(line) < 3 {
		return
	}
	first := uint32(len(k.x))
	for _, p := range line {
		k.vertex(p.X, p.Y, c)
	}
	for _, t := range ears(line) {
		k.index = append(k.index, first+uint32(t[0]), first+uint32(t[1]), first+uint32(t[2]))
	}
}

// distinct leaves out corners that repeat the one before.
func distinct(line []draw.Point) []draw.Point {
	var out []draw.Point
	for _, p := range line {
		if len(out) == 0 || math.Hypot(p.X-out[len(out)-1].X, p.Y-out[len(out)-1].Y) > 1e-6 {
			out = append(out, p)
		}
	}
	for len(out) > 1 && math.Hypot(out[0].X-out[len(out)-1].X, out[0].Y-out[len(out)-1].Y) <= 1e-6 {
		out = out[:len(out)-1]
	}
	return out
}

func cross(a, b, c draw.Point) float64 {
	return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)
}

// ears triangulates a simple polygon of n corners into n − 2 triangles.
// O(n²) for round shapes, which is what drawings hold.
func ears(line []draw.Point) [][3]int {
	n := len(line)
	area := 0.0
	for i := range line {
		a, b := line[i], line[(i+1)%n]
		area += a.X*b.Y - a.Y*b.X
	}
	order := make([]int, n)
	for i := range order {
		order[i] = i
		if area < 0 {
			order[i] = n - 1 - i
		}
	}
	var out [][3]int
	isEar := func(i int) bool {
		m := len(order)
		ia, ib, ic := order[(i+m-1)%m], order[i], order[(i+1)%m]
		a, b, c := line[ia], line[ib], line[ic]
		if cross(a, b, c) <= 0 {
			return false
		}
		for _, j := range order {
			if j == ia || j == ib || j == ic {
				continue
			}
			p := line[j]
			if cross(a, b, p) >= 0 && cross(b, c, p) >= 0 && cross(c, a, p) >= 0 {
				return false
			}
		}
		return true
	}
	at, missed := 0, 0
	for len(order) > 3 && missed < len(order) {
		m := len(order)
		at %= m
		if isEar(at) {
			out = append(out, [3]int{order[(at+m-1)%m], order[at], order[(at+1)%m]})
			order = append(order[:at], order[at+1:]...)
			missed = 0
			at++ // the next but one: keeps triangles from being slivers of one corner
			continue
		}
		at++
		missed++
	}
	for i := 1; i+1 < len(order); i++ {
		out = append(out, [3]int{order[0], order[i], order[i+1]})
	}
	return out
}
