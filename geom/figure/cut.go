package figure

import (
	"cmp"
	"math"
	"slices"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/word"
)

// cut draws one set as two clear sections, end on and through a crest from the neck
// outward. Scale is that of the section through the crest.
func cut(s *sheet) error {
	n, u, err := s.shownSet()
	if err != nil {
		return err
	}
	s.head(word.Say("set %d of %d", n, s.plan.Sets))
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
	x := s.endOn(u, 0.35)
	said := []word.Text{word.Say("Set %d cut through.", n)}
	edges, figures := x.drawEdges(first)
	said = append(said, edges...)
	x.tuckHandles()
	if small {
		x.handles(figures)
		s.Desc = s.Say(word.Join(" ", said...))
		s.Scale = x.eye.Scale
		s.point(flatPlaces{spots: x.spotted})
		return nil
	}
	sec := newSection(s.plan, s.shape, min(u.crest, s.plan.Panels-1), nil) // the last crest may end the strip
	s.small(second, word.Say("from the neck outward, through the top fold"))
	second.Min.Y += draw.SmallSize*draw.Leading + 1
	s.section(sec, second)
	_, droop := sec.droopSaid(s)
	said = append(said, word.Say("It is %s deep from the neck to the outer edge.", s.Length(sec.depth)), droop, sec.restsOn(s))
	s.Desc = s.Say(word.Join(" ", said...))
	s.point(flatPlaces{spots: func(place string) (draw.Point, bool) {
		if place == WhereBand || place == WhereNeck {
			return sec.spotted(place)
		}
		return x.spotted(place)
	}})
	return nil
}

func (s *sheet) small(room draw.Rect, words word.Text) {
	text := draw.Clip(s.Say(words), draw.SmallSize, draw.Italic, room.Max.X-room.Min.X)
	s.Label(draw.Label{At: room.Min, Text: text, Size_mm: draw.SmallSize, Face: draw.Italic, Color: s.Pal.Quiet})
}

// drawEdges draws the set's edges into the room, and gives what is said of them.
func (x *endOn) drawEdges(room draw.Rect) (said []word.Text, set figures) {
	x.small(room, word.Say("seen end on"))
	const line = draw.SmallSize * draw.Leading
	slack := x.slackWords()
	foot := draw.Wrap(x.Say(slack), draw.SmallSize, draw.Italic, room.Max.X-room.Min.X, 2)
	inner := room
	inner.Min.X += x.numberWidth(x.bands) + 3
	inner.Max.X -= x.numberWidth(x.height) + 3
	inner.Min.Y += line + 9
	inner.Max.Y -= 19 + line*float64(len(foot))
	out, in := x.edge(x.c.rows-1), x.edge(0)
	box := x.fit("set", &x.eye, inner, maxScale, out, in, x.frame())
	x.drawBand()
	x.drawn(&x.eye, in, x.Pal.Walnut, 0.45, []float64{1.6, 0.8})
	x.drawn(&x.eye, out, x.Pal.Ink, 0.65, nil)
	// Sewn points, and the straight ways between them that slack is measured against.
	sewn := x.sewn()
	if !slack.Empty() {
		for k := 1; k < len(sewn); k++ {
			x.Line(x.Pal.Rule, 0.22, []float64{0.01, 0.9}, sewn[k-1], sewn[k])
		}
	}
	x.stitches(sewn, 0.9, 1.5)
	before := len(x.Items)
	set = x.dimensions(room, box, apart{loop: 4.5, height: 1.5, outer: 4.5, neck: 7.5})
	x.measures = slices.Clone(x.Items[before:])
	said = append(said, word.Say("End on, %s and it is %s high at the outer edge; the band is %s high.", x.loopsSaid(), x.height, x.bands))
	along := func(line []geom.Vec3, sixteenths ...int) (places []geom.Vec3) {
		for _, n := range sixteenths {
			places = append(places, line[n*(len(line)-1)/16])
		}
		return places
	}
	x.named(word.Say("outer edge"), along(out, 10, 11, 12, 6, 5, 4, 14, 2)...)
	x.named(word.Say("inner edge"), along(in, 6, 5, 4, 10, 11, 12)...)
	tucked := func(deep float64, marks ...int) {
		var places []geom.Vec3
		for _, mark := range marks {
			if x.plan.Row[mark].Tuck_mm == deep {
				foot := x.node(mark, 0)
				half := foot // to the stitch
				half.Z = (foot.Z + x.plan.Edge_mm(x.plan.Row[mark].Edge)) / 2
				places = append(places, foot, half)
			}
		}
		x.named(word.Say("tuck %s", x.Length(deep)), places...)
	}
	if deep := x.plan.Row[x.crest].Tuck_mm; deep > 0 {
		tucked(deep, x.crest)
		said = append(said, word.Say("The top fold's tuck is %s deep.", x.Length(deep)))
	}
	if deep := x.plan.Row[x.hi].Tuck_mm; deep > 0 && x.hi != x.crest {
		tucked(deep, x.hi, x.lo)
		said = append(said, word.Say("The bottom fold's tuck is %s deep.", x.Length(deep)))
	}
	for k, text := range foot {
		x.Label(draw.Label{At: draw.Pt(room.Min.X, room.Max.Y-line*float64(len(foot)-k)), Text: text, Size_mm: draw.SmallSize, Face: draw.Italic, Color: x.Pal.Quiet})
	}
	if !slack.Empty() {
		said = append(said, word.Say("%s.", slack))
	}
	return said, set
}

