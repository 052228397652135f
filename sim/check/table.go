package check

import (
	"math"
	"slices"
)

// From tells what can make a finding.
type From string

const (
	FromGeometry  From = "geometry"  // the plan and the closed form
	FromHand      From = "hand"      // how exactly the maker works
	FromMechanics From = "mechanics" // the solved ruff alone
	FromSafety    From = "safety"    // cautions
)

// Rule is one row of the table: what a finding is, how much it weighs at most
// (Against says where its value makes it weigh less), and where its limit comes
// from.
type Rule struct {
	ID       string   `json:"id"`
	Title    string   `json:"title"` // a few words, for a list
	Severity Severity `json:"severity"`
	Limit    float64  `json:"limit"` // in Unit; 0 where Against says that the scheme sets it
	Unit     string   `json:"unit"`
	Against  string   `json:"against"` // how the value is held against the limit
	Source   string   `json:"source"`  // where the limit comes from
	Where    Where    `json:"where"`
	From     From     `json:"from"`
}

// Table gives every finding there can be, in the order in which Find lists those
// of one severity.
func Table() []Rule {
	t := make([]Rule, len(rules))
	for i, l := range rules {
		t[i] = l.Rule
	}
	return slices.Clip(t)
}

const (
	practice = "common practice, no source"
	judged   = "this project's judgement, no source"
	geometry = "geometry"
	asked    = "the maker's own wish in the scheme"
	solved   = "half sets solved for this project"
)

// law is a row of the table and what finds it.
type law struct {
	Rule
	find func(*view) (seen, bool) // gives its value whether it finds something or not

	parts part             // of the mechanics that it reads; find is not called before they are there
	when  func(*view) bool // what it is asked of; nil: of every ruff
}

// lawOf gives the law of that id.
func lawOf(id string) (law, bool) {
	i := slices.IndexFunc(rules, func(l law) bool { return l.ID == id })
	if i < 0 {
		return law{}, false
	}
	return rules[i], true
}

// applies says whether the law is asked of the ruff.
func (l *law) applies(v *view) bool { return l.when == nil || l.when(v) }

// look gives what the law finds, and whether it finds anything.
func (l *law) look(v *view) (seen, bool) {
	switch {
	case l.From != FromSafety && (v.p.Panels == 0 || len(v.r.Folded.Half) == 0),
		l.parts != 0 && (!v.has(shapePart) || v.awaits(l.parts)),
		!l.applies(v):
		return seen{}, false
	}
	s, ok := l.find(v)
	return s, ok && !math.IsNaN(s.value)
}

// severityOf is what s weighs: the law's unless s says otherwise.
func (l *law) severityOf(s seen) Severity {
	if s.severity != "" {
		return s.severity
	}
	return l.Severity
}

var rules []law

