package figure

import (
	"cmp"
	"slices"

	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// side draws the ruff level with the eye from the wearer's left, cut a quarter of
// the way round.
func side(s *sheet) error { return s.level(90, 0.25, false) }

func front(s *sheet) error { return s.level(0, 0.01, true) }

// level draws the ruff level with the eye, turned so far, and below it, larger, one
// half set cut through at its crest, at the part of the way round. Scale is that of the
// lower picture.
func (s *sheet) level(turn_deg, part float64, front bool) error {
	s.head(sets(s.plan))
	e := draw.NewEye(turn_deg, 0)
	breadth, foot := s.wholeLevel(&e)
	sec := newSection(s.plan, s.shape, cutMark(s.plan, s.opt.setAt(s.plan), part), s.tone)
	lower := s.Room
	lower.Min.Y = foot + 6
	s.section(sec, lower)
	_, droop := sec.droopSaid(s)
	s.Desc = s.Say(word.Say("%s: the ruff is %s across. Cut through at a crest, it is %s deep from the neck to the outer edge; its outer edge is %s high from crest to trough, the band %s. %s",
		s.title, breadth, s.Length(sec.depth), s.Length(sec.height), s.Length(s.plan.Scheme.Band.Height), droop))
	upper := s.spots(&e, s.plan, s.shape)
	s.point(sec.marked, func(place string) (draw.Point, bool) {
		if place == WhereOpening && !front {
			return draw.Point{}, false
		}
		if at, ok := sec.spot(place); ok {
			return at, true
		}
		return upper(place)
	})
	return nil
}

// wholeLevel draws the whole ruff in the upper part of the room. It gives the
// breadth, and how far down the sheet its dimension line lies.
func (s *sheet) wholeLevel(e *draw.Eye) (breadth word.Text, foot float64) {
	c := newCloth(s.shape, 0, len(s.shape.Panels), cmp.Or(s.opt.Cells, stillCells))
	c.dyed(s.shape, s.tone, 0)
	room := s.Room
	tall := (room.Max.Y-room.Min.Y)*0.36 - 9
	room.Max.Y = room.Min.Y + tall
	whole := e.Fit(room, s.opt.most(), c.v)
	b := s.opt.body(c)
	// The block may stand above the cloth: keep both in the room.
	rise := clamp((tall-(whole.Max.Y-whole.Min.Y))/2/e.Scale-1/e.Scale, 0, 40)
	block(b, e, s.plan.Neckline, min(0, slices.Min(c.lo)), s.top(c)-12+rise, s.Pal)
	neckband(b, e, s.plan, s.Pal)
	c.paint(b, e, s.dress(s.plan, c, 0))
	s.Add(b.Reusable())
	foot = whole.Max.Y + 5
	breadth = s.Length((whole.Max.X - whole.Min.X) / e.Scale)
	s.Across(draw.Pt(whole.Min.X, whole.Max.Y-2), draw.Pt(whole.Max.X, whole.Max.Y-2), foot, breadth)
	return breadth, foot
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
