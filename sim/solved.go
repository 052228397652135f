package sim

import (
	"ruffwright/geom/pleat"
	"ruffwright/sim/measure"
	"ruffwright/sim/window"
)

// Solved is what the mechanics of the cloth say of a whole ruff. It stands for
// regular sets between mirror planes (see package window): irregular sets, the
// opening and leaning loops are outside it.
type Solved struct {
	// The shapes are those of the half sets, but that the layers of a tuck, which pass
	// through each other there, lie beside each other (lay).
	Shape pleat.Shape  // the ruff at rest, one surface a panel, on the half sets' grid
	Bowed *pleat.Shape // the wearer bows by Bow_deg, in the ruff's own frame; nil if that was not solved
	Other *pleat.Shape // the other equilibrium all round; nil if none was found or looked for

	Ruff measure.Values   // of the whole ruff
	Sets []measure.Values // of every distinct half set, least curved first
	Of   []int            // panel i of the strip is the half set Sets[Of[i]]

	// Droop is, for every distinct half set beside Sets, how far each node lies
	// below its place as formed, mm, + down; crest first, from the inner edge to
	// the outer as in a panel that begins at its crest. Nil: not told.
	Droop [][]float64

	Halves []*window.Window // the half sets as solved, beside Sets
	Grid   window.Grid

	// Alike reports that sets that differ (pleat.Row.Regular), by the maker's own
	// marks, were solved as regular sets of their mean panel: single odd sets are not
	// seen by this model.
	Alike bool
}

// Bow_deg is how far the wearer bows.
const Bow_deg = window.Bow_deg

// Measured gives the solved ruff's measures, nil where nothing is solved or the cloth
// did not come to rest: then nothing may rest on them.
func (r *Ruff) Measured() *measure.Values {
	if r.Solved == nil || !r.Solved.Converged() || len(r.Solved.Sets) == 0 {
		return nil
	}
	return &r.Solved.Ruff
}

// Converged reports whether every half set came to rest.
func (s *Solved) Converged() bool { return s.Ruff.Converged }
