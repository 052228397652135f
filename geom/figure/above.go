package figure

import (
	"cmp"
	"slices"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// above draws the whole ruff from above, the front towards the reader.
func above(s *sheet) error {
	plan, shape := s.plan, s.shape
	c := newCloth(shape, 0, len(shape.Panels), cmp.Or(s.opt.Cells, stillCells))
	c.dyed(shape, s.tone, 0)
	e := draw.NewEye(0, 90)
	whole := e.Bounds(c.v)
	breadth, depth := whole.Max.X-whole.Min.X, whole.Max.Y-whole.Min.Y

	s.head(sets(plan))
	across, upright := s.Length(breadth), s.Length(depth)
	s.Desc = s.Say(word.Say("The ruff from above, its front at the foot of the sheet. %s, %s across and %s from front to back over all. The strip's ends meet at the front.",
		sets(plan), across, upright))

	room := s.Room
	gutter := s.numberWidth(upright) + 2
	room.Max.X -= gutter
	if room.Max.X-room.Min.X > 120 {
		room.Min.X += gutter // in the middle of a wide sheet
	}
	room.Max.Y -= 21 // opening's words, breadth, ruler
	room.Min.Y += 1
	box := e.Fit(room, s.opt.most(), c.v)
	s.Scale = e.Scale

	b := s.opt.body(c)
	neck := plan.Neckline
	top := s.top(c)
	block(b, &e, neck, -20, top, s.Pal)
	neckband(b, &e, plan, s.Pal)
	c.paint(b, &e, s.dress(plan, c, 0))
	stitches(b, &e, plan, shape, 2.5, 0.13, s.Pal.Thread)
	s.Add(b.Reusable())

	s.pins(&e, plan, shape, top)

	front := innerAt(shape, 0, shape.NV).Lerp(innerAt(shape, plan.Panels, shape.NV), 0.5)
	at := e.Point(geom.Vec3{X: front.X, Y: front.Y})
	tip := draw.Pt(at.X, box.Max.Y+2.6)
	s.Line(s.Pal.Ink, 0.3, []float64{1.1, 0.8}, draw.Pt(at.X, at.Y-1), tip)
	s.Label(draw.Label{At: draw.Pt(at.X, tip.Y+0.6), Text: s.Say(word.Say("opening, at the front")), Size_mm: draw.TextSize, Face: draw.Italic, Anchor: draw.Pt(0.5, 0), Color: s.Pal.Quiet})

	y := box.Max.Y + 11
	s.Across(draw.Pt(box.Min.X, (box.Min.Y+box.Max.Y)/2), draw.Pt(box.Max.X, (box.Min.Y+box.Max.Y)/2), y, across)
	x := box.Max.X + 2 + gutter/2
	s.Upright(draw.Pt((box.Min.X+box.Max.X)/2, box.Min.Y), draw.Pt((box.Min.X+box.Max.X)/2, box.Max.Y), x, upright)
	s.Ruler(draw.Pt(s.Room.Min.X, s.Room.Max.Y-2.5), s.Scale, 40)
	s.pinWord(plan)
	s.point(s.marked(&e, plan, shape), s.spots(&e, plan, shape))
	return nil
}

// top is the height of the neck block: above all cloth.
func (s *sheet) top(c cloth) float64 { return max(0, slices.Max(c.hi)) + 12 }

func (s *sheet) pins(e *draw.Eye, plan pleat.Plan, shape pleat.Shape, z float64) {
	for m, mark := range plan.Row {
		if !mark.Quarter {
			continue
		}
		v := innerAt(shape, m, 0)
		out := geom.Vec3{X: v.X, Y: v.Y}.Unit()
		v.Z = z
		long := min(13, 0.3*v.XY().Norm())
		s.pin(e.Point(v.Sub(out.Scale(long))), e.Point(v.Add(out.Scale(1.5))))
	}
}

func (s *sheet) pin(head, tip draw.Point) {
	s.Line(s.Pal.Ground, 1.1, nil, head, tip)
	s.Line(s.Pal.Ink, 0.38, nil, head, tip)
	s.Dot(head, 1.05, s.Pal.Ground)
	s.Dot(head, 0.8, s.Pal.Ink)
}

func (s *sheet) pinWord(plan pleat.Plan) {
	for _, m := range plan.Row {
		if !m.Quarter {
			continue
		}
		text := s.Say(word.Say("pinned quarters"))
		y := s.Room.Max.Y - 2.5
		l := draw.Label{At: draw.Pt(s.Room.Max.X, y), Text: text, Size_mm: draw.SmallSize, Face: draw.Italic, Anchor: draw.Pt(1, 0.5), Color: s.Pal.Quiet}
		s.Label(l)
		x := l.Box().Min.X - 2
		s.pin(draw.Pt(x-5.5, y), draw.Pt(x, y))
		return
	}
}

// dress is the cloth's, with the selected set's panels tinted; first is the
// panel of the cloth's first column.
func (s *sheet) dress(plan pleat.Plan, c cloth, first int) dress {
	d := dress{pal: s.Pal, hatch: 1.15, inner: true, tone: s.tone}
	if lo, hi, ok := setPanels(plan, s.opt.Set); ok {
		d.selected = func(col int) bool { return col >= (lo-first)*c.per && col <= (hi-first)*c.per }
	}
	return d
}

// marked gives where a mark lies for an eye on the whole ruff, at the edge that a
// note's place is on, and how near to the eye it is.
func (s *sheet) marked(e *draw.Eye, plan pleat.Plan, shape pleat.Shape) func(int, string) (draw.Point, float64, bool) {
	return func(m int, place string) (draw.Point, float64, bool) {
		if m > plan.Panels {
			return draw.Point{}, 0, false
		}
		j := shape.NV
		if atNeck(place) {
			j = 0
		}
		p, near := e.See(innerAt(shape, m, j))
		return p, near, p.X > 1 && p.Y > 1 && p.X < s.Width_mm-1 && p.Y < s.Height_mm-1
	}
}

func atNeck(place string) bool {
	return slices.Contains([]string{WhereInner, WhereTucks, WhereBand, WhereNeck}, place)
}

// parts are where places of notes lie on the whole ruff: the part of the way round,
// the part of the way from the neck outward, and the fold.
var parts = map[string]struct {
	part, row float64
	fold      scheme.Fold
}{
	WhereOuter: {0.12, 1, scheme.Crest}, WhereInner: {0.85, 0, scheme.Crest}, WhereTucks: {0.91, 0, scheme.Crest},
	WhereMarks: {0.09, 0.5, scheme.Crest}, WhereFlaps: {0.93, 1, scheme.Trough}, WhereStrip: {0.16, 0.5, scheme.Crest},
	WhereJoins: {0.16, 0.5, scheme.Crest}, WhereWhole: {0.19, 1, scheme.Crest},
}

// spots gives where each place of a note lies for an eye on the whole ruff: on
// the side of the ruff that faces the eye, different places apart.
func (s *sheet) spots(e *draw.Eye, plan pleat.Plan, shape pleat.Shape) func(string) (draw.Point, bool) {
	nv := shape.NV
	node := func(part float64, j int, fold scheme.Fold) geom.Vec3 {
		m := int(part*float64(plan.Panels)) % plan.Panels
		if plan.Row[m].Fold != fold {
			m++
		}
		return innerAt(shape, m, j)
	}
	return func(place string) (draw.Point, bool) {
		at, ok := parts[place]
		if !ok {
			at = parts[WhereWhole]
		}
		v := node(at.part, int(at.row*float64(nv)), at.fold)
		switch place {
		case WhereBand:
			st := plan.Neckline.At(plan.Neckline.Girth() * 0.06)
			v = geom.Vec3{X: st.Pos.X, Y: st.Pos.Y, Z: plan.Scheme.Band.Height}
		case WhereOpening:
			v = innerAt(shape, 0, nv).Lerp(innerAt(shape, plan.Panels, nv), 0.5)
		case WhereNeck:
			v = geom.Vec3{X: -plan.Neckline.Breadth() * 0.12, Z: plan.Scheme.Band.Height}
		case whereSet:
			lo, hi, ok := setPanels(plan, s.opt.Set)
			if !ok {
				return draw.Point{}, false
			}
			v = innerAt(shape, (lo+hi)/2, nv)
		}
		p := e.Point(v)
		return p, p.X > 1 && p.Y > 1 && p.X < s.Width_mm-1 && p.Y < s.Height_mm-1
	}
}
