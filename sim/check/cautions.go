package check

import (
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// heavyEnough: plain cloth lighter than 88.2 g/m² is not exempt from the US
// flammability test (16 CFR 1610).
const heavyEnough = 88.2 // g/m²

var flameLaw = law{Rule: Rule{"flame", "Keep away from flame", Caution, heavyEnough, "g/m²", "shown always; lighter plain cloth is not exempt from the test", "16 CFR 1610: plain cloth from 88.2 g/m² is exempt", WhereWhole, FromSafety},
	find: (*view).flame}

// flame: always.
func (v *view) flame() (seen, bool) {
	s := seen{value: v.s.Cloth.Mass, limit: heavyEnough}
	var light word.Text
	if v.s.Cloth.Mass > 0 && v.s.Cloth.Mass < heavyEnough {
		light = word.Say("Cloth as light as %s g/m² catches faster than most.", Number(v.s.Cloth.Mass, 0))
	}
	s.sentence = word.Join(" ",
		word.Say("No candles, matches, smoking, stoves or stage flame near a ruff: wide thin cloth by the face is alight before the wearer sees it."), light,
		word.Say("Dry it in the air, never in an oven, and ask the venue's fire officer before a show."))
	return s, true
}

var breathingLaw = law{Rule: Rule{"breathing", "A band about the throat", Caution, 0, "", "shown for every neck", "tight neckwear raised eye pressure (Br. J. Ophthalmol. 2003;87:946) and lessened blood flow to the brain (Neuroradiology 2018;60:861)", WhereNeck, FromSafety},
	find: (*view).breathing, when: (*view).aboutNeck}

// breathing: every band about a throat.
func (v *view) breathing() (seen, bool) {
	var s seen
	s.says("Two fingers must pass under the closed band. Open it at once if the wearer is dizzy, hoarse, short of breath or sees badly. Nobody sleeps in it, and nobody wears it who cannot undo it alone.")
	return s, true
}

var cordsLaw = law{Rule: Rule{"cords", "Ties at the neck", Caution, 0, "", "shown for ties at a neck", "EN 14682: no cords at the neck of clothes for children under 7, no free ends to 14", WhereBand, FromSafety},
	find: (*view).cords, when: (*view).aboutNeck}

// cords: ties at a neck.
func (v *view) cords() (seen, bool) {
	var s seen
	if v.s.Band.Closure != scheme.Ties {
		return s, false
	}
	s.says("Ties at the neck are not for a child: take a hook or a snap that gives way, and never leave a child alone in a ruff.")
	return s, true
}

var hotLaw = law{Rule: Rule{"hot", "Hot starch and irons", Caution, 60, "°C", "shown where starch is used; the degree that scalds in 3 seconds", "published tables of scald times; ISO 13732-1 for touching hot metal", WhereWhole, FromSafety},
	find: (*view).hot}

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

var needlesLaw = law{Rule: Rule{"needles", "Pins and needles", Caution, 0, "", "shown always", practice, WhereWhole, FromSafety},
	find: (*view).needles}

// needles: always.
func (v *view) needles() (seen, bool) {
	var s seen
	s.says("Count pins and needles out and back in: a pin left in a ruff is at the wearer's throat or eye.")
	if v.s.Wearer.Part == scheme.Wrist {
		s.says("Count pins and needles out and back in: a pin left in a cuff is at the wearer's wrist.")
	}
	return s, true
}