// The table is put together at start, because the laws' functions read it.
func init() {
	rules = []law{
		// From geometry.
		{Rule: Rule{"ends", "An end flap is against the wish", Stop, 0, "ends", "no end may lie against ruff.ends", asked, WhereOpening, FromGeometry}, find: (*view).ends},
		{Rule: Rule{"flaps", "The wrong folds are sewn for the flaps wanted", Stop, 0, "folds", "no sewn fold may turn the flaps against ruff.flaps", asked, WhereFlaps, FromGeometry}, find: (*view).flaps},
		{Rule: Rule{"slack-short", "The inner edge does not reach from fold to fold", Stop, slackLeast, "", "at least", geometry, WhereTucks, FromGeometry}, find: (*view).slackShort},
		{Rule: Rule{"outer-short", "Fold to fold is too short for the outer edge", Stop, 0, "mm", "at least half the room for a set at the outer edge", geometry, WhereOuter, FromGeometry}, find: (*view).outerShort},
		{Rule: Rule{"cannot-solve", "These sets cannot be solved", Stop, 0, "mm", "at most what leaves a loop at both edges", judged, WhereWhole, FromGeometry}, find: (*view).cannotSolve},
		{Rule: Rule{"neck-full", "More cloth than room at the neck", Stop, neckFull, "%", "at most, of the room for a set", geometry, WhereNeck, FromGeometry}, find: (*view).neckFull},
		{Rule: Rule{"strip-short", "The strip at hand is too short", Stop, 0, "sets", "at least the sets of the scheme", geometry, WhereStrip, FromGeometry}, find: (*view).stripShort},
		{Rule: Rule{"band-short", "The band is too short for the neck", Stop, 0, "mm", "at least girth + ease + overlap", geometry, WhereBand, FromGeometry}, find: (*view).bandShort},
		{Rule: Rule{"row-long", "The sets do not go on the band", Stop, 0, "mm", "at most half a set's room more than the band less its overlap", judged, WhereInner, FromGeometry}, find: (*view).rowLong},
		{Rule: Rule{"row-short", "The sets do not fill the band", Mend, 0, "mm", "at least the band less its overlap and half a set's room", judged, WhereInner, FromGeometry}, find: (*view).rowShort},
		{Rule: Rule{"band-tight", "The band is tight", Mend, easeLeast, "mm", "at least", "shirtmakers' guides add 12 to 25 mm to a snug measure; 12 is taken as the floor over bare skin", WhereNeck, FromGeometry}, find: (*view).bandTight},
		{Rule: Rule{"slack-long", "Too much cloth between the sewn folds", Mend, slackMost, "", "at most", solved + ": clean to 1.2, crumpled over 1.3", WhereTucks, FromGeometry}, find: (*view).slackLong},
		{Rule: Rule{"neck-crowded", "Crowded at the neck", Mend, neckCrowded, "%", "at most, of the room for a set", practice, WhereNeck, FromGeometry}, find: (*view).neckCrowded},
		{Rule: Rule{"height", "The height is off", Mend, viewerSees, "%", "at most, either way, of ruff.height; as solved once it is", practice, WhereOuter, FromGeometry}, find: (*view).height},
		{Rule: Rule{"marks-step", "Top and bottom marks are out of step", Mend, 0, "mm", "at most what moves its neighbours by 5 % of the height, 0.6 mm for each mm", "0.6: whole strips solved for this project; 5 %: " + practice, WhereMarks, FromGeometry}, find: (*view).marksStep},
		{Rule: Rule{"marks-sewn", "A mark is sewn unlike its fellows", Mend, 0, "marks", "no mark may differ from most of its kind", geometry, WhereMarks, FromGeometry}, find: (*view).marksSewn},
		{Rule: Rule{"joins", "A join shows", Mend, 0, "joins", "no join but in a bottom fold", practice, WhereJoins, FromGeometry}, find: (*view).joins},
		{Rule: Rule{"cut-width", "The cut width does not add up", Mend, takeupLeast, "mm", "at least", "one maker's tutorial gathers 6.35 mm from the raw edge", WhereStrip, FromGeometry}, find: (*view).cutWidth},
		{Rule: Rule{"loops-crowded", "Loops push each other at the inner edge", Note, loopsOutside, "%", "at most, of half the room for a set", judged, WhereInner, FromGeometry}, find: (*view).loopsCrowded},
		{Rule: Rule{"gaping", "Loops do not meet", Note, loopClosed, "%", "at least, of the room for a set at the outer edge", solved + ": open at 0.77, touching from 0.92", WhereOuter, FromGeometry}, find: (*view).gaping},
		{Rule: Rule{"fitted", "Fitted to what was given", Note, 0, "mm", "tucks as deep as given, fold to fold as the height asks", geometry, WhereTucks, FromGeometry}, find: (*view).fitted},
		{Rule: Rule{"quarters", "Sets do not divide into quarters", Note, quarterSets, "sets", "a multiple of", practice, WhereBand, FromGeometry}, find: (*view).quarters},
		{Rule: Rule{"girth", "An unusual neck", Note, 0, "mm", "290 to 470", "1st percentile of women to 99th of men, ANSUR II (US Army, 2010 to 2012), rounded", WhereNeck, FromGeometry}, find: (*view).girth},

		// From the hand.
		{Rule: Rule{"marking", "Marking errors will show", Mend, viewerSees, "%", "at most, of the height", practice, WhereMarks, FromHand}, find: (*view).marking},
		{Rule: Rule{"drift", "Marks drift along the strip", Mend, 0, "mm", "at most one fold to fold length, either way", practice, WhereMarks, FromHand}, find: (*view).drift},

		// From mechanics.
		{Rule: Rule{"bow", "The lower edge is not supported", Stop, bowMost, "mm", "moves at most, when the wearer bows 60°; to 8 it is to mend, over 8 it stops", judged, WhereOuter, FromMechanics}, find: (*view).bow, parts: bowPart},
		{Rule: Rule{"flaps-solved", "The flaps turn the wrong way", Stop, 0, "mm", "middle of the outer edge on the wished side of the sewn row", asked, WhereFlaps, FromMechanics}, find: (*view).flapsSolved, parts: shapePart, when: (*view).oneEdge},
		{Rule: Rule{"flaps-undecided", "The cloth may turn over", Stop, otherDearer, "%", "the second shape dearer by at least so much of the panel's weight × depth; to mend where its flaps turn as wished, or where only a bow brings it there", judged, WhereFlaps, FromMechanics}, find: (*view).flapsUndecided, parts: bowPart | otherPart, when: (*view).oneEdge},
		{Rule: Rule{"sinks", "The ruff sinks or turns up", Stop, tiltMost, "°", "mean line at most so far from level, or from what a supporter asks", judged, WhereWhole, FromMechanics}, find: (*view).sinks, parts: shapePart},
		{Rule: Rule{"bobs", "The ruff bobs", Stop, bobMost, "mm", "at most, for its own weight once more", judged, WhereWhole, FromMechanics}, find: (*view).bobs, parts: tangentsPart},
		{Rule: Rule{"popped", "A tuck stands outward", Mend, 0, "panels", "in no panel", solved, WhereTucks, FromMechanics}, find: (*view).popped, parts: shapePart, when: (*view).tucked},
		{Rule: Rule{"dented", "Loops are dented at the outer edge", Mend, viewerSees, "mm", "at most 5 % of ruff.height", practice, WhereOuter, FromMechanics}, find: (*view).dented, parts: shapePart, when: (*view).tucked},
		{Rule: Rule{"soft-sideways", "Soft sideways", Mend, leanMost, "mm", "at most, for its own weight sideways; over 5 is a note; untucked sets only", judged, WhereWhole, FromMechanics}, find: (*view).softSideways, parts: tangentsPart, when: (*view).untucked},
		{Rule: Rule{"leans", "The loops lean over", Mend, leansMost, "mm", "stay off sideways at most, pushed over and let go; untucked sets only, where that was followed to its end", judged, WhereWhole, FromMechanics}, find: (*view).leans, parts: tangentsPart, when: (*view).untucked},
		{Rule: Rule{"cloth-stiffness", "The cloth is too limp or too stiff", Mend, droopMost, "mm", "sinks or springs up at most so far when the sticks come out; unstarched, also by its bob, lean and bow", judged, WhereWhole, FromMechanics}, find: (*view).clothStiffness, parts: bowPart | tangentsPart},
		{Rule: Rule{"depth", "The depth is off", Mend, viewerSees, "%", "at most, either way, of ruff.depth", practice, WhereOuter, FromMechanics}, find: (*view).depth, parts: shapePart},
		{Rule: Rule{"loops-solved", "Loops do not meet as they really stand", Note, loopClosed, "%", "at least, of the room for a set at the outer edge; 70 for tucked sets", solved, WhereOuter, FromMechanics}, find: (*view).loopsSolved, parts: shapePart},
		{Rule: Rule{"second-line", "The second stitch line changes the height", Note, viewerSees, "%", "at most, either way, of the height that one line gives by geometry", practice, WhereInner, FromMechanics}, find: (*view).secondLine, parts: shapePart, when: (*view).twoLines},
		{Rule: Rule{"stick", "No stick fits the loops", Mend, stickLeast, "mm", "at least, clear width of the loops: the thinnest rod and 1 mm", practice, WhereOuter, FromMechanics}, find: (*view).stick, parts: shapePart},
		{Rule: Rule{"thread", "Load on the thread", Note, threadMost, "N", "at most, on the most loaded stitch", "a quarter of what sewing thread breaks at, some 8 N, from memory, no source", WhereInner, FromMechanics}, find: (*view).thread, parts: shapePart},
		{Rule: Rule{"several-ways", "The cloth has several shapes to rest in", Note, 0, "mm", "said of tucks without starch", solved, WhereTucks, FromMechanics}, find: (*view).severalWays, parts: shapePart, when: (*view).limpTucks},
		{Rule: Rule{"uncertain", "The heights are uncertain", Note, meshMost, "mm", "at most, between the solver's mesh and a finer one; tucked sets only", judged, WhereOuter, FromMechanics}, find: (*view).uncertain, parts: tangentsPart | finerPart, when: (*view).tucked},
		{Rule: Rule{"alike", "Own marks are solved as regular sets", Note, 0, "mm", "said of own marks; by how much they differ", solved, WhereMarks, FromMechanics}, find: (*view).alike, parts: shapePart, when: (*view).ownMarks},
		{Rule: Rule{"not-at-rest", "The cloth did not come to rest", Note, 0, "half sets", "none may be restless", solved, WhereWhole, FromMechanics}, find: (*view).notAtRest},
		{Rule: Rule{"not-solved", "Not solved yet", Note, 0, "findings", "what only the mechanics of the cloth can tell", geometry, WhereWhole, FromMechanics}, find: (*view).notSolved},

		// Cautions.
		{Rule: Rule{"flame", "Keep away from flame", Caution, heavyEnough, "g/m²", "shown always; lighter plain cloth is not exempt from the test", "16 CFR 1610: plain cloth from 88.2 g/m² is exempt", WhereWhole, FromSafety}, find: (*view).flame},
		{Rule: Rule{"breathing", "A band about the throat", Caution, 0, "", "shown for every neck", "tight neckwear raised eye pressure (Br. J. Ophthalmol. 2003;87:946) and lessened blood flow to the brain (Neuroradiology 2018;60:861)", WhereNeck, FromSafety}, find: (*view).breathing},
		{Rule: Rule{"cords", "Ties at the neck", Caution, 0, "", "shown for ties at a neck", "EN 14682: no cords at the neck of clothes for children under 7, no free ends to 14", WhereBand, FromSafety}, find: (*view).cords},
		{Rule: Rule{"hot", "Hot starch and irons", Caution, 60, "°C", "shown where starch is used; the degree that scalds in 3 seconds", "published tables of scald times; ISO 13732-1 for touching hot metal", WhereWhole, FromSafety}, find: (*view).hot},
		{Rule: Rule{"needles", "Pins and needles", Caution, 0, "", "shown always", practice, WhereWhole, FromSafety}, find: (*view).needles},
	}
}
