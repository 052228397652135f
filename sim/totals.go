package sim

// Totals are what the whole ruff comes to.
type Totals struct {
	Strip_mm float64 `json:"strip_mm"` // with end hems, without joins and spare
	// Mass_g is what hangs on the neck: the strip with its hem and what the band
	// takes up, and the band folded double, at the cloth's mass before starch. Seam
	// allowances, thread and closure are left out.
	Mass_g          float64 `json:"mass_g"`
	OuterBreadth_mm float64 `json:"outer_breadth_mm"` // over all, the wearer's left to right
	OuterDepth_mm   float64 `json:"outer_depth_mm"`   // over all, front to back
}

// Totals gives the ruff's totals; where it is solved and at rest its outer
// diameters are those that the cloth takes, else those of a level strip.
func (r Ruff) Totals() Totals {
	p := r.Plan
	s := p.Scheme
	reach := s.Ruff.Depth
	if r.Solved != nil && r.Solved.Converged() {
		reach = r.Solved.Ruff.Reach_mm
	}
	width := s.Ruff.Depth + float64(s.Strip.HemTurns)*s.Strip.Hem + s.Strip.Takeup
	return Totals{
		Strip_mm:        p.Strip_mm,
		Mass_g:          1e-6 * s.Cloth.Mass * (p.Strip_mm*width + 2*s.Band.Height*p.Band_mm),
		OuterBreadth_mm: p.Neckline.Breadth() + 2*reach,
		OuterDepth_mm:   p.Neckline.Depth() + 2*reach,
	}
}
