package window

import (
	"fmt"
	"math"

	"ruffwright/sim/shell"
)

// sum leaves in the measures what the whole solve came to.
func (s *solver) sum(c *Window) {
	m, d := &c.Values, &c.Design
	m.Kappa_1pmm, m.Panel_mm, m.Pitch_mm = d.Kappa_1pmm, d.Panel_mm, d.Pitch_mm
	m.Converged = c.Form.Status == shell.Converged && c.Release.Status == shell.Converged
	m.Status = c.Release.Status.String()
	if c.Form.Status.Early() {
		m.Status = "forming: " + c.Form.Status.String()
	}
	m.Residual_mN, m.Deepest_mm = c.Release.Residual, c.Release.Deepest
	m.Mesh = fmt.Sprintf("%d × %d", c.Grid.NU, c.Grid.NV)
	m.TangentsDone, m.OtherDone = m.Converged && !s.set.SkipTangents, m.Converged && !s.set.SkipOther && d.Anchor != Both
	m.Extra = s.count - m.Iterations
}

func (s *solver) measure(c *Window) {
	nu, nv := len(c.U)-1, len(c.V)-1
	m := &c.Values
	d, half := &c.Design, s.f.panels[0]
	top, bottom := c.Node(c.Shape, 0, nv), c.Node(c.Shape, nu, nv)
	m.TopOuter_mm, m.BottomOuter_mm = top[2], bottom[2]
	m.HeightOuter_mm = top[2] - bottom[2]
	m.HeightInner_mm = c.Node(c.Shape, half.ic, 0)[2] - c.Node(c.Shape, half.it, 0)[2]
	in, out, formed := c.mean(c.Shape, 0), c.mean(c.Shape, nv), c.mean(c.Formed, nv)
	m.Reach_mm = out[0]
	m.Tilt_deg = math.Atan2(out[2]-in[2], out[0]-in[0]) * 180 / math.Pi
	m.Droop_mm = formed[2] - out[2]
	m.FlapsFall = (top[2]+bottom[2])/2 < half.sewnRow()
	m.PitchOuter_mm = Room_mm(d.Pitch_mm, max(d.Kappa_1pmm, 0), m.Reach_mm)
	s.loops(c)
	s.touching(c)
	m.Popped = s.popped(c)
	m.Thread_N = s.thread(c)
	m.Strain = c.Release.Strain
}

// mean returns the mean position of the grid line j, out from the neckline, 0,
// up, weighted by width.
func (c *Window) mean(shape []float64, j int) (p [3]float64) {
	r0 := 1 / max(c.Design.Kappa_1pmm, straight)
	for i := range c.U {
		w := width(c.U, i) / c.Design.Panel_mm
		q := c.Node(shape, i, j)
		p[0] += w * outward(q, r0)
		p[2] += w * q[2]
	}
	return
}

// outward returns how far p is from the neckline of radius r0, without the
// cancellation of hypot − r0.
func outward(p [3]float64, r0 float64) float64 {
	r := math.Hypot(r0+p[0], p[1])
	return (p[0]*(2*r0+p[0]) + p[1]*p[1]) / (r + r0)
}

// loops measures the loops at the outer edge: the largest distance of the
// crest's half from the crest plane, of the trough's half from the trough plane.
func (s *solver) loops(c *Window) {
	half := s.f.panels[0]
	nu, nv := len(c.U)-1, len(c.V)-1
	dist := func(i int, trough bool) float64 {
		p := c.Node(c.Shape, i, nv)
		if trough {
			return half.toTrough(p)
		}
		return p[1]
	}
	zm := (c.Node(c.Shape, 0, nv)[2] + c.Node(c.Shape, nu, nv)[2]) / 2
	up := c.Node(c.Shape, 0, nv)[2] >= zm
	widest := func(trough bool) float64 {
		best := -1
		for k := range nu + 1 {
			i := k
			if trough {
				i = nu - k
			}
			z := c.Node(c.Shape, i, nv)[2]
			if k > 0 && (z > zm) != (up != trough) {
				break
			}
			if best < 0 || dist(i, trough) > dist(best, trough) {
				best = i
			}
		}
		w := dist(best, trough)
		if best > 0 && best < nu {
			a, b := dist(best-1, trough), dist(best+1, trough)
			if q := a - 2*w + b; q < 0 {
				w = min(w-(a-b)*(a-b)/(8*q), max(w, a, b)*1.1)
			}
		}
		return w
	}
	c.Loop_mm = max(0, 2*min(widest(false), widest(true))-c.Design.Thickness_mm)
}

// touching finds where the panel presses on a neighbour.
func (s *solver) touching(c *Window) {
	half := s.f.panels[0]
	nu, nv := len(c.U)-1, len(c.V)-1
	c.Contact, c.LoopsMeet = 0, false
	for j := 1; j <= nv; j++ {
		touch := false
		for i := 1; i < nu; i++ {
			p := c.Node(c.Shape, i, j)
			// beside a mark the sheet is near its own plane without touching a neighbour
			nearCrest := p[1] < skin_mm+c.Design.Thickness_mm/2 && c.U[i] > c.Design.Panel_mm/2
			g := half.toTrough(p)
			nearTrough := g < skin_mm+c.Design.Thickness_mm/2 && c.U[i] < c.Design.Panel_mm/2
			touch = touch || nearCrest || nearTrough
		}
		if touch {
			c.Contact += width(c.V, j) / c.Design.Width_mm
			c.LoopsMeet = j == nv
		}
	}
	c.Contact = min(c.Contact, 1)
}

// popped reports a tuck whose fold lies on the outer side of its stitch.
func (s *solver) popped(c *Window) bool {
	half, nu := s.f.panels[0], len(c.U)-1
	if half.tc > 0 && c.Node(c.Shape, 0, 0)[2] > c.Node(c.Shape, half.ic, 0)[2]+0.1*half.tc {
		return true
	}
	return half.tt > 0 && c.Node(c.Shape, nu, 0)[2] < c.Node(c.Shape, half.it, 0)[2]-0.1*half.tt
}

// thread returns the pull on the most loaded stitch in N. Across the mirror
// plane the two halves' pulls cancel, in it they add.
func (s *solver) thread(c *Window) float64 {
	half := s.f.panels[0]
	if err := s.sh.Reset(s.released(c)); err != nil {
		return 0
	}
	g := make([]float64, len(c.Shape))
	s.sh.Gradient(c.Shape, g)
	most := 0.0
	pull := func(i, j int, n [3]float64) {
		k := 3 * (i*len(c.V) + j)
		d := g[k]*n[0] + g[k+1]*n[1] + g[k+2]*n[2]
		q := 0.0
		for r := range 3 {
			v := g[k+r] - d*n[r]
			q += v * v
		}
		most = max(most, 2*math.Sqrt(q)/1000)
	}
	if half.crest.Sewn {
		pull(half.ic, 0, [3]float64{0, 1, 0})
	}
	if half.trough.Sewn {
		pull(half.it, 0, [3]float64{half.sin, -half.cos, 0})
	}
	return most
}
