package check

import (
	"fmt"
	"math"

	"ruffwright/geom/scheme"
)

// bandTolerance forgives rounding in a length that was made as planned, mm.
const bandTolerance = 0.05

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
	if left := tenth(b.Band.Overlap - short); left >= 0 {
		s.offer([]Change{toMM("band.overlap", left)}, "Let it overlap by %s only.", v.len(left))
	}
	if left := tenth(b.Wearer.Ease - short); left >= easeLeast {
		s.offer([]Change{toMM("wearer.ease", left)}, "Make do with an ease of %s.", v.len(left))
	}
	return s, true
}

// bandRoom is the length of the band that carries sets, mm.
func (v *view) bandRoom() float64 { return v.p.Band_mm - v.s.Band.Overlap }

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
	left := "the last set does not go on"
	if n := int(math.Ceil((s.value-room)/v.p.Pitch_mm - 1e-9)); n > 1 {
		left = fmt.Sprintf("the last %d sets do not go on", n)
	}
	s.says("%d sets at %s take %s, but the band has room for %s without its overlap: %s.",
		v.p.Sets, v.len(v.p.Pitch_mm), v.len(s.value), v.len(room), left)
	v.offerRow(&s, room)
	return s, true
}

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
	} else if each := math.Round(1000*room/float64(v.p.Sets)) / 1000; v.allowed("pleat.pitch", each) {
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
			c := v.setsTo(n)
			kept := c[:0]
			for _, x := range c {
				if x.Key != "pleat.pitch" {
					kept = append(kept, x)
				}
			}
			s.offer(kept, "Make %d sets at the room they take now.", n)
			break
		}
	}
}

// bandTight: what is really left over the girth, planned or made.
func (v *view) bandTight() (seen, bool) {
	if v.s.Wearer.Part != scheme.Neck {
		return seen{}, false
	}
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
	what := "the quarters of the band fall between folds, and there is no mark to pin there"
	if n%2 == 0 {
		what = "the quarters of the band fall on top folds and bottom folds in turn, so that half of the pins go to the wrong fold"
	}
	s.says("%d sets are not a multiple of four: %s.", n, what)
	below, above := v.fourfold(float64(n))
	if below > 0 {
		s.offer(v.setsTo(below), "Make %d sets.", below)
	}
	if above > 0 {
		s.offer(v.setsTo(above), "Make %d sets.", above)
	}
	return s, true
}

// girth: a neck that few people have is first of all a slip of the tape.
func (v *view) girth() (seen, bool) {
	g := v.s.Wearer.Girth
	s := seen{value: g, limit: girthLeast}
	if v.s.Wearer.Part != scheme.Neck || g >= girthLeast && g <= girthMost {
		return s, false
	}
	than := "fewer than one woman in a hundred has so thin a neck"
	if g > girthMost {
		s.limit, than = girthMost, "fewer than one man in a hundred has so thick a neck"
	}
	s.says("A girth of %s: of adults measured for uniforms, %s. Measure again, just below the Adam's apple, unless it is a child or the tape lay over a collar.", v.len(g), than)
	return s, true
}
