package figure

import (
	"image/color"
	"math"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/word"
)

// Term is a trade word: a row of the table Terms.
type Term struct {
	Name  string    // as it stands in links and ids
	Label word.Text // the word
	Says  word.Text // what it means, in one or two sentences
	In    []string  // how it stands in English labels and helps, in small letters

	draw func(*glance)
}

// Terms are the trade words that the tool uses, in the order of the work.
var Terms = []Term{
	{"band", word.Say("Band"), word.Say("The folded strip of linen about the neck. The folds of the ruff are sewn to its edges."), []string{"band"}, (*glance).band},
	{"set", word.Say("Set"), word.Say("One full wave: up to a top fold and down to a bottom fold. Seen end on, its outer edge winds like a figure of eight."), []string{"set", "sets"}, (*glance).set},
	{"fold", word.Say("Top fold, bottom fold"), word.Say("Where the strip turns back. Top folds stand high, bottom folds lie low."), []string{"fold", "folds"}, (*glance).folds},
	{"panel", word.Say("Panel"), word.Say("The cloth from a top fold to the next bottom fold. Two panels make a set."), []string{"panel", "fold to fold"}, (*glance).panel},
	{"loop", word.Say("Loop"), word.Say("The round that the outer edge makes about a fold. Its clear width is the room for a stick."), []string{"loop", "loops"}, (*glance).loop},
	{"height", word.Say("Height"), word.Say("From top fold to bottom fold, measured at the outer edge."), []string{"height"}, (*glance).height},
	{"depth", word.Say("Depth"), word.Say("How far the ruff stands out: from the band to the outer edge."), []string{"depth"}, (*glance).depth},
	{"tuck", word.Say("Tuck"), word.Say("Cloth at a fold that is brought together at the band and laid inward. It takes up cloth at the band and none at the outer edge."), []string{"tuck", "tucks"}, (*glance).tuck},
	{"slack", word.Say("Slack"), word.Say("How much longer the cloth between two sewn folds is than its straight way along the band. Much slack crumples, none pulls."), []string{"slack"}, (*glance).slack},
	{"flap", word.Say("Flap"), word.Say("The part of a set that nothing holds. Where the top folds are sewn the flaps fall, where the bottom folds are sewn they stand."), []string{"flap", "flaps"}, (*glance).flap},
	{"takeup", word.Say("Take-up"), word.Say("The breadth of the strip that is turned in at the band and sewn there. It is cut in addition to the depth."), []string{"taken up", "takes up", "takeup"}, (*glance).takeup},
	{"stick", word.Say("Setting stick"), word.Say("A round stick of wood or bone that a loop is formed on while its starch dries. Heated rods of metal came into use about 1573."), []string{"stick", "sticks"}, (*glance).stick},
	{"bending", word.Say("Bending length"), word.Say("How stiff a cloth is: half of what hangs over a table’s edge when the tip of a strip lies on a slope of 41.5°."), []string{"bending length"}, (*glance).bending},
	{"supporter", word.Say("Supporter"), word.Say("A stiff frame under the ruff that carries it, of wire, card or whalebone. It was also called an underpropper or a supportasse."), []string{"supporter", "support", "rests on"}, (*glance).supporter},
	{"droop", word.Say("Droop"), word.Say("How far the outer edge sinks from where it was set, once the sticks come out."), []string{"droop"}, (*glance).droop},
	{"lean", word.Say("Lean"), word.Say("All loops pushed over to the same side, as when the wearer turns."), []string{"lean", "leans", "sideways"}, (*glance).lean},
	{"bow", word.Say("Bow"), word.Say("The wearer bends forward. What is not held leaves its place then, and may not come back."), []string{"bow", "bows"}, (*glance).bow},
}

// glance is a small drawing without words: one set seen end on, or cut from the neck
// outward, with the one thing marked that a word means.
type glance struct {
	*endOn
	side *section
	room draw.Rect
}

// Size of a term's drawing, mm.
const termWidth_mm, termHeight_mm = 56, 34

