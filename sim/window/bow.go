package window

import (
	"math"

	"ruffwright/sim/measure"
	"ruffwright/sim/shell"
)

// Bow_deg and bowStep_deg are how far the wearer bows and in what steps, briskStep_deg
// those where only the farthest counts.
const (
	Bow_deg       = 60
	bowStep_deg   = 10
	briskStep_deg = 30
)

// bowGravity is gravity in the ruff's frame when the wearer bows by deg: for the
// front set (side 1) it turns outward, for the back set (−1) inward.
func (s *solver) bowGravity(deg, side float64) [3]float64 {
	sn, cs := math.Sincos(deg * math.Pi / 180)
	a, b := math.Sincos(s.f.panels[0].a / 2)
	return [3]float64{side * sn * b, side * sn * a, -cs}
}

// bow lets the wearer bow to the front and, for the back set, away, and stand
// again. A bowed shape that the cloth would not keep is no answer; of 120 random
// sets, most of them sewn at one edge, none of 1,440 shapes on the way was such.
func (s *solver) bow(c *Window) error {
	nv, step := len(c.V)-1, bowStep_deg
	if s.set.brisk {
		step = briskStep_deg
	}
	c.BowDone = true
	for _, side := range []float64{1, -1} {
		x := append([]float64(nil), c.Shape...)
		if err := s.sh.Reset(s.released(c)); err != nil {
			return err
		}
		r := shell.Result{}
		var err error
		for deg := step; deg <= Bow_deg; deg += step {
			s.sh.SetGravity(s.bowGravity(float64(deg), side))
			if r, err = s.again("bowing", x, shell.Settings{Warm: true}); err != nil {
				return err
			}
			c.BowDone = c.BowDone && !r.Status.Early()
			c.Bow_mm = max(c.Bow_mm, c.edgeMove(c.Shape, x, nv))
		}
		if s.set.brisk {
			continue
		}
		s.count++
		c.BowDone = c.BowDone && s.sh.Stable(x)
		bowed := append([]float64(nil), x...)
		if side > 0 {
			c.BowedFront = bowed
		} else {
			c.BowedBack = bowed
		}
		s.sh.SetGravity(upright)
		if r, err = s.again("standing again", x, shell.Settings{Warm: true}); err != nil {
			return err
		}
		c.BowDone = c.BowDone && !r.Status.Early()
		c.BowReturn_mm = max(c.BowReturn_mm, c.edgeMove(c.Shape, x, nv))
	}
	return nil
}

// edgeMove returns the largest distance between two shapes' nodes on line j.
func (c *Window) edgeMove(a, b []float64, j int) float64 {
	m := 0.0
	for i := range c.U {
		p, q := c.Node(a, i, j), c.Node(b, i, j)
		m = max(m, math.Hypot(math.Hypot(p[0]-q[0], p[1]-q[1]), p[2]-q[2]))
	}
	return m
}

// tangents measures bob and lean, and follows what may lean over.
func (s *solver) tangents(c *Window) error {
	sheet := s.released(c)
	if err := s.sh.Reset(sheet); err != nil {
		return err
	}
	nv := len(c.V) - 1
	w := shell.WeightPerArea(c.Design.Mass_gm2)
	load, move := make([]float64, len(c.Shape)), make([]float64, len(c.Shape))
	respond := func(dir [3]float64, p shell.Parity) (mean float64, stable bool) {
		for i := range c.U {
			for j := range c.V {
				f := w * width(c.U, i) * width(c.V, j)
				k := 3 * (i*len(c.V) + j)
				for r := range dir {
					load[k+r] = f * dir[r]
				}
			}
		}
		s.count++
		if s.sh.Response(c.Shape, load, move, p) {
			return 0, false
		}
		for i := range c.U {
			q := c.Node(move, i, nv)
			mean += width(c.U, i) / c.Design.Panel_mm * (q[0]*dir[0] + q[1]*dir[1] + q[2]*dir[2])
		}
		return mean, true
	}
	sn, cs := math.Sincos(s.f.panels[0].a / 2)
	c.Vertical_mm_per_g, c.VerticalStable = respond(upright, shell.Symmetric)
	c.Lateral_mm_per_g, c.LateralStable = respond([3]float64{-sn, cs, 0}, shell.Antisymmetric)
	if err := s.ctx.Err(); err != nil || c.LateralStable || !s.set.Follow || c.Leans != measure.LeanUnasked {
		return err
	}
	return s.follow(c)
}

// width returns the tributary width of grid line k.
func width(c []float64, k int) float64 {
	lo, hi := max(k-1, 0), min(k+1, len(c)-1)
	return (c[hi] - c[lo]) / 2
}
