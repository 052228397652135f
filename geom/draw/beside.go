package draw

import (
	"image/color"
	"slices"

	"ruffwright/geom/word"
)

// Lens enlarges a sheet: Scale times (1 or 0: all of it), the place X, Y of the
// sheet (0 … 1 across and down) in its middle.
type Lens struct{ Scale, X, Y float64 }

// Sizes of what Beside adds, sheet mm.
const (
	letterRoom = 7.0 // beside the title, for the letter
	letterSize = 4.4
)

// Gutter is how far two drawings stand apart on one sheet, mm.
const Gutter = 4.0

// Beside puts two drawings on one sheet, b to the right of a or, stacked, below it,
// each seen through the lens, cut off at its own edge, with its letter. The handles are
// a's.
func Beside(a, b Drawing, stacked bool, lens Lens) Drawing {
	d := Drawing{
		Width_mm: a.Width_mm + Gutter + b.Width_mm, Height_mm: max(a.Height_mm, b.Height_mm),
		Scale: min(a.Scale, b.Scale), Ground: a.Ground,
		Title: word.Say("%s and %s: %s", a.Letter, b.Letter, a.Title).In(a.Language), Language: a.Language,
		Desc: a.Letter + ": " + a.Desc + " " + b.Letter + ": " + b.Desc,
	}
	to := Point{X: a.Width_mm + Gutter}
	rule := []Point{{a.Width_mm + Gutter/2, margin}, {a.Width_mm + Gutter/2, d.Height_mm - margin}}
	if stacked {
		d.Width_mm, d.Height_mm = max(a.Width_mm, b.Width_mm), a.Height_mm+Gutter+b.Height_mm
		to = Point{Y: a.Height_mm + Gutter}
		rule = []Point{{margin, a.Height_mm + Gutter/2}, {d.Width_mm - margin, a.Height_mm + Gutter/2}}
	}
	d.Items = make([]Item, 0, len(a.Items)+len(b.Items)+8)
	d.pane(a, Point{}, lens)
	d.pane(b, to, lens)
	d.Items = append(d.Items, Path{Lines: [][]Point{rule}, Stroke: b.dye, Width_mm: 0.22, Dash_mm: []float64{1.5, 0.9}})
	return d
}

func (d *Drawing) pane(of Drawing, to Point, lens Lens) {
	k, mid := 1.0, Point{0.5, 0.5}
	if lens.Scale > 1 {
		k, mid = lens.Scale, Point{lens.X, lens.Y}
	}
	m := move{k: k, x: to.X + of.Width_mm*(0.5-mid.X*k), y: to.Y + of.Height_mm*(0.5-mid.Y*k)}
	edge := Rect{to, Point{to.X + of.Width_mm, to.Y + of.Height_mm}}
	if to == (Point{}) {
		for _, h := range of.Handles {
			d.Handles = append(d.Handles, m.handle(h))
		}
	}
	for _, it := range of.Items {
		switch it := it.(type) {
		case Path:
			d.Items = append(d.Items, m.path(it, edge)...)
		case Solid:
			d.Items = append(d.Items, m.solid(it, edge))
		case Label:
			it.At, it.Size_mm = m.at(it.At), it.Size_mm*k
			if it.Box().Inside(edge.Grow(0.5)) {
				d.Items = append(d.Items, it)
			}
		}
	}
	if of.Letter == "" {
		return
	}
	middle := Point{to.X + margin + letterSize*0.6, to.Y + margin + letterSize*0.55}
	d.Items = append(d.Items,
		Path{Lines: [][]Point{Ring(middle, letterSize*0.72, letterSize*0.72, 32)}, Closed: true, Fill: of.dye},
		Label{At: middle, Text: of.Letter, Size_mm: letterSize * 0.95, Face: Bold, Anchor: Point{0.5, 0.5}, Color: of.Ground})
}

// move enlarges k times, then shifts.
type move struct{ k, x, y float64 }

func (m move) at(p Point) Point { return Point{p.X*m.k + m.x, p.Y*m.k + m.y} }

func (m move) path(p Path, edge Rect) []Item {
	p.Width_mm *= m.k
	if m.k != 1 {
		p.Dash_mm = slices.Clone(p.Dash_mm)
		for i := range p.Dash_mm {
			p.Dash_mm[i] *= m.k
		}
	}
	lines, within := make([][]Point, len(p.Lines)), true
	for i, line := range p.Lines {
		lines[i] = make([]Point, len(line))
		for j, q := range line {
			q = m.at(q)
			lines[i][j] = q
			within = within && (Rect{q, q}).Inside(edge)
		}
	}
	p.Lines = lines
	if within {
		return []Item{p}
	}
	var out []Item
	if p.Closed && p.Fill.A > 0 {
		f := p
		f.Lines, f.Stroke, f.Width_mm = nil, color.NRGBA{}, 0
		for _, line := range lines {
			if cut := cutPolygon(line, edge); len(cut) > 2 {
				f.Lines = append(f.Lines, cut)
			}
		}
		if len(f.Lines) > 0 {
			out = append(out, f)
		}
	}
	if p.Stroke.A > 0 && p.Width_mm > 0 {
		s := p
		s.Lines, s.Fill = nil, color.NRGBA{}
		for _, line := range lines {
			if p.Closed {
				line = append(slices.Clone(line), line[0])
			}
			s.Lines = append(s.Lines, cutLine(line, edge)...)
		}
		s.Closed = false
		if len(s.Lines) > 0 {
			out = append(out, s)
		}
	}
	return out
}

func (p Point) to(q Point, t float64) Point { return Point{p.X + (q.X-p.X)*t, p.Y + (q.Y-p.Y)*t} }

// cutPolygon gives what of a polygon lies within a box, side by side of the box
// (Sutherland and Hodgman, CACM 17, 1974): for a polygon that is not convex it may
// run along the box's border, which a fill does not show.
func cutPolygon(line []Point, box Rect) []Point {
	for side := range 4 {
		// How far within the side a corner lies.
		in := func(p Point) float64 {
			return [4]float64{p.X - box.Min.X, box.Max.X - p.X, p.Y - box.Min.Y, box.Max.Y - p.Y}[side]
		}
		var kept []Point
		for i, p := range line {
			next := line[(i+1)%len(line)]
			a, b := in(p), in(next)
			if a >= 0 {
				kept = append(kept, p)
			}
			if a >= 0 != (b >= 0) {
				kept = append(kept, p.to(next, a/(a-b)))
			}
		}
		line = kept
	}
	return line
}

// cutLine gives the stretches of a polyline that lie within a box (Liang and
// Barsky, ACM TOG 3, 1984, each piece by itself).
func cutLine(line []Point, box Rect) [][]Point {
	var out [][]Point
	var now []Point
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		from, to := 0.0, 1.0
		for _, s := range [4]struct{ p, q float64 }{
			{a.X - b.X, a.X - box.Min.X}, {b.X - a.X, box.Max.X - a.X},
			{a.Y - b.Y, a.Y - box.Min.Y}, {b.Y - a.Y, box.Max.Y - a.Y},
		} {
			switch {
			case s.p == 0 && s.q < 0:
				from, to = 1, 0
			case s.p < 0:
				from = max(from, s.q/s.p)
			case s.p > 0:
				to = min(to, s.q/s.p)
			}
		}
		if from > to {
			now = nil
			continue
		}
		if now == nil {
			out = append(out, []Point{a.to(b, from)})
		}
		now = append(out[len(out)-1], a.to(b, to))
		out[len(out)-1] = now
		if to < 1 {
			now = nil
		}
	}
	return out
}
