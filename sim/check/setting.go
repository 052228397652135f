package check

import (
	"math"

	"ruffwright/geom/word"
	"ruffwright/sim/measure"
)

// settingMore, settingShare: by how much and by what part the swing may change with
// setting, damp and wear before that is said. This plan's judgement, no source.
const (
	settingMore  = 2   // mm
	settingShare = 0.3 // of the swing as made
)

var settingLaw = law{Rule: Rule{"setting", "It depends on how it is set and kept", Note, settingMore, "mm", "the swing when the wearer bows changes by at most so much and 30 %, and over no limit of it, set nine tenths as well, damp (starch ÷ 10) or worn (bending ÷ 2); starched sets only, on a coarse mesh", "this plan's judgement, no source", WhereWhole, FromMechanics},
	find: (*view).setting, parts: tangentsPart | finerPart, when: (*view).starched}

// setting says how much the ruff depends on good setting, dry air and little wear.
func (v *view) setting() (seen, bool) {
	m := v.measures()
	s := seen{limit: settingMore}
	if !m.SettingDone || v.sunk() {
		return s, false
	}
	made, found := m.SettingBow_mm[measure.AsMade], false
	for _, bow := range m.SettingBow_mm {
		by := bow - made
		if math.Abs(by) > math.Abs(s.value) {
			s.value = by
		}
		found = found || math.Abs(by) > settingMore && math.Abs(by) > settingShare*made
		for _, limit := range []float64{bowMost, bowStop} {
			found = found || (bow > limit) != (made > limit)
		}
	}
	if !found {
		return s, false
	}
	s.limit = math.Copysign(settingMore, s.value)
	swing := func(condition int) word.Text { return v.len(m.SettingBow_mm[condition]) }
	s.says("How firm it is depends on how it is set and kept. At a bow its edge swings by %s as made, by %s set less well, by %s in damp air, by %s worn soft. Take the four against each other only: they were solved coarsely.",
		swing(measure.AsMade), swing(measure.SetWorse), swing(measure.Damp), swing(measure.Worn))
	v.offerSetting(&s)
	v.offerBoth(&s)
	v.offerStarch(&s, math.Max(stiffUsual, 1.25*v.bend()))
	return s, true
}
