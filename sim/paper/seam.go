package paper

import (
	"math"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
)

// seamDrawing draws the band and the strip's inner edge cut through, not to scale:
// where the stitch line runs and where the raw edge goes.
func (j *job) seamDrawing(f *flow) {
	const high = 33.0
	f.need(high + 2)
	p, y := f.page, f.y+3
	// At the left the strip laid flat, at the right the band with a fold on an edge.
	const flat = 66.0
	take := 7.0
	if j.Pattern.Strip.Takeup_mm == 0 {
		take = 0
	}
	p.line(medium, nil, pt(2, y+12), pt(2+flat, y+12))
	edge := "outer edge"
	if j.Pattern.Strip.Hem_mm > 0 {
		p.line(bold, nil, pt(2+flat-2.4, y+10.8), pt(2+flat, y+12))
		edge = "outer edge, hemmed"
	}
	p.text(2+flat, y+17, sizeSmall, draw.Italic, 1, edge)
	if take > 0 {
		p.line(medium, nil, pt(2, y+12), pt(2.6, y+10.2), pt(2+take, y+10.2))
		p.line(fine, nil, pt(2+take, y+10.2), pt(2+take+5, y+5))
		p.text(2+take+5.6, y+5, sizeSmall, draw.Upright, 0, "raw edge, turned in by "+j.len(j.Pattern.Strip.Takeup_mm))
	}
	p.dot(2, y+12, 0.7)
	p.line(fine, nil, pt(2, y+12.8), pt(4, y+20))
	p.text(4.6, y+21.4, sizeSmall, draw.Bold, 0, "stitch line: mark and sew here")
	p.measure(pt(2, y+26), pt(2+flat, y+26), "depth "+j.len(j.s.Ruff.Depth))

	const x = 112.0 // the band cut through: two halves, its fold at the top
	top, bottom := y+4.0, y+24.0
	p.line(medium, nil, pt(x, bottom), pt(x, top+1), pt(x+1, top), pt(x+2, top+1), pt(x+2, bottom), pt(x+0.6, bottom-0.6))
	p.text(x-2, (top+bottom)/2, sizeSmall, draw.Italic, 1, "inner half")
	p.text(x-2, (top+bottom)/2+3.6, sizeSmall, draw.Italic, 1, "(the skin)")
	edges := map[scheme.Edge]scheme.Fold{}
	for _, m := range j.Ruff.Plan.Row {
		edges[m.Edge] = m.Fold
	}
	fold := func(at, down float64, words string) {
		p.line(medium, nil, pt(x+2.6, at), pt(x+38, at+down*3))
		if take > 0 {
			p.line(medium, nil, pt(x+2.6, at), pt(x+3.4, at+1.5), pt(x+9, at+1.5+down*0.5))
		}
		var stitches [][]draw.Point
		for i := range 3 {
			d := 0.7 * float64(i-1)
			stitches = append(stitches, []draw.Point{pt(x+1.2, at+d-math.Copysign(0.6, down)), pt(x+3.6, at+d)})
		}
		p.lines(medium, nil, stitches...)
		p.text(x+40, at+down*3+1, sizeSmall, draw.Upright, 0, words)
	}
	if k, ok := edges[scheme.EdgeTop]; ok {
		fold(top, -1, foldName(k)+", whipped on")
	}
	if k, ok := edges[scheme.EdgeBottom]; ok {
		fold(bottom, 1, foldName(k)+", whipped on")
	}
	p.text(x+4, (top+bottom)/2+1, sizeSmall, draw.Italic, 0, "outer half")
	f.y = y + high - 3
	f.small(slant("Cut through, not to scale. Nothing is put between the halves of the band: its edges are finished, and the strip is whipped to them from outside."))
}
