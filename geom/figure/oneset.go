package figure

import (
	"fmt"
	"image/color"
	"math"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// oneSet draws one set end on, as the eye sees it looking from outside towards
// the neck, the neckline unrolled: the outer edge's curve with the loop's clear
// width, height and room, the inner edge's curve behind it, and the stitches on
// the band. Neighbours are drawn faintly.
func oneSet(s *sheet) error {
	opt, plan, shape := s.opt, s.plan, s.shape
	n := opt.setAt(plan)
	if n == 0 {
		n = (plan.Sets + 1) / 2
	}
	lo, hi, ok := setPanels(plan, n)
	if !ok {
		return fmt.Errorf("figure: Set is %d, want 0 to %d", opt.Set, plan.Crests)
	}
	s.opt.Set = 0 // the whole sheet is about it: no sign needed
	s.head(fmt.Sprintf("set %d of %d, seen end on", n, plan.Sets))
	u := unroll(plan, shape, s.tone, lo, hi, setCrest(plan, n))
	return s.endOnView(plan, u, n)
}

// setCrest is the mark of set n's crest.
func setCrest(plan pleat.Plan, n int) int {
	seen := 0
	for m, mark := range plan.Row {
		if mark.Fold == scheme.Crest {
			if seen++; seen == n {
				return m
			}
		}
	}
	return 0
}

// unrolled is a set and its neighbours with the neckline made straight: X along
// it (at each distance from the neck in its own true length), Y inward, Z up.
type unrolled struct {
	c             cloth
	first         int     // panel of the first column
	lo, hi, crest int     // panels of the set, and its crest's mark
	r             float64 // the neckline's radius here, mm
}

// setAt is the set to show: the one selected, else that of the first mark of the
// note that has marks, where there is just one note; 0 = the view chooses.
func (o Options) setAt(plan pleat.Plan) int {
	if o.Set > 0 || len(o.Notes) != 1 || len(o.Notes[0].At) == 0 {
		return o.Set
	}
	n := 0
	for m, mark := range plan.Row {
		if mark.Fold == scheme.Crest {
			n++
		}
		if m >= o.Notes[0].At[0]-1 && n > 0 {
			break
		}
	}
	return n
}

func unroll(plan pleat.Plan, shape pleat.Shape, tone *toned, lo, hi, crest int) unrolled {
	first, end := max(0, lo-1), min(plan.Panels, hi+1)
	u := unrolled{c: newCloth(shape, first, end, stillCells), first: first, lo: lo, hi: hi, crest: crest}
	u.c.dyed(shape, tone, first)
	st := nearest(plan.Neckline, innerAt(shape, crest, 0).XY())
	r := 1 / st.Curvature
	u.r = r
	centre := st.Pos.Sub(st.Normal.Scale(r))
	for i, v := range u.c.v {
		d := v.XY().Sub(centre)
		a := math.Atan2(st.Normal.Cross(d), st.Normal.Dot(d))
		u.c.v[i] = geom.Vec3{X: a * d.Norm(), Y: r - d.Norm(), Z: v.Z}
	}
	if n := 64 / u.c.per; n > 1 {
		u.c = u.c.refine(n)
	}
	return u
}

func (u *unrolled) node(mark, row int) geom.Vec3 {
	return u.c.at((mark-u.first)*u.c.per, row)
}

// loop measures the loop of the fold at a mark at the outer edge: the two places,
// in the middle of the cloth, between which it is widest within its own half of the
// height. The clear width is less by the cloth's thickness.
func (u *unrolled) loop(mark int) (a, b geom.Vec3) {
	row := u.c.rows - 1
	at := (mark - u.first) * u.c.per
	from, to := max(0, at-u.c.per), min(u.c.cols-1, at+u.c.per)
	top := u.node(mark, row)
	mid := (top.Z + max(u.c.at(from, row).Z, u.c.at(to, row).Z)) / 2
	side := -1.0
	if (mark-u.crest)%2 == 0 {
		side, mid = 1, (top.Z+min(u.c.at(from, row).Z, u.c.at(to, row).Z))/2
	}
	a, b = top, top
	for col := at; col <= to && side*(u.c.at(col, row).Z-mid) >= 0; col++ {
		if v := u.c.at(col, row); v.X > b.X {
			b = v
		}
	}
	for col := at; col >= from && side*(u.c.at(col, row).Z-mid) >= 0; col-- {
		if v := u.c.at(col, row); v.X < a.X {
			a = v
		}
	}
	return a, b
}

// loops are the clear widths of a set's two loops, mm: its crest's and that of a
// trough beside it, 0 where no neighbour closes it.
func (u *unrolled) loops(thickness_mm float64) (top_mm, bottom_mm float64) {
	clear := func(mark int) float64 {
		a, b := u.loop(mark)
		return math.Max(0, b.X-a.X-thickness_mm)
	}
	top_mm = clear(u.crest)
	last := u.first + (u.c.cols-1)/u.c.per
	switch {
	case u.hi > u.crest && u.hi < last:
		bottom_mm = clear(u.hi)
	case u.lo < u.crest && u.lo > u.first:
		bottom_mm = clear(u.lo)
	}
	return top_mm, bottom_mm
}

// roomOuter is the room that a set of a pitch takes at the outer edge, mm, at the
// edge's mean distance from the neck.
func (u *unrolled) roomOuter(pitch_mm float64) float64 {
	row := u.c.rows - 1
	along, far := 0.0, 0.0
	for col := (u.lo - u.first) * u.c.per; col < (u.hi-u.first)*u.c.per; col++ {
		a, b := u.c.at(col, row), u.c.at(col+1, row)
		l := a.Sub(b).Norm()
		along, far = along+l, far+l*(u.r-(a.Y+b.Y)/2)
	}
	return pitch_mm * far / along / u.r
}

// loopsSaid says in a sentence how wide a set's loops are.
func (s *sheet) loopsSaid(top_mm, bottom_mm float64) string {
	said := "its top loop is " + s.Length(top_mm) + " wide"
	if bottom_mm > 0 {
		said += ", the bottom loop beside it " + s.Length(bottom_mm)
	}
	return said
}

func (s *sheet) endOnView(plan pleat.Plan, u unrolled, n int) error {
	e := draw.NewEye(0, 0)
	row := u.c.rows - 1
	band := plan.Scheme.Band.Height
	a, b := u.loop(u.crest)
	crest := u.node(u.crest, row)
	from, to := u.node(u.lo, row), u.node(u.hi, row)
	low := (from.Z + to.Z) / 2
	switch u.crest { // an end set has one panel
	case u.lo:
		low = to.Z
	case u.hi:
		low = from.Z
	}
	height := s.Length(crest.Z - low)
	whole := u.crest != u.lo && u.crest != u.hi
	word := func(what string, mm float64) string { return what + " " + s.Length(mm) }

	// Room: loop above, two rows of pitch below, heights to the sides.
	room := s.Room
	gap := draw.TextWidth(height, draw.TextSize, draw.Upright) + 4
	bands := s.Length(band)
	room.Min.X += draw.TextWidth(bands, draw.TextSize, draw.Upright) + 4
	room.Max.X -= gap
	room.Min.Y += 10
	room.Max.Y -= 26
	inL, inR := u.node(u.lo, 0), u.node(u.hi, 0)
	over := 0.5 * (inR.X - inL.X)
	frame := []geom.Vec3{{X: inL.X - over}, {X: inR.X + over, Z: band}}
	box := e.Fit(room, s.opt.most(), u.c.v, frame)
	s.Scale = e.Scale

	// The band behind everything.
	p := func(x, z float64) draw.Point { return e.Point(geom.Vec3{X: x, Z: z}) }
	strip := []draw.Point{p(inL.X-over, band), p(inR.X+over, band), p(inR.X+over, 0), p(inL.X-over, 0)}
	s.Add(draw.Path{Lines: [][]draw.Point{strip}, Closed: true, Fill: s.Pal.Wash})
	s.Line(s.Pal.Rule, 0.25, nil, strip[0], strip[1])
	s.Line(s.Pal.Rule, 0.25, nil, strip[3], strip[2])

	// Neighbours faint, then the set.
	faint := s.Pal
	fade := 0.66
	faint.ClothLight, faint.ClothMid, faint.ClothDeep = draw.Mix(s.Pal.ClothLight, s.Pal.Ground, fade), draw.Mix(s.Pal.ClothMid, s.Pal.Ground, fade), draw.Mix(s.Pal.ClothDeep, s.Pal.Ground, fade)
	faint.Hatch = draw.Mix(s.Pal.Hatch, s.Pal.Ground, fade)
	cut := func(from, to int, pal draw.Palette) {
		if from >= to {
			return
		}
		part := cloth{cols: (to-from)*u.c.per + 1, rows: u.c.rows, per: u.c.per, lo: u.c.lo, hi: u.c.hi}
		part.v = u.c.v[(from-u.first)*u.c.per*u.c.rows:][:part.cols*part.rows]
		d := dress{pal: pal, hatch: 1.3}
		if s.tone != nil && from == u.lo { // neighbours stay faint
			d.tone = s.tone
			part.dye = u.c.dye[(from-u.first)*u.c.per*u.c.rows:][:part.cols*part.rows]
		}
		var b draw.Body
		part.paint(&b, &e, d)
		s.Add(b.Surface())
	}
	cut(u.first, u.lo, faint)
	cut(u.hi, u.first+(u.c.cols-1)/u.c.per, faint)
	cut(u.lo, u.hi, s.Pal)

	// Edges: the inner one lighter, the outer one full.
	edge := func(j int, c color.NRGBA, w float64, dash []float64) {
		var q []draw.Point
		for col := (u.lo - u.first) * u.c.per; col <= (u.hi-u.first)*u.c.per; col++ {
			q = append(q, e.Point(u.c.at(col, j)))
		}
		s.Line(c, w, dash, q...)
	}
	edge(0, s.Pal.Rule, 0.32, []float64{1.1, 0.8})
	edge(row, s.Pal.Ink, 0.6, nil)

	// Stitches where folds are sewn.
	for m := u.lo; m <= u.hi; m++ {
		if plan.Row[m].Edge == scheme.EdgeNone {
			continue
		}
		q := p(u.node(m, 0).X, plan.Edge_mm(plan.Row[m].Edge))
		s.Dot(q, 1.7, s.Pal.Ground)
		s.cross(q, 1)
	}

	// Dimensions, stacked outward.
	top, bottom := u.loops(plan.Scheme.Cloth.Thickness)
	loop := word("top loop", top)
	s.Across(e.Point(a), e.Point(b), box.Min.Y-5, loop)
	s.Upright(e.Point(crest), p(crest.X, low), box.Max.X+2+gap/2, height)
	s.Upright(draw.Pt(box.Min.X, strip[0].Y), draw.Pt(box.Min.X, strip[3].Y), s.Room.Min.X+draw.TextWidth(bands, draw.TextSize, draw.Upright)/2, bands)
	y := box.Max.Y + 5
	var rooms string
	if whole {
		outer := u.roomOuter(plan.Pitch_mm)
		rooms = fmt.Sprintf("A set takes %s at the outer edge and %s at the neck", s.Length(outer), s.Length(plan.Pitch_mm))
		s.Across(e.Point(from), e.Point(to), y, word("outer edge", outer))
		// Folded inward, the cloth at the neck is not where the band takes it.
		neckL, neckR := p((inL.X+inR.X-plan.Pitch_mm)/2, 0), p((inL.X+inR.X+plan.Pitch_mm)/2, 0)
		s.Across(draw.Pt(neckL.X, y+2), draw.Pt(neckR.X, y+2), y+9.5, word("neck", plan.Pitch_mm))
	} else {
		rooms = "It is an end set of one panel"
	}
	s.Ruler(draw.Pt(s.Room.Min.X, s.Room.Max.Y-2), s.Scale, 30)
	s.Desc = fmt.Sprintf("Set %d seen end on from outside: %s. It is %s high. %s. The band is %s high.", n, s.loopsSaid(top, bottom), height, rooms, bands)
	s.point(nil, func(place string) (draw.Point, bool) {
		switch place {
		case WhereOuter, WhereWhole:
			return e.Point(crest), true
		case WhereInner, WhereTucks, WhereMarks:
			return e.Point(u.node(u.crest, 0)), true
		case WhereBand:
			return p(inR.X+over*0.7, band*0.97), true
		case WhereFlaps:
			return e.Point(to), true
		}
		return draw.Point{}, false
	})
	return nil
}
