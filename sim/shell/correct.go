package shell

// correct applies second-order corrections to the trial in s.x, whose gradient is
// s.r1 and energy e; s.r is the gradient before the step, of which the share a was
// taken and which moved a node by moved mm at most. With the factor in hand, up to
// four steps (Settings.Corrections)
//
//	δ = −H⁻¹[g(x + αp) − (1 − α)g(x)]
//
// are taken while each is smaller than the last and the energy falls. They put
// right what the step's curvature did to stiff strains, as the second-order
// correction of a constrained step does (Numerical Optimization, section 15.6).
func (n *newton) correct(e, a, moved float64) float64 {
	s := n.s
	last := moved
	rest := max(0, 1-a)
	for range n.set.Corrections {
		if largest(s.r1) <= n.res.Tolerance {
			break
		}
		for k := range s.d {
			s.d[k] = s.r1[k] - rest*s.r[k]
		}
		s.solve(s.d)
		for k := range s.d {
			s.d[k] = -s.d[k]
		}
		copy(s.trial, s.x)
		s.sym.scatter(s, s.d, s.px)
		s.reflect(s.px, false)
		d := s.farthest(s.px)
		if !(d < last) {
			break
		}
		for k, v := range s.trial {
			s.x[k] = v + s.px[k]
		}
		q := s.evaluate(true)
		if !(q.Total() < e) {
			copy(s.x, s.trial)
			break
		}
		s.lag(s.trial, s.px, 1)
		e = n.gather(q, s.r1)
		last = d
	}
	return e
}
