package measure

import "math"

// Alike says which differences of two ruffs are no more than the model can tell.
type Alike string

const (
	Shape Alike = "shape" // lengths of the shape at rest
	Slope Alike = "slope" // of the mean line
	Move  Alike = "move"  // how far the outer edge goes under a load
)

// Of half sets of this project, solved on three grids (24 × 12, 32 × 16, 48 × 24),
// those not tucked hardly moved, and their moves went from 23.8 to 24.3 mm (2 %). Tucked
// ones are formed on sticks and hang on the mesh and on how those are put in. Of 30
// starched ones sewn at both edges 7 moved by more than 0.5 mm between the first two
// grids, at most 1.5 mm; 30 sewn at one edge by up to 3.9 mm, and by how the sticks were
// put in 21 of those by more than 0.5 mm, some by tens. With 20 fresh ones 9 of the 80
// came out unlike one 1 % larger by over 1 mm and a hundredth of the panel, each with a
// doubt of its own of over 0.5 mm (TestTucked's tally). So where the doubt
// of tucked ruffs was measured it counts; else the numbers here, which are too small for
// many of those that one edge holds.
const (
	shapePlain_mm  = 0.5
	shapeTucked_mm = 1.0
	shapeLoose_mm  = 3.0
	move_mm        = 0.5
	movePlain      = 0.05 // of the larger move
	moveTucked     = 0.2
	slope_deg      = 1
)

// Sets is what the model's error hangs on, for two ruffs.
type Sets struct {
	Tucked bool // either is
	Loose  bool // either has so much cloth between its sewn folds that it can lie in many ways

	// Known says that the doubt of every tucked one was measured: by how much its folds
	// may lie elsewhere, its move be another and its slope, of both together.
	Known              bool
	Folds_mm, Moves_mm float64
	Slope_deg          float64
}

// Together is the doubt of a difference of two amounts, each with its own.
func Together(a, b float64) float64 { return math.Hypot(a, b) }

// Within is how far two amounts may lie apart before anything is said of it, in
// their unit. largest is the larger of their sizes.
func (a Alike) Within(sets Sets, largest float64) float64 {
	known := sets.Tucked && sets.Known
	switch {
	case a == Slope && known:
		return math.Max(slope_deg, sets.Slope_deg)
	case a == Slope:
		return slope_deg
	case a == Move && known:
		return max(move_mm, movePlain*largest, sets.Moves_mm)
	case a == Move && sets.Tucked:
		return math.Max(move_mm, moveTucked*largest)
	case a == Move:
		return math.Max(move_mm, movePlain*largest)
	case sets.Loose && known:
		return math.Max(shapeLoose_mm, sets.Folds_mm)
	case sets.Loose:
		return shapeLoose_mm
	case known:
		return math.Max(shapePlain_mm, sets.Folds_mm)
	case sets.Tucked:
		return shapeTucked_mm
	}
	return shapePlain_mm
}

func (a Alike) known() bool { return a == Shape || a == Slope || a == Move }
