package check

import (
	"math"
	"strconv"

	"ruffwright/geom/word"
)

var rowLongLaw = law{Rule: Rule{"row-long", "The sets do not go on the band", Stop, 0, "mm", "at most half a set's room more than the band less its overlap", judged, WhereInner, FromGeometry},
	find: (*view).rowLong}

// rowLong: the sewn sets must not reach past the band. Where the band itself is
// short that is said instead.
func (v *view) rowLong() (seen, bool) {
	room := v.bandRoom()
	s := seen{value: v.p.Filled_mm, limit: room + v.p.Pitch_mm/2}
	if s.value <= s.limit || v.p.BandPlanned_mm-v.p.Band_mm > bandTolerance {
		return s, false
	}
	for i := range v.p.Row {
		if float64(i)*v.p.Pitch_mm/2 > room {
			s.atMarks(i + 1)
		}
	}
	off := max(1, int(math.Ceil((s.value-room)/v.p.Pitch_mm-1e-9)))
	s.sentence = word.Count(off, "%[1]d sets at %s take %s, but the band has room for %s without its overlap: the last set does not go on.",
		"%d sets at %s take %s, but the band has room for %s without its overlap: the last %d sets do not go on.",
		v.p.Sets, v.len(v.p.Pitch_mm), v.len(s.value), v.len(room), off)
	v.offerRow(&s, room)
	return s, true
}

var rowShortLaw = law{Rule: Rule{"row-short", "The sets do not fill the band", Mend, 0, "mm", "at least the band less its overlap and half a set's room", judged, WhereInner, FromGeometry},
	find: (*view).rowShort}

// rowShort: the sewn sets must fill the band.
func (v *view) rowShort() (seen, bool) {
	room := v.bandRoom()
	s := seen{value: v.p.Filled_mm, limit: room - v.p.Pitch_mm/2}
	if s.value >= s.limit {
		return s, false
	}
	s.atMarks(len(v.p.Row))
	s.says("%d sets at %s take %s of the %s that the band has without its overlap: a gap of %s is left at the opening.",
		v.p.Sets, v.len(v.p.Pitch_mm), v.len(s.value), v.len(room), v.len(room-s.value))
	v.offerRow(&s, room)
	return s, true
}

// offerRow offers another room for a set, or another number of sets.
func (v *view) offerRow(s *seen, room float64) {
	planned := math.Abs(v.p.Band_mm-v.p.BandPlanned_mm) <= bandTolerance
	if planned {
		s.offer([]Change{to("pleat.pitch", "0")}, "Sew each set to %s of the band.", v.len(room/float64(v.p.Sets)))
	} else {
		each := math.Round(1000*room/float64(v.p.Sets)) / 1000
		s.offer([]Change{toMM("pleat.pitch", each)}, "Sew each set to %s of the band.", v.len(each))
	}
	if v.s.Band.Length > 0 && v.s.Pleat.Pitch == 0 {
		s.offer([]Change{to("band.length", "0")}, "Make a new band, %s long.", v.len(v.p.BandPlanned_mm))
	}
	if v.s.Pleat.Pitch == 0 || v.p.MarksOwn {
		return
	}
	below, above := v.fourfold(room / v.p.Pitch_mm)
	for _, n := range []int{below, above} {
		if left := room - float64(n)*v.p.Pitch_mm; n > 0 && n != v.p.Sets && math.Abs(left) <= v.p.Pitch_mm/2 {
			s.offer([]Change{to("ruff.sets", strconv.Itoa(n))}, "Make %d sets at the room they take now.", n)
			break
		}
	}
}

var quartersLaw = law{Rule: Rule{"quarters", "Sets do not divide into quarters", Note, quarterSets, "sets", "a multiple of", practice, WhereBand, FromGeometry},
	find: (*view).quarters}

// quarters: pins at the quarters of the band want whole sets between them.
func (v *view) quarters() (seen, bool) {
	n := v.p.Sets
	s := seen{value: float64(n), limit: quarterSets}
	if n%quarterSets == 0 {
		return s, false
	}
	for i := 1; i < 4; i++ { // the ends are where they should be
		s.atMarks(v.nearestMark(v.p.Marked_mm * float64(i) / 4))
	}
	s.says("%d sets are not a multiple of four: the quarters of the band fall between folds, and there is no mark to pin there.", n)
	if n%2 == 0 {
		s.says("%d sets are not a multiple of four: the quarters of the band fall on top folds and bottom folds in turn, so that half of the pins go to the wrong fold.", n)
	}
	below, above := v.fourfold(float64(n))
	s.offer(v.setsTo(below), "Make %d sets.", below)
	s.offer(v.setsTo(above), "Make %d sets.", above)
	return s, true
}
