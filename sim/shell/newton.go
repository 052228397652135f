package shell

import (
	"context"
	"math"
)

// memory is how many earlier energies a first trial step is compared with.
const memory = 4

// mismatch is how far a trusted step may leave an edge's strain from what was
// predicted for it.
const mismatch = 0.1

// trust is how many steps in a row may raise the energy before they are undone.
const trust = 4

// Solve moves the free nodes of shape (3 numbers a node, in and out) to rest.
// Held components, and components normal to mirror planes, stay where shape
// puts them, so a starting shape lies on its mirror planes.
//
// Newton's method on the energy of doc.go, with these aids:
//
//   - Lagged strain. Stretch is stiff and its geometric stiffness K e would
//     follow every overshoot of e. The Hessian uses K λ instead, where λ starts
//     at 0 and after a step p of length α becomes λ + min(α, 1)(e + e′p − λ):
//     the static condensation of a mixed form whose unknowns include the stress.
//     The gradient is unchanged, so the rest shape is too.
//   - Blend. H = H_full + θ(H_proj − H_full): θ = 1 at first; a failed Cholesky
//     raises it (2θ + 0.02, the third failure in a row 1, then a shift of the
//     diagonal), a full step divides it by 1.5, below 0.02 it is 0.
//   - Damping. A step longer than the cap is not cut but damped: the diagonal is
//     raised until it fits, so that the stretch the last step left is put right
//     whole. The damping is divided by 8 whenever a step is below half the cap.
//   - Trust. A step that bends a stiff sheet stretches it to second order, and
//     its energy rises before the next step takes that back. So a step is taken
//     when its energy is not above the largest of the last 4, or when the energy
//     with the strains it predicts is not and no edge misses its prediction by
//     more than 0.1, or, four times in a row at most, on trust. A run on trust
//     that ends above its start is undone and its first step halved until
//     Armijo's condition with 1e-4 holds. When the energy has found no new low in
//     25 steps, the next ones (10, then more) only go down.
//   - Corrections. With the factor in hand, up to 4 steps
//     δ = −H⁻¹[g(x + αp) − (1 − α)g(x)], each smaller than the last, while the
//     energy falls.
//
// If θ > 0 and the whole step held, it is doubled while that gains a tenth more.
// It ends when the largest force on an unknown is below the tolerance.
// Cancelling ctx ends it within one step (a few factorisations at most).
//
// The result belongs to the shape handed back whatever the status.
func (s *Solver) Solve(ctx context.Context, shape []float64, set Settings) Result {
	n := newton{s: s, set: set}
	return n.run(ctx, shape)
}

type newton struct {
	s     *Solver
	set   Settings
	res   Result
	e     float64 // energy at s.x
	past  [memory]float64
	light float64 // energy without stretch and shear
	mixed float64 // energy with membrane energy in the lagged strains
	pastM [memory]float64
	theta float64
	shift float64
	damp  float64 // of the diagonal, so that steps stay below the cap
	watch watch

	lowest       float64 // energy so far
	since, plain int     // steps since it fell, steps still to take downhill only
	spell        int     // how many the next time
}

// watch is the place a run of trusted steps began, to go back to when the run
// does not pay.
type watch struct {
	steps      int     // trusted so far in this run, 0 when none is under way
	wait       int     // plain steps to take before the next run
	penalty    int     // the next wait, doubled by every run that failed
	e, slope   float64 // energy and slope at the start
	far, first float64
	theta      float64
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
func (n *newton) refresh(r []float64) float64 {
	s := n.s
	q := s.evaluate(true)
	s.foldGhosts()
	s.sym.collect(s, r)
	e := q.Total()
	n.light = e - q.Stretch - q.Shear
	return e
}

func (n *newton) run(ctx context.Context, shape []float64) Result {
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
		return n.res
	}
	n.lowest = n.e
	if n.set.Downhill {
		n.plain = math.MaxInt
	}
	n.mixed = n.light + s.membrane()
	for k := range n.past {
		n.past[k], n.pastM[k] = n.e, n.mixed
	}
	n.res.Status = IterationLimit
	stalls := 0
	for {
		if n.res.Residual <= n.res.Tolerance {
			n.res.Status = Converged
			break
		}
		if ctx.Err() != nil {
			n.res.Status = Cancelled
			break
		}
		if n.res.Iterations >= n.set.MaxIterations {
			break
		}
		if !n.factor() {
			n.res.Status = Stalled
			break
		}
		moved, ok := n.step()
		if !ok {
			// the model's step does not lower the energy: more projection, strains
			// as they are, then a shift
			stalls++
			s.measureStrains(s.strain, s.skew)
			n.theta = 1
			if stalls > 1 {
				n.shift = max(10*n.shift, 1e-4*s.base.MeanDiagonal())
			}
			if stalls > 8 {
				n.res.Status = Stalled
				break
			}
			continue
		}
		n.patience()
		stalls, n.shift = 0, 0
		n.res.Steps++
		if n.set.Progress != nil {
			n.set.Progress(Progress{Iteration: n.res.Iterations, Energy: n.e, Residual: n.res.Residual, Step: moved, Shape: s.x[:3*s.nodes]})
		}
	}
	copy(shape, s.x[:3*s.nodes])
	n.res.Energy = s.evaluate(false)
	n.res.Strain = s.measureStrains(s.strain, s.skew)
	n.res.Deepest = s.deepest()
	for k := range s.sheet.Pairs {
		n.res.Deepest = max(n.res.Deepest, -s.sheet.Pairs[k].Gap(s.x))
	}
	return n.res
}

