package shell

import (
	"context"
	"math"
)

// Solve moves the free nodes of shape (3 numbers a node, in and out) to rest.
// Held components, and components normal to mirror planes, stay where shape
// puts them, so a starting shape lies on its mirror planes.
//
// It is Newton's method on the energy of doc.go. A step has three parts, each
// with aids of its own, which the comments of its functions explain:
//
//	direction  the Hessian with lagged strains, blended and damped until it is
//	           positive definite and its step short enough
//	accept     how far to go along it: the whole step, part of it, or a step
//	           whose energy rises, on trust
//	correct    second-order corrections with the factor in hand
//
// It ends when the largest force on an unknown is below the tolerance, or ctx is
// cancelled, within one step.
//
// Numerical Optimization, named at the functions that follow it, is the book of
// J. Nocedal and S. J. Wright, 2nd edition, Springer 2006; its section numbers
// are from memory. A constant without a trial beside it was chosen by trial on
// random half sets, of which no record was kept.
func (s *Solver) Solve(ctx context.Context, shape []float64, set Settings) Result {
	n := newton{s: s, set: set}
	return n.run(ctx, shape)
}

type newton struct {
	s   *Solver
	set Settings
	res Result

	e     float64 // energy at s.x, µJ
	light float64 // the same without stretch and shear
	mixed float64 // light and the membrane energy of the lagged strains
	past  recent  // of e, steps on trust left out
	pastM recent  // of mixed

	tried    float64  // the share last tried
	energies Energies // there; the gradient is in s.g

	theta float64 // share of the projected Hessian in the blend
	shift float64 // of the diagonal, after stalls
	damp  float64 // of the diagonal, so that steps stay below the cap

	watch    watch
	patience patience
}

// recent holds the last four energies, latest last: a step may end above the one
// before it, but not above all of these. (The nonmonotone line search of Grippo,
// Lampariello and Lucidi, SIAM Journal on Numerical Analysis 23, 1986, who take
// 10; from memory.)
type recent [4]float64

// fill makes all of them e.
func (r *recent) fill(e float64) {
	for k := range r {
		r[k] = e
	}
}

// push adds e and forgets the oldest.
func (r *recent) push(e float64) {
	copy(r[:], r[1:])
	r[len(r)-1] = e
}

// top returns the largest of them and e.
func (r *recent) top(e float64) float64 {
	for _, v := range r {
		e = max(e, v)
	}
	return e
}

func (n *newton) defaults() {
	if n.set.MaxIterations <= 0 {
		n.set.MaxIterations = 400
	}
	if !(n.set.Tolerance > 0) {
		n.set.Tolerance = 1e-6
	}
	if !(n.set.StepCap > 0) {
		n.set.StepCap = 0.25 * (n.s.sheet.U[n.s.nu] - n.s.sheet.U[0] + n.s.sheet.V[n.s.nv] - n.s.sheet.V[0])
	}
	if n.set.Corrections == 0 {
		n.set.Corrections = 4
	}
	n.res.Tolerance = n.set.Tolerance * n.s.forceScale()
}

// refresh evaluates the energy and the reduced gradient r at s.x.
func (n *newton) refresh(r []float64) float64 { return n.gather(n.s.evaluate(true), r) }

// gather is refresh where the energies and the gradient in s.g are known already.
func (n *newton) gather(q Energies, r []float64) float64 {
	s := n.s
	s.foldGhosts()
	s.sym.collect(s, r)
	e := q.Total()
	n.light = e - q.Stretch - q.Shear
	return e
}

// start reads the shape and says whether a solve can begin there.
func (n *newton) start(shape []float64) bool {
	s := n.s
	n.defaults()
	s.spread(shape)
	if n.set.Warm {
		s.measureStrains(s.strain, s.skew)
	} else {
		clear(s.strain)
		clear(s.skew)
		n.theta = 1
	}
	n.e = n.refresh(s.r)
	n.res.Residual = largest(s.r)
	if !finite(n.e) || !finite(n.res.Residual) {
		n.res = Result{Status: NotFinite, Tolerance: n.res.Tolerance}
		return false
	}
	n.patience.lowest = n.e
	if n.set.Downhill {
		n.patience.plain = math.MaxInt
	}
	n.mixed = n.light + s.membrane()
	n.past.fill(n.e)
	n.pastM.fill(n.mixed)
	return true
}

