package check

import (
	"ruffwright/geom/pleat"
	"ruffwright/sim"
)

// The limits of the findings, each with where it comes from. Nothing else in
// this package holds a limit.
const (
	// slackLeast: a length shorter than the straight line between its ends does
	// not exist. Geometry.
	slackLeast = 1.0
	// slackMost: over 1.3 the inner edge crumples, with many ways to lie (solved
	// half sets of this project; 1.0 to 1.2 lay clean).
	slackMost = 1.3
	// slackFirm: of untucked half sets of one limp cloth, solved by this project, that
	// of slack 1.07 gave least sideways (5 mm for its own weight; 39 at 1.03); they
	// leaned over at 1.01 and less, and crumpled or leaned from 1.16 on. slackOff is
	// how near is near enough. Judgement from those.
	slackFirm, slackOff = 1.07, 0.03
	// slackGood is what remedies aim at.
	slackGood = 1.05
	// waveGood is the part of a panel that half a set's room may take, where they
	// choose the panel; pleat.WaveMost is the most that can be solved.
	waveGood = 0.95

	// neckFull: cloth laid face to face cannot be thinner than itself. Geometry.
	neckFull = 100 // % of the room for a set
	// neckCrowded: half the room leaves the needle a way in. Common practice, no
	// source.
	neckCrowded = 50 // %

	// loopsOutside is how far an inner loop may reach into its neighbour's room
	// before it must give way, as a part of half a set's room. Judgement, no source.
	loopsOutside = 10 // %

	// loopClosed: solved loops stand open at 0.77 of their room and touch at 0.92
	// and more (solved half sets of this project).
	loopClosed = 77 // % of the room for a set at the outer edge

	// loopTucked is the same for tucked sets, whose narrower loops keep to 70 to 85
	// of their room however near they stand (solved half sets of this project).
	loopTucked = 70 // % of the room for a set at the outer edge

	// viewerSees: a difference of heights that a viewer would see. Common
	// practice, no source.
	viewerSees = 5 // % of the height

	// neighbourMoves is how far the folds beside a mark stand off, in mm for each
	// mm that the mark is off: 0.4 to 0.6 in whole strips solved for this project;
	// the larger figure is used.
	neighbourMoves = 0.6

	// easeLeast: shirtmakers add 12 to 25 mm to a snug measure.
	easeLeast = 12 // mm

	// quarterSets: a band is pinned at its quarters.
	quarterSets = 4

	// takeupLeast: one tutorial runs its first gathering row 6.35 mm from the raw
	// edge, rounded down.
	takeupLeast = 6 // mm

	// girthLeast, girthMost: from the 1st percentile of women (291 mm) to the 99th
	// of men (467 mm), ANSUR II, rounded.
	girthLeast, girthMost = 290, 470 // mm

	// heavyEnough: plain cloth lighter than 88.2 g/m² is not exempt from the US
	// flammability test (16 CFR 1610).
	heavyEnough = 88.2 // g/m²

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
	// tiltMost: how far the mean line from neck to outer edge may lie from level,
	// or from what a supporter asks. Judgement, no source.
	tiltMost = 10 // °

	// leanGood, leanMost: the mean move sideways for its own weight sideways, all
	// loops leaning alike. Judgement, no source.
	leanGood = 5  // mm for its own weight
	leanMost = 12 // mm for its own weight

	// leansMost: how far the loops' folds may stay off their upright place when they
	// were pushed over and let go. Half of that is the contact of cloth on cloth and
	// the mesh. To mend, not to stop: cloth rubs on cloth, which the solver leaves
	// out. Judgement, no source.
	leansMost = 2 // mm

	// droopMost: as formed less as released, either way: about a tenth of a usual
	// height. Judgement, no source.
	droopMost = 5 // mm

	// otherDearer: by how much of the panel's weight × depth another rest shape
	// must be dearer. Judgement, no source.
	otherDearer = 10 // %
	// returns: an outer edge that is farther off than this when the wearer stands
	// again has found another shape; the solver takes shapes nearer than that for
	// one. Judgement, no source.
	returns = 1 // mm

	// meshMost is how far a finer mesh may move the outer edge's folds before the
	// figures are said to be uncertain. Judgement, no source.
	meshMost = 1 // mm

	// stickLeast: the thinnest common rod, 3 mm, and 1 mm of room for damp cloth.
	// Common practice, no source.
	stickLeast = 4 // mm

	// threadMost: sewing cotton and fine linen thread break at some 8 N and more
	// (from memory, no source); a quarter of that, since stitches share unevenly,
	// knots weaken thread, and fine cloth tears before it.
	threadMost = 2 // N

	// stiffUsual is what remedies ask for where the cloth has less: in solved half sets
	// with a tuck it brought the bow below bowMost.
	stiffUsual = 80 // mm
)

// Limits are the mechanics' limits as sim.Need takes them, so that a starch
// target leaves none of these findings: droop and bow in mm, lean in mm for the
// ruff's own weight sideways (asked of untucked sets only), at most what is good.
func Limits() sim.Limits {
	return sim.Limits{Droop_mm: droopMost, Bow_mm: bowMost, Lean_mm_per_g: leanGood}
}

// Loose reports whether there is so much cloth between the sewn folds of p that its
// sets can lie in many ways.
func Loose(p pleat.Plan) bool { return p.Slack > slackMost }
