package figure

import (
	"math"

	"ruffwright/geom/draw"
)

// Chart is a small drawing without words: how a length of the ruff goes with a field, with
// the limits of that length, and where the ruff stands.
type Chart struct {
	Values  []float64 // of the field, ascending, two at least
	Lengths []float64 // beside them, mm
	Limits  []float64 // of the length, mm
	Now     float64   // the field's value
}

// Size of a chart, mm, and the least length that its height stands for: less is no more
// than the solver tells.
const chartWidth_mm, chartHeight_mm, chartMargin_mm, chartLeast_mm = 56, 30, 2.5, 2

// Draw draws the chart; what it lacks to be one leaves it empty.
func (c Chart) Draw(pal draw.Palette) draw.Drawing {
	s := &draw.Sheet{Pal: pal}
	s.Width_mm, s.Height_mm, s.Ground = chartWidth_mm, chartHeight_mm, pal.Ground
	n := min(len(c.Values), len(c.Lengths))
	if n < 2 || !(c.Values[n-1] > c.Values[0]) {
		return s.Drawing
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, y := range c.Lengths[:n] {
		low, high = math.Min(low, y), math.Max(high, y)
	}
	for _, y := range c.Limits { // those that the curve comes near to
		if reach := math.Max(chartLeast_mm, high-low); y > low-reach && y < high+reach {
			low, high = math.Min(low, y), math.Max(high, y)
		}
	}
	if short := chartLeast_mm - (high - low); short > 0 {
		low, high = low-short/2, high+short/2
	}
	at := func(value, length float64) draw.Point {
		return draw.Pt(chartMargin_mm+(chartWidth_mm-2*chartMargin_mm)*(value-c.Values[0])/(c.Values[n-1]-c.Values[0]),
			chartHeight_mm-chartMargin_mm-(chartHeight_mm-2*chartMargin_mm)*(length-low)/(high-low))
	}
	first, last := c.Values[0], c.Values[n-1]
	s.Line(pal.Rule, 0.3, nil, at(first, high), at(first, low), at(last, low))
	for _, y := range c.Limits {
		if y >= low && y <= high {
			s.Line(pal.Madder, 0.4, []float64{2, 1.2}, at(first, y), at(last, y))
		}
	}
	var curve []draw.Point
	for k := range n {
		curve = append(curve, at(c.Values[k], c.Lengths[k]))
	}
	s.Line(pal.Woad, 0.7, nil, curve...)
	if now := math.Min(math.Max(c.Now, first), last); now == now {
		p := at(now, c.At(now))
		s.Line(pal.Ink, 0.3, nil, draw.Pt(p.X, at(first, high).Y), draw.Pt(p.X, at(first, low).Y))
		const r = 1.2 // a stitch on the curve
		s.Add(draw.Path{Lines: [][]draw.Point{{draw.Pt(p.X-r, p.Y), draw.Pt(p.X, p.Y-r), draw.Pt(p.X+r, p.Y), draw.Pt(p.X, p.Y+r)}}, Closed: true, Fill: pal.Ink})
	}
	return s.Drawing
}

// At is the length at a value of the field, on the straight line between its neighbours.
func (c Chart) At(value float64) float64 {
	n := min(len(c.Values), len(c.Lengths))
	for k := 1; k < n; k++ {
		if a, b := c.Values[k-1], c.Values[k]; value <= b && b > a {
			return c.Lengths[k-1] + (c.Lengths[k]-c.Lengths[k-1])*math.Max(0, (value-a)/(b-a))
		}
	}
	if n == 0 {
		return 0
	}
	return c.Lengths[n-1]
}
