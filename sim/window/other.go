package window

import "ruffwright/sim/shell"

// Other is a second rest shape of the same cloth, frozen in the same shape.
type Other struct {
	Shape []float64
	// TopOuter_mm and BottomOuter_mm are as of the first.
	TopOuter_mm, BottomOuter_mm float64
	FlapsFall                   bool
	// DeltaE_uJ is its energy less the first one's: positive if the first rests
	// lower. DeltaShare is that over the panel's weight × depth; within ±0.1 the
	// set is undecided.
	DeltaE_uJ, DeltaShare float64
	Iterations            int
}

// other looks for the other equilibrium of a set sewn at one edge: its flaps
// turned over in the level of the sewn row, by hand as it were, and let go.
func (s *solver) other(c *Window) error {
	level := s.f.panels[0].sewnRow()
	x := append([]float64(nil), c.Shape...)
	for k := 2; k < len(x); k += 3 {
		x[k] = 2*level - x[k]
	}
	r, err := s.run("turning the flaps over", s.released(c), x, false)
	if err != nil {
		return err
	}
	nu, nv := len(c.U)-1, len(c.V)-1
	if r.Status != shell.Converged || c.edgeMove(c.Shape, x, nv) < 1 {
		return nil
	}
	o := &Other{Shape: x, Iterations: r.Iterations}
	o.TopOuter_mm, o.BottomOuter_mm = c.Node(x, 0, nv)[2], c.Node(x, nu, nv)[2]
	o.FlapsFall = (o.TopOuter_mm+o.BottomOuter_mm)/2 < level
	o.DeltaE_uJ = r.Energy.Total() - c.Release.Energy.Total()
	o.DeltaShare = o.DeltaE_uJ / (c.Design.Weight_mN() * c.Design.Width_mm)
	c.Other = o
	c.OtherFound, c.OtherShare, c.OtherHeights = true, o.DeltaShare, [2]float64{o.TopOuter_mm, o.BottomOuter_mm}
	return nil
}
