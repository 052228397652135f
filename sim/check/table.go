package check

import "slices"

// From tells what can make a finding.
type From string

const (
	FromGeometry  From = "geometry"  // the plan and the closed form
	FromHand      From = "hand"      // how exactly the maker works
	FromMechanics From = "mechanics" // the solved ruff alone
	FromSafety    From = "safety"    // cautions
)

// Rule is one row of the table: what a finding is, how much it weighs, and where
// its limit comes from.
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

// law is a row of the table and what finds it. A law without find waits for the
// mechanics: it reads view.r.Solved once that says enough.
type law struct {
	Rule
	find func(*view) (seen, bool)
}

var rules []law

// The table is put together at start, because the laws' functions read it.
func init() {
	rules = []law{
		// From geometry.
		{Rule{"ends", "An end flap is against the wish", Stop, 0, "ends", "no end may lie against ruff.ends", asked, WhereOpening, FromGeometry}, (*view).ends},
		{Rule{"flaps", "The wrong folds are sewn for the flaps wanted", Stop, 0, "folds", "no sewn fold may turn the flaps against ruff.flaps", asked, WhereFlaps, FromGeometry}, (*view).flaps},
		{Rule{"slack-short", "The inner edge does not reach from fold to fold", Stop, slackLeast, "", "at least", geometry, WhereTucks, FromGeometry}, (*view).slackShort},
		{Rule{"outer-short", "Fold to fold is too short for the outer edge", Stop, 0, "mm", "at least half the room for a set at the outer edge", geometry, WhereOuter, FromGeometry}, (*view).outerShort},
		{Rule{"neck-full", "More cloth than room at the neck", Stop, neckFull, "%", "at most, of the room for a set", geometry, WhereNeck, FromGeometry}, (*view).neckFull},
		{Rule{"strip-short", "The strip at hand is too short", Stop, 0, "sets", "at least the sets of the scheme", geometry, WhereStrip, FromGeometry}, (*view).stripShort},
		{Rule{"band-short", "The band is too short for the neck", Stop, 0, "mm", "at least girth + ease + overlap", geometry, WhereBand, FromGeometry}, (*view).bandShort},
		{Rule{"row-long", "The sets do not go on the band", Stop, 0, "mm", "at most half a set's room more than the band less its overlap", judged, WhereInner, FromGeometry}, (*view).rowLong},
		{Rule{"row-short", "The sets do not fill the band", Mend, 0, "mm", "at least the band less its overlap and half a set's room", judged, WhereInner, FromGeometry}, (*view).rowShort},
		{Rule{"band-tight", "The band is tight", Mend, easeLeast, "mm", "at least", "shirtmakers' guides add 12 to 25 mm to a snug measure; 12 is taken as the floor over bare skin", WhereNeck, FromGeometry}, (*view).bandTight},
		{Rule{"slack-long", "Too much cloth between the sewn folds", Mend, slackMost, "", "at most", solved + ": clean to 1.2, crumpled over 1.3", WhereTucks, FromGeometry}, (*view).slackLong},
		{Rule{"neck-crowded", "Crowded at the neck", Mend, neckCrowded, "%", "at most, of the room for a set", practice, WhereNeck, FromGeometry}, (*view).neckCrowded},
		{Rule{"height", "The height is off", Mend, viewerSees, "%", "at most, either way, of ruff.height", practice, WhereOuter, FromGeometry}, (*view).height},
		{Rule{"marks-step", "Top and bottom marks are out of step", Mend, 0, "mm", "at most what moves its neighbours by 5 % of the height, 0.6 mm for each mm", "0.6: whole strips solved for this project; 5 %: " + practice, WhereMarks, FromGeometry}, (*view).marksStep},
		{Rule{"marks-sewn", "A mark is sewn unlike its fellows", Mend, 0, "marks", "no mark may differ from most of its kind", geometry, WhereMarks, FromGeometry}, (*view).marksSewn},
		{Rule{"joins", "A join falls on a top fold", Mend, 0, "joins", "no join nearer to a top fold than twice its seam allowance", practice, WhereJoins, FromGeometry}, (*view).joins},
		{Rule{"cut-width", "The cut width does not add up", Mend, takeupLeast, "mm", "at least", "one maker's tutorial gathers 6.35 mm from the raw edge", WhereStrip, FromGeometry}, (*view).cutWidth},
		{Rule{"loops-crowded", "Loops push each other at the inner edge", Note, loopsOutside, "%", "at most, of half the room for a set", judged, WhereInner, FromGeometry}, (*view).loopsCrowded},
		{Rule{"gaping", "Loops do not meet", Note, loopClosed, "%", "at least, of the room for a set at the outer edge", solved + ": open at 0.77, touching from 0.92", WhereOuter, FromGeometry}, (*view).gaping},
		{Rule{"quarters", "Sets do not divide into quarters", Note, quarterSets, "sets", "a multiple of", practice, WhereBand, FromGeometry}, (*view).quarters},
		{Rule{"girth", "An unusual neck", Note, 0, "mm", "290 to 470", "1st percentile of women to 99th of men, ANSUR II (US Army, 2010 to 2012), rounded", WhereNeck, FromGeometry}, (*view).girth},

		// From the hand.
		{Rule{"marking", "Marking errors will show", Mend, viewerSees, "%", "at most, of the height", practice, WhereMarks, FromHand}, (*view).marking},
		{Rule{"drift", "Marks drift along the strip", Mend, 0, "mm", "at most one fold to fold length, either way", practice, WhereMarks, FromHand}, (*view).drift},

		// From mechanics: unknown until solved.
		{Rule{"bow", "The lower edge is not supported", Mend, 2, "mm", "moves at most, when the wearer bows 60°; over 8 stops", judged, WhereOuter, FromMechanics}, nil},
		{Rule{"flaps-solved", "Flaps turn the wrong way, or either way", Stop, 0, "mm", "the wished side of the sewn edge, and the other at least a tenth of the panel's weight × depth dearer", judged, WhereFlaps, FromMechanics}, nil},
		{Rule{"sinks", "The ruff sinks", Stop, 10, "°", "mean line at most so far from level, and at most 5 mm a gram", judged, WhereWhole, FromMechanics}, nil},
		{Rule{"soft-sideways", "Soft sideways, or leans", Mend, 12, "mm/g", "at most; over 5 is a note", judged, WhereWhole, FromMechanics}, nil},
		{Rule{"cloth-stiffness", "The cloth is too limp or too stiff", Mend, 0, "mm", "the bending length that droop, bow and lean ask for", judged, WhereWhole, FromMechanics}, nil},
		{Rule{"depth", "The depth is off", Mend, viewerSees, "%", "at most, either way, of ruff.depth", practice, WhereOuter, FromMechanics}, nil},
		{Rule{"loops-solved", "Loops as they really stand", Note, loopClosed, "%", "at least, of the room for a set at the outer edge", solved, WhereOuter, FromMechanics}, nil},
		{Rule{"second-line", "The second stitch line changes the height", Note, viewerSees, "%", "at most, of the height", practice, WhereInner, FromMechanics}, nil},
		{Rule{"stick", "No stick fits the loops", Mend, 0, "mm", "a stick of the loop's clear width", judged, WhereOuter, FromMechanics}, nil},
		{Rule{"thread", "Load on the thread", Note, 0, "N", "what a stitch of sewing thread bears", judged, WhereInner, FromMechanics}, nil},
		{Rule{"not-solved", "Not solved yet", Note, 0, "findings", "what only the mechanics of the cloth can tell", geometry, WhereWhole, FromMechanics}, (*view).notSolved},

		// Cautions.
		{Rule{"flame", "Keep away from flame", Caution, heavyEnough, "g/m²", "shown always; lighter plain cloth is not exempt from the test", "16 CFR 1610: plain cloth from 88.2 g/m² is exempt", WhereWhole, FromSafety}, (*view).flame},
		{Rule{"breathing", "A band about the throat", Caution, 0, "", "shown for every neck", "tight neckwear raised eye pressure (Br. J. Ophthalmol. 2003;87:946) and lessened blood flow to the brain (Neuroradiology 2018;60:861)", WhereNeck, FromSafety}, (*view).breathing},
		{Rule{"cords", "Ties at the neck", Caution, 0, "", "shown for ties at a neck", "EN 14682: no cords at the neck of clothes for children under 7, no free ends to 14", WhereBand, FromSafety}, (*view).cords},
		{Rule{"hot", "Hot starch and irons", Caution, 60, "°C", "shown where starch is used; the degree that scalds in 3 seconds", "published tables of scald times; ISO 13732-1 for touching hot metal", WhereWhole, FromSafety}, (*view).hot},
		{Rule{"needles", "Pins and needles", Caution, 0, "", "shown always", practice, WhereWhole, FromSafety}, (*view).needles},
	}
}
