package check

import (
	"math"

	"ruffwright/geom/word"
	"ruffwright/sim/measure"
)

// Unsure_mm is how much of a solved length may be in doubt before it is said.
// Judgement, no source.
const Unsure_mm = 1

// Doubt is how far a solved ruff's figures may be off, mm: that of its folds at the outer
// edge, and that of the move when the wearer bows. Both are 0 where nobody asked, and of
// untucked sets.
func Doubt(m *measure.Values) (folds_mm, bow_mm float64) {
	if m == nil || !m.MeshDone {
		return 0, 0
	}
	if m.BowDone {
		bow_mm = m.BowPart_mm
	}
	return max(m.Mesh_mm, m.Paths_mm, m.FormedOff_mm), bow_mm
}

// MayBow reports whether the outer edge is within the limit of its swing when the wearer
// bows, but need not be.
func MayBow(m *measure.Values) bool {
	_, doubt := Doubt(m)
	return m.BowDone && m.Bow_mm <= bowMost && m.Bow_mm+doubt > bowMost
}

// SlopeDoubt is how far the slope from neck to outer edge may be off, in degrees.
func SlopeDoubt(m *measure.Values) float64 {
	folds, _ := Doubt(m)
	return math.Atan2(folds, m.Reach_mm) * 180 / math.Pi
}

var uncertainLaw = law{Rule: Rule{"uncertain", "The sizes are uncertain", Note, Unsure_mm, "mm", "in doubt at most, where tucked sets formed in other ways lie farther apart than that; what the mesh leaves in doubt is told with each figure", judged, WhereOuter, FromMechanics},
	find: (*view).uncertain, parts: tangentsPart | finerPart, when: (*view).tucked}

// uncertain: the inside of a tuck may lie in several ways. How sure each figure is stands
// with the figure (sim.Ruff.Sure).
func (v *view) uncertain() (seen, bool) {
	m := v.measures()
	folds, bow := Doubt(m)
	s := seen{value: max(folds, bow), limit: Unsure_mm}
	if m.Paths_mm <= Unsure_mm {
		return s, false
	}
	on := word.Say("how the sticks are put in")
	if v.starched() && v.oneEdge() {
		on = word.Say("how the sticks are put in and how hard the starch dries")
	}
	if bow > bowDoubt {
		s.says("The inside of the tucks can lie in several ways. Depending on %s, the folds of the outer edge come to lie up to %s elsewhere. When the wearer bows the edge swings by up to %s more or less.", on, v.len(folds), v.len(bow))
	} else {
		s.says("The inside of the tucks can lie in several ways. Depending on %s, the folds of the outer edge come to lie up to %s elsewhere.", on, v.len(folds))
	}
	v.offerBoth(&s)
	return s, true
}

// bowDoubt is how much of a swing may be in doubt before a number is put to it: less is
// no more than the solver tells of any.
const bowDoubt = 0.5 // mm

// giveOrTake is a solved length of the shape, with its doubt where that is large.
func (v *view) giveOrTake(mm float64) word.Text {
	folds, _ := Doubt(v.measures())
	return v.within(mm, folds)
}

// within is a length with its doubt where that is large.
func (v *view) within(mm, doubt float64) word.Text {
	if doubt > Unsure_mm {
		return word.Say("%s (give or take %s)", v.len(mm), v.len(doubt))
	}
	return v.len(mm)
}

// milder is the severity of a finding whose value is over the limit, but need not be
// within its doubt: a grade below what it would be.
func milder(is Severity, over, doubt float64) Severity {
	if over > doubt {
		return is
	}
	if is == Stop {
		return Mend
	}
	return Note
}
