// Package sim is the one door to the mechanics of the ruff: a scheme goes in,
// the whole ruff comes out.
package sim

import (
	"ruffwright/geom/pleat"
)

// Ruff is everything known of a scheme's ruff: the plan and closed form at
// once, the mechanics when they have been computed.
type Ruff struct {
	Plan   pleat.Plan
	Folded pleat.Folded // closed form and what it measures
	Solved *Solved      // nil: not solved yet
}
