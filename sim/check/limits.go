package check

import (
	"ruffwright/geom/pleat"
	"ruffwright/sim"
)

// The limits that several findings share, each with where it comes from. A limit of one
// finding, or of one family, stands beside it.
const (
	// slackLeast: a length shorter than the straight line between its ends does
	// not exist. Geometry.
	slackLeast = 1.0

	// slackMost: over 1.3 the inner edge crumples, with many ways to lie (solved
	// half sets of this project; 1.0 to 1.2 lay clean).
	slackMost = 1.3

	// GoodSlack is what remedies aim at.
	GoodSlack = 1.05

	// viewerSees: a difference of heights that a viewer would see. Common
	// practice, no source.
	viewerSees = 5 // % of the height

	// quarterSets: a band is pinned at its quarters.
	quarterSets = 4

	// bowMost, bowStop: how far the outer edge may swing when the wearer
	// bows by 60°. Sewn at both edges solved half sets swing by less than 0.5 mm,
	// at one edge without tuck or starch by 9 to 30: any limit between parts the
	// two. That 2 mm is seen and 8 mm is no ruff is this project's judgement, no
	// source.
	bowMost = 2 // mm
	bowStop = 8 // mm

	// bobMost: the outer edge's move down for its own weight once more. Judgement,
	// no source.
	bobMost = 5 // mm for its own weight

	// leanGood, leanMost: the mean move sideways for its own weight sideways, all
	// loops leaning alike. Judgement, no source.
	leanGood = 5  // mm for its own weight
	leanMost = 12 // mm for its own weight

	// droopMost: as formed less as released, either way: about a tenth of a usual
	// height. Judgement, no source.
	droopMost = 5 // mm

	// stiffUsual is what remedies ask for where the cloth has less: in solved half sets
	// with a tuck it brought the bow below bowMost.
	stiffUsual = 80 // mm
)

// HeightSeen is the part of the height by which a ruff may be higher or lower than is wanted
// before a viewer sees it.
const HeightSeen = viewerSees / 100.

// Limits are the mechanics' limits as sim.Need takes them, so that a starch
// target leaves none of these findings: droop and bow in mm, lean in mm for the
// ruff's own weight sideways (of tucked sets only that they stand up again), at most what
// is good, and how far tucked sets may lie apart by how their sticks were put in.
func Limits() sim.Limits {
	return sim.Limits{Droop_mm: droopMost, Bow_mm: bowMost, Lean_mm_per_g: leanGood, Apart_mm: Unsure_mm}
}

// Loose reports whether there is so much cloth between the sewn folds of p that its
// sets can lie in many ways.
func Loose(p pleat.Plan) bool { return p.Slack > slackMost }
