package paper

import (
	"math"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/paper/sheet"
)

// seamDrawing draws the band and the strip's inner edge cut through, not to scale:
// where the stitch line runs and where the raw edge goes.
func (j *job) seamDrawing(f *sheet.Flow) {
	const high = 33.0
	f.Need(high + 2)
	p, y := f.Page, f.Y+3
	// At the left the strip laid flat, at the right the band with a fold on an edge.
	const flat = 66.0
	take := 7.0
	if j.Pattern.Strip.Takeup_mm == 0 {
		take = 0
	}
	p.Line(sheet.Medium, nil, draw.Pt(2, y+12), draw.Pt(2+flat, y+12))
	edge := word.Say("outer edge")
	if j.Pattern.Strip.Hem_mm > 0 {
		p.Line(sheet.Bold, nil, draw.Pt(2+flat-2.4, y+10.8), draw.Pt(2+flat, y+12))
		edge = word.Say("outer edge, hemmed")
	}
	p.Text(2+flat, y+17, sheet.Small, draw.Italic, 1, edge)
	if take > 0 {
		p.Line(sheet.Medium, nil, draw.Pt(2, y+12), draw.Pt(2.6, y+10.2), draw.Pt(2+take, y+10.2))
		p.Line(sheet.Fine, nil, draw.Pt(2+take, y+10.2), draw.Pt(2+take+5, y+5))
		p.Text(2+take+5.6, y+5, sheet.Small, draw.Upright, 0, word.Say("raw edge, turned in by %s", j.len(j.Pattern.Strip.Takeup_mm)))
	}
	p.Dot(2, y+12, 0.7)
	p.Line(sheet.Fine, nil, draw.Pt(2, y+12.8), draw.Pt(4, y+20))
	p.Text(4.6, y+21.4, sheet.Small, draw.Bold, 0, word.Say("stitch line: mark and sew here"))
	p.Measure(draw.Pt(2, y+26), draw.Pt(2+flat, y+26), word.Say("depth %s", j.len(j.s.Ruff.Depth)))

	const x = 112.0 // the band cut through: two halves, its fold at the top
	top, bottom := y+4.0, y+24.0
	p.Line(sheet.Medium, nil, draw.Pt(x, bottom), draw.Pt(x, top+1), draw.Pt(x+1, top), draw.Pt(x+2, top+1), draw.Pt(x+2, bottom), draw.Pt(x+0.6, bottom-0.6))
	p.Text(x-2, (top+bottom)/2, sheet.Small, draw.Italic, 1, word.Say("inner half"))
	p.Text(x-2, (top+bottom)/2+3.6, sheet.Small, draw.Italic, 1, word.Say("(the skin)"))
	edges := map[scheme.Edge]scheme.Fold{}
	for _, m := range j.Ruff.Plan.Row {
		edges[m.Edge] = m.Fold
	}
	fold := func(at, down float64, words word.Text) {
		p.Line(sheet.Medium, nil, draw.Pt(x+2.6, at), draw.Pt(x+38, at+down*3))
		if take > 0 {
			p.Line(sheet.Medium, nil, draw.Pt(x+2.6, at), draw.Pt(x+3.4, at+1.5), draw.Pt(x+9, at+1.5+down*0.5))
		}
		var stitches [][]draw.Point
		for i := range 3 {
			d := 0.7 * float64(i-1)
			stitches = append(stitches, []draw.Point{draw.Pt(x+1.2, at+d-math.Copysign(0.6, down)), draw.Pt(x+3.6, at+d)})
		}
		p.Lines(sheet.Medium, nil, stitches...)
		p.Text(x+40, at+down*3+1, sheet.Small, draw.Upright, 0, words)
	}
	if k, ok := edges[scheme.EdgeTop]; ok {
		fold(top, -1, word.Say("%s, whipped on", foldName[k]))
	}
	if k, ok := edges[scheme.EdgeBottom]; ok {
		fold(bottom, 1, word.Say("%s, whipped on", foldName[k]))
	}
	p.Text(x+4, (top+bottom)/2+1, sheet.Small, draw.Italic, 0, word.Say("outer half"))
	f.Y = y + high - 3
	f.Small(word.Say("~~Cut through, not to scale. Nothing is put between the halves of the band: its edges are finished, and the strip is whipped to them from outside.~~"))
}
