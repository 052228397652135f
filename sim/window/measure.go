package window

import (
	"math"

	"ruffwright/sim/shell"
)

// Measures are the numbers of a solved half set. Heights are over the band's
// bottom edge. Every number is finite.
type Measures struct {
	// TopOuter_mm and BottomOuter_mm are the heights of the crest and of the
	// trough at the outer edge; HeightOuter_mm their difference, negative where
	// the troughs stand above the crests. HeightInner_mm is the same at the
	// inner edge.
	TopOuter_mm, BottomOuter_mm    float64
	HeightOuter_mm, HeightInner_mm float64
	// Loop_mm is the clear width at the outer edge of the narrower of the
	// crest's and the trough's loop: the stick that fits. LoopFill is the wider
	// loop's half over the room it has: loops meet from about 0.92 on.
	Loop_mm, LoopFill float64
	PitchOuter_mm     float64 // room a set takes at the outer edge, along its curve
	// Reach_mm is how far out the outer edge stands from the neckline, its mean.
	Reach_mm float64
	// Tilt_deg is the slope of the mean line from inner to outer edge, + up.
	Tilt_deg float64
	// Droop_mm is the outer edge's mean height as formed less as released.
	Droop_mm float64
	// FlapsFall reports whether the outer edge's mid-height lies below the sewn
	// row. It means something where one edge is sewn.
	FlapsFall bool

	// Bow_mm is the largest move of a node of the outer edge when the wearer
	// bows by 60° in steps of 10°, the worse of the front and back sets;
	// BowFront_mm and BowBack_mm are the two. BowDone is false if the test was
	// skipped, did not come to rest at every step or ended in a shape that is not
	// stable. BowReturn_mm is how far from
	// its upright shape the outer edge is when the wearer stands again.
	Bow_mm, BowFront_mm, BowBack_mm, BowReturn_mm float64
	BowDone                                       bool

	// Vertical_mm_per_g (bob) is the outer edge's mean move down for its own
	// weight once more; Lateral_mm_per_g (lean) its mean move sideways, all
	// loops leaning the same way, for its own weight sideways. Both from the
	// tangent stiffness. Where the stiffness has a negative pivot the number is
	// 0 and the flag false: a suspicion of instability, not a verdict.
	Vertical_mm_per_g, Lateral_mm_per_g float64
	VerticalStable, LateralStable       bool

	// Leans says what really happens where LateralStable is false: the loops were
	// pushed over, let go and followed. Leans_mm is, if they stay so, how far the
	// crest or the trough at the outer edge then stands off sideways, whichever
	// more; they are followed to LeanFar_mm.
	Leans    Lean
	Leans_mm float64

	// Mesh_mm is how far the outer edge's crest or trough, whichever more, lies
	// from where it lies on the Finest grid, solved as from nothing: what the
	// figures are uncertain by at least. MeshDone is false if that was not asked
	// for, the grid is no coarser, or the finer solve did not come to rest.
	Mesh_mm  float64
	MeshDone bool

	// Contact is the share of the panel's depth over which it touches a
	// neighbour; LoopsMeet says whether the outer edge does.
	Contact   float64
	LoopsMeet bool
	// Popped reports a tuck whose inner fold stands outward.
	Popped bool
	// Thread_N is the pull on the most loaded stitch; a stitch holds the folds
	// of two half sets.
	Thread_N float64
	Strain   float64 // largest |strain| of a grid edge
	// Energy is the half set's, its parts in µJ.
	Energy shell.Energies
}

