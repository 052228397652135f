// Package look is the stage: which view of the ruff is shown, how the reader holds
// it, in which pose and colour, what moves, and what is pointed at. It is given
// the ruffs and knows nothing of who solves or saves them.
package look

import (
	"ruffwright/geom/draw"
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
	Light string  // light, dark or contrast
	Flat  bool    // the stage cannot draw
	Calm  bool    // no motion
	At_ms float64 // the time of the last event

	camera Camera
	gesture
	size  size
	dirty bool // the picture
	motion
	settling settling
	dye      dyeing
	drawing  draw.Drawing    // the last, for its memory
	pair     [2]draw.Drawing // A and B as last drawn
	fold     fold
	voice    *say.Voice
}

// Scene is what there is to see.
type Scene struct {
	A        *sim.Ruff
	B        *sim.Ruff // beside it; nil: it stands alone
	Findings [2][]check.Finding
	Units    scheme.Units
}
