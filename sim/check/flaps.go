package check

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/measure"
)

var flapsLaw = law{Rule: Rule{"flaps", "The wrong folds are sewn for the flaps wanted", Stop, 0, "folds", "no sewn fold may turn the flaps against ruff.flaps", asked, WhereFlaps, FromGeometry},
	find: (*view).flaps}

// flaps: where one kind of fold is sewn, crests let the loops hang and troughs
// let them stand above the sewn row. With both kinds sewn they are held.
func (v *view) flaps() (seen, bool) {
	var crests, troughs int
	edge := scheme.EdgeNone
	for _, m := range v.p.Row {
		if m.Edge == scheme.EdgeNone {
			continue
		}
		edge = m.Edge
		if m.Fold == scheme.Crest {
			crests++
		} else {
			troughs++
		}
	}
	var s seen
	at, other, sewn := edgeWord(edge), "Sew the top folds instead.", scheme.Crests
	switch {
	case crests > 0 && troughs > 0:
		return s, false
	case v.s.Ruff.Flaps == scheme.Fall && troughs > 0:
		s.value = float64(troughs)
		s.says("The bottom folds are sewn to the %s of the band, so the loops stand above the sewn row; you want them to fall.", at)
		if v.measures() != nil && v.sunk() && v.beyondLevel(v.worstTilted()) < 0 {
			s.says("The bottom folds are sewn to the %s of the band, so the loops point up, and nothing holds them there: the whole ruff sinks about the neck like a skirt. You want the flaps to fall.", at)
		}
	case v.s.Ruff.Flaps == scheme.Stand && crests > 0:
		s.value, other, sewn = float64(crests), "Sew the bottom folds instead.", scheme.Troughs
		s.says("The top folds are sewn to the %s of the band, so the loops hang below the sewn row; you want them to stand.", at)
	default:
		return s, false
	}
	if v.p.MarksOwn {
		s.offer([]Change{v.marksTo(func(_ int, m scheme.Mark) scheme.Mark {
			if m.Sewn != scheme.EdgeNone {
				m.Sewn = scheme.EdgeNone
			} else {
				m.Sewn = edge
			}
			return m
		})}, other)
		return s, true
	}
	s.offer([]Change{to("pleat.sewn", string(sewn))}, other)
	// Both edges, with tucks that leave the inner edge the slack it needs.
	t := tenth((v.p.Panel_mm - GoodSlack*v.straight()) / 2)
	s.offer([]Change{to("pleat.anchor", string(scheme.AnchorBoth)), toMM("pleat.tuck_top", t), toMM("pleat.tuck_bottom", t)},
		"Sew top folds to the top edge and bottom folds to the bottom edge, with tucks %s deep: then both are held.", v.len(t))
	return s, true
}

// wrongWay says whether a shape whose outer edge has its middle at height mid
// turns its flaps against the wish, by how far from the sewn row.
func (v *view) wrongWay(mid float64) bool {
	return (mid < v.sewnHeight()) != (v.s.Ruff.Flaps == scheme.Fall)
}

var flapsSolvedLaw = law{Rule: Rule{"flaps-solved", "The flaps turn the wrong way", Stop, 0, "mm", "middle of the outer edge on the wished side of the sewn row", asked, WhereFlaps, FromMechanics},
	find: (*view).flapsSolved, parts: shapePart, when: (*view).oneEdge}

