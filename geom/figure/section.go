package figure

import (
	"image/color"
	"math"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// section is one panel seen along the neckline from the plane of its crest.
type section struct {
	mark          int // it begins on
	eye           draw.Eye
	panel         cloth
	crest, trough []geom.Vec3 // its highest and its lowest line, from neck to outer edge
	zero          geom.Vec3   // on the neckline, at the band's bottom edge
	depth, height float64     // measured on the shape
	droop         float64     // inner mid-height less outer mid-height, + down
	left, lo, hi  float64     // what is shown: so far inward of the neckline (below 0), from the least height to the greatest, mm
	band          float64     // its height
	marks         [2]pleat.Mark
	support       scheme.Support // what it rests on,
	far           float64        // and how far that reaches out from the neck, mm; 0: nothing
}

func newSection(plan pleat.Plan, shape pleat.Shape, m int, tone *toned) *section {
	c := newCloth(shape, m, m+1)
	c.dyed(shape, tone, m)
	s := &section{mark: m, panel: c, marks: [2]pleat.Mark{plan.Row[m], plan.Row[m+1]}}
	for j := range c.rows { // a tuck's cloth is folded in, so the folds' own lines lie below
		top, low := c.at(0, j), c.at(c.cols-1, j)
		for col := range c.cols {
			if v := c.at(col, j); v.Z > top.Z {
				top = v
			} else if v.Z < low.Z {
				low = v
			}
		}
		s.crest, s.trough = append(s.crest, top), append(s.trough, low)
	}
	st := nearest(plan.Neckline, s.crest[0].XY())
	out := geom.Vec3{X: st.Normal.X, Y: st.Normal.Y}
	up := geom.Vec3{Z: 1}
	s.eye = draw.Eye{Camera: light.Camera{Right: out, Up: up, Toward: out.Cross(up), Scale: 1}}
	s.zero = geom.Vec3{X: st.Pos.X, Y: st.Pos.Y}
	s.left = -math.Min(26, 0.8*narrow(plan.Neckline))
	s.band = plan.Scheme.Band.Height
	s.hi = s.band
	for _, v := range c.v {
		s.lo, s.hi = min(s.lo, v.Z), max(s.hi, v.Z)
	}
	s.rests(plan.Scheme)
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

func narrow(n geom.Neckline) float64 { return math.Min(n.Breadth(), n.Depth()) / 2 }

// corner is the place x mm outward from the neckline, z mm above the band's
// bottom edge, and at where it lies on the sheet.
func (c *section) corner(x, z float64) geom.Vec3 {
	return c.zero.Add(c.eye.Right.Scale(x)).Add(geom.Vec3{Z: z})
}

func (c *section) at(x, z float64) draw.Point { return c.eye.Point(c.corner(x, z)) }

// droopSaid says in a word or two and in a sentence where the outer edge's middle lies.
func (c *section) droopSaid(s *sheet) (short, sentence word.Text) {
	switch by := s.Length(math.Abs(c.droop)); {
	case c.droop > 0.5:
		return word.Say("falls %s", by), word.Say("The outer edge's middle falls %s below the inner edge's.", by)
	case c.droop < -0.5:
		return word.Say("rises %s", by), word.Say("The outer edge's middle rises %s above the inner edge's.", by)
	}
	return word.Say("level"), word.Say("The outer edge lies level with the inner edge.")
}

func (c *section) marked(m int, place string) (seen, bool) {
	if m != c.mark && m != c.mark+1 {
		return seen{}, false
	}
	line := c.crest
	if c.marks[m-c.mark].Fold == scheme.Trough {
		line = c.trough
	}
	row := len(line) - 1
	if atNeck(place) {
		row = 0
	}
	return seen{Point: c.eye.Point(line[row]), near: 1}, true
}

func (c *section) spotted(place string) (at draw.Point, ok bool) {
	switch place {
	case WhereOuter:
		return c.eye.Point(c.crest[len(c.crest)-1]), true
	case WhereFlaps:
		return c.eye.Point(c.trough[len(c.trough)-1]), true
	case WhereInner, WhereTucks:
		return c.eye.Point(c.crest[0]), true
	case WhereBand:
		return c.at(-bandIn, c.band/2), true
	case WhereNeck:
		return c.at(-leastInset-8, 0), true
	}
	return draw.Point{}, false
}

// section draws the cut panel with its dimensions into the room: the block it
// sits on, the cloth, the band's cut edge with the stitches.
func (s *sheet) section(c *section, room draw.Rect) {
	heights, bands := s.Length(c.height), s.Length(c.band)
	right := s.numberWidth(heights)/2 + 4
	inner := room
	inner.Min.X += s.numberWidth(bands) + 2
	inner.Max.X -= 2*right + 12
	inner.Max.Y -= 16
	inner.Min.Y += 7
	box := s.fit("section", &c.eye, inner, s.opt.most(), c.panel.v, []geom.Vec3{c.corner(c.left, c.lo), c.corner(c.left, c.hi)})
	s.Scale = c.eye.Scale
	foot := s.cutBlock(c)
	s.cutCloth(c)
	s.cutBand(c)
	s.cutSupport(c, room.Min.X+s.numberWidth(bands)/2)

	last := len(c.crest) - 1
	tip, low := c.eye.Point(c.crest[last]), c.eye.Point(c.trough[last])
	depth := s.Across(c.at(0, c.lo), draw.Pt(tip.X, low.Y), math.Max(box.Max.Y, foot)+4, s.Length(c.depth))
	x := box.Max.X + 3 + right
	height := s.Upright(tip, low, x, heights)
	band := s.Upright(c.at(c.left, 0), c.at(c.left, c.band), room.Min.X+s.numberWidth(bands)/2, bands)
	mid := c.eye.Point(c.crest[0].Lerp(c.trough[0], 0.5))
	out := draw.Pt(tip.X, (tip.Y+low.Y)/2)
	s.Line(s.Pal.Rule, 0.22, []float64{1.6, 0.9, 0.01, 0.9}, draw.Pt(c.at(0, 0).X+1, mid.Y), draw.Pt(x-right, mid.Y))
	s.Line(s.Pal.Ink, 0.35, nil, draw.Pt(out.X-1.6, out.Y), draw.Pt(out.X+1.6, out.Y))
	droop, _ := c.droopSaid(s)
	s.Place(draw.Label{At: draw.Pt(x, mid.Y), Text: s.Say(droop), Size_mm: draw.SmallSize, Face: draw.Italic, Color: s.Pal.Quiet},
		draw.Pt(0, low.Y+2.5-mid.Y), draw.Pt(0, tip.Y-2.5-mid.Y), draw.Pt(2, low.Y+5-mid.Y), draw.Pt(-8, low.Y+7-mid.Y))
	s.Ruler(draw.Pt(room.Min.X, room.Max.Y-2), s.Scale, 30)
	s.handle(draw.Handle{Field: "ruff.depth", At: out, Along: draw.Pt(c.eye.Scale, 0), Number: depth})
	if low.Y-tip.Y < 2*roomy {
		s.heightHandle(draw.Pt(x, tip.Y), draw.Pt(x, low.Y), c.eye.Scale, height)
	}
	s.heightHandle(tip, low, c.eye.Scale, height)
	s.handle(draw.Handle{Field: "band.height", At: c.at(-bandIn, c.band), Along: draw.Pt(0, -c.eye.Scale), Number: band})
}

// roomy is how far two handles stand apart at least where both can be pressed, sheet mm:
// on a lower edge the height's goes to the line beside it.
const roomy = 9

// cutBlock draws the block, cut: wood with upright grain, its left side left open.
// It gives how far down the sheet it reaches.
func (s *sheet) cutBlock(c *section) (foot float64) {
	high, low := c.hi+6/c.eye.Scale, c.lo-6/c.eye.Scale
	in := -math.Max(leastInset, s.plan.Scheme.Wearer.Ease/2/math.Pi)
	wood := []draw.Point{c.at(c.left, high), c.at(in, high), c.at(in, low), c.at(c.left, low)}
	s.Add(draw.Path{Lines: [][]draw.Point{wood}, Closed: true, Fill: draw.Mix(s.Pal.WoodDeep, s.Pal.WoodLight, 0.72)})
	var grain [][]draw.Point
	for k := 1; k < 9; k++ {
		x := c.left + (in-c.left)*math.Pow(float64(k)/9, 0.8)
		var g []draw.Point
		for i := 0; i <= 12; i++ {
			g = append(g, c.at(x+0.5*math.Sin(float64(i)*0.55+float64(k)*1.9), low+(high-low)*float64(i)/12))
		}
		grain = append(grain, g)
	}
	s.Add(draw.Path{Lines: grain, Stroke: draw.Mix(s.Pal.WoodDeep, s.Pal.WoodLight, 0.35), Width_mm: 0.16})
	s.Line(s.Pal.WoodDeep, 0.3, nil, wood...)
	return wood[2].Y
}

func (s *sheet) cutCloth(c *section) {
	of := s.madeOf("section")
	of.first, of.last = c.mark, c.mark+1
	scene := s.keep(of, func() *light.Scene {
		d := dress{pal: s.Pal, through: scatters(s.plan, 1), tone: s.tone}
		return &light.Scene{Sheets: []light.Sheet{d.sheet(&c.panel)}}
	})
	s.Add(draw.Solid{Scene: scene, Eye: c.eye, Mood: s.mood(), Plain: s.opt.Plain})
	s.drawn(&c.eye, c.trough, s.Pal.Ink, 0.3, nil)
	s.drawn(&c.eye, c.crest, s.Pal.Ink, 0.5, nil)
}

// drawn is a line of the ruff as the eye sees it.
func (s *sheet) drawn(e *draw.Eye, line []geom.Vec3, c color.NRGBA, width float64, dash []float64) {
	line = light.Smooth(line, 6)
	on := make([]draw.Point, len(line))
	for i, v := range line {
		on[i] = e.Point(v)
	}
	s.Line(c, width, dash, on...)
}

func (s *sheet) cutBand(c *section) {
	half := math.Max(0.45, 0.7*c.eye.Scale) / c.eye.Scale
	bar := []draw.Point{c.at(-bandIn-2*half, c.band), c.at(-bandIn, c.band), c.at(-bandIn, 0), c.at(-bandIn-2*half, 0)}
	s.Add(draw.Path{Lines: [][]draw.Point{bar}, Closed: true, Fill: s.Pal.Cloth(0.95), Stroke: s.Pal.Ink, Width_mm: 0.3})
	for _, mark := range c.marks {
		if mark.Edge == scheme.EdgeNone {
			continue
		}
		z, inward := s.plan.Edge_mm(mark.Edge), 1.6/c.eye.Scale
		if mark.Edge == scheme.EdgeTop {
			inward = -inward
		}
		q := c.at(0, z)
		q.X += 0.8
		s.Line(s.Pal.Thread, 0.55, nil, q, c.at(-bandIn-half, z-0.35*inward), c.at(-bandIn-2*half-0.3/c.eye.Scale, z+inward))
		s.Dot(q, 0.5, s.Pal.Thread)
	}
}
