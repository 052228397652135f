package figure

import (
	"math"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/word"
)

// above draws the whole ruff from above, the front towards the reader.
func above(s *sheet) error {
	plan, shape := s.plan, s.shape
	c := newCloth(shape, 0, len(shape.Panels))
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
	box := s.fit("above", &e, room, s.opt.most(), c.v)
	s.Scale = e.Scale

	scene, _ := s.scenes(0, len(shape.Panels), true)
	s.solid(scene, e, 0)
	s.pins(&e, plan, shape)

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
	s.handle(draw.Handle{Field: "ruff.depth", At: draw.Pt(box.Max.X, (box.Min.Y+box.Max.Y)/2), Along: draw.Pt(e.Scale, 0)})
	round := outerAt(shape, int(roundAt*float64(len(shape.Panels))))
	s.handle(draw.Handle{Field: "ruff.sets", At: e.Point(geom.Vec3{X: round.X, Y: round.Y}), About: e.Point(geom.Vec3{}), Turn: 2 * math.Pi / float64(plan.Sets)})
	s.point(s.onWhole(e, scene))
	return nil
}

// roundAt is the part of the way round, from the opening, at which the number of sets is
// taken hold of.
const roundAt = 0.36

// outerAt is where the outer edge begins its panel k.
func outerAt(shape pleat.Shape, k int) geom.Vec3 { return shape.Panels[k].V[shape.NV] }

func (s *sheet) pins(e *draw.Eye, plan pleat.Plan, shape pleat.Shape) {
	for m, mark := range plan.Row {
		if !mark.Quarter {
			continue
		}
		v := innerAt(shape, m, 0)
		out := geom.Vec3{X: v.X, Y: v.Y}.Unit()
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
