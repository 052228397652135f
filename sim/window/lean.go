package window

import (
	"context"
	"math"

	"ruffwright/sim/measure"
	"ruffwright/sim/shell"
)

const (
	// leanPush is the push that starts a set leaning, as a share of its weight.
	leanPush = 0.1
	// leanPushed_mm is how far the push lasts.
	leanPushed_mm = 2
	// leanLeast_mm is how far off its upright place a fold of the outer edge must
	// stay for its loops to be said to lean.
	leanLeast_mm = 1
	// leanStep_mm is how far the cloth may go between two looks for what may touch.
	leanStep_mm = 0.4
	// leanRounds and leanWork bound the looks and the factorisations.
	leanRounds, leanWork = 150, 300
	// secondWork bounds those on the second grid, which are dearer. Of 13 tucked sets none
	// that was decided took more.
	secondWork = 150
)

// leanSecond is the grid that must tell the same of tucked sets as Coarse.
var leanSecond = Grid{20, 10}

// follow finds out whether the loops really lean over where the tangent stiffness
// is not positive for moves sideways. That alone is a suspicion: loops that lean push
// each other up again, which no tangent sees.
//
// One whole set, crest to crest, closed round by the turn that carries a set onto
// the next, leaves the mirrors' symmetry and keeps what all sets do alike. It is
// pushed sideways by a tenth of its weight until it has gone 2 mm, let go, and
// followed downhill to rest with real contact of panel against panel (loose,
// shell.Near). Should loops stand off by 1 mm or more then, they lean.
//
// The way is followed on the Coarse grid, whatever the window's own: some 30 to 150
// factorisations of twice the window's size and two to four times its bandwidth, at
// most leanWork. The lean of tucked sets hangs on the mesh: of 13 random ones followed on
// Coarse and on Fine, 8 stayed leaning on both, 1 was undecided on both, and 4 came back
// or were undecided on Fine alone. So of a finer window they are followed on a second
// grid, and where the two differ it is undecided.
func (s *solver) follow(c *Window) error {
	err := s.followOn(c, Coarse)
	if err != nil || !s.f.tucked() || c.Grid == Coarse || c.Leans == measure.LeanUndecided {
		return err
	}
	leans, mm := c.Leans, c.Leans_mm
	s.spent = leanWork - secondWork
	err = s.followOn(c, leanSecond)
	s.spent = 0
	if c.Leans != leans {
		c.Leans, mm = measure.LeanUndecided, 0
	}
	c.Leans_mm = math.Min(c.Leans_mm, mm)
	return err
}

// followOn follows c on a grid.
func (s *solver) followOn(c *Window, g Grid) error {
	if c.Grid == g {
		return s.lean(c)
	}
	t, on, err := s.on(c, g)
	if err != nil {
		return err
	}
	c.Leans, c.Leans_mm = measure.LeanUndecided, 0
	if !on.Converged() {
		return nil
	}
	t.spent = s.spent
	err = s.by(t, "", func() error { return t.lean(on) })
	c.Leans, c.Leans_mm = on.Leans, on.Leans_mm
	return err
}

// on gives c made cold on another grid, and that one's solver.
func (s *solver) on(c *Window, g Grid) (t *solver, w *Window, err error) {
	const phase = "pushing the loops sideways"
	if g == Coarse && c.Grid.finerThan(g) {
		return s.coarsely(c, phase, false)
	}
	set := *s.set
	set.Grid, set.begun = g, s.coarse
	t, w = begin(s.ctx, c.Design, c.Design.Run(), &set)
	err = s.by(t, phase, func() error {
		_, err := t.formAndRelease(w, nil)
		return err
	})
	return t, w, err
}

// lean pushes one whole set that the half set c makes, closed round.
func (s *solver) lean(c *Window) error {
	r, set, err := s.repeat(c, 2, Closed)
	if err != nil {
		return err
	}
	r.spent = s.spent
	sn, cs := math.Sincos(s.f.panels[0].a) // sideways where the trough is
	c.Leans, c.Leans_mm, err = r.pushOver(r.f.loosen(r.released(set)), set.Shape, [3]float64{-sn, cs, 0}, c.Design.Thickness_mm)
	s.count = r.count
	return err
}

// pushOver pushes the upright shape start of a window sideways, lets it go and tells
// what becomes of it; layers more than deep mm through each other that were not so
// before leave it undecided.
func (s *solver) pushOver(w *loose, start []float64, sideways [3]float64, deep float64) (l measure.Lean, mm float64, err error) {
	x := append([]float64(nil), start...)
	push := upright
	for r := range push {
		push[r] += leanPush * sideways[r]
	}
	work := s.spent
	if _, err := s.downhill(w, x, push, func() bool { return w.outer(start, x) > leanPushed_mm }, &work); err != nil {
		return measure.LeanUndecided, 0, err
	}
	gone := func() bool { return w.outer(start, x) > measure.LeanFar_mm }
	rest, err := s.downhill(w, x, upright, gone, &work)
	if err != nil || !rest && !gone() || w.through(x, deep) > w.through(start, deep) {
		return measure.LeanUndecided, 0, err
	}
	switch outer := w.outer(start, x); {
	case outer >= leanLeast_mm:
		return measure.LeanStays, math.Min(outer, measure.LeanFar_mm), nil
	case w.most(start, x) >= leanLeast_mm:
		return measure.LeanInner, 0, nil
	}
	return measure.LeanReturns, 0, nil
}

// downhill follows x downhill until it is at rest or done says so. It is at rest when
// the solver says so of a step too short to bring anything new near, or when neither
// shape nor energy moves any more: where the nearest place of a neighbour changes from
// one triangle to the next the force has a step, and the cloth may rest on it.
func (s *solver) downhill(w *loose, x []float64, gravity [3]float64, done func() bool, work *int) (rest bool, err error) {
	sh := s.whole
	if sh == nil {
		sh = new(shell.Solver)
		s.whole = sh
	}
	base := make([]float64, len(x))
	last, still := math.Inf(1), 0
	for range leanRounds {
		if *work >= leanWork {
			return false, nil
		}
		w.sheet.Gravity = gravity
		w.sheet.Pairs, w.sheet.Near = w.own, w.near(x, 2*leanStep_mm)
		copy(base, x)
		if err := sh.Reset(w.sheet); err != nil {
			return false, err
		}
		ctx, stop := context.WithCancel(s.ctx)
		r := sh.Solve(ctx, x, shell.Settings{MaxIterations: 12, Warm: true, Downhill: true, StepCap: leanStep_mm, Progress: func(p shell.Progress) {
			if s.set.Progress != nil {
				s.set.Progress("pushing the loops sideways", s.count+p.Iteration)
			}
			if farthest(base, p.Shape) > leanStep_mm {
				stop()
			}
		}})
		stop()
		s.count += r.Iterations
		*work += r.Iterations
		if err := s.ctx.Err(); err != nil {
			return false, err
		}
		if done() {
			return false, nil
		}
		moved, e := farthest(base, x), r.Energy.Total()
		if r.Status == shell.Converged && moved < 0.01 {
			return true, nil
		}
		if moved < 0.01 && last-e < 1e-6*w.scale {
			if still++; still == 2 {
				return true, nil
			}
		} else {
			still = 0
		}
		last = e
	}
	return false, nil
}

// farthest is the largest distance of two shapes' nodes.
func farthest(a, b []float64) (m float64) {
	for k := 0; k+2 < len(a); k += 3 {
		p, q, r := a[k]-b[k], a[k+1]-b[k+1], a[k+2]-b[k+2]
		m = max(m, p*p+q*q+r*r)
	}
	return math.Sqrt(m)
}
