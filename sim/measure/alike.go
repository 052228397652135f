package measure

import "math"

// Alike says which differences of two ruffs are no more than the model can tell.
type Alike string

const (
	Shape Alike = "shape" // lengths of the shape at rest
	Slope Alike = "slope" // of the mean line
	Move  Alike = "move"  // how far the outer edge goes under a load
)

// Half sets of this project, solved on three grids (24 × 12, 32 × 16, 48 × 24) and
// from several starts, moved by up to 0.6 mm where tucked and starched and by 1 mm
// where tucked and fresh, and hardly where not tucked. Their moves went from 23.8 mm
// to 24.3 mm over these grids where not tucked (2 %), and from 4.0 to 3.3 mm where
// tucked (20 %). Sewn at both edges all move by less than 0.5 mm, and hold alike.
const (
	shapePlain_mm  = 0.5
	shapeTucked_mm = 1.0
	shapeLoose_mm  = 3.0
	move_mm        = 0.5
	movePlain      = 0.05 // of the larger move
	moveTucked     = 0.2
	slope_deg      = 1
)

// Sets is what the model's error hangs on, for two ruffs: whether either is tucked,
// and whether either has so much cloth between its sewn folds that it can lie in
// many ways.
type Sets struct{ Tucked, Loose bool }

// Within is how far two amounts may lie apart before anything is said of it, in
// their unit. largest is the larger of their sizes.
func (a Alike) Within(sets Sets, largest float64) float64 {
	switch {
	case a == Slope:
		return slope_deg
	case a == Move && sets.Tucked:
		return math.Max(move_mm, moveTucked*largest)
	case a == Move:
		return math.Max(move_mm, movePlain*largest)
	case sets.Loose:
		return shapeLoose_mm
	case sets.Tucked:
		return shapeTucked_mm
	}
	return shapePlain_mm
}

func (a Alike) known() bool { return a == Shape || a == Slope || a == Move }
