package paper

import (
	"fmt"
	"math"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/cloth"
	"ruffwright/sim/paper/sheet"
)

// swatch is the swatch card: a ruler and a slope to cut out, full size, and where
// to write what is read.
func (j *job) swatch() ([]*sheet.Page, error) {
	p := &sheet.Page{Language: j.Language, Title: word.Say("Swatch card, full size"), Holds: word.Say("ruler and slope to cut out")}
	c := sheet.Column{Page: p, W: sheet.Live_mm, Y: sheet.BodyTop_mm}
	c.Para(word.Say("Take the strips of the layout, %s wide and %s long along the thread to be tested: no selvedge, no crease. Glue ruler and slope on stiff card and cut them out. Stand the slope upright at the end of a smooth level table. Its corner lies at the table's edge, its upper side level with the table's top.", j.swatchLen(25), j.swatchLen(250)))
	c.Para(word.Say("Lay the strip on the table, its end at the edge, the ruler on it, zero at the same edge. Push both out together, slowly, until the strip's tip **touches the slope**. The ruler stays level above it. Read the ruler at the table's edge: that is the overhang. Half of it is the bending length. Read each strip four times: both ends, both faces."))

	t := j.goal
	// The ruler, to be cut out: zero at its right end, which goes over the edge.
	ry := c.Y + 3
	const rulerHigh, rulerLong = 25.0, 180.0
	p.Box(sheet.Medium, 0, ry, sheet.Live_mm, ry+rulerHigh)
	p.RulerBack(sheet.Live_mm, ry, rulerLong, j.Units)
	p.Text(2, ry+17, sheet.Body, draw.Bold, 0, word.Say("Overhang: read here, at the table's edge, what has gone out over it"))
	p.Text(2, ry+22, sheet.Small, draw.Italic, 0, word.Say("this end stays on the table"))
	p.Text(sheet.Live_mm-2, ry+22, sheet.Small, draw.Italic, 1, word.Say("zero: with the strip's end, goes out over the edge"))
	shown := t.known && !t.none && !t.beyond
	if shown && t.overhang_mm <= rulerLong {
		x := sheet.Live_mm - t.overhang_mm
		p.Line(sheet.Bold, nil, draw.Pt(x, ry), draw.Pt(x, ry+6))
		p.Dot(x, ry+10.6, 0.9)
		words := word.Say("target %s", j.len(t.overhang_mm))
		if w := p.Width(words, sheet.Small, draw.Bold); x+2+w < sheet.Live_mm-1 {
			p.Text(x+2, ry+11.5, sheet.Small, draw.Bold, 0, words)
		} else {
			p.Text(x-2, ry+11.5, sheet.Small, draw.Bold, 1, words)
		}
	}
	if shown && t.overhang_mm > rulerLong {
		p.Text(2, ry+11.5, sheet.Small, draw.Bold, 0, word.Say("target %s: beyond this ruler, take your own", j.len(t.overhang_mm)))
	}
	if t.beyond {
		p.Text(2, ry+11.5, sheet.Small, draw.Bold, 0, word.Say("no target here: %s is more than these strips can show", j.len(t.overhang_mm)))
	}
	if err := j.slope(p, ry+rulerHigh+4, t); err != nil {
		return nil, err
	}
	return append([]*sheet.Page{p}, j.readings(t)...), nil
}

