package check

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/cloth"
)

// limper is the cloth that remedies name where the maker's is too stiff.
const limper = "cotton lawn"

// offerLimper offers a cloth that bends more easily.
func (v *view) offerLimper(s *seen) {
	c, ok := scheme.ClothNamed(limper)
	if !ok || math.Max(v.s.Cloth.BendWarp, v.s.Cloth.BendWeft) < 1.2*math.Max(c.BendWarp, c.BendWeft) {
		return
	}
	s.offer([]Change{to("cloth.name", limper), to("cloth.mass", "0"), to("cloth.thickness", "0"), to("cloth.bend_warp", "0"), to("cloth.bend_weft", "0")},
		"Take a limper cloth, such as %s.", word.Say(limper))
}

// stiffer gives the starch that remedies ask for: at least want, at most what
// starched cloth is expected to show; false where the cloth has that already.
func (v *view) stiffer(want float64) (bend float64, ok bool) {
	bend = math.Ceil(math.Min(want, cloth.StarchedMost_mm)/5) * 5
	return bend, bend > v.bend()+1 && v.allowed("starch.bend", bend)
}

// offerStarch offers starch of the bending length want, mm.
func (v *view) offerStarch(s *seen, want float64) {
	if bend, ok := v.stiffer(want); ok {
		s.offer([]Change{toMM("starch.bend", bend)}, "Starch it until %s.", v.swatch(bend))
	}
}

// swatch says how starch of a bending length shows.
func (v *view) swatch(bend float64) word.Text {
	l, err := cloth.Overhang(bend, cloth.Slope_deg)
	if err != nil {
		return word.Say("its bending length is %s", v.len(bend))
	}
	return word.Say("a swatch reaches the slope of 41.5° at an overhang of %s", v.len(l))
}

// offerSetting offers to set the sets fully where they are not.
func (v *view) offerSetting(s *seen) {
	if !v.unstarched() && v.s.Starch.Quality < 1 {
		s.offer([]Change{to("starch.quality", "1")}, "Set every loop fully: hot stick, dry to the end, props till it is cold.")
	}
}
