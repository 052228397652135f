package look

import (
	"fmt"
	"slices"

	"ruffwright/geom/figure"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/wasm/page/say"
)

// colours in the order of their buttons.
var colours = []Colour{AsCloth, ByDroop, ByContact}

// colourWords are a colour's button, its title, and what is said when it is chosen.
var colourWords = map[Colour]struct{ short, long, said string }{
	AsCloth:   {"Cloth", "Cloth as it is", "Cloth as it is."},
	ByDroop:   {"Droop", "Dyed by droop: how far it has come down since it was formed", "Dyed by droop. The legend is below the drawing."},
	ByContact: {"Contact", "Dyed by contact: how near the next panel lies", "Dyed by contact. The legend is below the drawing."},
}

// dyes chooses a colour.
func (l *Look) dyes(by Colour) {
	if by == l.dye.by || !l.canDye(by) {
		return
	}
	l.dye.by, l.dirty = by, true
	l.voice.Soon(say.Text(colourWords[by].said))
}

// canDye reports whether the ruff knows what the colour tells.
func (l *Look) canDye(by Colour) bool { return knows(l.A, by) }

func knows(r *sim.Ruff, by Colour) bool {
	if by == ByDroop {
		return r.Solved != nil && r.Solved.Droop != nil
	}
	return slices.Contains(colours, by)
}

// tone is what the cloth of the ruff (0) or of the one beside it (1) is dyed by
// now, nil for cloth as it is: while the ruff is folded up it is white, and so it
// is while what the colour tells is not known.
func (l *Look) tone(side int, r *sim.Ruff) *figure.Tone {
	if l.dye.by == AsCloth || !knows(r, l.dye.by) || l.folding() {
		return nil
	}
	shape := l.posedOf(r)
	if len(shape.Panels) == 0 || len(shape.Panels[0].V) == 0 {
		return nil
	}
	now := toneOf{l.dye.by, &shape.Panels[0].V[0]}
	if l.dye.tone[side] != nil && l.dye.made[side] == now {
		return l.dye.tone[side]
	}
	l.dye.made[side], l.dye.tone[side] = now, nil
	switch l.dye.by {
	case ByContact:
		gaps, err := r.Plan.Gaps(shape)
		if err != nil {
			return nil
		}
		l.dye.tone[side] = &figure.Tone{Kind: figure.ToneGap, Values: gaps}
	case ByDroop:
		s := r.Solved
		if !sameGrid(s.Shape, shape) || len(s.Of) != len(shape.Panels) {
			return nil
		}
		tone := &figure.Tone{Kind: figure.ToneDroop, Values: make([][]float64, len(shape.Panels))}
		for i := range shape.Panels {
			tone.Values[i] = panelDroop(s.Droop[s.Of[i]], s.Shape, shape, i, r.Plan.Row[i].Fold == scheme.Crest)
		}
		l.dye.tone[side] = tone
	}
	return l.dye.tone[side]
}

// panelDroop is the droop of panel i's nodes in the order of the strip, in the
// shape that is shown: the half set's at rest, and how much lower it lies than at
// rest.
func panelDroop(droop []float64, rest, shown pleat.Shape, i int, crestFirst bool) []float64 {
	out := make([]float64, len(shown.Panels[i].V))
	row := shown.NV + 1
	for n := range out {
		at := n
		if !crestFirst {
			at = (shown.NU-n/row)*row + n%row
		}
		if at < len(droop) {
			out[n] = droop[at] + rest.Panels[i].V[n].Z - shown.Panels[i].V[n].Z
		}
	}
	return out
}

// tones are those of two ruffs side by side, in the same steps.
func (l *Look) tones(a, b *sim.Ruff) (both [2]*figure.Tone) {
	both = [2]*figure.Tone{l.tone(0, a), l.tone(1, b)}
	if both[0] == nil || both[1] == nil {
		return both
	}
	if d := &l.dye; d.bothOf != both {
		d.bothOf = both
		lo, hi := both[0].Range()
		least, most := both[1].Range()
		for i, t := range both {
			shared := *t
			shared.Least_mm, shared.Most_mm = min(lo, least), max(hi, most)
			d.both[i] = &shared
		}
	}
	return l.dye.both
}

// stageWords say what else the stage shows: the ruff on its way, or its colours and its light.
func (l *Look) stageWords() string {
	if l.folding() {
		return say.Text(" Shown on its way from the strip: %s.", l.foldName())
	}
	if l.lit() == Against {
		return l.dyedWords() + say.Text(" Seen against the light, a window behind it.")
	}
	return l.dyedWords()
}

// dyedWords say in words what the colour shows.
func (l *Look) dyedWords() string {
	tone := l.tone(0, l.A)
	if tone == nil {
		return ""
	}
	lo, hi, touching, n := 0.0, 0.0, 0, 0
	for i, vs := range tone.Values {
		for k, v := range vs {
			if i == 0 && k == 0 {
				lo, hi = v, v
			}
			lo, hi = min(lo, v), max(hi, v)
			if n++; v < figure.Touching_mm {
				touching++
			}
		}
	}
	if tone.Kind == figure.ToneGap {
		share := fmt.Sprintf("%.0f", 100*float64(touching)/float64(n))
		return say.Text(" Dyed by contact: %s percent of the cloth lie within a millimetre of the next panel; the room there goes from %s to %s.", share, say.Length(lo, l.Units), say.Length(hi, l.Units))
	}
	return say.Text(" Dyed by droop, place by place: from %s to %s lower than as formed.", say.Length(lo, l.Units), say.Length(hi, l.Units))
}
