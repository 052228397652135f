package pleat

import (
	"math"
	"slices"

	"ruffwright/geom/curve"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// fitPanel finds the panel whose outer edge stands as high as ruff.height, and
// with it how deep the tucks may be.
//
// The panel is longer, and the ruff taller than wanted, where an edge would lie
// flat otherwise, or would not reach between both edges of the band even without
// tucks. The tucks are as deep as given, or both shallower in proportion, rounded
// down to 0.1 mm, where they would take up what the inner edge needs.
func (p *Plan) fitPanel() error {
	s := &p.Scheme
	panel, err := curve.PanelForHeight(s.Ruff.Height, p.PitchOuter_mm/2)
	if err != nil {
		return scheme.Error{Field: "ruff.height", Value: word.Say("%s mm", text(s.Ruff.Height)), Why: word.Name(err.Error())}
	}
	half := p.Pitch_mm / 2
	outer := half * (1 + s.Ruff.Depth*slices.Max(p.Curvatures()))
	least := max(half, outer) / (1 - fitWave)
	straight := 0.0
	if !p.Row.OneEdge() {
		straight = fitReach * math.Hypot(s.Band.Height, half)
	}
	least = max(least, straight)
	p.Panel_mm, p.PanelFitted, p.PanelReaches = max(panel, least), true, panel < least

	top, bottom := p.Row.Tuck(scheme.Crest), p.Row.Tuck(scheme.Trough)
	room := min(TucksMost*p.Panel_mm, p.Panel_mm-max(straight, half+fitWave*p.Panel_mm))
	if top+bottom <= room {
		return nil
	}
	p.TucksFitted = true
	part := max(0, room) / (top + bottom)
	if top > 0 {
		s.Pleat.TuckTop = math.Floor(10*part*top) / 10
	}
	if bottom > 0 {
		s.Pleat.TuckBottom = math.Floor(10*part*bottom) / 10
	}
	p.Row.tuck(s.Pleat)
	return nil
}
