package figure

import (
	"fmt"

	"ruffwright/geom"
	"ruffwright/geom/draw"
)

// cut draws one set as two clear sections, without light or shade. End on: the
// curves of its outer and inner edge, with the loop's clear width, height, tucks,
// the room a set takes, and the slack between the sewn points. Through a crest,
// from the neck outward: crest and trough, depth, height, and how the middle
// rises or falls. Scale is that of the section through the crest.
func cut(s *sheet) error {
	n, u, err := s.shownSet()
	if err != nil {
		return err
	}
	s.head(fmt.Sprintf("set %d of %d", n, s.plan.Sets))
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
	words := x.drawEdges(first)
	s.Desc = fmt.Sprintf("Set %d cut through. %s", n, words)
	if small {
		s.Scale = x.eye.Scale
		s.point(nil, x.spot)
		return nil
	}
	sec := newSection(s.plan, s.shape, min(u.crest, s.plan.Panels-1), nil) // the last crest may end the strip
	s.small(second, "from the neck outward, through the top fold")
	second.Min.Y += draw.SmallSize*draw.Leading + 1
	s.section(sec, second)
	s.Desc += fmt.Sprintf(" It is %s deep from the neck to the outer edge. %s.", s.Length(sec.depth), sec.droopWords(s))
	s.point(nil, func(place string) (draw.Point, bool) {
		if place == WhereBand || place == WhereNeck {
			return sec.spot(place)
		}
		return x.spot(place)
	})
	return nil
}

// small writes a line in small letters into the upper left corner of a room.
func (s *sheet) small(room draw.Rect, text string) {
	text = draw.Clip(text, draw.SmallSize, draw.Italic, room.Max.X-room.Min.X)
	s.Label(draw.Label{At: room.Min, Text: text, Size_mm: draw.SmallSize, Face: draw.Italic, Color: s.Pal.Quiet})
}

// drawEdges draws the set's edges into the room, and gives what is said of them.
func (x *endOn) drawEdges(room draw.Rect) (words string) {
	x.small(room, "seen end on")
	const line = draw.SmallSize * draw.Leading
	slack := x.slackWords()
	foot := draw.Wrap(slack, draw.SmallSize, draw.Italic, room.Max.X-room.Min.X, 2)
	// The set's own curves fill what the numbers leave of the room.
	inner := room
	inner.Min.X += numberWidth(x.bands) + 3
	inner.Max.X -= numberWidth(x.height) + 3
	inner.Min.Y += line + 9
	inner.Max.Y -= 19 + line*float64(len(foot))
	out, in := x.edge(x.c.rows-1), x.edge(0)
	box := x.eye.Fit(inner, maxScale, out, in, x.frame())
	x.drawBand()
	x.seen(&x.eye, in, x.Pal.Walnut, 0.45, []float64{1.6, 0.8})
	x.seen(&x.eye, out, x.Pal.Ink, 0.65, nil)
	// Sewn points, and the straight ways between them that slack is measured against.
	sewn := x.sewn()
	if slack != "" {
		for k := 1; k < len(sewn); k++ {
			x.Line(x.Pal.Rule, 0.22, []float64{0.01, 0.9}, sewn[k-1], sewn[k])
		}
	}
	x.stitches(sewn, 0.9, 1.5)
	x.dimensions(room, box, apart{loop: 4.5, height: 1.5, outer: 4.5, neck: 7.5})
	words = fmt.Sprintf("End on, %s and it is %s high at the outer edge; the band is %s high.", x.loopsSaid(), x.height, x.bands)
	x.named("outer edge", out[len(out)*5/8])
	x.named("inner edge", in[len(in)*3/8])
	for _, tuck := range []struct {
		mark int
		of   string
	}{{x.crest, "top"}, {x.hi, "bottom"}} {
		if deep := x.plan.Row[tuck.mark].Tuck_mm; deep > 0 && (tuck.of == "top" || x.hi != x.crest) {
			x.named("tuck "+x.Length(deep), x.node(tuck.mark, 0))
			words += fmt.Sprintf(" The %s fold's tuck is %s deep.", tuck.of, x.Length(deep))
		}
	}
	for k, text := range foot {
		x.Label(draw.Label{At: draw.Pt(room.Min.X, room.Max.Y-line*float64(len(foot)-k)), Text: text, Size_mm: draw.SmallSize, Face: draw.Italic, Color: x.Pal.Quiet})
	}
	if slack != "" {
		words += " " + slack + "."
	}
	return words
}

// named writes a word beside what it names, with a thread to it where the word
// stands off.
func (x *endOn) named(text string, what geom.Vec3) {
	at := x.eye.Point(what)
	l := draw.Label{At: at, Text: text, Size_mm: draw.SmallSize, Face: draw.Italic, Color: x.Pal.Quiet}
	box, ok := x.Place(l, append(draw.Around(3), draw.Around(6)...)...)
	if ok {
		x.Line(x.Pal.Rule, 0.18, nil, at, draw.Pt(clamp(at.X, box.Min.X, box.Max.X), clamp(at.Y, box.Min.Y, box.Max.Y)))
	}
}

// slackWords tell the slack of the inner edge; "" where none is defined.
func (x *endOn) slackWords() string {
	if x.plan.Slack <= 0 {
		return ""
	}
	return fmt.Sprintf("slack %.3f: %s of inner edge between sewn points %s apart", x.plan.Slack, x.Length(x.plan.InnerPanel_mm), x.Length(x.plan.InnerPanel_mm/x.plan.Slack))
}
