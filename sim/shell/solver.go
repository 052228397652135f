package shell

import "math"

// Solver holds a sheet's stencils and the work space of a solve. It may be
// used again and again, Reset to other sheets, but not by two goroutines at
// once. A solve allocates nothing but the levels that it hands back.
type Solver struct {
	sheet         Sheet
	nu, nv, nodes int

	ghosts      []ghost
	ghostAt     [4][]int32
	images      []image      // of Near
	corners     [][3]float64 // its nodes and their images, work space
	curves      []curve
	edges       []edge
	cells       []cell
	points      []point
	frozenConst float64
	shearConst  float64
	weight      []float64 // per node under one gravity, mN
	touches     []touch
	presses     []press
	patches     []patch
	felt        []felt       // work space of feel
	grips       []grip       // of the sticks, one after the other
	gripsOf     []int        // where each stick's begin, and the end
	gap         []float64    // likewise, per node
	frames      [][9]float64 // rows are the axes

	sym, anti unknowns
	strain    []float64 // lagged strain of edges
	skew      []float64 // lagged skew of cells

	x, g, px, trial, best []float64 // extended arrays
	refX, refP            []float64
	refStrain, refSkew    []float64
	r, r1, p, d           []float64 // unknowns
	base, work            Band
	border                border // of the levels
	on                    axis   // the stick in hand
}

type touch struct {
	contact, node int32
	weight, back  float64
}

// NewSolver returns a solver for the sheet, or the sheet's first error.
func NewSolver(sheet *Sheet) (*Solver, error) {
	s := new(Solver)
	if err := s.Reset(sheet); err != nil {
		return nil, err
	}
	return s, nil
}

// Reset gives the solver another sheet, or the same one with other numbers,
// and keeps its memory where it suffices.
func (s *Solver) Reset(sheet *Sheet) error {
	if err := sheet.Validate(); err != nil {
		return err
	}
	s.sheet = *sheet
	s.layStencils()
	s.layNear()
	s.frames = s.frames[:0]
	s.number(&s.sym, false)
	levels := len(s.sheet.Levels)
	ext := 3*(s.nodes+len(s.ghosts)) + levels
	for _, p := range []*[]float64{&s.x, &s.g, &s.px, &s.trial, &s.best, &s.refX, &s.refP} {
		*p = resized(*p, ext)
		clear(*p)
	}
	for _, p := range []*[]float64{&s.r, &s.r1, &s.p, &s.d} {
		*p = resized(*p, s.sym.n+levels)
	}
	s.border.resize(levels, s.sym.n)
	s.refStrain = resized(s.refStrain, len(s.strain))
	s.refSkew = resized(s.refSkew, len(s.skew))
	s.weight = resized(s.weight, s.nodes)
	w := WeightPerArea(s.sheet.Mass)
	for i := range s.nu + 1 {
		for j := range s.nv + 1 {
			s.weight[s.node(i, j)] = w * s.sheet.widthU(i) * tributary(s.sheet.V, j) * times(s.sheet.GradeU.Mass, i) * times(s.sheet.GradeV.Mass, j)
		}
	}
	s.touches = s.touches[:0]
	for k := range s.sheet.Contacts {
		c := &s.sheet.Contacts[k]
		if c.Between {
			continue
		}
		for n := range s.nodes {
			w, back := c.at(n)
			if w > 0 && (s.sym.at[3*n] >= 0 || s.sym.at[3*n+1] >= 0 || s.sym.at[3*n+2] >= 0) {
				s.touches = append(s.touches, touch{int32(k), int32(n), w, back})
			}
		}
	}
	s.layPresses()
	s.layGrips()
	s.layBase(&s.sym, &s.base)
	s.work.Resize(s.sym.n, s.sym.kd)
	return nil
}

// SetGravity changes the sheet's gravity, finite, without the work of Reset.
func (s *Solver) SetGravity(g [3]float64) { s.sheet.Gravity = g }

// frameOf returns the number of the frame whose First is the unit vector n, laid
// if it is new.
func (s *Solver) frameOf(n [3]float64) int16 {
	for k := range s.frames {
		if [3]float64(s.frames[k][:3]) == n {
			return int16(k)
		}
	}
	third := [3]float64{0, 0, 1}
	if math.Abs(n[2]) > 0.9 {
		third = [3]float64{0, 1, 0}
	}
	d := dot3(third, n)
	for r := range 3 {
		third[r] -= d * n[r]
	}
	l := norm(third)
	for r := range 3 {
		third[r] /= l
	}
	second := cross(third, n)
	s.frames = append(s.frames, [9]float64{n[0], n[1], n[2], second[0], second[1], second[2], third[0], third[1], third[2]})
	return int16(len(s.frames) - 1)
}

// Energy returns the energies in µJ of a shape (3 numbers a node).
func (s *Solver) Energy(shape []float64) Energies {
	s.spread(shape)
	return s.evaluate(false)
}

// Gradient returns the energies of a shape and writes to grad (3 numbers a
// node) the derivative with respect to every node's x, y, z, in mN: minus the
// force. At held nodes it is the reaction that holds them.
func (s *Solver) Gradient(shape, grad []float64) Energies {
	s.spread(shape)
	e := s.evaluate(true)
	s.foldGhosts()
	copy(grad, s.g[:3*s.nodes])
	return e
}

// nodesWeights is how many of a mean node's weights the force scale is at most.
// With the usual tolerance of 1e-6 no more than a hundredth of one is left
// unbalanced. A stiff sheet's 10 B W/P² alone would leave more than all of it: the
// sheet would be said to rest however its weight turned.
const nodesWeights = 1e4

// forceScale is weight + 10 B W/P² in mN, under gravity at most nodesWeights of a
// mean node's weight.
func (s *Solver) forceScale() float64 {
	sh := &s.sheet
	p, w := sh.length(), sh.V[s.nv]-sh.V[0]
	b := max(sh.BendU, sh.BendV)
	if z := sh.Frozen; z != nil {
		b += max(z.BendU, z.BendV)
	}
	b *= largestFactor(sh.GradeU.Bend) * largestFactor(sh.GradeV.Bend)
	weight := sh.Weight() * norm(sh.Gravity)
	scale := weight + 10*b*max(w/(p*p), p/(w*w))
	if weight > 0 {
		scale = min(scale, nodesWeights*weight/float64(s.nodes))
	}
	return scale
}
