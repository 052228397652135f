package check

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
)

// bow asks whether anything but its weight holds the outer edge: gravity turns by
// 60° as the wearer bows.
func (v *view) bow() (seen, bool) {
	m := v.measures()
	s := seen{value: m.Bow_mm, limit: bowMost}
	if !m.BowDone {
		s.severity = Note
		s.says("When the wearer bows the cloth did not come to rest in the solver: how firmly the lower edge is held is not known.")
		return s, v.bowTried()
	}
	if s.value <= bowMost {
		return s, false
	}
	s.severity = Mend
	if s.value > bowStop {
		s.severity, s.limit = Stop, bowStop
	}
	swings := v.len(s.value)
	switch {
	case !v.oneEdge():
		s.says("Though both edges are sewn, the outer edge swings by %s when the wearer bows: so deep a ruff of this cloth is not held by its folds alone.", swings)
	case v.s.Support.Kind != scheme.NoSupport:
		s.says("Sewn at the %s edge only, the loops lie loose on what is under them: when the wearer bows they swing by %s.", v.p.Row.Edge(), swings)
	case v.unstarched():
		s.says("Sewn at the %s edge only, nothing but its weight holds %s: when the wearer bows it swings by %s.", v.p.Row.Edge(), v.looseEdge(), swings)
	default:
		s.says("Sewn at the %s edge only, starch alone holds %s: when the wearer bows it swings by %s.", v.p.Row.Edge(), v.looseEdge(), swings)
	}
	v.offerBoth(&s)
	v.offerTuckAndStarch(&s)
	v.offerSupport(&s)
	return s, true
}

// looseEdge is the part of the ruff that no stitch holds, as the solved outer edge
// lies to the sewn row.
func (v *view) looseEdge() string {
	if m := v.measures(); (m.TopOuter_mm+m.BottomOuter_mm)/2 > v.row() {
		return "what stands above the sewn row"
	}
	return "the lower edge"
}

// bobs: a ruff that its own weight once more would bend far down trembles with
// every step. Of one that sank sinks speaks.
func (v *view) bobs() (seen, bool) {
	m := v.measures()
	s := seen{value: m.Vertical_mm_per_g, limit: bobMost}
	if !m.VerticalStable || s.value <= bobMost || v.sunk() {
		return s, false
	}
	s.says("It bobs with every step: its own weight once more would bring the outer edge down by %s.", v.len(s.value))
	v.offerBoth(&s)
	v.offerSetting(&s)
	v.offerTuckAndStarch(&s)
	v.offerSupport(&s)
	return s, true
}

// sinks: the mean line from neck to outer edge, of the half set that is worst.
func (v *view) sinks() (seen, bool) {
	worst := v.worstTilted()
	s := seen{value: v.beyondLevel(worst), limit: tiltMost}
	if math.Abs(s.value) <= tiltMost {
		return s, false
	}
	if s.value < 0 {
		s.limit = -tiltMost
		below := ""
		if far := v.s.Band.Height/2 - (worst.TopOuter_mm+worst.BottomOuter_mm)/2; far > 0 {
			below = ", and the middle of its outer edge comes to lie " + v.len(far) + v.giveOrTake() + " below the middle of the band"
		}
		s.says("Let go, the ruff sinks: from the neck out it falls by %s°%s.", number(-s.value, 0), below)
	} else {
		s.says("Let go, the ruff turns up like a bowl, by %s°, instead of lying level about the neck.", number(s.value, 0))
	}
	v.offerSewnAsWished(&s)
	v.offerBoth(&s)
	v.offerSetting(&s)
	v.offerTuckAndStarch(&s)
	v.offerSupport(&s)
	return s, true
}

// softSideways judges untucked sets only, since the lean of tucked ones does not
// settle with the mesh, and never one whose tangent has a negative pivot: that is
// a suspicion, and whether it is borne out is what leans says.
func (v *view) softSideways() (seen, bool) {
	m := v.measures()
	s := seen{value: m.Lateral_mm_per_g, limit: leanGood, severity: Note}
	if !m.LateralStable {
		return seen{limit: leanGood}, false
	}
	if s.value <= leanGood || v.sunk() {
		return s, false
	}
	if s.value > leanMost {
		s.severity, s.limit = Mend, leanMost
		s.says("Sideways it is floppy: its own weight sideways would push all loops over by %s, and they lean as the wearer turns.", v.len(s.value))
	} else {
		s.says("Sideways it is soft: its own weight sideways would push all loops over by %s.", v.len(s.value))
	}
	// Solved half sets of this project leaned by a third where starch made the
	// cloth 20 times as rigid: bending length goes with lean to the power 0.8.
	v.offerStarch(&s, v.bend()*math.Pow(s.value/(0.8*leanGood), 0.8))
	v.offerFirmSlack(&s)
	v.offerBoth(&s)
	return s, true
}

