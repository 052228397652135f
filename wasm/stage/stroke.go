package main

import (
	"image/color"
	"math"
)

// point is a place on the canvas, device pixels.
type point struct{ X, Y float64 }

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

// feather is how far a line's edge fades on either side of where it lies, px: what a
// canvas does not smooth by itself looks smooth.
const feather = 0.5

// stroke lays a line of the given width (px, at least 1) along the polyline, with round
// caps and joins. Its edges fade over a pixel.
func (k *ink) stroke(line []point, closed bool, width float64, c color.NRGBA) {
	line = distinct(line)
	half := width / 2
	if len(line) < 2 {
		for _, p := range line {
			k.disc(p, half, c)
		}
		return
	}
	clear, full := c, max(0, half-feather)
	clear.A = 0
	// rung is the line's breadth at p: clear, full, full, clear.
	rung := func(p, across point) uint32 {
		first := k.vertex(p.X+across.X*(half+feather), p.Y+across.Y*(half+feather), clear)
		k.vertex(p.X+across.X*full, p.Y+across.Y*full, c)
		k.vertex(p.X-across.X*full, p.Y-across.Y*full, c)
		k.vertex(p.X-across.X*(half+feather), p.Y-across.Y*(half+feather), clear)
		return first
	}
	n := len(line)
	last := n - 1 // segments
	if closed && n > 2 {
		last = n
	}
	for i := range last {
		a, b := line[i], line[(i+1)%n]
		own := across(a, b)
		from, to := own, own
		if i > 0 || last == n {
			from = join(own, across(line[(i+n-1)%n], a), sharpLine_deg)
		}
		if i < last-1 || last == n {
			to = join(own, across(b, line[(i+2)%n]), sharpLine_deg)
		}
		r0, r1 := rung(a, from), rung(b, to)
		for s := range uint32(3) {
			k.index = append(k.index, r0+s, r0+s+1, r1+s, r0+s+1, r1+s+1, r1+s)
		}
		if c.A < 255 {
			continue // round ends would darken a thin wash where they overlap
		}
		if from == own && (i > 0 || last == n || half >= 0.8) {
			k.disc(a, half, c)
		}
		if to == own && i == last-1 && last < n && half >= 0.8 {
			k.disc(b, half, c)
		}
	}
}

// across is the unit direction across the way from a to b.
func across(a, b point) point {
	d := math.Hypot(b.X-a.X, b.Y-a.Y)
	return point{(a.Y - b.Y) / d, (b.X - a.X) / d}
}

// Corners that turn by more degrees than these are sharp: a line breaks at them, and
// the edge of a polygon is cut off.
const sharpLine_deg, sharpFill_deg = 73, 135

// join is the direction across the corner of two segments, so long that the line keeps
// its width through it; at a sharp corner it is the first's own.
func join(own, other point, sharp_deg float64) point {
	sum := point{own.X + other.X, own.Y + other.Y}
	l := sum.X*sum.X + sum.Y*sum.Y // 2 + 2 cos of the turn
	if l < 2+2*math.Cos(sharp_deg*math.Pi/180) {
		return own
	}
	return point{2 * sum.X / l, 2 * sum.Y / l}
}

// disc fills a circle, with sides short enough that it is round within 0.1 px.
func (k *ink) disc(p point, r float64, c color.NRGBA) {
	if r <= 0 {
		return
	}
	n := max(6, min(64, int(math.Ceil(math.Pi/math.Acos(1-min(0.5, 0.1/r))))))
	middle := k.vertex(p.X, p.Y, c)
	clear, full := c, max(0, r-feather)
	clear.A = 0
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		k.vertex(p.X+full*cos, p.Y+full*sin, c)
		k.vertex(p.X+(r+feather)*cos, p.Y+(r+feather)*sin, clear)
		a, b := middle+1+2*uint32(i), middle+1+2*uint32((i+1)%n)
		k.index = append(k.index, middle, a, b, a, a+1, b, a+1, b+1, b)
	}
}

// dashes cuts a polyline into the strokes of a dash pattern (on, off, on …),
// all in px. A pattern that makes no sense gives the whole line.
func dashes(line []point, closed bool, pattern []float32) [][]point {
	total := float32(0)
	for _, d := range pattern {
		if !(d >= 0) {
			return [][]point{line}
		}
		total += d
	}
	if !(total > 0.5) || len(line) < 2 {
		return [][]point{line}
	}
	if closed {
		line = append(append([]point(nil), line...), line[0])
	}
	var out [][]point
	part, left := 0, float64(pattern[0])
	current := []point{line[0]}
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		d := math.Hypot(b.X-a.X, b.Y-a.Y)
		for done := 0.0; d-done > 1e-9; {
			step := min(left, d-done)
			done += step
			left -= step
			t := done / d
			p := point{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t}
			if part%2 == 0 {
				current = append(current, p)
			}
			for n := 0; left <= 1e-9 && n < len(pattern)+1; n++ {
				if part%2 == 0 && len(current) > 0 {
					out = append(out, current)
				}
				part++
				left = float64(pattern[part%len(pattern)])
				current = []point{p}
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
// cutting off ears; what is left of a polygon that is not simple is fanned. Its edge
// fades over a pixel.
func (k *ink) fill(line []point, c color.NRGBA) {
	line = distinct(line)
	n := len(line)
	if n < 3 {
		return
	}
	in := feather // across points inward where the corners turn to the right
	if turns(line) < 0 {
		in = -feather
	}
	clear := c
	clear.A = 0
	first := uint32(len(k.x))
	for i, p := range line {
		before, after := across(line[(i+n-1)%n], p), across(p, line[(i+1)%n])
		to := join(after, before, sharpFill_deg)
		k.vertex(p.X+to.X*in, p.Y+to.Y*in, c)
		k.vertex(p.X-to.X*in, p.Y-to.Y*in, clear)
		a, b := first+2*uint32(i), first+2*uint32((i+1)%n)
		k.index = append(k.index, a, a+1, b, a+1, b+1, b)
	}
	for _, t := range ears(line) {
		k.index = append(k.index, first+2*uint32(t[0]), first+2*uint32(t[1]), first+2*uint32(t[2]))
	}
}

// turns is twice the area that a polygon encloses, above 0 where y is down and it goes
// round clockwise.
func turns(line []point) (area float64) {
	for i, a := range line {
		b := line[(i+1)%len(line)]
		area += a.X*b.Y - a.Y*b.X
	}
	return area
}

// distinct leaves out corners that repeat the one before.
func distinct(line []point) []point {
	var out []point
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

func cross(a, b, c point) float64 {
	return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)
}

// ears triangulates a simple polygon of n corners into n − 2 triangles.
// O(n²) for round shapes, which is what drawings hold.
func ears(line []point) [][3]int {
	n, area := len(line), turns(line)
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
