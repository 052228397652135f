package figure

import (
	"math"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// endOn is one set seen end on from outside, the neckline made straight.
type endOn struct {
	*sheet
	unrolled
	eye           draw.Eye
	over          float64     // how far the band is shown beyond the set on either side, mm
	low           float64     // the set's lower height at the outer edge, mm: the mean of its two troughs
	top, bottom   float64     // clear widths of its loops, mm; bottom 0: not closed
	height, bands word.Text   // the set's height at the outer edge and the band's
	measures      []draw.Item // the lines and numbers of its measures
}

// endOn looks at a set end on; its band is shown beyond it by the part of its
// breadth.
func (s *sheet) endOn(u unrolled, beyond float64) *endOn {
	x := &endOn{sheet: s, unrolled: u, eye: draw.NewEye(0, 0)}
	outer := u.c.rows - 1
	from, to := u.node(u.lo, outer).Z, u.node(u.hi, outer).Z
	x.low = (from + to) / 2
	switch u.crest { // an end set has one panel
	case u.lo:
		x.low = to
	case u.hi:
		x.low = from
	}
	x.over = beyond * math.Abs(u.node(u.hi, 0).X-u.node(u.lo, 0).X)
	x.top, x.bottom = u.loops(s.plan.Scheme.Cloth.Thickness)
	x.height, x.bands = s.Length(u.node(u.crest, outer).Z-x.low), s.Length(s.plan.Scheme.Band.Height)
	return x
}

// whole tells whether the set has its two panels; one at an end of the strip has one.
func (x *endOn) whole() bool { return x.crest != x.lo && x.crest != x.hi }

// at is where a place along the neckline, z above the band's bottom edge, lies on
// the sheet.
func (x *endOn) at(along, z float64) draw.Point { return x.eye.Point(geom.Vec3{X: along, Z: z}) }

// ends are how far along the neckline the band is shown.
func (x *endOn) ends() (left, right float64) {
	return x.node(x.lo, 0).X - x.over, x.node(x.hi, 0).X + x.over
}

func (x *endOn) frame() []geom.Vec3 {
	left, right := x.ends()
	return []geom.Vec3{{X: left}, {X: right, Z: x.plan.Scheme.Band.Height}}
}

// edge is the set's line at a row, from its first fold to its last.
func (x *endOn) edge(row int) []geom.Vec3 {
	var line []geom.Vec3
	for col := (x.lo - x.first) * x.c.per; col <= (x.hi-x.first)*x.c.per; col++ {
		line = append(line, x.c.at(col, row))
	}
	return line
}

func (x *endOn) drawBand() {
	left, right := x.ends()
	h := x.plan.Scheme.Band.Height
	band := []draw.Point{x.at(left, h), x.at(right, h), x.at(right, 0), x.at(left, 0)}
	x.Add(draw.Path{Lines: [][]draw.Point{band}, Closed: true, Fill: x.Pal.Wash})
	x.Line(x.Pal.Rule, 0.25, nil, band[0], band[1])
	x.Line(x.Pal.Rule, 0.25, nil, band[3], band[2])
}

func (x *endOn) sewn() []draw.Point {
	var on []draw.Point
	for m := x.lo; m <= x.hi; m++ {
		if edge := x.plan.Row[m].Edge; edge != scheme.EdgeNone {
			on = append(on, x.at(x.node(m, 0).X, x.plan.Edge_mm(edge)))
		}
	}
	return on
}

// stitches draws a stitch of half a size at each place, on a disc of the ground.
func (x *endOn) stitches(on []draw.Point, half, disc float64) {
	for _, q := range on {
		x.Dot(q, disc, x.Pal.Ground)
		x.cross(q, half)
	}
}

// apart says how far dimension lines stand from the set's box, sheet mm.
type apart struct{ loop, height, outer, neck float64 }

// dimensions draws the set's measures about its box: the top loop above it, height
// and band beside it, and below it the room that a whole set takes at the outer edge
// and at the neck.
func (x *endOn) dimensions(room, box draw.Rect, off apart) (set figures) {
	outer, pitch := x.c.rows-1, x.plan.Pitch_mm
	a, b := x.loop(x.crest)
	crest := x.node(x.crest, outer)
	x.Across(x.eye.Point(a), x.eye.Point(b), box.Min.Y-off.loop, word.Say("top loop %s", x.Length(x.top)))
	set.height = x.Upright(x.eye.Point(crest), x.at(crest.X, x.low), box.Max.X+off.height+x.numberWidth(x.height)/2, x.height)
	set.band = x.Upright(draw.Pt(box.Min.X, x.at(0, x.plan.Scheme.Band.Height).Y), draw.Pt(box.Min.X, x.at(0, 0).Y), room.Min.X+x.numberWidth(x.bands)/2, x.bands)
	if !x.whole() {
		return set
	}
	y := box.Max.Y + off.outer
	x.Across(x.eye.Point(x.node(x.lo, outer)), x.eye.Point(x.node(x.hi, outer)), y, word.Say("outer edge %s", x.Length(x.roomOuter(pitch))))
	// Folded inward, the cloth at the neck is not where the band takes it.
	mid := (x.node(x.lo, 0).X + x.node(x.hi, 0).X) / 2
	right := draw.Pt(x.at(mid+pitch/2, 0).X, y+2)
	set.neck = x.Across(draw.Pt(x.at(mid-pitch/2, 0).X, y+2), right, y+off.neck, word.Say("neck %s", x.Length(pitch)))
	set.end = draw.Pt(right.X, y+off.neck)
	return set
}

// figures are the boxes of a set's numbers, and where the line of its room at the neck
// ends.
type figures struct {
	height, band, neck draw.Rect
	end                draw.Point
}

// handles are those of the set's measures.
func (x *endOn) handles(set figures) {
	outer := x.c.rows - 1
	crest := x.node(x.crest, outer)
	x.heightHandle(x.eye.Point(crest), x.at(crest.X, x.low), x.eye.Scale, set.height)
	left, _ := x.ends()
	x.handle(draw.Handle{Field: "band.height", At: x.at(left, x.plan.Scheme.Band.Height), Along: draw.Pt(0, -x.eye.Scale), Number: set.band})
	if x.whole() {
		x.handle(draw.Handle{Field: "pleat.pitch", At: set.end, Along: draw.Pt(x.eye.Scale/2, 0), Number: set.neck})
	}
}

// tuckHandles are those of the set's tucks, at their feet: cloth is folded inward so far.
func (x *endOn) tuckHandles() {
	for _, m := range []int{x.crest, x.hi} {
		mark := x.plan.Row[m]
		key, along := "pleat.tuck_top", draw.Pt(0, x.eye.Scale)
		if mark.Fold == scheme.Trough {
			key, along = "pleat.tuck_bottom", draw.Pt(0, -x.eye.Scale)
		}
		x.handle(draw.Handle{Field: key, At: x.eye.Point(x.node(m, 0)), Along: along})
	}
}

func (x *endOn) loopsSaid() word.Text {
	if x.bottom > 0 {
		return word.Say("its top loop is %s wide, the bottom loop beside it %s", x.Length(x.top), x.Length(x.bottom))
	}
	return word.Say("its top loop is %s wide", x.Length(x.top))
}

func (x *endOn) spotted(place string) (draw.Point, bool) {
	switch place {
	case WhereOuter, WhereWhole:
		return x.eye.Point(x.node(x.crest, x.c.rows-1)), true
	case WhereInner, WhereTucks, WhereMarks:
		return x.eye.Point(x.node(x.crest, 0)), true
	case WhereFlaps:
		return x.eye.Point(x.node(x.hi, x.c.rows-1)), true
	}
	return draw.Point{}, false
}
