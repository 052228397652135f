package shell

import "math"

// mismatch is how far a step taken on trust may leave an edge's strain from what
// was predicted for it.
const mismatch = 0.1

// trust is how many steps in a row may raise the energy before they are undone.
const trust = 4

// armijo is c₁ of the condition of sufficient decrease (Numerical Optimization,
// section 3.1, which names this value).
const armijo = 1e-4

// watch is the place a run of steps on trust began, to go back to when the run
// does not pay.
type watch struct {
	steps   int     // taken so far in this run, 0 when none is under way
	wait    int     // steps to shorten before the next run
	penalty int     // the next wait: 2·penalty + 2 after every run that failed, at most 32
	e       float64 // energy at the start, µJ
	line    line    // the first step
	theta   float64
}

// patience counts how long no new low of the energy has been found.
type patience struct {
	lowest float64 // energy so far, µJ
	since  int     // steps since then
	plain  int     // steps still to take downhill only
	spell  int     // how many the last time
}

// spent counts a step that ended at the energy e and says whether patience is at
// an end: after 25 steps without a new low the next ones only go down, first 10,
// then 30, 70 and 100. (With it and the blunt normal all of 767 random half sets came
// to rest.)
func (p *patience) spent(e float64) bool {
	if e < p.lowest-1e-9*math.Abs(p.lowest) {
		p.lowest, p.since = e, 0
	} else {
		p.since++
	}
	if p.plain > 0 {
		p.plain--
		return false
	}
	if p.since < 25 {
		return false
	}
	p.spell = min(2*p.spell+10, 100)
	p.plain, p.since = p.spell, 0
	return true
}

// accept decides what share of the step in s.px is taken, l.share. ok is false,
// and the shape back where it was, where no share lowers the energy.
//
//   - A step that ends at or below the ceiling is taken, and perhaps lengthened.
//   - A step that bends a stiff sheet stretches it to second order, so its energy
//     rises before the next step takes that back. It is taken on trust where its
//     strains were foreseen, or up to four times in a row in any case. This is
//     the watchdog of Chamberlain, Powell, Lemaréchal and Pedersen (Numerical
//     Optimization, section 15.6, algorithm 15.2): a flat cantilever takes 7
//     factorisations, where shortening alone had not ended after 400.
//   - Any other step is shortened.
func (n *newton) accept(l *line) (ok bool) {
	s, w := n.s, &n.watch
	copy(s.best, s.x)
	l.share = 1
	if l.far > n.set.StepCap {
		l.share = n.set.StepCap / l.far
	}
	l.first = l.share
	l.slack = 1e-13*math.Abs(n.e) + 1e-15*n.res.Tolerance
	l.ceiling = n.e
	downhill := n.patience.plain > 0
	if !downhill {
		l.ceiling = n.past.top(n.e)
	}
	e, soft := n.try(l.share)
	foreseen := false
	if !(e <= l.ceiling+l.slack) {
		e, foreseen = n.foreseen(l, e, soft)
	}
	switch {
	case e <= l.ceiling+l.slack:
		if w.steps > 0 {
			w.steps, w.penalty = 0, 0
		}
		if n.theta > 0 && l.share == 1 {
			n.lengthen(l, e)
		}
		return true
	case !downhill && (foreseen || w.wait == 0 && w.steps < trust && finite(e)):
		if !foreseen {
			n.keepWatch(l)
		}
		l.trusted = true
		return true
	}
	return n.shorten(l)
}

// place puts s.best + a·s.px into s.x.
func (n *newton) place(a float64) {
	s := n.s
	for k, v := range s.best {
		s.x[k] = v + a*s.px[k]
	}
}

// try evaluates the energy at s.best + a·s.px, and the gradient with it, for most
// shares that are tried are taken; soft is the energy without stretch and shear.
func (n *newton) try(a float64) (e, soft float64) {
	n.place(a)
	q := n.s.evaluate(true)
	n.tried, n.energies = a, q
	e = q.Total()
	return e, e - q.Stretch - q.Shear
}

// peek is the energy at s.best + a·s.px. The gradient stays that of the last try.
func (n *newton) peek(a float64) float64 {
	n.place(a)
	return n.s.evaluate(false).Total()
}

// foreseen shortens the step, whose energy is e, until no edge misses the strain
// predicted for it by more than mismatch; the miss grows as the square of the
// share. ok says that the energy in the predicted strains is not above the largest
// of the last four such energies.
func (n *newton) foreseen(l *line, e, soft float64) (end float64, ok bool) {
	s := n.s
	membrane, miss := s.foresee(s.best, s.px, l.share)
	if miss > mismatch {
		l.share *= 0.95 * math.Sqrt(mismatch/miss)
		l.first = l.share
		e, soft = n.try(l.share)
		membrane, _ = s.foresee(s.best, s.px, l.share)
	}
	return e, soft+membrane <= n.pastM.top(n.mixed)+l.slack && finite(e)
}

// lengthen doubles a whole step, up to 16 times its length and twice the cap,
// while each doubling lowers the energy, e at the step's end, by a tenth more.
func (n *newton) lengthen(l *line, e float64) {
	for l.share < 16 && 2*l.share*l.far <= 2*n.set.StepCap {
		f := n.peek(2 * l.share)
		if !(f < e-0.1*math.Abs(n.e-e)) {
			break
		}
		l.share, e = 2*l.share, f
	}
}

// keepWatch counts a step on trust, and before the first keeps the place.
func (n *newton) keepWatch(l *line) {
	s, w := n.s, &n.watch
	if w.steps == 0 {
		w.e, w.line, w.theta = n.e, *l, n.theta
		copy(s.refX, s.best)
		copy(s.refP, s.px)
		copy(s.refStrain, s.strain)
		copy(s.refSkew, s.skew)
	}
	w.steps++
}

// goBack returns to where a run on trust began, and to its first step.
func (n *newton) goBack(l *line) {
	s, w := n.s, &n.watch
	w.steps = 0
	w.penalty = min(2*w.penalty+2, 32)
	w.wait = w.penalty
	copy(s.best, s.refX)
	copy(s.px, s.refP)
	copy(s.strain, s.refStrain)
	copy(s.skew, s.refSkew)
	slack := l.slack
	*l = w.line
	l.slack = slack
	n.e, n.theta = w.e, w.theta
}

// shorten halves the step until the energy decreases sufficiently (Numerical
// Optimization, algorithm 3.1). A run on trust that has not paid ends here: the
// step that is halved is its first.
func (n *newton) shorten(l *line) (ok bool) {
	s, w := n.s, &n.watch
	if w.steps > 0 {
		n.goBack(l)
	} else if w.wait > 0 {
		w.wait--
	}
	n.tried = 0 // the gradient is not known where this ends
	for {
		l.share /= 2
		if l.share < 1e-8 {
			copy(s.x, s.best)
			n.e = n.refresh(s.r)
			return false
		}
		if n.peek(l.share) <= n.e+armijo*l.share*l.slope+l.slack {
			return true
		}
	}
}