// Draw draws what the word means on the ruff of a plan and a shape.
func (t Term) Draw(plan pleat.Plan, shape pleat.Shape, pal draw.Palette) (draw.Drawing, error) {
	if err := checkShape(plan, shape); err != nil {
		return draw.Drawing{}, err
	}
	s := &sheet{Sheet: &draw.Sheet{Pal: pal}, plan: plan, shape: shape}
	s.Width_mm, s.Height_mm, s.Ground, s.Title, s.Desc = termWidth_mm, termHeight_mm, pal.Ground, s.Say(t.Label), s.Say(t.Says)
	_, u, err := s.shownSet()
	if err != nil {
		return draw.Drawing{}, err
	}
	const margin = 3
	g := &glance{endOn: s.endOn(u, 0.8), room: draw.Rect{Min: draw.Pt(margin, margin), Max: draw.Pt(termWidth_mm-margin, termHeight_mm-margin)}}
	g.eye.Fit(g.room, math.Inf(1), u.c.v, g.frame())
	g.side = newSection(plan, shape, u.crest, nil)
	cut := g.room
	cut.Max.X -= 8 // room for what turns
	cut.Max.Y -= 11
	g.side.eye.Fit(cut, math.Inf(1), g.outline(), []geom.Vec3{g.side.zero, g.onNeck(plan.Scheme.Band.Height)})
	t.draw(g)
	return s.Drawing, nil
}

// line draws a part of a row of the cloth, from mark to mark.
func (g *glance) line(row, from, to int, c color.NRGBA, width float64, dash []float64) {
	var on []draw.Point
	for col := (from - g.first) * g.c.per; col <= (to-g.first)*g.c.per; col += max(1, g.c.per/24) {
		on = append(on, g.eye.Point(g.c.at(col, row)))
	}
	g.Line(c, width, dash, on...)
}

func (g *glance) outer() int    { return g.c.rows - 1 }
func (g *glance) last() int     { return g.first + (g.c.cols-1)/g.c.per }
func (g *glance) faint(row int) { g.line(row, g.first, g.last(), g.Pal.Rule, 0.35, nil) }

// edgeOn draws the band and the whole outer edge, faintly.
func (g *glance) edgeOn() {
	g.drawBand()
	g.faint(g.outer())
}

func (g *glance) set() {
	g.edgeOn()
	g.line(g.outer(), g.lo, g.hi, g.Pal.Woad, 1, nil)
}

func (g *glance) panel() {
	g.edgeOn()
	g.line(g.outer(), g.crest, g.hi, g.Pal.Woad, 1, nil)
}

func (g *glance) folds() {
	g.edgeOn()
	for m := g.lo; m <= g.hi; m++ {
		c := g.Pal.Woad
		if (m-g.crest)%2 == 0 {
			c = g.Pal.Madder
		}
		g.Dot(g.eye.Point(g.node(m, g.outer())), 1.3, c)
	}
}

// span marks a length between two places by a line with stitches at its ends.
func (g *glance) span(a, b draw.Point) {
	g.Line(g.Pal.Madder, 0.6, nil, a, b)
	g.Dot(a, 0.8, g.Pal.Madder)
	g.Dot(b, 0.8, g.Pal.Madder)
}

func (g *glance) loop() {
	g.edgeOn()
	a, b := g.unrolled.loop(g.crest)
	g.span(g.eye.Point(a), g.eye.Point(b))
}

func (g *glance) stick() {
	g.edgeOn()
	a, b := g.unrolled.loop(g.crest)
	p, q := g.eye.Point(a), g.eye.Point(b)
	r := 0.85 * math.Abs(q.X-p.X) / 2
	g.Add(draw.Path{Lines: [][]draw.Point{draw.Ring(draw.Pt((p.X+q.X)/2, (p.Y+q.Y)/2), r, r, 32)}, Closed: true, Fill: g.Pal.Walnut})
}

func (g *glance) height() {
	g.edgeOn()
	top := g.eye.Point(g.node(g.crest, g.outer()))
	g.span(draw.Pt(g.room.Max.X, top.Y), draw.Pt(g.room.Max.X, g.at(0, g.low).Y))
	g.Line(g.Pal.Madder, 0.25, []float64{1, 0.8}, top, draw.Pt(g.room.Max.X, top.Y))
}

