package window

import (
	"context"
	"fmt"

	"ruffwright/sim/cloth"
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
	// N/m: 0 means 8,000, numerical rather than measured, and cloth.Shear_Npm. Stiffer
	// cloth strains less at the tucks and costs a little more work.
	Stretch_Npm, Shear_Npm float64
	// SkipBow leaves out the bow test (12 warm solves), SkipOther the other
	// equilibrium, SkipTangents bob and lean.
	SkipBow, SkipOther, SkipTangents bool
	// Follow finds out, where the tangents have a negative pivot sideways, whether
	// the loops really lean over: up to 300 factorisations of a whole set.
	Follow bool
	// Finer solves the shape once more, cold, on the Finest grid, where that is
	// finer, and measures how far that moves it, and formed in other ways. Ways does the
	// latter alone.
	Finer, Ways bool
	// Setting tries on the Coarse grid how the half set hangs of limper and stiffer cloth
	// and, where starched, how it holds set less well, damp and worn.
	Setting bool
	// way is how the sticks are put in, of ways.
	way int
	// begun is the same design on the Coarse grid, where it was formed on that before.
	begun *coarse
	// brisk asks of the bow no more than how far it goes.
	brisk bool
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
		s.Shear_Npm = cloth.Shear_Npm
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
	levels                  []float64 // of the sticks it was formed on
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
	spent int  // of leanWork, before it begins
	first bool // of the ways of forming try the first alone

	coarse *coarse // the half set on that grid, where it was formed or asked for
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
	s, c := begin(ctx, d, run, set)
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

// begin gives a window that is not solved yet, and its solver.
func begin(ctx context.Context, d Design, run Run, set *Settings) (*solver, *Window) {
	s := &solver{ctx: ctx, set: set, f: newFrame(&d, run, set.Grid), sh: new(shell.Solver), coarse: set.begun}
	c := &Window{Design: d, Grid: set.Grid, U: s.f.u[:s.f.lines()], V: s.f.v}
	s.f.d = &c.Design
	return s, c
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
	c.takeOver(warm)
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
	if err := s.further(c); err != nil {
		return c, err
	}
	s.sum(c)
	return c, ctx.Err()
}

// further measures what takes other solves of c, and is not known of it yet.
func (s *solver) further(c *Window) error {
	if !c.Converged() {
		return nil
	}
	var err error
	switch {
	case c.MeshDone:
	case s.set.Finer:
		err = s.finer(c)
	case s.set.Ways:
		err = s.otherWays(c)
	}
	if err == nil && s.set.Setting && !c.StiffDone {
		err = s.setting(c)
	}
	return err
}

// takeOver keeps from the half set that c started from, where that is the same one,
// what further solves told of it.
func (c *Window) takeOver(warm *Window) {
	const same_mm = 0.01
	if warm == nil || warm.Grid != c.Grid || warm.Design != c.Design || !warm.Converged() || !c.Converged() || farthest(warm.Shape, c.Shape) > same_mm {
		return
	}
	was, m := &warm.Values, &c.Values
	m.MeshDone, m.Mesh_mm, m.Paths_mm, m.BowPart_mm, m.Apart_mm, m.Near_mm = was.MeshDone, was.Mesh_mm, was.Paths_mm, was.BowPart_mm, was.Apart_mm, was.Near_mm
	m.StiffDone, m.StiffBowDone, m.Limper_mm, m.Stiffer_mm = was.StiffDone, was.StiffBowDone, was.Limper_mm, was.Stiffer_mm
	m.Leans, m.Leans_mm = was.Leans, was.Leans_mm
	m.SettingDone, m.SettingBow_mm, m.SettingHeight_mm, m.SettingDroop_mm = was.SettingDone, was.SettingBow_mm, was.SettingHeight_mm, was.SettingDroop_mm
}

var upright = [3]float64{0, 0, -1}

// formAndRelease fills the shapes of c, from warm's where it is not nil.
func (s *solver) formAndRelease(c *Window, warm *Window) (ok bool, err error) {
	isWarm := warm != nil
	c.formedDrift, c.shapeDrift = drift{}, drift{}
	switch {
	case !isWarm:
		c.Formed = s.f.start()
	case s.f.sticks() != nil:
		// Followed on, without their levels, 48 tucked sets took 461 factorisations, not 424.
		c.Formed = s.adapt(warm.Formed, warm)
	default:
		c.Formed = s.onward(warm.Formed, &warm.formedDrift, warm)
	}
	var levels []float64
	if isWarm {
		levels = warm.levels
	}
	if err = s.form(c, levels); err != nil {
		return false, err
	}
	if isWarm && c.Form.Status.Early() {
		return false, nil
	}
	if isWarm {
		c.formedDrift = s.drifted(c.Formed, warm.Formed, warm)
	}
	return s.release(c, warm)
}

// release freezes c as it was formed and lets it go, from warm's shape where that is not
// nil.
func (s *solver) release(c *Window, warm *Window) (ok bool, err error) {
	isWarm := warm != nil
	s.freeze(c)
	if isWarm {
		c.Shape = s.onward(warm.Shape, &warm.shapeDrift, warm)
	} else {
		c.Shape = append([]float64(nil), c.Formed...)
	}
	sheet := s.released(c)
	if c.Release, err = s.run("releasing", sheet, c.Shape, shell.Settings{}); err != nil {
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
			if r, err = s.again("releasing by quarters", shape, shell.Settings{}); err != nil {
				return false, err
			}
		}
		if !r.Status.Early() {
			c.Release, c.Shape = r, shape
		}
	}
	return c.Converged(), nil
}

// freeze sets c in its formed shape, as firmly as its design says.
func (s *solver) freeze(c *Window) {
	c.frozen = nil
	if c.Design.starched() {
		c.frozen = s.sh.Freeze(c.Formed, c.Design.FrozenU_uNm, c.Design.FrozenV_uNm, 0, c.Design.FrozenShear_Npm, c.Design.Quality)
	}
}

func (d *Design) starched() bool { return d.FrozenU_uNm > 0 || d.FrozenV_uNm > 0 }

// forming is how many times the cloth's rigidity the damp sheet has that is formed: it
// dries on its sticks, or hung, as it is. Loops that find their shape by themselves find
// the same with any rigidity, and sooner with a greater one.
func (f *frame) forming() float64 {
	if f.d.Hung || f.sticks() != nil {
		return 1
	}
	return 20
}

// released is the sheet after forming: set, free of the sticks, upright.
func (s *solver) released(c *Window) *shell.Sheet {
	sh := s.f.sheet(1, upright, false, c.frozen, s.set)
	s.f.setBack(sh, c.Formed)
	return sh
}

// run solves one phase with the solver's own settings but for some; the error is the
// context's.
func (s *solver) run(phase string, sheet *shell.Sheet, x []float64, set shell.Settings) (shell.Result, error) {
	if err := s.sh.Reset(sheet); err != nil {
		return shell.Result{}, fmt.Errorf("window: %s: %w", phase, err)
	}
	return s.again(phase, x, set)
}

// again solves the sheet that the solver was last given.
func (s *solver) again(phase string, x []float64, set shell.Settings) (shell.Result, error) {
	set.MaxIterations = s.set.MaxIterations
	if s.set.Progress != nil {
		set.Progress = func(p shell.Progress) { s.set.Progress(phase, s.count+p.Iteration) }
	}
	r := s.sh.Solve(s.ctx, x, set)
	s.count += r.Iterations
	return r, s.ctx.Err()
}
