package solving

import (
	"errors"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/window"
	"ruffwright/wasm/wire"
)

// grid is the grid that the request asks for.
func (j *job) grid() window.Grid {
	if j.r.Coarse {
		return window.Coarse
	}
	return window.Fine
}

// solve answers with the shape, then with bow, bob and lean, then with the other
// equilibrium. Each result holds all that came before. The later ones start from
// the earlier's shape and so cost what they add. A shape that did not come to
// rest is the last result: nothing can be measured on it. On a neck that is not
// round, where many half sets differ, a coarse shape comes before all that.
//
// A coarse solve starts from the ruff before it, if that is alike; a fine one
// never does, so that the same scheme gives the same numbers whatever was
// looked at before (tucked sets may lie in more than one way), in the page as in
// the command.
func (j *job) solve() {
	r, design, err := j.drawn()
	if err != nil {
		j.refuse(err)
		return
	}
	opt := sim.Options{Grid: window.Coarse, SkipBow: true, SkipTangents: true, SkipOther: true, Progress: j.progress}
	settle := func() bool {
		settled, err := sim.Settle(j.ctx, r, opt)
		if err != nil {
			j.refuse(err)
			return false
		}
		r = settled
		return true
	}
	tell := func(awaits []string) {
		j.say(wire.Reply{Last: len(awaits) == 0, Result: &wire.Result{Solved: r.Solved, Awaits: awaits, Took: j.took()}})
	}

	if j.r.Coarse || r.Plan.Given.Wearer.Ratio != 1 {
		opt.Warm = j.b.warm.near(design, opt.Grid)
		if !settle() {
			return
		}
		j.b.warm.keep(r.Solved)
	}
	if !j.r.Coarse {
		if r.Solved != nil {
			tell([]string{"fine"})
		}
		opt.Grid, opt.Warm = window.Fine, nil
		if !settle() {
			return
		}
	}
	var more []string
	if skip := j.r.Skip; r.Solved.Converged() {
		if !skip.Bow || !skip.Tangents {
			more = append(more, "bow")
		}
		if !skip.Other && r.Plan.Row.OneEdge() {
			more = append(more, "other")
		}
	}
	tell(more)
	for len(more) > 0 {
		opt.Warm = r.Solved
		if more[0] == "bow" {
			opt.SkipBow, opt.SkipTangents = j.r.Skip.Bow, j.r.Skip.Tangents
		} else {
			opt.SkipOther = false
		}
		if !settle() {
			return
		}
		more = more[1:]
		tell(more)
	}
}

// drawn is the ruff that is asked for, drawn, and the half set that it is made of.
func (j *job) drawn() (r sim.Ruff, design window.Design, err error) {
	s, err := scheme.Parse([]byte(j.r.Scheme))
	if err != nil {
		return r, design, err
	}
	if r, err = sim.Draw(s); err != nil {
		return r, design, err
	}
	design, err = sim.Design(r)
	return r, design, err
}

// progress passes on how far a solve is.
func (j *job) progress(p sim.Progress) {
	j.at(wire.Progress{Phase: p.Phase, Cell: p.Cell, Cells: p.Cells, Factorisation: p.Iterations})
}

// print answers with the sheets.
func (j *job) print() {
	if j.b.print == nil {
		j.fail(wire.BadRequest, word.Say("this program does not print"))
		return
	}
	s, err := scheme.Parse([]byte(j.r.Scheme))
	if err != nil {
		j.refuse(err)
		return
	}
	printed, err := j.b.print(j.ctx, s, *j.r.Print, j.at)
	if err != nil {
		j.refuse(err)
		return
	}
	j.say(wire.Reply{Last: true, Printed: printed})
}

// solved gives the ruff of s with all that neither the request nor opt skips. Where it
// has no mechanics it is the drawn ruff, without an error: the error is of a bad
// scheme or of a cancelled request.
func (j *job) solved(s scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
	r, err := sim.Draw(s)
	if err != nil {
		return r, err
	}
	opt.Grid, opt.Progress = j.grid(), j.progress
	opt.SkipBow, opt.SkipTangents, opt.SkipOther = j.r.Skip.Bow, j.r.Skip.Tangents, j.r.Skip.Other
	solved, err := sim.Settle(j.ctx, r, opt)
	if errors.Is(err, sim.ErrDesign) {
		return r, nil
	}
	return solved, err
}