// patience turns to steps that only go down when trusted ones have not paid
// for long.
func (n *newton) patience() {
	switch {
	case n.e < n.lowest-1e-9*math.Abs(n.lowest):
		n.lowest, n.since = n.e, 0
	default:
		n.since++
	}
	if n.plain > 0 {
		n.plain--
	} else if n.since >= 25 {
		n.spell = min(2*n.spell+10, 100)
		n.plain, n.since = n.spell, 0
		n.watch = watch{}
	}
}

// factor assembles and factors, raising θ and then a shift until it succeeds.
func (n *newton) factor() bool {
	s := n.s
	shift := max(n.shift, n.damp)
	for fails := 0; fails < 30; fails++ {
		s.assemble(&s.sym, &s.base, &s.work, n.theta, false)
		if shift > 0 {
			s.work.Shift(shift)
		}
		n.res.Iterations++
		if ok, _ := s.work.Factor(); ok {
			return true
		}
		switch {
		case n.theta >= 1:
			shift = max(10*shift, 1e-6*s.base.MeanDiagonal())
		case fails >= 2:
			n.theta = 1
		default:
			n.theta = min(1, 2*n.theta+0.02)
		}
	}
	return false
}

// try evaluates the energy at s.best + a·s.px; soft is it without stretch and
// shear.
func (n *newton) try(a float64) (e, soft float64) {
	s := n.s
	for k, v := range s.best {
		s.x[k] = v + a*s.px[k]
	}
	q := s.evaluate(false)
	e = q.Total()
	return e, e - q.Stretch - q.Shear
}

// direction puts the Newton step into s.p and s.px.
func (n *newton) direction() (slope, far float64) {
	s := n.s
	copy(s.p, s.r)
	s.work.Solve(s.p)
	for k := range s.p {
		s.p[k] = -s.p[k]
		slope += s.p[k] * s.r[k]
	}
	s.sym.scatter(s, s.p, s.px)
	s.reflect(s.px, false)
	return slope, farthest(s.px[:3*s.nodes])
}