// slope draws the slope to cut out, its corner at the table's edge: a line 41.5°
// below level, with the overhangs at which a strip's tip meets it.
func (j *job) slope(p *sheet.Page, top float64, t target) error {
	const x0, wide = 18.0, 150.0
	tan := math.Tan(cloth.Slope_deg * math.Pi / 180)
	high := math.Min(wide*tan, sheet.BodyBottom_mm-top)
	reach := high / tan
	y0 := top
	p.Line(sheet.Bold, nil, draw.Pt(x0, y0), draw.Pt(x0+reach, y0+reach*tan))                    // the slope itself
	p.Line(sheet.Medium, nil, draw.Pt(x0, y0), draw.Pt(x0, y0+high), draw.Pt(x0+reach, y0+high)) // upright and foot
	p.Text(x0+1.6, y0+high-2, sheet.Small, draw.Italic, 0, word.Say("cut out along these three sides; the upright side stands against the table's edge"))
	p.Line(sheet.Medium, nil, draw.Pt(0, y0), draw.Pt(x0, y0))
	p.Text(0, y0+3.6, sheet.Small, draw.Italic, 0, word.Say("table's top"))
	p.Dot(x0, y0, 0.7)

	// All tips lie on the slope: overhang L at the distance L · chord ÷ span.
	span, err := cloth.Span(cloth.Slope_deg)
	if err != nil {
		return fmt.Errorf("paper: swatch card: %w", err)
	}
	hang, err := cloth.Hang(span)
	if err != nil {
		return fmt.Errorf("paper: swatch card: %w", err)
	}
	chord := math.Hypot(hang.TipX, hang.TipDrop) / span // of one mm of overhang
	sin, cos := math.Sincos(cloth.Slope_deg * math.Pi / 180)
	step, unit := 10.0, 10.0
	if j.Units == scheme.Inches {
		step, unit = 25.4/2, 25.4
	}
	var ticks [][]draw.Point
	for l := 2 * step; l*chord*sin < high-3; l += step {
		x, y := x0+l*chord*cos, y0+l*chord*sin
		ticks = append(ticks, []draw.Point{draw.Pt(x, y), draw.Pt(x-2*sin, y+2*cos)})
		words := trim(l/unit, 1)
		if j.Units == scheme.Millimetres {
			words = trim(l, 0)
		}
		p.Text(x-3.2*sin, y+3.2*cos+1, 2.2, draw.Upright, 1, words)
	}
	p.Lines(sheet.Fine, nil, ticks...)
	if t.known && !t.none && !t.beyond && t.overhang_mm*chord*sin < high {
		x, y := x0+t.overhang_mm*chord*cos, y0+t.overhang_mm*chord*sin
		p.Dot(x, y, 1)
		words := word.Say("target: a strip with %s over the edge touches here", j.len(t.overhang_mm))
		lines := p.Wrap(draw.Bold, words, sheet.Small, 48)
		left := math.Min(x+4, sheet.Live_mm-49)
		y -= (x + 4 - left) * tan // keeps the words off the slope
		for i, l := range lines {
			l.Set(p, left, y-1+float64(i)*sheet.Small*sheet.Leading-float64(len(lines)-1)*sheet.Small*sheet.Leading, sheet.Small)
		}
	}
	p.Text(x0+2, y0+high-14, sheet.Small, draw.Upright, 0, word.Say("41.5° below level. Strokes: where the tip of a strip touches, by its overhang in %s.", unitWord[j.Units]))
	p.Text(x0+2, y0+high-10.4, sheet.Small, draw.Upright, 0, word.Say("If ruler and slope disagree by more than a stroke's step, the strip curls or the table is not level."))
	const r = 22
	var arc []draw.Point
	for k := range 25 {
		s, c := math.Sincos(cloth.Slope_deg * math.Pi / 180 * float64(k) / 24)
		arc = append(arc, draw.Pt(x0+r*c, y0+r*s))
	}
	p.Line(sheet.Fine, nil, arc...)
	p.Line(sheet.Fine, []float64{2, 1.4}, draw.Pt(x0, y0), draw.Pt(x0+70, y0))
	p.Text(x0+r+1.6, y0+6.6, sheet.Small, draw.Upright, 0, word.Say("41.5°"))
	p.Text(x0+73, y0+1, sheet.Small, draw.Italic, 0, word.Say("level"))
	p.Text(x0+86, y0+16, sheet.Small, draw.Italic, 0, word.Say("the strip hangs on this side of the slope"))
	return nil
}

// readings is the sheet to write readings on: the cloth, then each trial of starch.
func (j *job) readings(t target) []*sheet.Page {
	f := j.flow(word.Say("Swatches: readings"), word.Say("where to write readings"))
	f.Head(word.Say("The cloth, unstarched"), 40)
	f.Para(word.Say("Read the overhang at the slope of 41.5°. The mean halved is the bending length: enter it in the scheme under cloth, along warp and weft."))
	long := j.len(j.s.Cloth.BendWarp)
	weft := j.len(j.s.Cloth.BendWeft)
	columns := func(first word.Text) []sheet.Col {
		return []sheet.Col{sheet.Words(first, 34), sheet.Words(word.Say("face up, end 1"), 13), sheet.Words(word.Say("face up, end 2"), 13), sheet.Words(word.Say("face down, 1"), 12), sheet.Words(word.Say("face down, 2"), 12), sheet.Words(word.Say("mean"), 10), sheet.Words(word.Say("half"), 10)}
	}
	f.Form(columns(word.Say("strip")), word.Say("warp 1"), word.Say("warp 2"), word.Say("warp 3"), word.Say("weft 1"), word.Say("weft 2"), word.Say("weft 3"))
	f.Small(word.Say("The scheme now has: warp %s, weft %s. Weigh the 100 × 100 mm square: grams × 100 = g/m² (the scheme has %s): ________", long, weft, trim(j.s.Cloth.Mass, 0)))
	f.Small(word.Say("Shrinkage: mark 200 mm both ways before the first wash, measure after: (200 − now) ÷ 2 = %%.   warp ________   weft ________"))

	f.Head(word.Say("Starched"), 50)
	switch {
	case !t.known:
		f.Para(word.Say("**Target: not solved yet.** Solve the scheme first (on the page ask for the starch target; by command: ruffwright need, with this scheme): it finds the least stiffness that holds this %s up. Then print this card anew. Until then write down what each bath gives.", j.thing()))
	case t.none && !j.manyWays().Empty():
		f.Para(word.Say("**No target: starch is not needed to hold it up, but makes the sets alike.** By what was solved this cloth holds the %s up by itself. %s", j.thing(), j.manyWays()))
	case t.none:
		f.Para(word.Say("**Target: no starch needed.** By what was solved this cloth holds the %s up by itself. Starch lightly if you like, to keep it clean.", j.thing()))
	case t.beyond:
		f.Para(word.Say("**No target to test:** the %s asks for an overhang of %s. Strips of %s cannot show so much, and starch is unlikely to give it. Change the %s first: sew the other edge as well, tuck the folds, or support it.", j.thing(), j.len(t.overhang_mm), j.swatchLen(j.starchStrip()), j.thing()))
	default:
		from := when(t.fromScheme, word.Say("the scheme's own wish"), word.Say("from what was solved"))
		f.Para(word.Say("**Target: overhang %s** (bending length %s along the strip; %s). Less: more starch in the next bath. More than a tenth over: less.", j.len(t.overhang_mm), j.len(t.bend_mm), from))
		if t.overhang_mm > 180 {
			f.Para(word.Say("That is longer than the card's ruler and its slope: measure the overhang with your own tape, and lengthen the slope with a straight lath at the same angle. The strips are cut %s long.", j.swatchLen(j.starchStrip())))
		}
	}
	f.Form(columns(word.Say("bath (g/L), trial")), word.Say("1"), word.Say("2"), word.Say("3"), word.Say("4"), word.Say("5"), word.Say("6"))
	f.Small(word.Say("Strips along the strip's length (%s), dried flat and hard, hung when cool. Damp air softens starch: read on the day's weather that it will be worn in, or allow for it.", along[j.s.Strip.Along]))
	j.shear(f)
	return f.Pages
}