func (g *glance) band() {
	g.faint(g.outer())
	left, right := g.ends()
	h := g.plan.Scheme.Band.Height
	g.Add(draw.Path{Lines: [][]draw.Point{{g.at(left, h), g.at(right, h), g.at(right, 0), g.at(left, 0)}}, Closed: true, Fill: g.Pal.Wash, Stroke: g.Pal.Woad, Width_mm: 0.9})
	for _, q := range g.sewn() {
		g.cross(q, 1)
	}
}

// tuck marks the cloth at the crest that its tuck brings together.
func (g *glance) tuck() {
	g.drawBand()
	g.line(0, g.lo, g.hi, g.Pal.Ink, 0.5, nil)
	at := (g.crest - g.first) * g.c.per
	for _, way := range []int{-1, 1} {
		on, far := []draw.Point{g.eye.Point(g.c.at(at, 0))}, 0.0
		for col := at; far < g.plan.Row[g.crest].Tuck_mm && col+way >= 0 && col+way < g.c.cols; col += way {
			far += g.c.at(col+way, 0).Sub(g.c.at(col, 0)).Norm()
			on = append(on, g.eye.Point(g.c.at(col+way, 0)))
		}
		g.Line(g.Pal.Madder, 1.1, nil, on...)
	}
}

func (g *glance) slack() {
	g.drawBand()
	g.line(0, g.lo, g.hi, g.Pal.Woad, 0.7, nil)
	g.Line(g.Pal.Madder, 0.6, []float64{1.4, 1}, g.sewn()...)
	for _, q := range g.sewn() {
		g.cross(q, 1)
	}
}

// flap marks what lies below the middle of the set's height.
func (g *glance) flap() {
	g.edgeOn()
	middle := (g.node(g.crest, g.outer()).Z + g.low) / 2
	var on []draw.Point
	for col := range g.c.cols {
		if v := g.c.at(col, g.outer()); v.Z < middle {
			on = append(on, g.eye.Point(v))
			continue
		}
		if len(on) > 1 {
			g.Line(g.Pal.Woad, 1, nil, on...)
		}
		on = nil
	}
	if len(on) > 1 {
		g.Line(g.Pal.Woad, 1, nil, on...)
	}
}

// lean draws the outer edge as it is and pushed over.
func (g *glance) lean() {
	g.drawBand()
	g.line(g.outer(), g.lo, g.hi, g.Pal.Rule, 0.35, []float64{1.2, 0.9})
	var on []draw.Point
	const over = 0.35 // so far for each mm of height
	for col := (g.lo - g.first) * g.c.per; col <= (g.hi-g.first)*g.c.per; col += max(1, g.c.per/24) {
		v := g.c.at(col, g.outer())
		v.X += over * (v.Z - g.low)
		on = append(on, g.eye.Point(v))
	}
	g.Line(g.Pal.Woad, 1, nil, on...)
}

// outline is the set cut from the neck outward: along its top and back below.
func (g *glance) outline() []geom.Vec3 {
	line := append([]geom.Vec3(nil), g.side.crest...)
	for i := len(g.side.trough) - 1; i >= 0; i-- {
		line = append(line, g.side.trough[i])
	}
	return line
}

// onNeck is a height on the neckline.
func (g *glance) onNeck(z float64) geom.Vec3 {
	v := g.side.zero
	v.Z = z
	return v
}

// cut draws the outline and the band, turned about the foot of the band.
func (g *glance) cut(turn_deg float64, c color.NRGBA, width float64, dash []float64) []draw.Point {
	foot := g.side.eye.Point(g.side.zero)
	sin, cos := math.Sincos(turn_deg * math.Pi / 180)
	turned := func(v geom.Vec3) draw.Point {
		p := g.side.eye.Point(v)
		x, y := p.X-foot.X, p.Y-foot.Y
		return draw.Pt(foot.X+x*cos-y*sin, foot.Y+x*sin+y*cos)
	}
	var on []draw.Point
	for _, v := range g.outline() {
		on = append(on, turned(v))
	}
	g.Add(draw.Path{Lines: [][]draw.Point{on}, Closed: true, Stroke: c, Width_mm: width, Dash_mm: dash})
	g.Line(c, 2*width, nil, turned(g.side.zero), turned(g.onNeck(g.plan.Scheme.Band.Height)))
	return on
}

