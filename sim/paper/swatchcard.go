package paper

import (
	"fmt"
	"math"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/sim/cloth"
)

// swatch is the swatch card: a ruler and a slope to cut out, full size, and where
// to write what is read.
func (j *job) swatch() ([]*Page, error) {
	p := &Page{Sheet: "swatch", Title: "Swatch card, full size", Holds: "ruler and slope to cut out"}
	c := column{page: p, w: Live_mm, y: bodyTop_mm}
	c.para(plain("Take the strips of the layout, " + j.swatchLen(25) + " wide and " + j.swatchLen(250) + " long along the thread to be tested: no selvedge, no crease. Glue ruler and slope on stiff card and cut them out. Stand the slope upright at the end of a smooth level table, its corner at the table's edge, its upper side level with the table's top."))
	c.para(plain("Lay the strip on the table, its end at the edge, the ruler on it, zero at the same edge. Push both out together, slowly, until the strip's tip "), strong("touches the slope"), plain(". The ruler stays level above it. Read the ruler at the table's edge: that is the overhang. Half of it is the bending length. Read each strip four times: both ends, both faces."))

	t, err := j.target()
	if err != nil {
		return nil, err
	}
	// The ruler, to be cut out: zero at its right end, which goes over the edge.
	ry := c.y + 3
	const rulerHigh, rulerLong = 25.0, 180.0
	p.rect(medium, nil, nil, 0, ry, Live_mm, ry+rulerHigh)
	rulerBack(p, Live_mm, ry, rulerLong, j.Units)
	p.text(2, ry+17, sizeBody, draw.Bold, 0, "Overhang: read here, at the table's edge, what has gone out over it")
	p.text(2, ry+22, sizeSmall, draw.Italic, 0, "this end stays on the table")
	p.text(Live_mm-2, ry+22, sizeSmall, draw.Italic, 1, "zero: with the strip's end, goes out over the edge")
	shown := t.known && !t.none && !t.beyond
	if shown && t.overhang_mm <= rulerLong {
		x := Live_mm - t.overhang_mm
		p.line(bold, nil, pt(x, ry), pt(x, ry+6))
		p.dot(x, ry+10.6, 0.9)
		words := "target " + j.len(t.overhang_mm)
		if w := draw.TextWidth(words, sizeSmall, draw.Bold); x+2+w < Live_mm-1 {
			p.text(x+2, ry+11.5, sizeSmall, draw.Bold, 0, words)
		} else {
			p.text(x-2, ry+11.5, sizeSmall, draw.Bold, 1, words)
		}
	}
	if shown && t.overhang_mm > rulerLong {
		p.text(2, ry+11.5, sizeSmall, draw.Bold, 0, "target "+j.len(t.overhang_mm)+": beyond this ruler, take your own")
	}
	if t.beyond {
		p.text(2, ry+11.5, sizeSmall, draw.Bold, 0, "no target here: "+j.len(t.overhang_mm)+" is more than these strips can show")
	}
	if err := j.slope(p, ry+rulerHigh+4, t); err != nil {
		return nil, err
	}
	more, err := j.readings(t)
	if err != nil {
		return nil, err
	}
	return append([]*Page{p}, more...), nil
}

// swatchLen writes a length of a test strip. Its exact length does not matter, so in
// inches it is a round one, no shorter: 25 mm is 1 in, 250 mm 10 in.
func (j *job) swatchLen(mm float64) string {
	if j.Units == scheme.Inches {
		return thirtySeconds(8*int(math.Ceil(mm/25.4*4-1e-9))) + " in"
	}
	return j.len(mm)
}

// rulerBack draws a scale whose zero is at x and that runs to the left.
func rulerBack(p *Page, x, y, long float64, u scheme.Units) {
	step, mid, whole := 1.0, 5, 10
	if u == scheme.Inches {
		step, mid, whole = 25.4/16, 8, 16
	}
	var strokes [][]draw.Point
	for i := 0; float64(i)*step <= long+1e-9; i++ {
		at := x - float64(i)*step
		h := 3.0
		switch {
		case i%whole == 0:
			h = 6
			n := i / whole
			words := fmt.Sprint(n)
			if u == scheme.Millimetres {
				words = fmt.Sprint(10 * n)
			}
			if i > 0 {
				p.text(at, y+8.8, 2.4, draw.Upright, 0.5, words)
			}
		case i%mid == 0:
			h = 4.4
		}
		strokes = append(strokes, []draw.Point{pt(at, y), pt(at, y+h)})
	}
	p.lines(0.1, nil, strokes...)
}

