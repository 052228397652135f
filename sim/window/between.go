package window

import (
	"math"

	"ruffwright/sim/shell"
)

// Of a tucked half set little touches its neighbours: the ridge of a fold, a
// loop's flank beside a stitch, and that by many times its weight. Felt at nodes
// alone, a ridge was pressed harder the more nodes lay along it, and a sinking
// ruff moved by as much as the mesh's nodes did. So the sectors' planes press on
// tucked cells between nodes, by area (shell.Contact.Between). Without a tuck
// the nodes suffice, and are kept.

// parted_mm is how far along the cloth from where it is held in a plane, by a
// tuck or at a mark, it has come clear of that plane: its clearance begins at
// nothing there and grows evenly. Chosen, not measured; from 4 to 8 mm the
// starched tucked sets of TestTucked move by half a millimetre in the mean.
const parted_mm = 4

// betweens makes the obstacles of the crest's and the trough's plane act between
// the nodes.
func (f *frame) betweens(sh *shell.Sheet, crest, trough *shell.Contact) {
	d := f.d
	sh.Spots = f.spots
	for _, side := range []struct {
		c     *shell.Contact
		tuck  float64
		sewn  bool
		fromU func(float64) float64
	}{
		{crest, f.tc, d.crestsSewn(), func(u float64) float64 { return u }},
		{trough, f.tt, d.troughsSewn(), func(u float64) float64 { return d.Panel_mm - u }},
	} {
		c := side.c
		c.Between = true
		c.Weight, c.Back = make([]float64, len(sh.Spots)), make([]float64, len(sh.Spots))
		for k := range sh.Spots {
			q := &sh.Spots[k]
			// Stiffness is that of one node of the Fine grid, evenly spaced.
			c.Weight[k] = q.Area * float64(Fine.NU*Fine.NV) / (d.Panel_mm * d.Width_mm)
			u := side.fromU(q.U)
			far := u
			if side.sewn {
				out := q.V
				if f.jg > 0 {
					out = math.Min(out, math.Abs(q.V-f.v[f.jg]))
				}
				far = math.Min(far, math.Hypot(math.Max(u-side.tuck, 0), out))
			}
			c.Back[k] = (skin_mm + d.Thickness_mm/2) * math.Max(0, 1-far/parted_mm)
		}
	}
}
