package check

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// offerSupport offers a supporter close under the ruff as it lies, or, where it
// sank, under where its lower folds would lie in a level one; with starch, if the
// cloth has little.
func (v *view) offerSupport(s *seen) {
	if v.s.Support.Kind != scheme.NoSupport {
		return
	}
	// Where the lower folds should lie at the outer edge, over the band's bottom.
	at := v.measures().BottomOuter_mm
	if v.sunk() {
		at = (v.s.Band.Height - v.s.Ruff.Height) / 2
		if v.oneEdge() && v.p.Row.Kind() == scheme.Trough {
			at = v.sewnHeight()
		}
	}
	drop := math.Max(0, math.Floor(-at))
	slope := math.Round(math.Atan2(math.Max(at, 0), v.s.Ruff.Depth) * 180 / math.Pi)
	c := []Change{to("support.kind", string(scheme.Supporter)), toMM("support.drop", drop), toMM("support.slope", slope)}
	where := word.Say("level with the band's bottom edge")
	switch {
	case slope > 0:
		where = word.Say("that rises by %s° from the band's bottom edge", Number(slope, 0))
	case drop > 0:
		where = word.Say("%s below the band's bottom edge", v.len(drop))
	}
	if bend, ok := v.stiffer(stiffUsual); ok {
		s.offer(append(c, toMM("starch.bend", bend)), "Lay it on a supporter %s, and starch until %s.", where, v.swatch(bend))
		return
	}
	s.offer(c, "Lay it on a supporter %s.", where)
}
