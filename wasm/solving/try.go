package solving

import (
	"context"
	"slices"
	"time"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/shell/known"
	"ruffwright/wasm/wire"
)

// try solves the scheme as each remedy would change it and tells what becomes of
// its finding.
func (j *job) try() {
	s, err := wire.Read(j.r.Scheme)
	if err != nil {
		j.refuse(err)
		return
	}
	r, err := j.solved(s)
	if err != nil {
		j.refuse(err)
		return
	}
	before := check.Find(r, scheme.Millimetres)
	for i, t := range j.r.Tries {
		j.at(wire.Progress{Phase: "trying remedies", Cell: i, Cells: len(j.r.Tries)})
		if j.ctx.Err() != nil {
			return
		}
		tried := wire.Tried{Finding: t.Finding, Remedy: t.Remedy}
		at := slices.IndexFunc(before, func(f check.Finding) bool { return f.ID == t.Finding })
		if at < 0 {
			tried.Why = "this is not found any more"
		} else {
			var after sim.Ruff
			solve := func(_ context.Context, s scheme.Scheme) (r sim.Ruff, err error) {
				after, err = j.solved(s)
				return after, err
			}
			tried.Tried, tried.Then, err = check.Try(j.ctx, r, before[at], check.Remedy{Changes: t.Changes}, solve)
			if j.ctx.Err() != nil {
				return
			}
			if err != nil {
				tried.Why = err.Error()
			}
			if tried.Tried == check.Swaps {
				tried.Brings = stops(after, before)
			}
		}
		j.say(wire.Reply{Last: i == len(j.r.Tries)-1, Tried: &tried})
	}
}

// stops are the ids of what stops r and did not stop before.
func stops(r sim.Ruff, before []check.Finding) []string {
	var out []string
	for _, f := range check.Find(r, scheme.Millimetres) {
		stopped := func(b check.Finding) bool { return b.ID == f.ID && b.Severity == check.Stop }
		if f.Severity == check.Stop && !slices.ContainsFunc(before, stopped) {
			out = append(out, f.ID)
		}
	}
	return out
}

// verify runs the problems with known answers.
func (j *job) verify() {
	all := slices.DeleteFunc(known.All(), func(p known.Problem) bool { return p.Slow && !j.r.Slow })
	for i, p := range all {
		if j.ctx.Err() != nil {
			return
		}
		j.at(wire.Progress{Phase: "known problems", Cell: i, Cells: len(all)})
		c := checked(j.ctx, p)
		j.say(wire.Reply{Last: i == len(all)-1, Checked: &c})
	}
}

func checked(ctx context.Context, p known.Problem) wire.Checked {
	began := time.Now()
	o := known.Check(ctx, p)
	c := wire.Checked{
		Name: p.Name, Source: p.Source, Unit: p.Unit, Reference: p.Reference, Value: o.Value,
		Deviation: o.Deviation, Allowed: p.Allowed, Relative: p.Relative, Held: o.Held,
		Took: float64(time.Since(began).Microseconds()) / 1000,
	}
	if o.Err != nil {
		c.Why, c.Value, c.Deviation = o.Err.Error(), 0, 0
	}
	return c
}
