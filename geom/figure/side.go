package figure

import (
	"math"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// front draws the ruff and its wearer level with the eye, from the front, as large as
// the sheet takes.
func front(s *sheet) error {
	s.head(sets(s.plan))
	e := draw.NewEye(0, 0)
	room := s.Room
	room.Max.Y -= 14
	sec := newSection(s.plan, s.shape, cutMark(s.plan, s.opt.setAt(s.plan), 0.01), nil)
	high := s.Length(sec.height)
	room.Max.X -= s.numberWidth(high) + 4
	room.Min.X += s.numberWidth(high) + 4
	scene, ruff := s.wholeLevel("front", &e, room)
	if s.opt.Bow_deg == 0 {
		last := len(sec.crest) - 1
		tip, low := e.Point(geom.Vec3{Z: sec.crest[last].Z}), e.Point(geom.Vec3{Z: sec.trough[last].Z})
		x := ruff.Max.X + 2 + s.numberWidth(high)/2
		number := s.Upright(draw.Pt(ruff.Max.X-1, tip.Y), draw.Pt(ruff.Max.X-1, low.Y), x, high)
		s.handle(draw.Handle{Field: "ruff.depth", At: draw.Pt(ruff.Min.X, (tip.Y+low.Y)/2), Along: draw.Pt(-e.Scale, 0)})
		s.heightHandle(draw.Pt(ruff.Max.X, tip.Y), draw.Pt(ruff.Max.X, low.Y), e.Scale, number)
	}
	s.Desc = s.Say(word.Join(" ", word.Say("The ruff from the front, level with the eye: it is %s across, and at the opening %s high from crest to trough.", s.across(), high), s.wornBy(), s.bowSaid()))
	s.Ruler(draw.Pt(s.Room.Min.X, s.Room.Max.Y-2), s.Scale, 40)
	s.point(s.onWhole(e, scene))
	return nil
}

// side draws the ruff and its wearer level with the eye from the wearer's left, and,
// larger, one half set cut through at its crest, a quarter of the way round. Scale is
// that of the section.
func side(s *sheet) error {
	s.head(sets(s.plan))
	e := draw.NewEye(90, 0)
	upper, lower := s.Room, s.Room
	w, h := s.Room.Max.X-s.Room.Min.X, s.Room.Max.Y-s.Room.Min.Y
	if w > 1.15*h && w > sideBySide_mm {
		upper.Max.X = s.Room.Min.X + 0.5*w - 3
		upper.Max.Y -= 8
		lower.Min.X = s.Room.Min.X + 0.5*w + 3
	} else {
		upper.Max.Y = s.Room.Min.Y + 0.38*h - 3
		lower.Min.Y = s.Room.Min.Y + 0.38*h + 2
	}
	scene, _ := s.wholeLevel("", &e, upper)
	sec := newSection(s.plan, s.shape, cutMark(s.plan, s.opt.setAt(s.plan), 0.25), s.tone)
	s.section(sec, lower)
	_, droop := sec.droopSaid(s)
	s.Desc = s.Say(word.Join(" ", word.Say("From the wearer's left: the ruff is %s across. Cut through at a crest, it is %s deep from the neck to the outer edge. Its outer edge is %s high from crest to trough, the band %s. %s",
		s.across(), s.Length(sec.depth), s.Length(sec.height), s.Length(s.plan.Scheme.Band.Height), droop), sec.restsOn(s), s.wornBy(), s.bowSaid()))
	s.point(sidePlaces{sec, s.onWhole(e, scene)})
	return nil
}

// sideBySide_mm is the breadth that a ruff and its section with its measures need beside
// each other; on a narrower sheet one stands below the other.
const sideBySide_mm = 140

// sidePlaces are those of the section, and of the whole ruff where it has none.
type sidePlaces struct {
	cut   *section
	whole *whole
}

func (p sidePlaces) mark(m int, where string) (seen, bool) {
	if at, ok := p.cut.marked(m, where); ok {
		return at, ok
	}
	return p.whole.mark(m, where)
}

func (p sidePlaces) spot(where string, nth int) (seen, bool) {
	if at, ok := p.cut.spotted(where); ok {
		return seen{Point: at}, true
	}
	return p.whole.spot(where, nth)
}

// across is the greatest breadth of the ruff, from the wearer's left to right.
func (s *sheet) across() word.Text {
	lo, hi := 0.0, 0.0
	for _, p := range s.shape.Panels {
		for _, v := range p.V {
			lo, hi = min(lo, v.X), max(hi, v.X)
		}
	}
	return s.Length(hi - lo)
}

// wholeLevel draws the whole ruff on its wearer in a room, level with the eye, with its
// breadth below, as the named part of the drawing. It gives what is seen, and the box about the ruff on the sheet.
func (s *sheet) wholeLevel(part string, e *draw.Eye, room draw.Rect) (scene *light.Scene, ruff draw.Rect) {
	form := newWearer(s.plan, s.restShape())
	c := newCloth(s.shape, 0, len(s.shape.Panels))
	var worn []geom.Vec3
	for _, ring := range form.outline() {
		for i := range 12 {
			worn = append(worn, ring.place(float64(i)*math.Pi/6))
		}
	}
	if s.opt.Bow_deg > 0 {
		to := bowing(s.plan, s.opt.Bow_deg)
		for _, places := range [][]geom.Vec3{c.v, worn} {
			for i, v := range places {
				places[i] = to(v)
			}
		}
	}
	var still cloth // at rest, upright
	if s.opt.Bow_deg > 0 && s.opt.Rest != nil {
		still = newCloth(*s.opt.Rest, 0, len(s.opt.Rest.Panels))
	}
	s.fit(part, e, room, s.opt.most(), c.v, worn, still.v)
	s.Scale = e.Scale
	scene, ghost := s.scenes(0, len(s.shape.Panels), false)
	if ghost != nil {
		s.solid(ghost, *e, ghostly)
	}
	s.solid(scene, *e, 0)
	ruff = e.Bounds(c.v)
	if s.opt.Bow_deg == 0 {
		s.Across(draw.Pt(ruff.Min.X, ruff.Max.Y), draw.Pt(ruff.Max.X, ruff.Max.Y), e.Bounds(c.v, worn).Max.Y+4, s.Length((ruff.Max.X-ruff.Min.X)/e.Scale))
	}
	return scene, ruff
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