// threadLine is the width of a thread from a word to what it names, sheet mm: finer than a measure's.
const threadLine = 0.16

// named writes a word beside what it names, at one of some places, with a thread to it: no
// line runs through the word and none crosses the thread, or at least none of a measure's,
// where that can be.
func (x *endOn) named(text word.Text, what ...geom.Vec3) {
	for _, clear := range []struct{ word, thread []draw.Item }{{x.Items, x.Items}, {x.Items, x.measures}, {x.Items, nil}, {nil, x.measures}, {}} {
		for _, d := range []float64{3, 6, 9} {
			for _, place := range what {
				at := x.eye.Point(place)
				for _, o := range draw.Around(d) {
					l := draw.Label{
						At: draw.Pt(at.X+o.X, at.Y+o.Y), Text: x.Say(text), Size_mm: draw.SmallSize, Face: draw.Italic, Color: x.Pal.Quiet,
						Anchor: draw.Pt(anchor(o.X), anchor(o.Y)),
					}
					box := l.Box()
					end := draw.Pt(clamp(at.X, box.Min.X-0.3, box.Max.X+0.3), clamp(at.Y, box.Min.Y-0.3, box.Max.Y+0.3))
					if !x.Free(box) || crosses(clear.word, box.Grow(0.3)) || cuts(clear.thread, towards(at, end, 0.7), end) {
						continue
					}
					x.Label(l)
					x.Line(x.Pal.Rule, threadLine, nil, at, end)
					return
				}
			}
		}
	}
}

// towards is the place so far on the way from one to another, sheet mm.
func towards(from, to draw.Point, mm float64) draw.Point {
	part := min(1, mm/max(mm, math.Hypot(to.X-from.X, to.Y-from.Y)))
	return draw.Pt(from.X+(to.X-from.X)*part, from.Y+(to.Y-from.Y)*part)
}

// anchor is that of a label that stands off to that side of its place.
func anchor(off float64) float64 { return 0.5 - 0.5*float64(cmp.Compare(off, 0)) }

// slackWords tell the slack of the inner edge; nothing where none is defined.
func (x *endOn) slackWords() word.Text {
	if x.plan.Slack <= 0 {
		return word.Text{}
	}
	return word.Say("slack %s: %s of cloth for a way of %s", word.Number{Value: x.plan.Slack, Decimals: 2}, x.Length(x.plan.InnerPanel_mm), x.Length(x.plan.InnerPanel_mm/x.plan.Slack))
}
