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

// try solves the scheme as each remedy would change it and tells what the
// findings then are.
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
		if j.ctx.Err() != nil {
			return
		}
		j.at(wire.Progress{Phase: "trying remedies", Cell: i, Cells: len(j.r.Tries)})
		tried := wire.Tried{Finding: t.Finding, Remedy: t.Remedy}
		changed, err := check.Apply(s, check.Remedy{Changes: t.Changes})
		var r sim.Ruff
		if err == nil {
			r, err = j.solved(changed)
		}
		if err != nil {
			j.refuse(err)
			return
		}
		tried.Unsolved = r.Solved == nil || !r.Solved.Converged()
		after := check.Find(r, scheme.Millimetres)
		tried.Left = string(severity(after, t.Finding))
		for _, f := range after {
			if weighs(f) && !slices.ContainsFunc(before, func(b check.Finding) bool { return b.ID == f.ID && weighs(b) }) {
				tried.Brings = append(tried.Brings, f.ID)
			}
		}
		j.say(wire.Reply{Last: i == len(j.r.Tries)-1, Tried: &tried})
	}
}

// weighs reports whether a finding asks for a change.
func weighs(f check.Finding) bool {
	return !f.Pending && (f.Severity == check.Stop || f.Severity == check.Mend)
}

// severity of the finding of that id, "" if it is not there.
func severity(found []check.Finding, id string) check.Severity {
	for _, f := range found {
		if f.ID == id {
			return f.Severity
		}
	}
	return ""
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
