// Package look is the stage: which view of the ruff is shown, how the reader holds
// it, in which pose and colour, what moves, and what is pointed at. It is given
// the ruffs and knows nothing of who solves or saves them.
package look

import (
	"ruffwright/geom"
	"ruffwright/geom/figure"
	"ruffwright/geom/pleat"
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

// size of the stage.
type size struct{ width, height, ratio float64 } // CSS pixels; device pixels per CSS pixel

// Colour is what the cloth on the stage is dyed by.
type Colour string

// The colours.
const (
	AsCloth   Colour = "cloth"
	ByDroop   Colour = "droop"
	ByContact Colour = "contact"
)

// dyeing is what is chosen, and the tones made for the shapes at hand: of the
// ruff, and of the one beside it.
type dyeing struct {
	by   Colour
	tone [2]*figure.Tone
	made [2]toneOf

	both   [2]*figure.Tone // of two ruffs side by side, in the same steps,
	bothOf [2]*figure.Tone // and what they were made of
}

// toneOf says what a tone was made of: the same is not made again.
type toneOf struct {
	by    Colour
	first *geom.Vec3 // of the shape
}

// Lit is the light that the ruff is seen by.
type Lit string

// The lights.
const (
	ByDay    Lit = "day"
	ByCandle Lit = "candle"
	Against  Lit = "against" // a window behind the ruff
)

// fold is the fold-through: how the strip becomes the ruff, on a slider from 0,
// laid flat, to 100, released. 100 is the view in the hand as ever.
type fold struct {
	at      float64 // 0 to 100
	playing bool
	from    float64 // where the play began,
	began   float64 // and when, ms
	said    int     // the step that was told last

	of     *geom.Vec3 // what the following were made of: the first node of the drawn shape
	making *pleat.Making
	now    pleat.Shape
	up     pleat.Shape // drawn up, on the grid of the solved shape
	down   pleat.Shape // on its way from there
}

// Pose is which of a solved ruff's shapes is shown.
type Pose string

// The poses.
const (
	AtRest Pose = "rest"
	Bowed  Pose = "bow"   // the wearer bows
	Turned Pose = "other" // the other way in which it may lie
)

// settling is what is shown on its way to what comes next: a short, even movement, never
// under reduced motion. The wearer bows and stands up in it, and the reader is led to
// where a bow is seen best, and back.
type settling struct {
	going     bool
	from, now [2]pleat.Shape // of A and B
	bow_deg   float64        // where the wearer's bow began
	camera    [2]Camera      // where the reader is led from and to; the same: nowhere
	began_ms  float64
	takes_ms  float64
}

// gesture follows pointers on the stage: one turns, or moves the sheet or, with Shift,
// the ruff; two pinch and move.
type gesture struct {
	down map[int]place
}

type place struct{ x, y float64 }
