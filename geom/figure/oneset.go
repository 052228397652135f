package figure

import (
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/geom/word"
)

// oneSet draws one set end on, as the eye sees it looking from outside towards the
// neck, the neckline unrolled. Neighbours are drawn faintly.
func oneSet(s *sheet) error {
	n, u, err := s.shownSet()
	if err != nil {
		return err
	}
	s.head(word.Say("set %d of %d, seen end on", n, s.plan.Sets))
	x := s.endOn(u, 0.5)
	room := s.Room
	room.Min.X += s.numberWidth(x.bands) + 4
	room.Max.X -= s.numberWidth(x.height) + 4
	room.Min.Y += 10
	room.Max.Y -= 26
	box := s.fit("set", &x.eye, room, s.opt.most(), u.c.v, x.frame())
	s.Scale = x.eye.Scale
	x.drawBand()
	x.drawCloth()
	s.drawn(&x.eye, x.edge(0), s.Pal.Rule, 0.32, []float64{1.1, 0.8})
	s.drawn(&x.eye, x.edge(u.c.rows-1), s.Pal.Ink, 0.6, nil)
	x.stitches(x.sewn(), 1, 1.7)
	x.handles(x.dimensions(s.Room, box, apart{loop: 5, height: 4, outer: 5, neck: 9.5}))
	s.Ruler(draw.Pt(s.Room.Min.X, s.Room.Max.Y-2), s.Scale, 30)
	rooms := word.Say("It is an end set of one panel.")
	if x.whole() {
		rooms = word.Say("A set takes %s at the outer edge and %s at the neck.", s.Length(u.roomOuter(s.plan.Pitch_mm)), s.Length(s.plan.Pitch_mm))
	}
	s.Desc = s.Say(word.Say("Set %d seen end on from outside: %s. It is %s high. %s The band is %s high.", n, x.loopsSaid(), x.height, rooms, x.bands))
	s.point(flatPlaces{spots: func(place string) (draw.Point, bool) {
		if place == WhereBand {
			return x.at(u.node(u.hi, 0).X+x.over*0.7, s.plan.Scheme.Band.Height*0.97), true
		}
		return x.spotted(place)
	}})
	return nil
}

func (x *endOn) drawCloth() {
	plain := dress{pal: x.Pal, through: scatters(x.plan, 1)}
	dyed := plain
	dyed.tone = x.tone
	x.panels(x.first, x.lo, plain, 0.6)
	x.panels(x.hi, x.first+(x.c.cols-1)/x.c.per, plain, 0.6)
	x.panels(x.lo, x.hi, dyed, 0)
}

// panels draws the cloth of the panels from one to another, which is left out.
func (x *endOn) panels(from, to int, d dress, faint float64) {
	if from >= to {
		return
	}
	of := x.madeOf("set")
	of.first, of.last = from, to
	scene := x.keep(of, func() *light.Scene {
		part := x.c.part(from-x.first, to-x.first)
		return &light.Scene{Sheets: []light.Sheet{d.sheet(&part)}}
	})
	x.Add(draw.Solid{Scene: scene, Eye: x.eye, Mood: x.mood(), Faint: faint, Plain: x.opt.Plain})
}
