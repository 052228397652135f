package window

import (
	"context"
	"fmt"

	"ruffwright/sim/measure"
	"ruffwright/sim/shell"
)

// Settings steer a solve. The zero value solves on the Fine grid and measures
// everything.
type Settings struct {
	Grid Grid // the zero value means Fine
	// MaxIterations bounds the factorisations of each phase; 0 means 400.
	MaxIterations int
	// Stretch_Npm and Shear_Npm are the cloth's stretch and shear stiffness in
	// N/m, numerical rather than measured: 0 means 8,000 and 60. Stiffer cloth
	// strains less at the tucks and costs a little more work.
	Stretch_Npm, Shear_Npm float64
	// SkipBow leaves out the bow test (12 warm solves), SkipOther the other
	// equilibrium, SkipTangents bob and lean.
	SkipBow, SkipOther, SkipTangents bool
	// Follow finds out, where the tangents have a negative pivot sideways, whether
	// the loops really lean over: up to 300 factorisations of a whole set.
	Follow bool
	// Finer solves the shape once more, cold, on the Finest grid, where that is
	// finer, and measures how far that moves it.
	Finer bool
	// Progress is told what is being solved and how many factorisations were
	// done; nil means no calls.
	Progress func(phase string, iterations int)
}

func (s *Settings) defaults() error {
	if s.Grid == (Grid{}) {
		s.Grid = Fine
	}
	if s.MaxIterations <= 0 {
		s.MaxIterations = 400
	}
	if s.Stretch_Npm == 0 {
		s.Stretch_Npm = 8000
	}
	if s.Shear_Npm == 0 {
		s.Shear_Npm = 60
	}
	if !(s.Stretch_Npm > 0 && s.Stretch_Npm < 1e8) || !(s.Shear_Npm > 0 && s.Shear_Npm < 1e8) {
		return fmt.Errorf("window: Stretch_Npm = %v, Shear_Npm = %v; allowed is above 0 to 1e8", s.Stretch_Npm, s.Shear_Npm)
	}
	return s.Grid.validate()
}

// Window is a solved half set.
type Window struct {
	Design Design
	Grid   Grid
	// U and V are the grid lines on the panel, mm.
	U, V []float64
	// Formed and Shape are the node positions after forming and at rest, 3
	// numbers a node (x out from the neckline, y along it, z up from the band's
	// bottom edge), node (i, j) at 3(i·len(V) + j).
	Formed, Shape []float64
	// BowedFront and BowedBack are the rest shapes at a bow of 60°, nil if that
	// was skipped.
	BowedFront, BowedBack []float64

	measure.Values
	// Other is the shape of the other equilibrium, nil if none was found or looked for.
	Other []float64
	// Form and Release tell how the two solves ended.
	Form, Release shell.Result

	frozen *shell.Frozen
	// How Formed and Shape moved from those of the window they started from.
	formedDrift, shapeDrift drift
}

// Converged reports whether forming and release both came to rest.
func (c *Window) Converged() bool {
	return c.Form.Status == shell.Converged && c.Release.Status == shell.Converged
}

// Node returns the position of node (i, j) of a shape of this window.
func (c *Window) Node(shape []float64, i, j int) [3]float64 {
	return [3]float64(shape[3*(i*len(c.V)+j):])
}

type solver struct {
	ctx   context.Context
	set   *Settings
	f     *frame
	sh    *shell.Solver
	whole *shell.Solver // of a whole set, where one is followed
	count int
}

// Settle forms, freezes and releases a run of folds. What they share is read from
// d: all but Panel_mm, Pitch_mm, Anchor, Sewn and the tucks, which d.Run gives as
// folds. It measures nothing. Each panel keeps to its side of the fixed planes of its
// folds: neighbours that are alike do exactly that to each other, unlike ones would
// push the planes aside.
//
// warm, which may be nil, is a half set solved before; it serves half sets alone.
// Where the design changed little its shapes are the start, and if that does not
// converge a cold start follows. Where sets may lie in more than one way, the two may
// end in different ones. Cancelling ctx ends it within one factorisation with what was
// reached. An error means bad input or a cancelled context; whether the solve came to
// rest is told by Converged, Form and Release.
func Settle(ctx context.Context, d Design, run Run, set Settings, warm *Window) (*Window, error) {
	_, c, err := settle(ctx, d, run, &set, warm)
	return c, err
}

func settle(ctx context.Context, d Design, run Run, set *Settings, warm *Window) (*solver, *Window, error) {
	if err := run.validate(); err != nil {
		return nil, nil, err
	}
	if err := set.defaults(); err != nil {
		return nil, nil, err
	}
	s := &solver{ctx: ctx, set: set, f: newFrame(&d, run, set.Grid), sh: new(shell.Solver)}
	c := &Window{Design: d, Grid: set.Grid, U: s.f.u[:s.f.lines()], V: s.f.v}
	s.f.d = &c.Design
	ok, err := false, error(nil)
	if warm.warmable(s.f, set.Grid) {
		ok, err = s.formAndRelease(c, warm)
	}
	if !ok && err == nil {
		_, err = s.formAndRelease(c, nil)
	}
	c.Iterations = s.count
	return s, c, err
}

