package figure

import (
	"image/color"
	"math"
	"slices"

	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// Tone dyes the cloth by a length at every node of the shape, in five steps. What is
// dyed is also hatched, the denser the deeper, with a line from step to step: the
// picture can be read without any colour. A legend gives the steps.
type Tone struct {
	Kind   ToneKind
	Values [][]float64 // mm, for every panel in the order of its nodes

	// Least_mm and Most_mm are what the steps are to hold, so that two drawings
	// have the same; both 0: what the values hold.
	Least_mm, Most_mm float64
}

// ToneKind is what a tone tells.
type ToneKind string

// The kinds.
const (
	ToneDroop ToneKind = "droop" // how far the cloth has come down; the deeper, the more
	ToneGap   ToneKind = "gap"   // clear room to the panel beside; the deeper, the less
)

const toneSteps = 5

// Touching_mm is the room below which panels are said to touch: as in the solver,
// whose contact skins of 0.5 mm then meet.
const Touching_mm = 1

// Range is the least and the most of its values; 0, 0 where it has none.
func (t *Tone) Range() (least, most float64) {
	all := slices.Concat(t.Values...)
	if len(all) == 0 {
		return 0, 0
	}
	return slices.Min(all), slices.Max(all)
}

type toned struct {
	Tone
	bound [toneSteps - 1]float64 // between the steps, mm, ascending
	tints []light.Tint           // of the steps, from the least dye to the most
	dense []float32              // how full the hatching stands on each
	ink   color.NRGBA
}

const toneShade = 0.34 // how much of the light's shade dyed cloth takes

func newToned(t Tone, shape pleat.Shape, pal draw.Palette, u scheme.Units) (*toned, error) {
	if t.Kind != ToneDroop && t.Kind != ToneGap {
		return nil, bad("kind of tone", t.Kind, "%s or %s", ToneDroop, ToneGap)
	}
	if len(t.Values) != len(shape.Panels) {
		return nil, bad("panels of a tone", len(t.Values), "the shape's %d", len(shape.Panels))
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for k, vs := range t.Values {
		if len(vs) != len(shape.Panels[k].V) {
			return nil, bad("values of a panel's tone", len(vs), "%d", len(shape.Panels[k].V))
		}
		for _, v := range vs {
			if !(math.Abs(v) < 1e5) {
				return nil, bad("tone", v, "below 100 m, as in panel %d", k)
			}
			lo, hi = min(lo, v), max(hi, v)
		}
	}
	if t.Least_mm != 0 || t.Most_mm != 0 {
		if !(t.Least_mm <= t.Most_mm && math.Abs(t.Least_mm) < 1e5 && t.Most_mm < 1e5) {
			return nil, bad("least of a tone", t.Least_mm, "at most its most, %g mm, both below 100 m", t.Most_mm)
		}
		lo, hi = t.Least_mm, t.Most_mm
	}
	d := &toned{Tone: t, ink: pal.ToneInk}
	d.bound = bounds(t.Kind, lo, hi, u)
	d.tints, d.dense = make([]light.Tint, toneSteps), make([]float32, toneSteps)
	for k := range d.tints {
		at := float64(k) + 0.5
		c := pal.Dye(at / toneSteps)
		for i := range d.tints[k] {
			d.tints[k][i] = draw.Mix(c, pal.ClothDeep, toneShade*(1-float64(i)/255))
		}
		d.dense[k] = dense(at)
	}
	return d, nil
}

// bounds are the four lengths between a tone's five steps: round ones of the
// unit. The steps hold lo to hi; the last may hold as much as two.
func bounds(kind ToneKind, lo, hi float64, u scheme.Units) (b [toneSteps - 1]float64) {
	unit, round := 0.1, []float64{1, 2, 3, 5, 10, 20, 30, 50, 100, 200, 300, 500, 1000, 2000, 5000, 1e4}
	if u == scheme.Inches {
		unit, round = 25.4/32, []float64{1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 1024}
	}
	if kind == ToneGap {
		at := float64(Touching_mm)
		if u == scheme.Inches {
			at = unit
		}
		for k := range b {
			b[k] = at * float64(int(1)<<k)
		}
		return b
	}
	step := 0.0
	for _, r := range round {
		step = unit * r
		if math.Floor(lo/step)+toneSteps+1 >= hi/step {
			break
		}
	}
	for k := range b {
		b[k] = step * (math.Floor(lo/step) + float64(k+1))
	}
	return b
}

// dye is how deep a value is dyed: 0 to 5, whole numbers between the steps.
func (d *toned) dye(v float64) float64 {
	b := &d.bound
	n := len(b)
	var x float64
	switch {
	case v < b[0]:
		x = 1 - (b[0]-v)/(b[1]-b[0])
	case v >= b[n-1]:
		x = float64(n) + (v-b[n-1])/(b[n-1]-b[n-2])
	default:
		for k := 1; k < n; k++ {
			if v < b[k] {
				x = float64(k) + (v-b[k-1])/(b[k]-b[k-1])
				break
			}
		}
	}
	x = clamp(x, 0, toneSteps)
	if d.Kind == ToneGap {
		x = toneSteps - x
	}
	return x
}

// dense is how full the hatching stands for a dye: none on the least step.
func dense(dye float64) float32 { return float32(clamp((dye-0.6)/(toneSteps-0.6), 0, 1)) }

// dyed gives the cloth of the panels from first on its dye, node by node.
func (c *cloth) dyed(shape pleat.Shape, d *toned, first int) {
	if d == nil {
		return
	}
	c.dye = make([]float64, len(c.v))
	nu := c.per
	for k := range (c.cols - 1) / nu {
		for i, v := range d.Values[first+k] {
			x, to := d.dye(v), k*nu*c.rows+i
			if i < c.rows && k > 0 { // the mark that two panels share
				x = (c.dye[to] + x) / 2
			}
			c.dye[to] = x
		}
	}
}

// legend sets the tone's steps at the foot of the room.
func (s *sheet) legend(d *toned) {
	if d == nil {
		return
	}
	words := word.Say("droop: how far the cloth has come down")
	if d.Kind == ToneGap {
		words = word.Say("room to the next panel; below %s it touches", s.Length(d.bound[0]))
	}
	cell := 12.0
	var texts []string
	for _, b := range d.bound {
		text := s.Say(s.Length(b))
		texts = append(texts, text)
		cell = max(cell, draw.TextWidth(text, draw.SmallSize, draw.Upright)+2.5)
	}
	cell = min(cell, (s.Room.Max.X-s.Room.Min.X)/toneSteps)
	const tall = 3.6
	lead := draw.SmallSize * draw.Leading
	y := s.Room.Max.Y - lead - tall - 0.6
	x := s.Room.Min.X
	line := draw.Clip(s.Say(words), draw.SmallSize, draw.Italic, s.Room.Max.X-x)
	s.Label(draw.Label{At: draw.Pt(x, y-lead), Text: line, Size_mm: draw.SmallSize, Face: draw.Italic, Color: s.Pal.Quiet})
	for k := range toneSteps {
		left := x + cell*float64(k)
		at := float64(k) + 0.5
		if d.Kind == ToneGap {
			at = toneSteps - at
		}
		box := []draw.Point{draw.Pt(left, y), draw.Pt(left+cell, y), draw.Pt(left+cell, y+tall), draw.Pt(left, y+tall)}
		s.Add(draw.Path{Lines: [][]draw.Point{box}, Closed: true, Fill: s.Pal.Dye(at / toneSteps)})
		if full := float64(dense(at)); full > 0 {
			const step = 1.15
			width := 0.27 * step * (0.35 + 0.65*full)
			for h := left + step/2; h < left+cell-step/3; h += step {
				s.Line(draw.Mix(s.Pal.Dye(at/toneSteps), d.ink, min(1, 1.5*full)), width, nil, draw.Pt(h, y+0.3), draw.Pt(h, y+tall-0.3))
			}
		}
		if k > 0 {
			s.Line(d.ink, 0.3, nil, draw.Pt(left, y), draw.Pt(left, y+tall+0.8))
			s.Label(draw.Label{At: draw.Pt(left, y+tall+0.9), Text: texts[k-1], Size_mm: draw.SmallSize, Anchor: draw.Pt(0.5, 0), Color: s.Pal.Ink})
		}
	}
	s.Add(draw.Path{Lines: [][]draw.Point{{draw.Pt(x, y), draw.Pt(x+cell*toneSteps, y), draw.Pt(x+cell*toneSteps, y+tall), draw.Pt(x, y+tall)}}, Closed: true, Stroke: s.Pal.Rule, Width_mm: 0.2})
	s.Room.Max.Y = y - lead - 1.5
	s.View = s.Room
}
