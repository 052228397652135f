package window

import "ruffwright/sim/shell"

// other looks for the other equilibrium of a set sewn at one edge: its flaps
// turned over in the level of the sewn row, by hand as it were, and let go. Its energy
// less the first one's is told as a share of the panel's weight × depth.
func (s *solver) other(c *Window) error {
	level := s.f.panels[0].sewnRow()
	x := append([]float64(nil), c.Shape...)
	for k := 2; k < len(x); k += 3 {
		x[k] = 2*level - x[k]
	}
	r, err := s.run("turning the flaps over", s.released(c), x, shell.Settings{})
	if err != nil {
		return err
	}
	nu, nv := len(c.U)-1, len(c.V)-1
	if r.Status != shell.Converged || c.edgeMove(c.Shape, x, nv) < 1 {
		return nil
	}
	c.Other, c.OtherFound = x, true
	c.OtherShare = (r.Energy.Total() - c.Release.Energy.Total()) / (c.Design.Weight_mN() * c.Design.Width_mm)
	c.OtherHeights = [2]float64{c.Node(x, 0, nv)[2], c.Node(x, nu, nv)[2]}
	return nil
}
