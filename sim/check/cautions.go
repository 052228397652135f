package check

import "ruffwright/geom/scheme"

// notSolved names in one line what only the mechanics can tell and has not told
// yet.
func (v *view) notSolved() (seen, bool) {
	var s seen
	for _, l := range rules {
		if l.parts != 0 && l.applies(v) && v.awaits(l.parts) {
			s.awaits = append(s.awaits, l.ID)
		}
	}
	s.value = float64(len(s.awaits))
	if v.r.Solved == nil {
		s.says("Not solved yet: how it hangs and how firmly it holds, what the cloth's weight and starch do to it, and what stick and thread it takes. The shape shown is folded by geometry alone.")
	} else {
		s.says("The shape is solved; still to come: how firmly it holds when the wearer moves, and whether it may rest in another shape.")
	}
	return s, len(s.awaits) > 0
}

// flame: always.
func (v *view) flame() (seen, bool) {
	s := seen{value: v.s.Cloth.Mass, limit: heavyEnough}
	light := ""
	if v.s.Cloth.Mass > 0 && v.s.Cloth.Mass < heavyEnough {
		light = " Cloth as light as " + number(v.s.Cloth.Mass, 0) + " g/m² catches faster than most."
	}
	s.says("No candles, matches, smoking, stoves or stage flame near a ruff: wide thin cloth by the face is alight before the wearer sees it.%s Dry it in the air, never in an oven, and ask the venue's fire officer before a show.", light)
	return s, true
}

// breathing: every band about a throat.
func (v *view) breathing() (seen, bool) {
	var s seen
	if v.s.Wearer.Part == scheme.Wrist {
		return s, false
	}
	s.says("Two fingers must pass under the closed band. Open it at once if the wearer is dizzy, hoarse, short of breath or sees badly; nobody sleeps in it, and nobody wears it who cannot undo it alone.")
	return s, true
}

// cords: ties at a neck.
func (v *view) cords() (seen, bool) {
	var s seen
	if v.s.Wearer.Part == scheme.Wrist || v.s.Band.Closure != scheme.Ties {
		return s, false
	}
	s.says("Ties at the neck are not for a child: take a hook or a snap that gives way, and never leave a child alone in a ruff.")
	return s, true
}

// hot: starch that is boiled, and irons that set it.
func (v *view) hot() (seen, bool) {
	s := seen{limit: 60}
	if v.s.Starch.Bend == 0 {
		return s, false
	}
	s.value = 100
	s.says("Boiled starch clings and scalds worse than water: at 60 °C it takes three seconds. Let it cool until a hand can stay in it. Setting sticks and irons reach 200 °C: hold them by wood, lay them on metal, keep children away, and shake no dry starch near a flame.")
	return s, true
}

// needles: always.
func (v *view) needles() (seen, bool) {
	var s seen
	s.says("Count pins and needles out and back in: a pin left in a ruff is at the wearer's throat or eye.")
	if v.s.Wearer.Part == scheme.Wrist {
		s.says("Count pins and needles out and back in: a pin left in a cuff is at the wearer's wrist.")
	}
	return s, true
}
