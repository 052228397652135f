package paper

import (
	"math"

	"ruffwright/geom/draw"
	"ruffwright/geom/word"
	"ruffwright/sim/paper/sheet"
	"ruffwright/sim/trial"
)

// trial is the trial card: a few sets to make, what to sew them to, drawn full size, and
// where to hold the ruler. None where there is no starch for a trial to tell of.
func (j *job) trial() ([]*sheet.Page, error) {
	c, err := trial.New(j.Ruff.Plan.Given)
	if err != nil {
		return nil, nil
	}
	f := j.flow(word.Say("Trial card"), word.Say("a few sets to make and measure"))
	f.Para(word.Say("A few sets of the %s’s own cloth and starch tell how it will hang, before the %s is cut. A ruler on them tells how stiff the starched cloth is, how well it was set, and how firmly the stitch holds.", j.thing(), j.thing()))
	f.Head(word.Say("What to make"), 30)
	done := map[string]bool{}
	for _, s := range c.Steps(j.Units) {
		if s.Hot {
			j.warnAll(f, done, StepCook)
			j.warnAll(f, done, StepDry)
			j.warnAll(f, done, StepSet)
		}
		if s.Sharp {
			j.warnAll(f, done, StepSew)
		}
		f.Tick(s.Do)
	}
	f.Head(word.Say("Where to hold the ruler"), 40)
	var rows []word.Text
	for _, p := range trial.Poses {
		f.Point(word.Say("**%s.** %s It tells %s.", p.Label, p.Hold, p.Tells))
		rows = append(rows, p.Label)
	}
	f.Form([]sheet.Col{sheet.Words(word.Say("read in %s", unitWord[j.Units]), 30), sheet.Words(word.Say("fold 1"), 16), sheet.Words(word.Say("fold 2"), 16), sheet.Words(word.Say("fold 3"), 16), sheet.Words(word.Say("mean"), 16)}, rows...)
	f.Small(word.Say("Weight of the strip as cut: ________ g. Type the means on the page under ‘I have made a trial’; by command: ruffwright trial, with this scheme. Read once more after a damp night: what has changed is wear."))
	f.Pages = append(f.Pages, j.trialParts(&c)...)
	return f.Pages, nil
}

// trialParts draws what the card is made of, full size: one fin with its scale, the wedge, the
// base with its arc, the strip that is bent round it.
func (j *job) trialParts(c *trial.Card) []*sheet.Page {
	p := &sheet.Page{Language: j.Language, Title: word.Say("Trial card, full size"), Holds: word.Say("fin, wedge, base and curve to cut out")}
	y := sheet.BodyTop_mm + 1.0
	wide, below, above := c.Depth_mm+5, c.Below_mm(), c.Above_mm()
	const wedge = 40.0
	if wide+wedge+22 <= sheet.Live_mm && below+above <= 150 {
		j.fin(p, 0, y, wide, below, above)
		if left := wide + 6; sheet.Live_mm-wedge-10-left >= poseWide {
			j.poses(p, left, y, math.Max(below+above, 110))
		}
	} else {
		q := sheet.Column{Page: p, W: sheet.Live_mm - wedge - 22, Y: y}
		q.Para(word.Say("**Fins (cut two):** larger than this sheet. Cut them %s wide and %s high. Stick a tape on the outer edge, its nought %s above the foot.", j.len(wide), j.len(below+above), j.len(below)))
		j.poses(p, 0, q.Y+4, 130)
	}
	j.wedge(p, sheet.Live_mm-wedge-2, y+4, wedge)
	y += math.Max(math.Min(below+above, 150), 110) + 6
	arc, chord := c.Arc_mm(), 2*c.Radius_mm*math.Sin(math.Min(c.Arc_mm()/c.Radius_mm/2, math.Pi/2))
	if math.Max(below, 40)+y > sheet.BodyBottom_mm || chord+arc+64 > sheet.Live_mm {
		q := sheet.Column{Page: p, W: sheet.Live_mm, Y: y}
		q.Para(word.Say("**Base and curve:** larger than what is left of this sheet. Draw an arc of radius %s, %s long, on the base. Bend a strip of card round it, %s high, and mark the upper folds on its upper edge, %s apart.", j.len(c.Radius_mm), j.len(arc), j.len(below), j.len(c.Pitch_mm)))
		return []*sheet.Page{p}
	}
	j.curve(p, 0, y, c)
	j.base(p, arc+16+chord/2, y+4, c)
	return []*sheet.Page{p}
}

// fin draws a fin: its foot below, its left side against the card, the scale on its right.
func (j *job) fin(p *sheet.Page, x, y, wide, below, above float64) {
	p.Box(sheet.Medium, x, y, x+wide, y+below+above)
	edge := y + above
	p.Line(sheet.Bold, nil, draw.Pt(x, edge), draw.Pt(x+wide, edge))
	p.Text(x+2, edge-1.4, sheet.Small, draw.Italic, 0, word.Say("nought: level with the card’s upper edge"))
	p.Text(x+2, y+5, sheet.Body, draw.Bold, 0, word.Say("Fin: cut two"))
	p.Text(x+2, y+9.4, sheet.Small, draw.Upright, 0, word.Say("the second one mirrored"))
	p.Text(x+2, y+below+above-2, sheet.Small, draw.Italic, 0, word.Say("foot, on the base"))
	p.Text(x+2, edge+6, sheet.Small, draw.Upright, 0, word.Say("this side against the end of the curve"))
	p.Upright(x+wide, y, edge, above, below, j.Units)
	p.Text(x+wide-16, y+14, 5, draw.Bold, 1, word.Name("+"))
	p.Text(x+wide-16, edge+16, 5, draw.Bold, 1, word.Name("−"))
}