// shear is the test for how hard starched cloth is to pull askew: a strip on the bias is
// pulled, and a cross in its middle measured. There the stress along the strip, F/w, is
// twice the shear stress along the threads, and the lengthening of the strip less the
// (negative) lengthening across it is the threads' shear: so G = (F/w)/(2(eL − eT)),
// however they stretch along themselves. Within a strip's width of the clamps it is not.
func (j *job) shear(f *sheet.Flow) {
	if j.s.Starch.Bend == 0 && (!j.goal.known || j.goal.none) {
		return
	}
	f.Head(word.Say("Starched, pulled askew"), 95)
	f.Para(word.Say("How far sets that are sewn at one edge move when the wearer bows depends on how hard the starched cloth is to pull askew. Without this test it is guessed. Cut a strip %s wide and %s long from what is left over, **at 45° to the threads**. Starch, dry and iron it flat as the %s.", j.swatchLen(biasWide_mm), j.swatchLen(250), j.thing()))
	f.Tick(word.Say("Draw a cross in the strip's middle, %s along it and %s across. Clamp each end over its whole width between two laths. Hang it up by one and hang %d g on the other, so that it is flat. Measure both lines of the cross.", j.swatchLen(biasLong_mm), j.swatchLen(biasAcross_mm), biasFlat_g))
	f.Tick(word.Say("Hang on more, as in the table, and measure again each time. Where it grows by less than a pen's stroke, measure on a photograph taken square on, with a ruler beside the cross."))
	f.Tick(word.Say("**L** is how much the long line grew since the %d g, divided by its length. **T** is how much the short line shrank, divided by its own. Then **G = pull ÷ (2 × (L + T))**, in N/m.", biasFlat_g))
	cols := []sheet.Col{sheet.Words(word.Say("hung on"), 16), sheet.Words(word.Say("pull, N/m"), 16), sheet.Words(word.Say("long line"), 18), sheet.Words(word.Say("short line"), 18), sheet.Words(word.Say("L"), 14), sheet.Words(word.Say("T"), 14), sheet.Words(word.Say("G, N/m"), 18)}
	f.Form(cols, word.Say("%d g", 250), word.Say("%d g", 500), word.Say("%d g", 1000))
	f.Small(word.Say("Pull is the weight over the strip's width: 250 g are %s N/m, 500 g %s, 1000 g %s. Enter the mean of G in the scheme, under starch as ‘%s’. Fresh cloth has 30 to 170 N/m; starched, 150 to 4000 is to be expected, by reasoning: no published figure was found.", trim(pull_Npm(250), 0), trim(pull_Npm(500), 0), trim(pull_Npm(1000), 0), label("starch.shear")))
}

// Sizes of the strip for that test and of the cross on it, and what pulls it flat. 25 g on
// 50 mm is the 5 gf/cm under which the bias extension of suitings is measured (FAST-3).
const (
	biasWide_mm   = 50
	biasLong_mm   = 100
	biasAcross_mm = 40
	biasFlat_g    = 25
)

// pull_Npm is the force of a weight hung on that strip, over its width.
func pull_Npm(hung_g float64) float64 { return hung_g / 1e3 * 9.80665 / (biasWide_mm / 1e3) }
