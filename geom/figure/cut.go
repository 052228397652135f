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

// cut draws one set as two clear sections, without light or shade. End on: the
// curves of its outer and inner edge, with the loop's clear width, height, tucks,
// the room a set takes, and the slack between the sewn points. Through a crest,
// from the neck outward: crest and trough, depth, height, and how the middle
// rises or falls. Scale is that of the section through the crest.
func cut(s *sheet) error {
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
	s.head(fmt.Sprintf("set %d of %d", n, plan.Sets))
	first, second := s.Room, s.Room
	w, h := s.Room.Max.X-s.Room.Min.X, s.Room.Max.Y-s.Room.Min.Y
	small := w < 140 && h < 75 // no room for two: the section outward is in the side view, too
	switch {
	case small:
	case w > 1.15*h:
		first.Max.X = s.Room.Min.X + 0.48*w - 3
		second.Min.X = s.Room.Min.X + 0.48*w + 3
	default:
		first.Max.Y = s.Room.Min.Y + 0.63*h - 2
		second.Min.Y = s.Room.Min.Y + 0.63*h + 2
	}
	u := unroll(plan, shape, nil, lo, hi, setCrest(plan, n))
	ends := s.endOn(plan, u, first)
	m := u.crest
	if m >= plan.Panels { // the strip ends there
		m = plan.Panels - 1
	}
	sec := newSection(plan, shape, m, nil)
	if small {
		s.Scale = ends.eye.Scale
		s.Desc = fmt.Sprintf("Set %d cut through. %s", n, ends.words)
		s.point(nil, ends.spots(u, func(string) (draw.Point, bool) { return draw.Point{}, false }))
		return nil
	}
	s.Label(draw.Label{At: second.Min, Text: draw.Clip("from the neck outward, through the top fold", draw.SmallSize, draw.Italic, second.Max.X-second.Min.X), Size_mm: draw.SmallSize, Face: draw.Italic, Color: s.Pal.Quiet})
	second.Min.Y += draw.SmallSize*draw.Leading + 1
	s.section(plan, sec, second)
	s.Desc = fmt.Sprintf("Set %d cut through. %s It is %s deep from the neck to the outer edge. %s.",
		n, ends.words, s.Length(sec.depth), sec.droopWords(s))
	s.point(nil, ends.spots(u, func(place string) (draw.Point, bool) {
		switch place {
		case WhereBand:
			return sec.eye.Point(sec.band(plan.Scheme.Band.Height * 0.5)), true
		case WhereNeck:
			return sec.eye.Point(sec.zero.Add(sec.eye.Right.Scale(-blockIn - 6))), true
		}
		return draw.Point{}, false
	}))
	return nil
}

// endOn is the section seen from outside: the eye on it, and what it tells.
type endOn struct {
	eye   draw.Eye
	words string
}

// spots gives where the places of notes lie; other has those of the section
// outward.
func (x endOn) spots(u unrolled, other func(string) (draw.Point, bool)) func(string) (draw.Point, bool) {
	return func(place string) (draw.Point, bool) {
		switch place {
		case WhereOuter, WhereWhole:
			return x.eye.Point(u.node(u.crest, u.c.rows-1)), true
		case WhereInner, WhereTucks, WhereMarks:
			return x.eye.Point(u.node(u.crest, 0)), true
		case WhereFlaps:
			return x.eye.Point(u.node(u.hi, u.c.rows-1)), true
		}
		return other(place)
	}
}

