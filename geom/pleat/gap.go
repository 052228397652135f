package pleat

import (
	"fmt"
	"math"
)

// Gaps gives the clear room between every node of a shape of this plan and the
// panel beside it, mm, 0 where they touch: for each panel, in the order of its
// nodes.
//
// Neighbouring panels are mirror images in the upright plane through the
// neckline at their shared fold. A loop at a crest has its neighbour beyond the
// plane of the trough, and the other way round; so the half of a panel next to
// one fold is measured to the plane of the other: twice the distance, less the
// cloth's thickness. On an ellipse neighbours differ a little from mirror images,
// by less than a hundredth of the pitch (the same that Fold shares at the folds).
// An error says that the shape is not of this plan.
func (p Plan) Gaps(s Shape) ([][]float64, error) {
	if len(s.Panels) != p.Panels || len(p.Row) != p.Panels+1 || p.Panels < 1 {
		return nil, fmt.Errorf("pleat: gaps of a shape of %d panels for a plan of %d", len(s.Panels), p.Panels)
	}
	size := (s.NU + 1) * (s.NV + 1)
	out := make([][]float64, p.Panels)
	from := p.station(0)
	for i, panel := range s.Panels {
		if len(panel.V) != size {
			return nil, fmt.Errorf("pleat: panel %d has %d nodes, want %d", i, len(panel.V), size)
		}
		to := p.station(i + 1)
		gap := make([]float64, size)
		for n, v := range panel.V {
			d := math.Inf(1)
			k := n / (s.NV + 1)
			if 2*k <= s.NU {
				d = math.Abs(v.XY().Sub(to.Pos).Dot(to.Tangent))
			}
			if 2*k >= s.NU {
				d = min(d, math.Abs(v.XY().Sub(from.Pos).Dot(from.Tangent)))
			}
			gap[n] = max(0, 2*d-p.Scheme.Cloth.Thickness)
		}
		out[i], from = gap, to
	}
	return out, nil
}