// leans rests on what was followed to its end alone: the loops of the least or of
// the most curved half set were pushed over, let go, and stayed. Untucked sets
// only, as softSideways.
func (v *view) leans() (seen, bool) {
	m := v.measures()
	s := seen{value: m.Leans_mm, limit: leansMost}
	if m.LateralStable || m.Leans != measure.LeanStays || s.value < leansMost || v.sunk() {
		return seen{limit: leansMost}, false
	}
	how := "by " + v.len(s.value)
	if s.value >= measure.LeanFar_mm {
		how += " and more"
	}
	why := "The cloth is too limp to hold them up."
	switch {
	case v.held() && v.p.Slack > slackFirm+slackOff:
		why = "Too little starch lets them, or too much slack at the inner edge: try which."
	case v.held() && v.p.Slack < slackFirm-slackOff:
		why = "Too little starch lets them, or an inner edge so taut that the panels swing like the pages of a book: try which."
	}
	s.says("The loops lean over: all pushed sideways alike and let go, they do not stand up again but stay leaning round the neck, %s at the outer edge. %s", how, why)
	v.offerStarch(&s, math.Max(stiffUsual, 1.25*v.bend()))
	v.offerFirmSlack(&s)
	v.offerBoth(&s)
	return s, true
}

// offerFirmSlack offers the band with which the inner edge holds the sets best
// sideways.
func (v *view) offerFirmSlack(s *seen) {
	if !v.held() || math.Abs(v.p.Slack-slackFirm) <= slackOff {
		return
	}
	inner := v.p.Slack * v.straight()
	if h := tenth(sqrtOf(math.Pow(inner/slackFirm, 2) - math.Pow(v.p.Pitch_mm/2, 2))); v.allowed("band.height", h) {
		s.offer([]Change{toMM("band.height", h)}, "Make the band %s high: with a slack of %s the inner edge holds the sets best.", v.len(h), number(slackFirm, 2))
	}
}

// clothStiffness says where the cloth itself is at fault, from what was measured
// and without solving any other cloth: that would be sim.Need. Springing open by
// more than droopMost when the sticks come out is too stiff a cloth for its
// setting; sinking by as much is too limp a one; and unstarched cloth is too limp
// where something is over its limit that in solved half sets starch brought below
// it, as a note beside the finding that it causes: bob, the lean of untucked sets, the bow of tucked ones. The bow of untucked
// sets at one edge is not among them, for starch does not bring it below 2 mm.
func (v *view) clothStiffness() (seen, bool) {
	m := v.measures()
	s := seen{value: m.Droop_mm, limit: droopMost}
	switch {
	case v.sunk():
		return s, false // however stiff, so sewn it would sink
	case s.value > droopMost:
		s.says("The cloth is too limp for its setting: let go, the outer edge sinks by %s%s from where the sticks held it.", v.len(s.value), v.giveOrTake())
		v.offerSetting(&s)
		v.offerStarch(&s, math.Max(stiffUsual, 1.25*v.bend()))
		v.offerSupport(&s)
		return s, true
	case s.value < -droopMost:
		s.limit = -droopMost
		if v.unstarched() {
			s.says("The cloth is too stiff to lie in these folds unstarched: when the sticks come out it springs open, and the outer edge rises by %s.", v.len(-s.value))
		} else {
			s.says("The cloth's own stiffness is more than its starch holds: when the sticks come out it springs open, and the outer edge rises by %s.", v.len(-s.value))
		}
		v.offerSetting(&s)
		v.offerStarch(&s, math.Max(stiffUsual, 1.25*v.bend()))
		v.offerLimper(&s)
		return s, true
	}
	if !v.unstarched() {
		return s, false
	}
	for _, c := range []struct {
		value, limit float64
		judged       bool
		what         string
	}{
		{m.Vertical_mm_per_g, bobMost, m.VerticalStable, "bob"},
		{m.Lateral_mm_per_g, leanMost, m.LateralStable && v.untucked(), "lean"},
		{m.Bow_mm, bowMost, m.BowDone && v.tucked(), "swing as the wearer bows"},
	} {
		if c.judged && c.value > c.limit {
			s.value, s.limit, s.severity = c.value, c.limit, Note // what it does is said elsewhere
			s.says("Unstarched, this cloth is too limp: it is what lets the loops %s, by %s.", c.what, v.len(c.value))
			v.offerStarch(&s, stiffUsual)
			return s, true
		}
	}
	return s, false
}

// thread: the pull on the most loaded stitch.
func (v *view) thread() (seen, bool) {
	s := seen{value: v.measures().Thread_N, limit: threadMost}
	if s.value <= threadMost {
		return s, false
	}
	s.says("The most loaded stitch holds %s N, more than the quarter of sewing thread's strength that is safe at every fold: sew each fold twice with doubled thread, and mind that fine cloth tears first.", number(s.value, 1))
	v.offerLimper(&s)
	v.offerShallower(&s)
	if n, _ := v.fourfold(0.8 * float64(v.p.Sets)); n > 0 && n < v.p.Sets {
		s.offer(v.setsTo(n), "Make %d sets: each fold is then less tight.", n)
	}
	return s, true
}
