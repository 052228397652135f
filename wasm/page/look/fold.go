package look

import (
	"math"
	"strconv"

	"ruffwright/geom/pleat"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// foldSteps are the steps, at equal parts of the slider: what the ruff is there, and
// what becomes of it after.
var foldSteps = []struct{ at, after string }{
	{"Laid flat", "Being pleated"}, {"Pleated", "Being drawn up"}, {"Drawn up to the band", "Being released"}, {"Released", ""},
}

const (
	wholeFold = 100.0
	foldPart  = wholeFold / 3
	play_ms   = 9000 // from laid flat to released
	foldCells = 6    // from neck to outer edge
)

// foldTo puts the slider to a place.
func (l *Look) foldTo(at float64) {
	if math.IsNaN(at) {
		return
	}
	l.fold.at, l.dirty = min(wholeFold, max(0, at)), true
	if l.fold.at < wholeFold && !l.View.Turned {
		l.View = inHand
		l.camera.Lens = home.Lens
	}
	step := int(l.fold.at/foldPart + 0.5)
	if math.Abs(l.fold.at-float64(step)*foldPart) < 3 && step != l.fold.said {
		l.fold.said = step
		l.voice.Soon(l.foldStory(step))
	}
}

// unfolds goes back to the ruff as it is.
func (l *Look) unfolds() {
	if l.fold.at < wholeFold {
		l.dirty = true
	}
	l.fold.at, l.fold.playing, l.fold.said = wholeFold, false, len(foldSteps)-1
}

// Slide takes the slider's text, and reports whether it can be used.
func (l *Look) Slide(value string) bool {
	at, err := strconv.ParseFloat(value, 64)
	if err != nil || math.IsNaN(at) {
		return false
	}
	l.fold.playing = false
	l.foldTo(at)
	l.moves()
	return true
}

// foldPlays plays or pauses; without motion it goes to the next step.
func (l *Look) foldPlays(now_ms float64) []doc.Patch {
	f := &l.fold
	if l.Calm {
		next := math.Floor(f.at/foldPart+1e-6) + 1
		if f.at >= wholeFold {
			next = 0
		}
		f.said = -1
		l.foldTo(next * foldPart)
		return nil
	}
	if f.playing {
		f.playing, l.dirty = false, true
		return nil
	}
	if f.at >= wholeFold {
		f.said = -1
		l.foldTo(0)
	}
	f.playing, f.from, f.began = true, f.at, now_ms
	return []doc.Patch{{Op: doc.OpTimer, Name: "fold", MS: frame_ms}}
}

// FoldFrame is due while it plays; was is whether it did, next the timer of the next
// frame, if there is one.
func (l *Look) FoldFrame(now_ms float64) (next []doc.Patch, was bool) {
	f := &l.fold
	if !f.playing {
		return nil, false
	}
	l.foldTo(f.from + (now_ms-f.began)/play_ms*wholeFold)
	if f.at >= wholeFold {
		f.playing = false
		return nil, true
	}
	return []doc.Patch{{Op: doc.OpTimer, Name: "fold", MS: frame_ms}}, true
}

// foldShape is the shape on its way, and by how many degrees the row is turned
// for the reader: its middle is at the back of the neck, so it is seen from there
// until it closes.
func (l *Look) foldShape() (pleat.Shape, float64) {
	r, f := l.A, &l.fold
	drawn := r.Folded.Shape
	if len(drawn.Panels) == 0 || len(drawn.Panels[0].V) == 0 {
		return drawn, 0
	}
	if first := &drawn.Panels[0].V[0]; f.of != first || f.making == nil {
		nu := 16
		if len(drawn.Panels) > 120 {
			nu = 10
		}
		making, err := pleat.NewMaking(r.Plan, nu, foldCells)
		if err != nil {
			return drawn, 0
		}
		f.of, f.making, f.up = first, making, pleat.Shape{}
	}
	stage := f.at / foldPart
	if stage <= pleat.DrawnUp {
		f.now = f.making.At(stage, &f.now)
		return f.now, 180 * (1 - ease((stage-1.3)/0.7))
	}
	if r.Solved == nil {
		return drawn, 0
	}
	rest := r.Solved.Shape
	if !sameGrid(f.up, rest) {
		folded, err := r.Plan.Fold(rest.NU, rest.NV)
		if err != nil {
			return rest, 0
		}
		f.up = folded.Shape
	}
	f.down = between(f.down, f.up, rest, ease(stage-pleat.DrawnUp))
	return f.down, 0
}

// foldName says where on its way the ruff is.
func (l *Look) foldName() string {
	step := l.fold.at / foldPart
	if k := math.Round(step); math.Abs(step-k) < 0.02 {
		return say.Text(foldSteps[int(k)].at)
	}
	return say.Text(foldSteps[int(step)].after)
}

// foldStory tells of a step.
func (l *Look) foldStory(step int) string {
	plan := l.A.Plan
	length := func(mm float64) string { return say.Length(mm, l.Units) }
	switch step {
	case 0:
		return say.Text("Laid flat: a strip of %s, marked every %s. Seen from behind; it runs on to both sides.", length(plan.Marked_mm), length(plan.Panel_mm))
	case 1:
		return say.Text("Pleated: folded up and down on the marks into %d sets, a row of %s.", plan.Sets, length(float64(plan.Panels)*plan.PitchOuter_mm/2))
	case 2:
		return say.Text("Drawn up to the band: the inner edge, its tucks folded in, goes round a neckline of %s, and the row closes.", length(plan.Filled_mm))
	}
	s := l.A.Solved
	if s == nil {
		return say.Text("Released: how the cloth hangs is not solved yet, so this is the ruff as folded.")
	}
	return say.Text("Released: the sticks are out, and the outer edge has come down by %s.", say.Length(s.Ruff.Droop_mm, l.Units))
}

// FoldPatches are what slider, button and name lack.
func (l *Look) FoldPatches() []doc.Patch {
	at := strconv.FormatFloat(math.Round(l.fold.at), 'f', -1, 64)
	name := l.foldName()
	button, sign := "Play: from the strip to the ruff", "▶"
	switch {
	case l.Calm:
		button, sign = "Next step: from the strip to the ruff", "▶|"
	case l.fold.playing:
		button, sign = "Pause", "❚❚"
	}
	var out doc.List
	out.Value("fold", at)
	out.Attr("fold", "aria-valuetext", say.Text("%s, %s %%", name, at))
	out.Text("fold-name", name)
	out.Text("fold-sign", sign)
	out.Attr("fold-play", "aria-label", say.Text(button))
	out.Attr("fold-play", "title", say.Text(button))
	return out

}