// endOn draws the set's edges into the room.
func (s *sheet) endOn(plan pleat.Plan, u unrolled, room draw.Rect) endOn {
	e := draw.NewEye(0, 0)
	outer := u.c.rows - 1
	band := plan.Scheme.Band.Height
	a, b := u.loop(u.crest)
	crest, from, to := u.node(u.crest, outer), u.node(u.lo, outer), u.node(u.hi, outer)
	low := (from.Z + to.Z) / 2
	switch u.crest { // an end set has one panel
	case u.lo:
		low = to.Z
	case u.hi:
		low = from.Z
	}
	top, bottom := u.loops(plan.Scheme.Cloth.Thickness)
	loop, height, bands := "top loop "+s.Length(top), s.Length(crest.Z-low), s.Length(band)

	// The set's own curves fill what the numbers leave of the room.
	s.Label(draw.Label{At: room.Min, Text: draw.Clip("seen end on", draw.SmallSize, draw.Italic, room.Max.X-room.Min.X), Size_mm: draw.SmallSize, Face: draw.Italic, Color: s.Pal.Quiet})
	slack := s.slackWords(plan)
	inner := room
	inner.Min.X += draw.TextWidth(bands, draw.TextSize, draw.Upright) + 3
	inner.Max.X -= draw.TextWidth(height, draw.TextSize, draw.Upright) + 3
	inner.Min.Y += draw.SmallSize*draw.Leading + 9
	inner.Max.Y -= 19
	var foot []string
	if slack != "" {
		foot = draw.Wrap(slack, draw.SmallSize, draw.Italic, room.Max.X-room.Min.X, 2)
		inner.Max.Y -= draw.SmallSize * draw.Leading * float64(len(foot))
	}
	curve := func(j int) []geom.Vec3 {
		var pts []geom.Vec3
		for col := (u.lo - u.first) * u.c.per; col <= (u.hi-u.first)*u.c.per; col++ {
			pts = append(pts, u.c.at(col, j))
		}
		return pts
	}
	out, in := curve(outer), curve(0)
	inL, inR := u.node(u.lo, 0), u.node(u.hi, 0)
	over := 0.35 * math.Abs(inR.X-inL.X)
	box := e.Fit(inner, maxScale, out, in, []geom.Vec3{{X: inL.X - over}, {X: inR.X + over, Z: band}})
	p := func(x, z float64) draw.Point { return e.Point(geom.Vec3{X: x, Z: z}) }
	strip := []draw.Point{p(inL.X-over, band), p(inR.X+over, band), p(inR.X+over, 0), p(inL.X-over, 0)}
	s.Add(draw.Path{Lines: [][]draw.Point{strip}, Closed: true, Fill: s.Pal.Wash})
	s.Line(s.Pal.Rule, 0.25, nil, strip[0], strip[1])
	s.Line(s.Pal.Rule, 0.25, nil, strip[3], strip[2])
	line := func(pts []geom.Vec3, c color.NRGBA, w float64, dash []float64) {
		q := make([]draw.Point, len(pts))
		for i, v := range pts {
			q[i] = e.Point(v)
		}
		s.Line(c, w, dash, q...)
	}
	line(in, s.Pal.Walnut, 0.45, []float64{1.6, 0.8})
	line(out, s.Pal.Ink, 0.65, nil)

	// Sewn points, the straight ways between them that slack is measured against,
	// and how deep the tucks are.
	var sewn []draw.Point
	for m := u.lo; m <= u.hi; m++ {
		mark := plan.Row[m]
		if mark.Edge == scheme.EdgeNone {
			continue
		}
		sewn = append(sewn, p(u.node(m, 0).X, plan.Edge_mm(mark.Edge)))
	}
	if slack != "" {
		for k := 1; k < len(sewn); k++ {
			s.Line(s.Pal.Rule, 0.22, []float64{0.01, 0.9}, sewn[k-1], sewn[k])
		}
	}
	for _, q := range sewn {
		s.Dot(q, 1.5, s.Pal.Ground)
		s.cross(q, 0.9)
	}
	s.Across(e.Point(a), e.Point(b), box.Min.Y-4.5, loop)
	s.Upright(e.Point(crest), p(crest.X, low), box.Max.X+1.5+draw.TextWidth(height, draw.TextSize, draw.Upright)/2, height)
	s.Upright(draw.Pt(box.Min.X, strip[0].Y), draw.Pt(box.Min.X, strip[3].Y), room.Min.X+draw.TextWidth(bands, draw.TextSize, draw.Upright)/2, bands)
	y := box.Max.Y + 4.5
	words := fmt.Sprintf("End on, %s and it is %s high at the outer edge; the band is %s high.", s.loopsSaid(top, bottom), height, bands)
	if u.crest != u.lo && u.crest != u.hi {
		s.Across(e.Point(from), e.Point(to), y, "outer edge "+s.Length(u.roomOuter(plan.Pitch_mm)))
		neckL, neckR := p((inL.X+inR.X-plan.Pitch_mm)/2, 0), p((inL.X+inR.X+plan.Pitch_mm)/2, 0)
		s.Across(draw.Pt(neckL.X, y+2), draw.Pt(neckR.X, y+2), y+7.5, "neck "+s.Length(plan.Pitch_mm))
	}
	names := []struct {
		text string
		at   draw.Point
	}{
		{"outer edge", e.Point(out[len(out)*5/8])},
		{"inner edge", e.Point(in[len(in)*3/8])},
	}
	for m := u.lo; m <= u.hi; m++ {
		if mark := plan.Row[m]; mark.Tuck_mm > 0 && (m == u.crest || m == u.hi) {
			at := e.Point(u.node(m, 0))
			text := "tuck " + s.Length(mark.Tuck_mm)
			words += fmt.Sprintf(" The %s is %s deep.", map[bool]string{true: "top fold's tuck", false: "bottom fold's tuck"}[m == u.crest], s.Length(mark.Tuck_mm))
			names = append(names, struct {
				text string
				at   draw.Point
			}{text, at})
		}
	}
	for _, name := range names {
		l := draw.Label{At: name.at, Text: name.text, Size_mm: draw.SmallSize, Face: draw.Italic, Color: s.Pal.Quiet}
		if s.Place(l, draw.Around(3)...) || s.Place(l, draw.Around(6)...) {
			// A thread from the word to what it names, where it stands off.
			last := s.Taken[len(s.Taken)-1]
			to := draw.Pt(clamp(name.at.X, last.Min.X, last.Max.X), clamp(name.at.Y, last.Min.Y, last.Max.Y))
			s.Line(s.Pal.Rule, 0.18, nil, name.at, to)
		}
	}
	for k, text := range foot {
		s.Label(draw.Label{At: draw.Pt(room.Min.X, room.Max.Y-draw.SmallSize*draw.Leading*float64(len(foot)-k)), Text: text, Size_mm: draw.SmallSize, Face: draw.Italic, Color: s.Pal.Quiet})
	}
	if slack != "" {
		words += " " + slack + "."
	}
	return endOn{e, words}
}

// slackWords tell the slack of the inner edge; "" where none is defined.
func (s *sheet) slackWords(plan pleat.Plan) string {
	if plan.Slack <= 0 {
		return ""
	}
	return fmt.Sprintf("slack %.3f: %s of inner edge between sewn points %s apart", plan.Slack, s.Length(plan.InnerPanel_mm), s.Length(plan.InnerPanel_mm/plan.Slack))
}
