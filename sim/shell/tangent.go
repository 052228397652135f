package shell

// Parity says which movements a tangent allows.
type Parity uint8

const (
	// Symmetric movements keep the mirror planes' symmetry.
	Symmetric Parity = iota
	// Antisymmetric movements turn into their negative across the mirror planes:
	// nodes there move along the normal alone. All loops lean the same way.
	Antisymmetric
)

// Response writes to movement (3 numbers a node, mm) how a shape at rest moves
// under a small extra load (3 numbers a node, mN), by the full tangent
// stiffness. negative says that the stiffness is not positive definite; the
// movement is then zero, for a linear answer means nothing there. Contact with
// a mirror plane is contact with the image, which goes along in an
// antisymmetric movement, so it is left out there.
func (s *Solver) Response(shape, load, movement []float64, p Parity) (negative bool) {
	s.spread(shape)
	s.measureStrains(s.strain, s.skew)
	m, base, work := &s.sym, &s.base, &s.work
	if p == Antisymmetric {
		s.flipMirrors()
		defer s.flipMirrors()
		m, base, work = &s.anti, new(Band), new(Band)
		s.number(m, true)
		s.layBase(m, base)
		work.Resize(m.n, m.kd)
	}
	s.assemble(m, base, work, 0, p == Antisymmetric)
	ok, _ := work.Factor()
	clear(movement[:3*s.nodes])
	if ok {
		clear(s.g)
		copy(s.g, load[:3*s.nodes])
		r := make([]float64, m.n)
		m.collect(s, r)
		work.Solve(r)
		m.scatter(s, r, movement)
	}
	return !ok
}

// flipMirrors changes the sign of the ghosts in mirrors: what moves antisymmetrically
// moves there against its image.
func (s *Solver) flipMirrors() {
	for k := range s.ghosts {
		if g := &s.ghosts[k]; g.mirror {
			for r := range g.s {
				g.s[r] = -g.s[r]
			}
		}
	}
}

// Stable reports that no small movement within the mirror planes' symmetry takes
// a shape at rest to less energy: its full tangent stiffness is positive
// definite. A solve ends wherever no force is left, on a crest too.
func (s *Solver) Stable(shape []float64) bool {
	s.spread(shape)
	s.measureStrains(s.strain, s.skew)
	s.assemble(&s.sym, &s.base, &s.work, 0, false)
	return s.factor(0)
}