func (n *newton) run(ctx context.Context, shape []float64) Result {
	if !n.start(shape) {
		return n.res
	}
	n.res.Status = n.iterate(ctx)
	s := n.s
	copy(shape, s.x[:3*s.nodes])
	n.res.Levels = append(n.res.Levels, s.levels(s.x)...)
	n.res.Energy = s.evaluate(false)
	n.res.Strain = s.measureStrains(s.strain, s.skew)
	n.res.Deepest = s.deepest()
	for k := range s.sheet.Pairs {
		n.res.Deepest = max(n.res.Deepest, -s.sheet.Pairs[k].Gap(s.x))
	}
	return n.res
}

// iterate takes steps until one of the ways to end, and says which.
func (n *newton) iterate(ctx context.Context) Status {
	stalls := 0
	for {
		switch {
		case n.res.Residual <= n.res.Tolerance:
			return Converged
		case ctx.Err() != nil:
			return Cancelled
		case n.res.Iterations >= n.set.MaxIterations:
			return IterationLimit
		case !n.factor():
			return Stalled
		}
		moved, ok := n.step()
		if !ok {
			stalls++
			n.stall(stalls)
			if stalls > 8 {
				return Stalled
			}
			continue
		}
		if n.patience.spent(n.e) {
			n.watch = watch{}
		}
		stalls, n.shift = 0, 0
		n.res.Steps++
		if n.set.Progress != nil {
			n.set.Progress(Progress{Iteration: n.res.Iterations, Energy: n.e, Residual: n.res.Residual, Step: moved, Shape: n.s.x[:3*n.s.nodes]})
		}
	}
}

// stall changes the model after its step did not lower the energy, for the
// times-th time in a row: all projection, strains as they are, then a shift ten
// times larger each time.
func (n *newton) stall(times int) {
	s := n.s
	s.measureStrains(s.strain, s.skew)
	n.theta = 1
	if times > 1 {
		n.shift = max(10*n.shift, 1e-4*s.base.MeanDiagonal())
	}
}

// step takes one Newton step with the factor in s.work and reports the farthest
// a node moved and whether the energy allowed any step.
func (n *newton) step() (moved float64, ok bool) {
	s := n.s
	l, ok := n.direction()
	if !ok || !n.accept(&l) {
		return 0, false
	}
	n.place(l.share)
	s.lag(s.best, s.px, min(l.share, 1))
	n.blend(&l)
	moved = l.share * l.far
	if n.tried != l.share {
		n.energies = s.evaluate(true)
	}
	n.e = n.correct(n.gather(n.energies, s.r1), l.share, moved)
	copy(s.r, s.r1)
	n.res.Residual = largest(s.r)
	n.mixed = n.light + s.membrane()
	n.pastM.push(n.mixed)
	n.relax(l.far)
	if l.trusted {
		if !(n.e <= l.ceiling+l.slack) {
			return moved, true
		}
		n.watch.steps = 0 // the corrections brought it back
	}
	n.past.push(n.e)
	return moved, true
}

func largest(r []float64) float64 {
	m := 0.0
	for _, v := range r {
		m = max(m, math.Abs(v))
	}
	return m
}

// farthest is the largest movement in p of a node or a stick's end, mm.
func (s *Solver) farthest(p []float64) float64 {
	m := 0.0
	for k := range s.sheet.Sticks {
		for e := range s.sheet.Sticks[k].Ends {
			v := s.sheet.Sticks[k].Ends[e].lifted(s.levels(p))
			m = max(m, v*v)
		}
	}
	for k := 0; k < 3*s.nodes; k += 3 {
		m = max(m, p[k]*p[k]+p[k+1]*p[k+1]+p[k+2]*p[k+2])
	}
	return math.Sqrt(m)
}
