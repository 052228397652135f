package window

import "cmp"

// coarse is a half set made on the Coarse grid too: what it begins from on a finer one,
// and what is asked in other ways than as it is shown.
type coarse struct {
	s    *solver
	c    *Window
	told bool // it is let go and measured
}

// finerThan reports that g is finer than h both ways.
func (g Grid) finerThan(h Grid) bool { return g.NU > h.NU && g.NV > h.NV }

// fromCoarse gives the shape and the levels to begin a cold forming with: those of the
// same set on the Coarse grid, where that is coarser: a factorisation there costs a
// quarter of one on the Fine grid, and on all grids the inside of the tucks begins alike.
// nil where they do not serve. Of 40 designs of RandomTucked a forming takes 79
// factorisations in the mean; of the demo 'sound' three in ten fail. Tried, with no more than 5 %
// fewer: looser tolerances before the last, other shares of projection, pivots
// mended instead, downhill only, more or fewer corrections, warm strains, cloth that
// stretches more at first (a fifth more), first grids of 10 × 5 to 20 × 10.
func (s *solver) fromCoarse(c *Window, levels []float64) (x, up []float64, err error) {
	if levels != nil || s.set.way > 0 || len(s.f.panels) > 1 || !c.Grid.finerThan(Coarse) {
		return nil, nil, nil
	}
	if s.coarse == nil {
		set := *s.set
		set.Grid = Coarse
		t := &solver{ctx: s.ctx, set: &set, f: newFrame(s.f.d, s.f.run, Coarse), sh: s.sh, first: true}
		w := &Window{Design: c.Design, Grid: Coarse, U: t.f.u, V: t.f.v, Formed: t.f.start()}
		t.f.d = &w.Design
		t.f.on, t.f.onKnown = s.f.sticks(), true // the same on every grid
		if err := s.by(t, "", func() error { return t.form(w, nil) }); err != nil || w.missesSticks() {
			return nil, nil, err
		}
		s.coarse = &coarse{s: t, c: w}
	}
	from := s.coarse
	return s.f.carry(from.s.f, from.c.Formed), from.c.levels, nil
}

// coarsely gives the half set c made cold on the Coarse grid and measured, bowed where
// bow says so, and that one's solver; c itself where its grid is no finer.
func (s *solver) coarsely(c *Window, phase string, bow bool) (*solver, *Window, error) {
	if !c.Grid.finerThan(Coarse) {
		return s, c, nil
	}
	k := s.coarse
	if k == nil {
		set := *s.set
		set.Grid = Coarse
		t, w := begin(s.ctx, c.Design, c.Design.Run(), &set)
		k = &coarse{s: t, c: w}
		s.coarse = k
	}
	err := s.by(k.s, phase, func() (err error) {
		if !k.told {
			if err = k.settle(); err != nil {
				return err
			}
			k.told = true
			k.s.measure(k.c)
		}
		if bow && !k.c.BowDone && k.c.Converged() {
			err = k.s.bow(k.c)
		}
		return err
	})
	return k.s, k.c, err
}

// settle lets go what may have been formed already.
func (k *coarse) settle() (err error) {
	k.s.set.brisk = true
	if k.c.levels == nil {
		_, err = k.s.formAndRelease(k.c, nil)
	} else if err = k.s.sh.Reset(k.s.f.damp(k.s.set)); err == nil { // freeze asks of its grid
		_, err = k.s.release(k.c, nil)
	}
	return err
}

// by has t, which solves the same half set otherwise, do some work for s: its
// factorisations count as those of s, told under phase where that is not empty.
func (s *solver) by(t *solver, phase string, work func() error) error {
	if t == s {
		return work()
	}
	before := s.count - t.count
	t.set.Progress = nil
	if p := s.set.Progress; p != nil {
		t.set.Progress = func(own string, n int) { p(cmp.Or(phase, own), before+n) }
	}
	err := work()
	s.count = before + t.count
	return err
}
