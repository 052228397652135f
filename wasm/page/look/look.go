// Package look is the stage: which view of the ruff is shown, how the reader holds
// it, in which pose and colour, what moves, and what is pointed at. It is given
// the ruffs and knows nothing of who solves or saves them.
package look

import (
	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/wasm/page/say"
)

// Look is how the ruff is looked at. New makes one.
type Look struct {
	Scene
	View  *figure.View
	Hand  string // id of the finding in hand, "" none
	Pose  Pose
	Light string  // the reader's colours: light, dark or contrast
	Calm  bool    // no motion
	At_ms float64 // the time of the last event

	camera         Camera
	upright, aside Camera // before the wearer bowed, and where that is seen from
	gesture
	size     size
	dirty    bool // the picture
	settling settling
	dye      dyeing
	choice   Lit            // of a light; "": what goes with the reader's colours
	stays    [2]figure.Held // where parts of A's and B's drawings lie
	kept     [3]figure.Kept // scenes: of the ruff alone, of A and of B
	scale    float64        // of the last drawing, before its zoom: sheet mm for one of the ruff
	fold     fold
	hung     hung // the ruff that was last solved
	voice    *say.Voice
}

// Scene is what there is to see.
type Scene struct {
	A        *sim.Ruff
	B        *sim.Ruff // beside it; nil: it stands alone
	Findings [2][]check.Finding
	Units    scheme.Units
	Veiled   bool // nothing is pointed at: the reader has not said yet what is wrong
	Solving  bool // A is being solved, or is about to be
}
