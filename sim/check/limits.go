package check

// The limits of the findings, each with where it comes from. Nothing else in
// this package holds a limit.
const (
	// slackLeast: a length shorter than the straight line between its ends does
	// not exist. Geometry.
	slackLeast = 1.0
	// slackMost: over 1.3 the inner edge crumples, with many ways to lie (solved
	// half sets of this project; 1.0 to 1.2 lay clean).
	slackMost = 1.3
	// slackGood is what remedies aim at.
	slackGood = 1.05

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

	// joinNear is how far from a top fold a join must stay, in seam allowances: its
	// own two layers and as much again for the fold to turn in. Common practice,
	// no source.
	joinNear = 2

	// girthLeast, girthMost: from the 1st percentile of women (291 mm) to the 99th
	// of men (467 mm), ANSUR II, rounded.
	girthLeast, girthMost = 290, 470 // mm

	// heavyEnough: plain cloth lighter than 88.2 g/m² is not exempt from the US
	// flammability test (16 CFR 1610).
	heavyEnough = 88.2 // g/m²
)