// step takes one Newton step with the factor in s.work and reports the farthest
// a node moved and whether the energy allowed any step.
func (n *newton) step() (moved float64, ok bool) {
	s := n.s
	slope, far := n.direction()
	if far > 1.5*n.set.StepCap && finite(slope) && slope < 0 {
		// stiffen all directions alike until the step is within bounds: the soft
		// ones give way, the stretch is still put right whole
		pp := 0.0
		for _, v := range s.p {
			pp += v * v
		}
		n.damp += -slope / pp * (far/n.set.StepCap - 1)
		if !n.factor() {
			return 0, false
		}
		slope, far = n.direction()
	}
	if !finite(slope) || !finite(far) || slope >= 0 {
		return 0, false
	}
	copy(s.best, s.x)
	a := 1.0
	if far > n.set.StepCap {
		a = n.set.StepCap / far
	}
	first := a
	slack := 1e-13*math.Abs(n.e) + 1e-15*n.res.Tolerance
	allowed := n.e
	for _, v := range n.past {
		if n.plain == 0 {
			allowed = max(allowed, v)
		}
	}
	allowedM := n.mixed
	for _, v := range n.pastM {
		allowedM = max(allowedM, v)
	}
	e, soft := n.try(a)
	w := &n.watch
	trusted, run := false, false
	if !(e <= allowed+slack) {
		m, miss := s.foresee(s.best, s.px, a)
		if miss > mismatch {
			a *= 0.95 * math.Sqrt(mismatch/miss)
			first = a
			e, soft = n.try(a)
			m, _ = s.foresee(s.best, s.px, a)
		}
		run = n.plain == 0 && soft+m <= allowedM+slack && finite(e)
	}
	switch {
	case e <= allowed+slack:
		if w.steps > 0 {
			w.steps, w.penalty = 0, 0
		}
		if n.theta > 0 && a == 1 {
			for a < 16 && 2*a*far <= 2*n.set.StepCap {
				if f, _ := n.try(2 * a); f < e-0.1*math.Abs(n.e-e) {
					a, e = 2*a, f
				} else {
					break
				}
			}
		}
	case run, n.plain == 0 && w.wait == 0 && w.steps < trust && finite(e):
		if w.steps == 0 && !run {
			w.e, w.slope, w.far, w.first, w.theta = n.e, slope, far, a, n.theta
			copy(s.refX, s.best)
			copy(s.refP, s.px)
			copy(s.refStrain, s.strain)
			copy(s.refSkew, s.skew)
		}
		if !run {
			w.steps++
		}
		trusted = true
	default:
		if w.steps > 0 {
			// the run did not pay: back to its start and along its first step
			w.steps = 0
			w.penalty = min(2*w.penalty+2, 32)
			w.wait = w.penalty
			copy(s.best, s.refX)
			copy(s.px, s.refP)
			copy(s.strain, s.refStrain)
			copy(s.skew, s.refSkew)
			n.e, slope, far, first, n.theta = w.e, w.slope, w.far, w.first, w.theta
			a = first
		} else if w.wait > 0 {
			w.wait--
		}
		for {
			a /= 2
			if a < 1e-8 {
				copy(s.x, s.best)
				n.e = n.refresh(s.r)
				return 0, false
			}
			if e, _ = n.try(a); e <= n.e+1e-4*a*slope+slack {
				break
			}
		}
	}
	n.try(a)
	s.lagFrom(s.best, s.px, min(a, 1))
	switch {
	case a >= 1:
		n.theta /= 1.5
		if n.theta < 0.02 {
			n.theta = 0
		}
	case a < first:
		n.theta = min(1, 2*n.theta+0.02)
	}
	e = n.refresh(s.r1)
	moved = a * far
	e = n.correct(e, a, moved)
	n.e = e
	copy(s.r, s.r1)
	n.res.Residual = largest(s.r)
	n.mixed = n.light + s.membrane()
	copy(n.pastM[:], n.pastM[1:])
	n.pastM[memory-1] = n.mixed
	if n.damp > 0 && far < n.set.StepCap/2 {
		if n.damp /= 8; n.damp < 1e-9*s.base.MeanDiagonal() {
			n.damp = 0
		}
	}
	if trusted {
		if e <= allowed+slack { // the corrections brought it back
			w.steps = 0
		} else {
			return moved, true
		}
	}
	copy(n.past[:], n.past[1:])
	n.past[memory-1] = e
	return moved, true
}

// correct applies second-order corrections to the trial in s.x, whose gradient
// is s.r1 and energy e; s.r is the gradient before the step.
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
		s.work.Solve(s.d)
		for k := range s.d {
			s.d[k] = -s.d[k]
		}
		copy(s.trial, s.x)
		s.sym.scatter(s, s.d, s.px)
		s.reflect(s.px, false)
		d := farthest(s.px[:3*s.nodes])
		if !(d < last) {
			break
		}
		for k, v := range s.trial {
			s.x[k] = v + s.px[k]
		}
		if f := s.evaluate(false).Total(); !(f < e) {
			copy(s.x, s.trial)
			break
		}
		s.lagFrom(s.trial, s.px, 1)
		e = n.refresh(s.r1)
		last = d
	}
	return e
}

// lagFrom is lag for a step taken from the shape x.
func (s *Solver) lagFrom(x, p []float64, a float64) {
	keep := s.x
	s.x = x
	s.lag(p, a)
	s.x = keep
}

func largest(r []float64) float64 {
	m := 0.0
	for _, v := range r {
		m = max(m, math.Abs(v))
	}
	return m
}

func farthest(p []float64) float64 {
	m := 0.0
	for k := 0; k+2 < len(p); k += 3 {
		m = max(m, p[k]*p[k]+p[k+1]*p[k+1]+p[k+2]*p[k+2])
	}
	return math.Sqrt(m)
}