// slope draws the slope to cut out, its corner at the table's edge: a line 41.5°
// below level, with the overhangs at which a strip's tip meets it.
func (j *job) slope(p *Page, top float64, t target) error {
	const x0, wide = 18.0, 150.0
	tan := math.Tan(slope_deg * math.Pi / 180)
	high := math.Min(wide*tan, bodyBottom_mm-top)
	reach := high / tan
	y0 := top
	p.line(bold, nil, pt(x0, y0), pt(x0+reach, y0+reach*tan))               // the slope itself
	p.line(medium, nil, pt(x0, y0), pt(x0, y0+high), pt(x0+reach, y0+high)) // upright and foot
	p.text(x0+1.6, y0+high-2, sizeSmall, draw.Italic, 0, "cut out along these three sides; the upright side stands against the table's edge")
	p.line(medium, nil, pt(0, y0), pt(x0, y0))
	p.text(0, y0+3.6, sizeSmall, draw.Italic, 0, "table's top")
	p.dot(x0, y0, 0.7)

	// All tips lie on the slope: overhang L at the distance L · chord ÷ span.
	span, err := cloth.Span(slope_deg)
	if err != nil {
		return fmt.Errorf("paper: swatch card: %w", err)
	}
	hang, err := cloth.Hang(span)
	if err != nil {
		return fmt.Errorf("paper: swatch card: %w", err)
	}
	chord := math.Hypot(hang.TipX, hang.TipDrop) / span // of one mm of overhang
	sin, cos := math.Sincos(slope_deg * math.Pi / 180)
	step, unit := 10.0, 10.0
	if j.Units == scheme.Inches {
		step, unit = 25.4/2, 25.4
	}
	var ticks [][]draw.Point
	for l := 2 * step; l*chord*sin < high-3; l += step {
		x, y := x0+l*chord*cos, y0+l*chord*sin
		ticks = append(ticks, []draw.Point{pt(x, y), pt(x-2*sin, y+2*cos)})
		words := trim(l/unit, 1)
		if j.Units == scheme.Millimetres {
			words = trim(l, 0)
		}
		p.text(x-3.2*sin, y+3.2*cos+1, 2.2, draw.Upright, 1, words)
	}
	p.lines(fine, nil, ticks...)
	if t.known && !t.none && !t.beyond && t.overhang_mm*chord*sin < high {
		x, y := x0+t.overhang_mm*chord*cos, y0+t.overhang_mm*chord*sin
		p.dot(x, y, 1)
		words := "target: a strip with " + j.len(t.overhang_mm) + " over the edge touches here"
		lines := wrapRuns([]run{strong(words)}, sizeSmall, 48)
		left := math.Min(x+4, Live_mm-49)
		y -= (x + 4 - left) * tan // keeps the words off the slope
		for i, l := range lines {
			l.set(p, left, y-1+float64(i)*sizeSmall*leading-float64(len(lines)-1)*sizeSmall*leading, sizeSmall)
		}
	}
	p.text(x0+2, y0+high-14, sizeSmall, draw.Upright, 0, "41.5° below level. Strokes: where the tip of a strip touches, by its overhang in "+unitWord(j.Units)+".")
	p.text(x0+2, y0+high-10.4, sizeSmall, draw.Upright, 0, "If ruler and slope disagree by more than a stroke's step, the strip curls or the table is not level.")
	// Angle's arc and what a wearer of this card sees.
	const r = 22
	var arc []draw.Point
	for k := range 25 {
		s, c := math.Sincos(slope_deg * math.Pi / 180 * float64(k) / 24)
		arc = append(arc, pt(x0+r*c, y0+r*s))
	}
	p.line(fine, nil, arc...)
	p.line(fine, []float64{2, 1.4}, pt(x0, y0), pt(x0+70, y0))
	p.text(x0+r+1.6, y0+6.6, sizeSmall, draw.Upright, 0, "41.5°")
	p.text(x0+73, y0+1, sizeSmall, draw.Italic, 0, "level")
	p.text(x0+86, y0+16, sizeSmall, draw.Italic, 0, "the strip hangs on this side of the slope")
	return nil
}

