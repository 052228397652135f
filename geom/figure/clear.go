package figure

import (
	"slices"

	"ruffwright/geom/draw"
)

// meets tells whether the straight way from a to b passes through a box (Liang and
// Barsky, ACM TOG 3, 1984).
func meets(a, b draw.Point, box draw.Rect) bool {
	from, to := 0.0, 1.0
	for _, s := range [4][2]float64{
		{a.X - b.X, a.X - box.Min.X}, {b.X - a.X, box.Max.X - a.X},
		{a.Y - b.Y, a.Y - box.Min.Y}, {b.Y - a.Y, box.Max.Y - a.Y},
	} {
		switch {
		case s[0] == 0 && s[1] < 0:
			return false
		case s[0] < 0:
			from = max(from, s[1]/s[0])
		case s[0] > 0:
			to = min(to, s[1]/s[0])
		}
	}
	return from <= to
}

// crosses tells whether a line of the items runs through a box.
func crosses(items []draw.Item, box draw.Rect) bool {
	return slices.ContainsFunc(items, func(it draw.Item) bool {
		p, ok := it.(draw.Path)
		if !ok || p.Stroke.A == 0 || p.Width_mm == 0 {
			return false
		}
		near := box.Grow(p.Width_mm / 2)
		for _, line := range p.Lines {
			for n := 1; n < len(line); n++ {
				if meets(line[n-1], line[n], near) {
					return true
				}
			}
			if n := len(line); p.Closed && n > 2 && meets(line[n-1], line[0], near) {
				return true
			}
		}
		return false
	})
}

// cuts tells whether a line or a label of the items lies across the straight way from a to b.
func cuts(items []draw.Item, a, b draw.Point) bool {
	left := func(p, q, r draw.Point) bool { return (q.X-p.X)*(r.Y-p.Y) > (q.Y-p.Y)*(r.X-p.X) }
	return slices.ContainsFunc(items, func(it draw.Item) bool {
		if l, ok := it.(draw.Label); ok {
			return meets(a, b, l.Box())
		}
		p, ok := it.(draw.Path)
		if !ok || p.Stroke.A == 0 || p.Width_mm == 0 {
			return false
		}
		for _, line := range p.Lines {
			for n := 1; n < len(line); n++ {
				if c, d := line[n-1], line[n]; left(a, b, c) != left(a, b, d) && left(c, d, a) != left(c, d, b) {
					return true
				}
			}
		}
		return false
	})
}

// clear sets each label that a line runs through over all lines, on a plate of the ground.
func (s *sheet) clear() {
	var over []draw.Item
	s.Items = slices.DeleteFunc(s.Items, func(it draw.Item) bool {
		l, ok := it.(draw.Label)
		if !ok || s.badged[l.At] {
			return false
		}
		box := l.Box()
		if !crosses(s.Items, box.Grow(-0.1)) {
			return false
		}
		box = box.Grow(0.3)
		over = append(over, draw.Path{Closed: true, Fill: s.Pal.Ground, Lines: [][]draw.Point{{box.Min, draw.Pt(box.Max.X, box.Min.Y), box.Max, draw.Pt(box.Min.X, box.Max.Y)}}}, l)
		return true
	})
	s.Items = append(s.Items, over...)
}
