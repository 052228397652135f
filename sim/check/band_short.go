package check

import (
	"math"

	"ruffwright/geom/scheme"
)

// bandTolerance forgives rounding in a length that was made as planned, mm.
const bandTolerance = 0.05

var bandShortLaw = law{Rule: Rule{"band-short", "The band is too short for the neck", Stop, 0, "mm", "at least girth + ease + overlap", geometry, WhereBand, FromGeometry},
	find: (*view).bandShort}

// easeLeast: shirtmakers add 12 to 25 mm to a snug measure.
const easeLeast = 12 // mm

// bandShort: the band must go round the neck with its ease, and overlap.
func (v *view) bandShort() (seen, bool) {
	s := seen{value: v.p.Band_mm, limit: v.p.BandPlanned_mm}
	short := s.limit - s.value
	if short <= bandTolerance {
		return s, false
	}
	b := v.s
	s.says("The band is %s long; girth %s, ease %s and overlap %s make %s: it is %s short and does not close as meant.",
		v.len(s.value), v.len(b.Wearer.Girth), v.len(b.Wearer.Ease), v.len(b.Band.Overlap), v.len(s.limit), v.len(short))
	s.offer([]Change{to("band.length", "0")}, "Make a new band, %s long.", v.len(s.limit))
	left := tenth(b.Band.Overlap - short) // the scheme refuses less than none
	s.offer([]Change{toMM("band.overlap", left)}, "Let it overlap by %s only.", v.len(left))
	if left := tenth(b.Wearer.Ease - short); left >= easeLeast {
		s.offer([]Change{toMM("wearer.ease", left)}, "Make do with an ease of %s.", v.len(left))
	}
	return s, true
}

// bandRoom is the length of the band that carries sets, mm.
func (v *view) bandRoom() float64 { return v.p.Band_mm - v.s.Band.Overlap }

var bandTightLaw = law{Rule: Rule{"band-tight", "The band is tight", Mend, easeLeast, "mm", "at least", "shirtmakers' guides add 12 to 25 mm to a snug measure; 12 is taken as the floor over bare skin", WhereNeck, FromGeometry},
	find: (*view).bandTight, when: (*view).aboutNeck}

// bandTight: what is really left over the girth, planned or made.
func (v *view) bandTight() (seen, bool) {
	s := seen{value: math.Min(v.s.Wearer.Ease, v.bandRoom()-v.s.Wearer.Girth), limit: easeLeast}
	if s.value >= easeLeast-bandTolerance {
		return s, false
	}
	if s.value < 0 {
		s.says("The band is %s less than the neck it goes round: closed, it would choke.", v.len(-s.value))
	} else {
		s.says("The band has %s of ease over the neck: two fingers do not pass, and turning the head presses on the throat.", v.len(s.value))
	}
	c := []Change{to("wearer.ease", "20")}
	if v.s.Wearer.Ease >= easeLeast {
		c = nil
	}
	if v.s.Band.Length > 0 {
		c = append(c, to("band.length", "0"))
	}
	if len(c) > 0 {
		s.offer(c, "Make the band with an ease of %s.", v.len(math.Max(v.s.Wearer.Ease, 20)))
	}
	return s, true
}

var girthLaw = law{Rule: Rule{"girth", "An unusual neck", Note, 0, "mm", "290 to 470", "1st percentile of women to 99th of men, ANSUR II (US Army, 2010 to 2012), rounded", WhereNeck, FromGeometry},
	find: (*view).girth}

// girthLeast, girthMost: from the 1st percentile of women (291 mm) to the 99th
// of men (467 mm), ANSUR II, rounded.
const girthLeast, girthMost = 290, 470 // mm

// girth: a neck that few people have is first of all a slip of the tape.
func (v *view) girth() (seen, bool) {
	g := v.s.Wearer.Girth
	s := seen{value: g, limit: girthLeast}
	if v.s.Wearer.Part != scheme.Neck || g >= girthLeast && g <= girthMost {
		return s, false
	}
	s.says("A girth of %s: of adults measured for uniforms, fewer than one woman in a hundred has so thin a neck. Measure again, just below the Adam's apple, unless it is a child or the tape lay over a collar.", v.len(g))
	if g > girthMost {
		s.limit = girthMost
		s.says("A girth of %s: of adults measured for uniforms, fewer than one man in a hundred has so thick a neck. Measure again, just below the Adam's apple, unless it is a child or the tape lay over a collar.", v.len(g))
	}
	return s, true
}
