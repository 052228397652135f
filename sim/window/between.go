package window

import (
	"math"

	"ruffwright/sim/shell"
)

// Of a tucked half set little touches its neighbours, ridges above all. Felt at nodes
// alone, a ridge was pressed harder the more nodes lay along it, and a sinking ruff
// moved with the mesh. So the walls press on tucked windows between nodes, by area
// (shell.Contact.Between). Without a tuck the nodes suffice.

// parted_mm is how far along the cloth from where it is held in a plane, by a
// tuck or at a mark, it has come clear of that plane: its clearance begins at
// nothing there and grows evenly. Chosen, not measured; from 4 to 8 mm the
// starched tucked sets of TestTucked move by half a millimetre in the mean.
const parted_mm = 4

// between makes a wall act between the nodes.
func (f *frame) between(c *shell.Contact, w *wall) {
	d, p := f.d, w.p
	c.Between = true
	c.Weight, c.Back = make([]float64, len(f.spots)), make([]float64, len(f.spots))
	start := f.start_mm(w.panel)
	fold := p.fold(w.trough)
	for k := range f.spots {
		q := &f.spots[k]
		u := q.U - start
		if u < 0 || u > p.length {
			continue
		}
		if w.trough == (p.step > 0) {
			u = p.length - u
		}
		c.Weight[k] = f.perNode(q, p)
		far := u
		if fold.Sewn {
			out := q.V
			if f.jg > 0 {
				out = math.Min(out, math.Abs(q.V-f.v[f.jg]))
			}
			far = math.Min(far, math.Hypot(math.Max(u-fold.tuck(), 0), out))
		}
		c.Back[k] = (skin_mm + d.Thickness_mm/2) * math.Max(0, 1-far/parted_mm)
	}
}

// perNode is what a spot of a panel bears, in nodes of the Fine grid, evenly spaced.
func (f *frame) perNode(q *shell.Spot, p *panel) float64 {
	return q.Area * float64(Fine.NU*Fine.NV) / (p.length * f.d.Width_mm)
}