// Solve settles a half set, from warm as Settle does, and measures it.
func Solve(ctx context.Context, d Design, set Settings, warm *Window) (*Window, error) {
	if err := d.Validate(); err != nil {
		return nil, err
	}
	s, c, err := settle(ctx, d, d.Run(), &set, warm)
	if err != nil {
		return c, err
	}
	s.measure(c)
	if err := ctx.Err(); err != nil {
		return c, err
	}
	if c.Release.Status == shell.Converged {
		if !set.SkipTangents {
			if err := s.tangents(c); err != nil {
				return c, err
			}
		}
		if !set.SkipBow {
			if err := s.bow(c); err != nil {
				return c, err
			}
		}
		if !set.SkipOther && d.Anchor != Both {
			if err := s.other(c); err != nil {
				return c, err
			}
		}
	}
	if set.Finer && c.Converged() {
		if err := s.finer(c); err != nil {
			return c, err
		}
	}
	s.sum(c)
	return c, ctx.Err()
}

var upright = [3]float64{0, 0, -1}

// formAndRelease fills the shapes of c, from warm's where it is not nil.
func (s *solver) formAndRelease(c *Window, warm *Window) (ok bool, err error) {
	forming := s.f.forming()
	isWarm := warm != nil
	c.formedDrift, c.shapeDrift = drift{}, drift{}
	if isWarm {
		c.Formed = s.onward(warm.Formed, &warm.formedDrift, warm)
	} else {
		c.Formed = s.f.start()
	}
	if c.Form, err = s.run("forming", s.f.sheet(forming, [3]float64{}, true, nil, s.set), c.Formed, false); err != nil {
		return false, err
	}
	if isWarm && c.Form.Status.Early() {
		return false, nil
	}
	if isWarm {
		c.formedDrift = s.drifted(c.Formed, warm.Formed, warm)
	}
	c.frozen = nil
	if c.Design.FrozenU_uNm > 0 || c.Design.FrozenV_uNm > 0 {
		c.frozen = s.sh.Freeze(c.Formed, c.Design.FrozenU_uNm, c.Design.FrozenV_uNm, 0, 0, c.Design.Quality)
	}
	if isWarm {
		c.Shape = s.onward(warm.Shape, &warm.shapeDrift, warm)
	} else {
		c.Shape = append([]float64(nil), c.Formed...)
	}
	sheet := s.released(c)
	if c.Release, err = s.run("releasing", sheet, c.Shape, false); err != nil {
		return false, err
	}
	if isWarm {
		c.shapeDrift = s.drifted(c.Shape, warm.Shape, warm)
	}
	if c.Release.Status.Early() && !isWarm {
		// once more, letting the weight come on by quarters
		shape := append([]float64(nil), c.Formed...)
		var r shell.Result
		for _, g := range []float64{0, 0.25, 0.5, 0.75, 1} {
			s.sh.SetGravity([3]float64{0, 0, -g})
			if r, err = s.again("releasing by quarters", shape, false); err != nil {
				return false, err
			}
		}
		if !r.Status.Early() {
			c.Release, c.Shape = r, shape
		}
	}
	return c.Converged(), nil
}

// forming is how many times the cloth's rigidity the wet sheet on its sticks
// has.
func (f *frame) forming() float64 {
	if f.tucked() {
		return 60
	}
	return 20
}

// released is the sheet after forming: set, free of the sticks, upright.
func (s *solver) released(c *Window) *shell.Sheet {
	sh := s.f.sheet(1, upright, false, c.frozen, s.set)
	s.f.setBack(sh, c.Formed, s.f.forming())
	return sh
}

// run solves one phase; the error is the context's.
func (s *solver) run(phase string, sheet *shell.Sheet, x []float64, warm bool) (shell.Result, error) {
	if err := s.sh.Reset(sheet); err != nil {
		return shell.Result{}, fmt.Errorf("window: %s: %w", phase, err)
	}
	return s.again(phase, x, warm)
}

// again solves the sheet that the solver was last given.
func (s *solver) again(phase string, x []float64, warm bool) (shell.Result, error) {
	set := shell.Settings{MaxIterations: s.set.MaxIterations, Warm: warm}
	if s.set.Progress != nil {
		set.Progress = func(p shell.Progress) { s.set.Progress(phase, s.count+p.Iteration) }
	}
	r := s.sh.Solve(s.ctx, x, set)
	s.count += r.Iterations
	return r, s.ctx.Err()
}
