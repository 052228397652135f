package figure

import (
	"fmt"
	"math"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// side draws the ruff level with the eye from the wearer's left, cut a quarter of
// the way round.
func side(s *sheet) error { return s.level(90, 0.25, false) }

// front draws it from the front, cut beside the opening.
func front(s *sheet) error { return s.level(0, 0.01, true) }

// level draws the ruff level with the eye, turned so far, and below it, larger, one half set cut through at its
// crest: band and stitches, the crest's and the trough's line, depth, heights,
// and how far the outer edge's middle rises above or falls below the inner
// edge's. Scale is that of the lower picture.
func (s *sheet) level(turn_deg, part float64, front bool) error {
	opt, plan, shape := s.opt, s.plan, s.shape
	s.head(sets(plan))

	// Above: the whole ruff.
	c := newCloth(shape, 0, len(shape.Panels), opt.cells(stillCells))
	c.dyed(shape, s.tone, 0)
	e := draw.NewEye(turn_deg, 0)
	room := s.Room
	tall := (room.Max.Y - room.Min.Y) * 0.36
	room.Max.Y = room.Min.Y + tall - 9
	whole := e.Fit(room, opt.most(), c.v)
	b := opt.body(c)
	low := c.lo[0]
	for _, z := range c.lo {
		low = min(low, z)
	}
	spare := (tall - 9 - (whole.Max.Y - whole.Min.Y)) / 2 / e.Scale
	rise := clamp(spare-1/e.Scale, 0, 40)
	block(b, &e, plan.Neckline, min(0, low), s.top(c)-12+rise, s.Pal)
	neckband(b, &e, plan, s.Pal)
	c.paint(b, &e, s.dress(plan, c, 0))
	s.Add(b.Reusable())
	// The block may stand above the cloth: keep both in the room.
	y := whole.Max.Y + 5
	breadth := s.Length((whole.Max.X - whole.Min.X) / e.Scale)
	s.Across(draw.Pt(whole.Min.X, whole.Max.Y-2), draw.Pt(whole.Max.X, whole.Max.Y-2), y, breadth)
	upper := s.spots(&e, plan, shape)

	// Below: one half set, cut at its crest.
	m := cutMark(plan, opt.setAt(plan), part)
	sec := newSection(plan, shape, m, s.tone)
	lower := s.Room
	lower.Min.Y = y + 6
	s.section(plan, sec, lower)
	s.Desc = fmt.Sprintf("%s: the ruff is %s across. Cut through at a crest, it is %s deep from the neck to the outer edge; its outer edge is %s high from crest to trough, the band %s. %s.",
		s.title, breadth, s.Length(sec.depth), s.Length(sec.height), s.Length(plan.Scheme.Band.Height), sec.droopWords(s))
	cutAt := func(m int, place string) (draw.Point, float64, bool) { // the section is of the marks m and m + 1
		if m != sec.mark && m != sec.mark+1 {
			return draw.Point{}, 0, false
		}
		line := sec.crest
		if plan.Row[m].Fold == scheme.Trough {
			line = sec.trough
		}
		row := len(line) - 1
		switch place {
		case WhereInner, WhereTucks, WhereBand, WhereNeck:
			row = 0
		}
		return sec.eye.Point(line[row]), 1, true
	}
	s.point(cutAt, func(place string) (draw.Point, bool) {
		switch place {
		case WhereOuter:
			return sec.eye.Point(sec.crest[len(sec.crest)-1]), true
		case WhereFlaps:
			return sec.eye.Point(sec.trough[len(sec.trough)-1]), true
		case WhereBand:
			return sec.eye.Point(sec.band(plan.Scheme.Band.Height * 0.5)), true
		case WhereInner, WhereTucks:
			return sec.eye.Point(sec.crest[0]), true
		case WhereNeck:
			return sec.eye.Point(sec.zero.Add(sec.eye.Right.Scale(-blockIn - 6))), true
		case WhereOpening:
			if !front {
				return draw.Point{}, false
			}
		}
		return upper(place)
	})
	return nil
}

// cutMark is a crest from which a panel goes on along the strip: of set n, or
// about the part of the way round.
func cutMark(plan pleat.Plan, n int, part float64) int {
	want := int(part * float64(plan.Panels))
	if lo, hi, ok := setPanels(plan, n); ok {
		want = (lo + hi) / 2
	}
	for d := 0; d <= plan.Panels; d++ {
		for _, m := range []int{want - d, want + d} {
			if m >= 0 && m < plan.Panels && plan.Row[m].Fold == scheme.Crest {
				return m
			}
		}
	}
	return 0
}

// section is one panel seen along the neckline from the plane of its crest.
type section struct {
	mark          int // it begins on
	eye           draw.Eye
	panel         cloth
	crest, trough []geom.Vec3 // its highest and its lowest line, from neck to outer edge
	zero          geom.Vec3   // on the neckline, at the band's bottom edge
	depth, height float64     // measured on the shape
	droop         float64     // inner mid-height less outer mid-height, + down
	marks         [2]pleat.Mark
}

func newSection(plan pleat.Plan, shape pleat.Shape, m int, tone *toned) *section {
	c := newCloth(shape, m, m+1, stillCells)
	c.dyed(shape, tone, m)
	s := &section{mark: m, panel: c, marks: [2]pleat.Mark{plan.Row[m], plan.Row[m+1]}}
	for j := range c.rows { // a tuck's cloth is folded in, so the folds' own lines lie below
		top, low := c.at(0, j), c.at(c.cols-1, j)
		for col := range c.cols {
			v := c.at(col, j)
			if v.Z > top.Z {
				top = v
			}
			if v.Z < low.Z {
				low = v
			}
		}
		s.crest, s.trough = append(s.crest, top), append(s.trough, low)
	}
	st := nearest(plan.Neckline, s.crest[0].XY())
	out := geom.Vec3{X: st.Normal.X, Y: st.Normal.Y}
	up := geom.Vec3{Z: 1}
	s.eye = draw.Eye{Right: out, Up: up, Toward: out.Cross(up), Scale: 1}
	s.zero = geom.Vec3{X: st.Pos.X, Y: st.Pos.Y}
	s.eye.Mid = s.zero
	last := len(s.crest) - 1
	s.depth = s.crest[last].Sub(s.zero).Dot(out)
	s.height = s.crest[last].Z - s.trough[last].Z
	s.droop = (s.crest[0].Z+s.trough[0].Z)/2 - (s.crest[last].Z+s.trough[last].Z)/2
	return s
}

// nearest is the station of the neckline nearest to a place, to a 720th of it.
func nearest(n geom.Neckline, p geom.Vec2) geom.Station {
	var best geom.Station
	least := math.Inf(1)
	for _, st := range n.Stations(720) {
		if d := st.Pos.Sub(p).Norm(); d < least {
			least, best = d, st
		}
	}
	return best
}

func (c *section) band(z float64) geom.Vec3 {
	return c.zero.Add(c.eye.Right.Scale(-bandIn)).Add(geom.Vec3{Z: z})
}

// droopWords says where the outer edge's middle lies.
func (c *section) droopWords(s *sheet) string {
	switch {
	case c.droop > 0.5:
		return "The outer edge's middle falls " + s.Length(c.droop) + " below the inner edge's"
	case c.droop < -0.5:
		return "The outer edge's middle rises " + s.Length(-c.droop) + " above the inner edge's"
	}
	return "The outer edge lies level with the inner edge"
}

// section draws the cut panel with its dimensions into the room.
func (s *sheet) section(plan pleat.Plan, c *section, room draw.Rect) {
	e := &c.eye
	h := plan.Scheme.Band.Height
	left := -math.Min(26, 0.8*math.Min(plan.Neckline.Breadth(), plan.Neckline.Depth())/2)
	corner := func(x, z float64) geom.Vec3 { return c.zero.Add(e.Right.Scale(x)).Add(geom.Vec3{Z: z}) }
	lo, hi := 0.0, h
	for _, v := range c.panel.v {
		lo, hi = min(lo, v.Z), max(hi, v.Z)
	}
	ends := []geom.Vec3{corner(left, lo), corner(left, hi)}
	heights, bands := s.Length(c.height), s.Length(h)
	rightCol := draw.TextWidth(heights, draw.TextSize, draw.Upright)/2 + 4
	inner := room
	inner.Min.X += draw.TextWidth(bands, draw.TextSize, draw.Upright) + 2
	inner.Max.X -= 2*rightCol + 12
	inner.Max.Y -= 16
	inner.Min.Y += 4
	box := e.Fit(inner, s.opt.most(), c.panel.v, ends)
	s.Scale = e.Scale

	// The block, cut: wood with upright grain, its left side left open.
	above, below := 6/e.Scale, 6/e.Scale
	p := func(x, z float64) draw.Point { return e.Point(corner(x, z)) }
	in := -math.Min(blockIn, 0.15*math.Min(plan.Neckline.Breadth(), plan.Neckline.Depth())/2)
	wood := []draw.Point{p(left, hi+above), p(in, hi+above), p(in, lo-below), p(left, lo-below)}
	s.Add(draw.Path{Lines: [][]draw.Point{wood}, Closed: true, Fill: draw.Mix(s.Pal.WoodDeep, s.Pal.WoodLight, 0.72)})
	var grain [][]draw.Point
	for k := 1; k < 9; k++ {
		x := left + (in-left)*math.Pow(float64(k)/9, 0.8)
		var g []draw.Point
		for i := 0; i <= 12; i++ {
			z := lo - below + (hi+above-lo+below)*float64(i)/12
			g = append(g, p(x+0.5*math.Sin(float64(i)*0.55+float64(k)*1.9), z))
		}
		grain = append(grain, g)
	}
	s.Add(draw.Path{Lines: grain, Stroke: draw.Mix(s.Pal.WoodDeep, s.Pal.WoodLight, 0.35), Width_mm: 0.16})
	s.Line(s.Pal.WoodDeep, 0.3, nil, wood[0], wood[1], wood[2], wood[3])

	// Cloth, then the band's cut edge over it, then stitches.
	var b draw.Body
	d := dress{pal: s.Pal, hatch: 1.3, tone: s.tone}
	c.panel.paint(&b, e, d)
	s.Add(b.Surface())
	line := func(pts []geom.Vec3, w float64) {
		q := make([]draw.Point, len(pts))
		for i, v := range pts {
			q[i] = e.Point(v)
		}
		s.Line(s.Pal.Ink, w, nil, q...)
	}
	line(c.trough, 0.3)
	line(c.crest, 0.5)
	half := math.Max(0.45, 0.7*e.Scale) / e.Scale
	bar := []draw.Point{p(-bandIn-2*half, h), p(-bandIn, h), p(-bandIn, 0), p(-bandIn-2*half, 0)}
	s.Add(draw.Path{Lines: [][]draw.Point{bar}, Closed: true, Fill: s.Pal.Cloth(0.95), Stroke: s.Pal.Ink, Width_mm: 0.3})
	for _, mark := range c.marks {
		if mark.Edge == scheme.EdgeNone {
			continue
		}
		z := 0.0
		dz := 1.6 / e.Scale
		if mark.Edge == scheme.EdgeTop {
			z, dz = h, -dz
		}
		q := p(0, z)
		over := p(-bandIn-half, z-0.35*dz)
		inside := p(-bandIn-2*half-0.3/e.Scale, z+dz)
		s.Line(s.Pal.Thread, 0.55, nil, draw.Pt(q.X+0.8, q.Y), over, inside)
		s.Dot(draw.Pt(q.X+0.8, q.Y), 0.5, s.Pal.Thread)
	}

	// Dimensions: depth below, height right, band left, droop beyond the height.
	last := len(c.crest) - 1
	tip, foot := e.Point(c.crest[last]), e.Point(c.trough[last])
	y := math.Max(box.Max.Y, wood[2].Y) + 4
	s.Across(p(0, lo), draw.Pt(tip.X, foot.Y), y, s.Length(c.depth))
	x := box.Max.X + 3 + rightCol
	s.Upright(tip, foot, x, heights)
	s.Upright(p(left, 0), p(left, h), room.Min.X+draw.TextWidth(bands, draw.TextSize, draw.Upright)/2, bands)
	mid := e.Point(c.crest[0].Lerp(c.trough[0], 0.5))
	out := draw.Pt(tip.X, (tip.Y+foot.Y)/2)
	s.Line(s.Pal.Rule, 0.22, []float64{1.6, 0.9, 0.01, 0.9}, draw.Pt(p(0, 0).X+1, mid.Y), draw.Pt(x-rightCol, mid.Y))
	s.Line(s.Pal.Ink, 0.35, nil, draw.Pt(out.X-1.6, out.Y), draw.Pt(out.X+1.6, out.Y))
	word := "level"
	if c.droop > 0.5 {
		word = "falls " + s.Length(c.droop)
	} else if c.droop < -0.5 {
		word = "rises " + s.Length(-c.droop)
	}
	s.Place(draw.Label{At: draw.Pt(x, mid.Y), Text: word, Size_mm: draw.SmallSize, Face: draw.Italic, Color: s.Pal.Quiet},
		draw.Pt(0, foot.Y+2.5-mid.Y), draw.Pt(0, tip.Y-2.5-mid.Y), draw.Pt(2, foot.Y+5-mid.Y), draw.Pt(-8, foot.Y+7-mid.Y))
	s.Ruler(draw.Pt(room.Min.X, room.Max.Y-2), s.Scale, 30)
}
