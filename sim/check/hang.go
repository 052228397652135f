package check

import (
	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
)

// wrongWay says whether a shape whose outer edge has its middle at height mid
// turns its flaps against the wish, by how far from the sewn row.
func (v *view) wrongWay(mid float64) bool {
	return (mid < v.row()) != (v.s.Ruff.Flaps == scheme.Fall)
}

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
			if d := mid - v.row(); d*d > s.value*s.value {
				s.value = d
			}
		}
	}
	if wrong == 0 {
		m := v.measures()
		s.value = (m.TopOuter_mm+m.BottomOuter_mm)/2 - v.row()
		return s, false
	}
	way, wish, far := "stand up", "to fall", s.value
	if s.value < 0 {
		way, wish, far = "fall", "to stand", -s.value
	}
	who := "The flaps"
	if wrong < all {
		who = "Some of the flaps"
	}
	s.says("%s %s: the middle of the outer edge comes to lie %s from the sewn row, and you want them %s.", who, way, v.len(far), wish)
	v.atSets(&s, func(m measure.Values) bool { return v.wrongWay((m.TopOuter_mm + m.BottomOuter_mm) / 2) })
	v.offerSewnAsWished(&s)
	v.offerBoth(&s)
	if wish == "to stand" {
		v.offerSupport(&s)
	}
	return s, true
}

// flapsUndecided: sewn at one edge the cloth may rest in a second shape, flaps
// turned over or hanging straight down, that is not clearly dearer; or it does
// not come back after a bow.
func (v *view) flapsUndecided() (seen, bool) {
	m := v.measures()
	s := seen{value: 100 * m.OtherShare, limit: otherDearer}
	other := (m.OtherHeights[0] + m.OtherHeights[1]) / 2
	switch {
	case m.OtherFound && s.value < otherDearer && v.wrongWay(other):
		v.saysRest(&s, "Half of it may turn over: the flaps can %s as well, to %s from the sewn row, and %s. A touch decides, set by set.", other)
		s.severity = Stop
	case m.OtherFound && s.value < otherDearer:
		v.saysRest(&s, "The flaps have a second way to %s, with the middle of the outer edge %s from the sewn row, and %s. Pulled there, a set stays there.", other)
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

// saysRest says how the cloth rests in its second shape, whose outer edge has its
// middle at height mid.
func (v *view) saysRest(s *seen, format string, mid float64) {
	way, far := "stand", mid-v.row()
	if far < 0 {
		way, far = "fall", -far
	}
	rests := "rest there nearly as well"
	if s.value <= -otherDearer {
		rests = "rest there better"
	}
	s.says(format, way, v.len(far), rests)
}