// poseWide is the room that the sketches of the poses take at least, mm.
const poseWide = 44

// poses sketches how the card is held for each reading, from the side, not to scale: the
// card, an upper and a lower fold, and the length that is read.
func (j *job) poses(p *sheet.Page, x, y, high float64) {
	// Where the ends of the upper and the lower folds stand, as shares of the depth: out, and up
	// from the sewn edge. As the model has them for a ruff like the first; only to be recognised.
	ends := [trial.Readings][2][2]float64{
		trial.Height:  {{0.98, -0.05}, {0.98, -0.65}},
		trial.Tipped:  {{0.98, 0.15}, {0.95, -0.5}},
		trial.Hanging: {{0.8, 0.55}, {1, 0.04}},
		trial.Over:    {{0.3, 0.9}, {0.7, 0.65}},
	}
	step := (high - 12) / float64(len(ends))
	deep := math.Min(15, 0.45*step)
	for r := range trial.Readings {
		sin, cos := math.Sincos(trial.Slope_deg(r) * math.Pi / 180)
		cx, cy := x+poseWide/2, y+(float64(r)+0.58)*step
		at := func(out, up float64) draw.Point { // from the middle of what is drawn, tipped
			a, b := deep*(out-0.35), deep*(up-0.1)
			return draw.Pt(cx+a*cos+b*sin, cy+a*sin-b*cos)
		}
		sewn, upper, lower := at(0, 0), at(ends[r][0][0], ends[r][0][1]), at(ends[r][1][0], ends[r][1][1])
		p.Line(sheet.Bold, nil, sewn, at(0, -0.75), at(-0.45, -0.75))
		p.Line(sheet.Fine, []float64{1, 0.8}, at(0, 0.9), sewn, at(1.1, 0))
		p.Line(sheet.Medium, nil, sewn, upper, lower, sewn)
		p.Dot(sewn.X, sewn.Y, 0.7)
		p.Dot(lower.X, lower.Y, 0.9)
		from := at(ends[r][1][0], 0)
		if r == trial.Height {
			from = upper
		}
		if r != trial.Hanging { // there it is hardly anything
			p.Line(0.9, nil, from, lower)
		}
		p.Text(x, y+float64(r)*step+3, sheet.Small, draw.Bold, 0, trial.Poses[r].Label)
	}
	q := sheet.Column{Page: p, X: x, Y: y + high - 9, W: poseWide + 4}
	q.Small(word.Say("From the side, not to scale. Thick: what is read. Dashes: level with the sewn edge."))
}

// wedge draws the slope of 60° on which the base leans.
func (j *job) wedge(p *sheet.Page, x, y, wide float64) {
	high := wide * math.Sqrt(3)
	p.Line(sheet.Medium, nil, draw.Pt(x, y+high), draw.Pt(x+wide, y+high), draw.Pt(x+wide, y), draw.Pt(x, y+high))
	p.Text(x+9, y+high-2.5, sheet.Body, draw.Bold, 0, word.Say("60°"))
	c := sheet.Column{Page: p, X: x - 4, Y: y + high + 2, W: wide + 4}
	c.Small(word.Say("**Wedge.** Lean the base on its long side: the card is tipped by 60°. On the upright side it is tipped by 90°."))
}

// curve draws the strip that is bent round the base, laid flat, with the places of the folds.
func (j *job) curve(p *sheet.Page, x, y float64, c *trial.Card) {
	arc, high := c.Arc_mm(), c.Below_mm()
	p.Box(sheet.Medium, x, y, x+arc, y+high)
	var upper, lower [][]draw.Point
	for i := range 2*c.Sets + 1 {
		at := x + float64(i)*c.Pitch_mm/2
		if i%2 == 1 {
			upper = append(upper, []draw.Point{draw.Pt(at, y), draw.Pt(at, y+5)})
		} else {
			lower = append(lower, []draw.Point{draw.Pt(at, y), draw.Pt(at, y+2)})
		}
	}
	p.Lines(sheet.Bold, nil, upper...)
	p.Lines(sheet.Fine, nil, lower...)
	q := sheet.Column{Page: p, X: x + 2, Y: y + 8, W: arc - 4}
	q.Small(word.Say("**Curve.** Upper edge above. Sew an upper fold at each long stroke. Bend it round the base, strokes outside."))
}

// base draws the plate: the arc that the curve is glued to, its outer side convex, and
// where the fins go on.
func (j *job) base(p *sheet.Page, x, y float64, c *trial.Card) {
	const deep, fin = 28.0, 9.0
	half := c.Arc_mm() / c.Radius_mm / 2
	at := func(r, a float64) draw.Point {
		s, k := math.Sincos(a)
		return draw.Pt(x+r*s, y+c.Radius_mm-r*k)
	}
	inner := math.Max(c.Radius_mm-deep, 2)
	var out []draw.Point
	const n = 32
	for i := range n + 1 {
		out = append(out, at(c.Radius_mm, -half+2*half*float64(i)/n))
	}
	for i := range n + 1 {
		out = append(out, at(inner, half-2*half*float64(i)/n))
	}
	p.Line(sheet.Medium, nil, append(out, out[0])...)
	for _, a := range []float64{-half, half} {
		p.Line(sheet.Fine, []float64{2, 1.4}, at(c.Radius_mm, a), at(c.Radius_mm+fin, a))
	}
	q := sheet.Column{Page: p, X: at(c.Radius_mm+fin, half).X + 4, Y: y + 2, W: 30}
	q.Small(word.Say("**Base.** Its arc has a radius of %s. Glue the fins on at the dashes.", j.len(c.Radius_mm)))
}