func (g *glance) depth() {
	g.cut(0, g.Pal.Ink, 0.5, nil)
	neck, out := g.side.eye.Point(g.side.zero), g.side.eye.Point(g.side.trough[len(g.side.trough)-1])
	g.span(draw.Pt(neck.X, g.room.Max.Y), draw.Pt(out.X, g.room.Max.Y))
}

// Turns that are seen in so small a drawing, degrees.
const droop_deg, bow_deg = 10, 20

func (g *glance) droop() {
	g.cut(0, g.Pal.Rule, 0.35, []float64{1.2, 0.9})
	g.cut(droop_deg, g.Pal.Woad, 0.8, nil)
}

func (g *glance) bow() {
	g.cut(0, g.Pal.Rule, 0.35, []float64{1.2, 0.9})
	on := g.cut(bow_deg, g.Pal.Ink, 0.5, nil)
	edge := on[len(on)/2] // the outer bottom fold
	g.Line(g.Pal.Madder, 0.8, nil, on[len(on)-1], draw.Pt(edge.X-3, edge.Y+4))
}

func (g *glance) supporter() {
	on := g.cut(0, g.Pal.Ink, 0.5, nil)
	foot, edge := on[len(on)-1], on[len(on)/2]
	g.Line(g.Pal.Walnut, 1.6, nil, draw.Pt(foot.X, foot.Y+1.6), draw.Pt(edge.X, edge.Y+1.6))
}

// takeup draws the strip's breadth flat: the depth, the stitch line, and what is turned in.
func (g *glance) takeup() {
	p := g.plan.Scheme
	k := (g.room.Max.X - g.room.Min.X) / (p.Ruff.Depth + p.Strip.Takeup)
	x, y, y2 := g.room.Min.X+k*p.Strip.Takeup, g.room.Min.Y+7, g.room.Max.Y-7
	box := func(from, to float64) [][]draw.Point {
		return [][]draw.Point{{draw.Pt(from, y), draw.Pt(to, y), draw.Pt(to, y2), draw.Pt(from, y2)}}
	}
	g.Add(draw.Path{Lines: box(g.room.Min.X, x), Closed: true, Fill: g.Pal.Madder})
	g.Add(draw.Path{Lines: box(x, g.room.Max.X), Closed: true, Fill: g.Pal.Wash, Stroke: g.Pal.Ink, Width_mm: 0.4})
	g.Line(g.Pal.Ink, 0.5, []float64{1.2, 0.9}, draw.Pt(x, y-3), draw.Pt(x, y2+3))
}

// bending draws a swatch over a table's edge, as a thin beam bends under its own weight.
func (g *glance) bending() {
	const slope = 41.5 * math.Pi / 180
	x, y := g.room.Min.X+14, g.room.Min.Y+4
	far := (g.room.Max.X - x) * 0.72
	drop := far * math.Tan(slope)
	g.Add(draw.Path{Lines: [][]draw.Point{{draw.Pt(g.room.Min.X, y), draw.Pt(x, y), draw.Pt(x, g.room.Max.Y), draw.Pt(g.room.Min.X, g.room.Max.Y)}}, Closed: true, Fill: g.Pal.Walnut})
	on := []draw.Point{draw.Pt(g.room.Min.X, y-0.5)}
	for i := range 25 {
		t := float64(i) / 24
		on = append(on, draw.Pt(x+far*t, y-0.5+drop*(t*t*t*t-4*t*t*t+6*t*t)/3))
	}
	g.Line(g.Pal.Rule, 0.4, []float64{1.2, 0.9}, draw.Pt(x, y), draw.Pt(x+far, y+drop))
	g.Line(g.Pal.Woad, 1, nil, on...)
}