// readings is the sheet to write readings on: the cloth, then each trial of starch.
func (j *job) readings(t target) ([]*Page, error) {
	f := newFlow("swatch", "Swatches: readings")
	f.page.Holds = "where to write readings"
	f.head("The cloth, unstarched", 40)
	f.para(plain("Read the overhang at the slope of 41.5°. The mean halved is the bending length: enter it in the scheme under cloth, along warp and weft."))
	long := j.len(j.s.Cloth.BendWarp)
	weft := j.len(j.s.Cloth.BendWeft)
	blank := func(names ...string) [][]string {
		var rows [][]string
		for _, n := range names {
			rows = append(rows, []string{n, "", "", "", "", "", ""})
		}
		return rows
	}
	columns := func(first string) []tableColumn {
		return []tableColumn{{first, 34, false}, {"face up, end 1", 13, false}, {"face up, end 2", 13, false}, {"face down, 1", 12, false}, {"face down, 2", 12, false}, {"mean", 10, false}, {"half", 10, false}}
	}
	j.spaced(f, columns("strip"), blank("warp 1", "warp 2", "warp 3", "weft 1", "weft 2", "weft 3"))
	f.small(plain(fmt.Sprintf("The scheme now has: warp %s, weft %s. Weigh the 100 × 100 mm square: grams × 100 = g/m² (the scheme has %s): ________", long, weft, trim(j.s.Cloth.Mass, 0))))
	f.small(plain("Shrinkage: mark 200 mm both ways before the first wash, measure after: (200 − now) ÷ 2 = %.   warp ________   weft ________"))

	f.head("Starched", 50)
	switch {
	case !t.known:
		f.para(strong("Target: not solved yet. "), plain("Solve the scheme first (on the page ask for the starch target; by command: ruffwright need, with this scheme): it finds the least stiffness that holds this "+j.thing()+" up. Then print this card anew. Until then write down what each bath gives."))
	case t.none && j.manyWays() != "":
		f.para(strong("No target: starch is not needed to hold it up, but makes the sets alike. "), plain("By what was solved this cloth holds the "+j.thing()+" up by itself."+j.manyWays()))
	case t.none:
		f.para(strong("Target: no starch needed. "), plain("By what was solved this cloth holds the "+j.thing()+" up by itself. Starch lightly if you like, to keep it clean."))
	case t.beyond:
		f.para(strong("No target to test: "), plain("the "+j.thing()+" asks for an overhang of "+j.len(t.overhang_mm)+", more than strips of "+j.swatchLen(j.starchStrip())+" can show and more than starch is likely to give. Change the "+j.thing()+" first: sew the other edge as well, tuck the folds, or support it."))
	default:
		from := "from what was solved"
		if t.fromScheme {
			from = "the scheme's own wish"
		}
		f.para(strong("Target: overhang "+j.len(t.overhang_mm)+" "), plain(fmt.Sprintf("(bending length %s along the strip; %s). Less: more starch in the next bath. More than a tenth over: less.", j.len(t.bend_mm), from)))
		if t.overhang_mm > 180 {
			f.para(plain("That is longer than the card's ruler and its slope: measure the overhang with your own tape, and lengthen the slope with a straight lath at the same angle. The strips are cut " + j.swatchLen(j.starchStrip()) + " long."))
		}
	}
	j.spaced(f, columns("bath (g/L), trial"), blank("1", "2", "3", "4", "5", "6"))
	f.small(plain("Strips along the strip's length (" + string(j.s.Strip.Along) + "), dried flat and hard, hung when cool. Damp air softens starch: read on the day's weather that it will be worn in, or allow for it."))
	return f.pages, nil
}

// spaced sets a table with rows high enough to write in.
func (j *job) spaced(f *flow, columns []tableColumn, rows [][]string) {
	var sum float64
	for _, c := range columns {
		sum += c.share
	}
	const high = 7.4
	f.need(high * float64(len(rows)+1))
	x := f.left()
	for _, c := range columns {
		f.page.text(x+0.6, f.y+sizeSmall, sizeSmall, draw.Italic, 0, c.head)
		x += f.width() * c.share / sum
	}
	f.y += 4.4
	top := f.y
	f.page.line(medium, nil, pt(f.left(), f.y), pt(f.left()+f.width(), f.y))
	for _, r := range rows {
		f.page.text(f.left()+0.6, f.y+5, sizeBody, draw.Upright, 0, r[0])
		f.y += high
		f.page.line(0.1, nil, pt(f.left(), f.y), pt(f.left()+f.width(), f.y))
	}
	x = f.left()
	for _, c := range columns[:len(columns)-1] {
		x += f.width() * c.share / sum
		f.page.line(0.1, nil, pt(x, top), pt(x, f.y))
	}
	f.y += 3
}
