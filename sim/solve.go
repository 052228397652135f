package sim

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
	"ruffwright/sim/window"
)

// Options steer Solve. The zero value solves on the fine grid and measures
// everything.
type Options struct {
	Grid window.Grid // zero: window.Fine
	// SkipBow leaves out the bow test, SkipOther the other equilibrium (sewn at
	// one edge), SkipTangents bob and lean: the shape alone comes several times
	// sooner. SkipFiner, and SkipTangents too, leaves out of a solve on the fine grid
	// what a finer one and other ways of setting do to tucked sets, whether those lean
	// over, and what damp and wear do to starched ones: up to nine tenths of the time of
	// tucked sets.
	SkipBow, SkipOther, SkipTangents, SkipFiner bool
	// Warm is an earlier ruff to start from; nil starts cold. Where it does not fit it
	// is not used.
	Warm *Solved
	// Progress is told how far the solve is, from the solving goroutine; nil
	// means no calls.
	Progress func(Progress)
}

// Progress is how far a solve is.
type Progress struct {
	Cell, Cells int // the half set at hand, counted from 0, of how many distinct ones
	Phase       string
	Iterations  int // factorisations for this half set
}

// Solve gives the whole ruff of s: plan, closed form and the solved mechanics of
// every distinct half set around the neckline.
//
// Half sets differ by the neckline's curvature alone (an ellipse has about a
// quarter of its panels distinct, a circle one); each starts from the one
// solved before it, so the cost is linear in their number. The bow test, the
// other equilibrium and the finer grid are tried on the least and the most curved
// ones only. Sets that differ are solved as regular sets of their mean panel
// (Solved.Alike).
//
// An error means bad input (it names the scheme's field) or a cancelled
// context, whose error it wraps; a ruff that did not come to rest is told by
// Solved.Converged.
func Solve(ctx context.Context, s scheme.Scheme, opt Options) (Ruff, error) {
	r, err := Draw(s)
	if err != nil {
		return Ruff{}, err
	}
	return Settle(ctx, r, opt)
}

// Settle is Solve for a ruff that is drawn already.
func Settle(ctx context.Context, r Ruff, opt Options) (Ruff, error) {
	design, err := Design(r)
	if err != nil {
		return r, err
	}
	kappas, of := distinct(r)
	grid := opt.Grid
	if grid == (window.Grid{}) {
		grid = window.Fine
	}
	out := &Solved{Of: of, Grid: grid, Alike: !r.Plan.Row.Regular()}
	for i, kappa := range kappas {
		d := design
		d.Kappa_1pmm = kappa
		ends := i == 0 || i == len(kappas)-1
		set := window.Settings{
			Grid:         grid,
			SkipBow:      opt.SkipBow || !ends,
			SkipOther:    opt.SkipOther || !ends || !r.Plan.Row.OneEdge(),
			SkipTangents: opt.SkipTangents,
		}
		// What costs more solves is asked of the ruff as it is shown, not while it changes.
		more := !opt.SkipFiner && !opt.SkipTangents && ends && grid == window.Fine
		set.Finer, set.Setting = more && d.Tucked(), more && !opt.SkipBow
		set.Follow = ends && (more || !d.Tucked())
		if opt.Progress != nil {
			set.Progress = func(phase string, iterations int) {
				opt.Progress(Progress{Cell: i, Cells: len(kappas), Phase: phase, Iterations: iterations})
			}
		}
		c, err := window.Solve(ctx, d, set, warmFor(opt.Warm, out.Halves, kappa))
		if err != nil {
			if ctx.Err() != nil {
				return r, fmt.Errorf("solve stopped at half set %d of %d: %w", i+1, len(kappas), ctx.Err())
			}
			return r, refused(err, r.Plan)
		}
		out.Halves = append(out.Halves, c)
		out.Sets = append(out.Sets, c.Values)
	}
	for _, k := range of {
		out.Sets[k].Panels++
	}
	out.Ruff = measure.Whole(out.Sets)
	assemble(r.Plan, out)
	r.Solved = out
	return r, nil
}

// warmFor gives the half set to start from: of an earlier ruff the one of the nearest
// curvature; without one, the half set just solved; nil for a cold start.
func warmFor(earlier *Solved, now []*window.Window, kappa float64) *window.Window {
	if earlier != nil && len(earlier.Halves) > 0 {
		return nearest(earlier, kappa, func(*window.Window) bool { return true })
	}
	if len(now) > 0 {
		return now[len(now)-1]
	}
	return nil
}

// distinct gives the distinct curvatures of the ruff's half sets, ascending, and
// for every panel which of them is its own. Curvatures that differ by rounding
// alone are one.
func distinct(r Ruff) (kappas []float64, of []int) {
	half := r.Folded.Half
	of = make([]int, len(half))
	order := make([]int, len(half))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(half[a].Kappa_1pmm, half[b].Kappa_1pmm) })
	for _, i := range order {
		k := half[i].Kappa_1pmm
		if n := len(kappas); n == 0 || k-kappas[n-1] > 1e-9*r.Plan.Neckline_mm*k {
			kappas = append(kappas, k)
		}
		of[i] = len(kappas) - 1
	}
	return kappas, of
}