// flapsSolved: sewn at one edge, the flaps turn as the solved middle of the outer
// edge lies to the sewn row; sewn at both they are held. The half sets are asked
// one by one.
func (v *view) flapsSolved() (seen, bool) {
	var s seen
	var wrong, all int
	for _, m := range v.r.Solved.Sets {
		mid := (m.TopOuter_mm + m.BottomOuter_mm) / 2
		all += m.Panels
		if v.wrongWay(mid) {
			wrong += m.Panels
			if d := mid - v.sewnHeight(); d*d > s.value*s.value {
				s.value = d
			}
		}
	}
	if wrong == 0 {
		m := v.measures()
		s.value = (m.TopOuter_mm+m.BottomOuter_mm)/2 - v.sewnHeight()
		return s, false
	}
	words := than(s.value, "The flaps stand up: the middle of the outer edge comes to lie %s from the sewn row, and you want them to fall.",
		"The flaps fall: the middle of the outer edge comes to lie %s from the sewn row, and you want them to stand.")
	if wrong < all {
		words = than(s.value, "Some of the flaps stand up: the middle of the outer edge comes to lie %s from the sewn row, and you want them to fall.",
			"Some of the flaps fall: the middle of the outer edge comes to lie %s from the sewn row, and you want them to stand.")
	}
	s.says(words, v.len(math.Abs(s.value)))
	v.atSets(&s, func(m measure.Values) bool { return v.wrongWay((m.TopOuter_mm + m.BottomOuter_mm) / 2) })
	v.offerSewnAsWished(&s)
	v.offerBoth(&s)
	if s.value < 0 {
		v.offerSupport(&s)
	}
	return s, true
}

// otherDearer: by how much of the panel's weight × depth another rest shape
// must be dearer. Judgement, no source.
const otherDearer = 10 // %

var flapsUndecidedLaw = law{Rule: Rule{"flaps-undecided", "The cloth may turn over", Stop, otherDearer, "%", "the second shape dearer by at least so much of the panel's weight × depth; to mend where its flaps turn as wished, or where only a bow brings it there", judged, WhereFlaps, FromMechanics},
	find: (*view).flapsUndecided, parts: bowPart | otherPart, when: (*view).oneEdge}

// returns: an outer edge that is farther off than this when the wearer stands
// again has found another shape; the solver takes shapes nearer than that for
// one. Judgement, no source.
const returns = 1 // mm

// flapsUndecided: sewn at one edge the cloth may rest in a second shape, flaps
// turned over or hanging straight down, that is not clearly dearer; or it does
// not come back after a bow.
func (v *view) flapsUndecided() (seen, bool) {
	m := v.measures()
	s := seen{value: 100 * m.OtherShare, limit: otherDearer}
	other := (m.OtherHeights[0] + m.OtherHeights[1]) / 2
	switch {
	case m.OtherFound && s.value < otherDearer && v.wrongWay(other):
		s.says("Half of it may turn over: the flaps can %s as well, to %s from the sewn row, and %s. A touch decides, set by set.", v.otherShape(s.value, other)...)
		s.severity = Stop
	case m.OtherFound && s.value < otherDearer:
		s.says("The flaps have a second way to %s, with the middle of the outer edge %s from the sewn row, and %s. Pulled there, a set stays there.", v.otherShape(s.value, other)...)
		s.severity = Mend
	case m.BowDone && m.BowReturn_mm > returns:
		s.value, s.limit, s.unit, s.severity = m.BowReturn_mm, returns, "mm", Mend
		s.says("When the wearer has bowed and stands again, the outer edge does not come back: it lies up to %s from where it was.", v.len(s.value))
	default:
		if !m.OtherFound {
			s.value = 100 // nothing to turn over to
		}
		return s, false
	}
	v.offerBoth(&s)
	v.offerStarch(&s, stiffUsual)
	v.offerTuckAndStarch(&s)
	return s, true
}

// otherShape is how the cloth rests in its second shape, whose outer edge has its
// middle at height mid and which is dearer by so many %: the way its flaps turn, how
// far, and how well.
func (v *view) otherShape(dearer, mid float64) []any {
	way, far := word.Say("stand"), mid-v.sewnHeight()
	if far < 0 {
		way, far = word.Say("fall"), -far
	}
	rests := word.Say("lie there nearly as easily")
	if dearer <= -otherDearer {
		rests = word.Say("lie there more easily")
	}
	return []any{way, v.len(far), rests}
}