func (s *solver) measure(c *Window) {
	nu, nv := len(c.U)-1, len(c.V)-1
	m := &c.Measures
	d, f := &c.Design, s.f
	top, bottom := c.Node(c.Shape, 0, nv), c.Node(c.Shape, nu, nv)
	m.TopOuter_mm, m.BottomOuter_mm = top[2], bottom[2]
	m.HeightOuter_mm = top[2] - bottom[2]
	m.HeightInner_mm = c.Node(c.Shape, f.ic, 0)[2] - c.Node(c.Shape, f.it, 0)[2]
	in, out, formed := c.mean(c.Shape, 0), c.mean(c.Shape, nv), c.mean(c.Formed, nv)
	m.Reach_mm = out[0]
	m.Tilt_deg = math.Atan2(out[2]-in[2], out[0]-in[0]) * 180 / math.Pi
	m.Droop_mm = formed[2] - out[2]
	sewn := d.crestHeight()
	if !d.crestsSewn() {
		sewn = d.troughHeight()
	}
	m.FlapsFall = (top[2]+bottom[2])/2 < sewn
	m.PitchOuter_mm = d.Pitch_mm * (1 + max(d.Kappa_1pmm, 0)*m.Reach_mm)
	s.loops(c)
	s.touching(c)
	m.Popped = s.popped(c)
	m.Thread_N = s.thread(c)
	m.Strain = c.Release.Strain
	m.Energy = c.Release.Energy
}

// mean returns the mean position of the grid line j, out from the neckline, 0,
// up, weighted by width.
func (c *Window) mean(shape []float64, j int) (p [3]float64) {
	nu := len(c.U) - 1
	r0 := 1 / max(c.Design.Kappa_1pmm, straight)
	for i := range c.U {
		lo, hi := max(i-1, 0), min(i+1, nu)
		w := (c.U[hi] - c.U[lo]) / 2 / c.Design.Panel_mm
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
	f := s.f
	nu, nv := len(c.U)-1, len(c.V)-1
	dist := func(i int, trough bool) float64 {
		p := c.Node(c.Shape, i, nv)
		if trough {
			return f.o + f.sin*p[0] - f.cos*p[1]
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
	crest, trough := widest(false), widest(true)
	c.Loop_mm = max(0, 2*min(crest, trough)-c.Design.Thickness_mm)
	if half := c.PitchOuter_mm / 2; half > 0 {
		c.LoopFill = max(crest, trough) / half
	}
}

// touching finds where the panel presses on a neighbour.
func (s *solver) touching(c *Window) {
	f := s.f
	nu, nv := len(c.U)-1, len(c.V)-1
	c.Contact, c.LoopsMeet = 0, false
	for j := 1; j <= nv; j++ {
		touch := false
		for i := 1; i < nu; i++ {
			p := c.Node(c.Shape, i, j)
			// beside a mark the sheet is near its own plane without touching a neighbour
			nearCrest := p[1] < skin_mm+c.Design.Thickness_mm/2 && c.U[i] > c.Design.Panel_mm/2
			g := f.o + f.sin*p[0] - f.cos*p[1]
			nearTrough := g < skin_mm+c.Design.Thickness_mm/2 && c.U[i] < c.Design.Panel_mm/2
			touch = touch || nearCrest || nearTrough
		}
		if touch {
			lo, hi := j-1, min(j+1, nv)
			c.Contact += (c.V[hi] - c.V[lo]) / 2 / c.Design.Width_mm
			c.LoopsMeet = j == nv
		}
	}
	c.Contact = min(c.Contact, 1)
}

// popped reports a tuck whose fold lies on the outer side of its stitch.
func (s *solver) popped(c *Window) bool {
	f, nu := s.f, len(c.U)-1
	if f.tc > 0 && c.Node(c.Shape, 0, 0)[2] > c.Node(c.Shape, f.ic, 0)[2]+0.1*f.tc {
		return true
	}
	return f.tt > 0 && c.Node(c.Shape, nu, 0)[2] < c.Node(c.Shape, f.it, 0)[2]-0.1*f.tt
}

// thread returns the pull on the most loaded stitch in N. Across the mirror
// plane the two halves' pulls cancel, in it they add.
func (s *solver) thread(c *Window) float64 {
	f := s.f
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
	if c.Design.crestsSewn() {
		pull(f.ic, 0, [3]float64{0, 1, 0})
	}
	if c.Design.troughsSewn() {
		pull(f.it, 0, [3]float64{f.sin, -f.cos, 0})
	}
	return most
}
