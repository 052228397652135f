package check

import (
	"math"

	"ruffwright/geom/word"
	"ruffwright/sim/measure"
)

var softSidewaysLaw = law{Rule: Rule{"soft-sideways", "Soft sideways", Mend, leanMost, "mm", "at most, for its own weight sideways; over 5 is a note; untucked sets only", judged, WhereWhole, FromMechanics},
	find: (*view).softSideways, parts: tangentsPart, when: (*view).untucked}

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
		s.says("Sideways it is floppy: a sideways pull as strong as its weight would push all loops over by %s, and they lean as the wearer turns.", v.len(s.value))
	} else {
		s.says("Sideways it is soft: a sideways pull as strong as its weight would push all loops over by %s.", v.len(s.value))
	}
	// Solved half sets of this project leaned by a third where starch made the
	// cloth 20 times as rigid: bending length goes with lean to the power 0.8.
	v.offerStarch(&s, v.bend()*math.Pow(s.value/(0.8*leanGood), 0.8))
	v.offerFirmSlack(&s)
	v.offerBoth(&s)
	return s, true
}

// leansMost: how far the loops' folds may stay off their upright place when they
// were pushed over and let go. Half of that is the contact of cloth on cloth and
// the mesh. To mend, not to stop: cloth rubs on cloth, which the solver leaves
// out. Judgement, no source.
const leansMost = 2 // mm

var leansLaw = law{Rule: Rule{"leans", "The loops lean over", Mend, leansMost, "mm", "stay off sideways at most, pushed over and let go; where that was followed to its end, of tucked sets on two meshes; a note where these differ", judged, WhereWhole, FromMechanics},
	find: (*view).leans, parts: tangentsPart | finerPart}

// slackFirm: of untucked half sets of one limp cloth, solved by this project, that
// of slack 1.07 gave least sideways (5 mm for its own weight; 39 at 1.03); they
// leaned over at 1.01 and less, and crumpled or leaned from 1.16 on. slackOff is
// how near is near enough. Judgement from those.
const slackFirm, slackOff = 1.07, 0.03

// leans rests on what was followed to its end alone: the loops of the least or of
// the most curved half set were pushed over, let go, and stayed. Of tucked ones it
// says too that nobody knows.
func (v *view) leans() (seen, bool) {
	m := v.measures()
	s := seen{value: m.Leans_mm, limit: leansMost}
	if v.tucked() && !m.LateralStable && m.Leans == measure.LeanUndecided && !v.sunk() {
		s.value, s.severity = 0, Note
		s.says("Whether the loops stay upright is not sure: all pushed sideways alike and let go, they may stand up again or stay leaning round the neck. Cut a sample of some sets and try it.")
		v.offerStarch(&s, math.Max(stiffUsual, 1.25*v.bend()))
		v.offerBoth(&s)
		return s, true
	}
	if m.LateralStable || m.Leans != measure.LeanStays || s.value < leansMost || v.sunk() {
		return seen{limit: leansMost}, false
	}
	how := "The loops lean over: all pushed sideways alike and let go, they do not stand up again. They stay leaning round the neck, by %s at the outer edge."
	if s.value >= measure.LeanFar_mm {
		how = "The loops lean over: all pushed sideways alike and let go, they do not stand up again. They stay leaning round the neck, by %s and more at the outer edge."
	}
	why := "The cloth is too limp to hold them up."
	switch {
	case v.hasSlack() && v.p.Slack > slackFirm+slackOff:
		why = "Too little starch lets them, or too much slack at the inner edge: try which."
	case v.hasSlack() && v.p.Slack < slackFirm-slackOff:
		why = "Too little starch lets them, or an inner edge so taut that the panels swing like the pages of a book: try which."
	}
	s.sentence = word.Join(" ", word.Say(how, v.len(s.value)), word.Say(why))
	v.offerStarch(&s, math.Max(stiffUsual, 1.25*v.bend()))
	v.offerFirmSlack(&s)
	v.offerBoth(&s)
	return s, true
}

// offerFirmSlack offers the band with which the inner edge holds the sets best
// sideways.
func (v *view) offerFirmSlack(s *seen) {
	if !v.hasSlack() || math.Abs(v.p.Slack-slackFirm) <= slackOff {
		return
	}
	h := tenth(v.bandFor(v.p.Slack*v.straight(), slackFirm))
	s.offer([]Change{toMM("band.height", h)}, "Make the band %s high: with a slack of %s the inner edge holds the sets best.", v.len(h), Number(slackFirm, 2))
}
