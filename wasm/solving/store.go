package solving

import (
	"slices"

	"ruffwright/sim"
	"ruffwright/sim/window"
)

// store keeps the newest coarsely solved ruffs to start from.
type store struct{ kept []*sim.Solved }

// mostKept ruffs of 40 sets are some 8 MB.
const mostKept = 4

// keep adds a ruff that came to rest. Of one kind the newest is kept.
func (s *store) keep(r *sim.Solved) {
	if r == nil || !r.Converged() || len(r.Halves) == 0 {
		return
	}
	s.kept = slices.DeleteFunc(s.kept, func(old *sim.Solved) bool {
		return old.Grid == r.Grid && alike(old.Halves[0].Design, r.Halves[0].Design)
	})
	bare := *r // the surfaces are not needed
	bare.Shape.Panels, bare.Bowed, bare.Other = nil, nil, nil
	s.kept = append(s.kept, &bare)
	if len(s.kept) > mostKept {
		s.kept = slices.Delete(s.kept, 0, len(s.kept)-mostKept)
	}
}

// near gives the kept ruff of the same kind as design on the grid, nil if there
// is none: a ruff of another kind would not serve as a start.
func (s *store) near(design window.Design, grid window.Grid) *sim.Solved {
	for _, r := range slices.Backward(s.kept) {
		if r.Grid == grid && alike(r.Halves[0].Design, design) {
			return r
		}
	}
	return nil
}

// alike reports whether two half sets are sewn alike. How far their lengths may
// differ is for the solver to say.
func alike(a, b window.Design) bool {
	return a.Anchor == b.Anchor && a.Sewn == b.Sewn &&
		a.TuckTop_mm == b.TuckTop_mm && a.TuckBottom_mm == b.TuckBottom_mm && a.LineGap_mm == b.LineGap_mm
}

// base is the ruff of a scheme, with all that is known of it.
type base struct {
	scheme string // as written in the request
	ruff   sim.Ruff
}
