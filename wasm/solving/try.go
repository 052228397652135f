package solving

import (
	"context"
	"slices"
	"time"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/shell/known"
	"ruffwright/wasm/wire"
)

// try solves the scheme as each remedy would change it and tells what becomes of
// its finding.
func (j *job) try() {
	s, err := scheme.Parse([]byte(j.r.Scheme))
	if err != nil {
		j.refuse(err)
		return
	}
	// The ruff at hand was most often solved just now, and one change may be the
	// remedy of several findings.
	r := j.b.whole.ruff
	if j.b.whole.scheme != j.r.Scheme || j.r.Coarse || j.r.Skip != (wire.Skip{}) {
		if r, err = j.solved(s, sim.Options{}); err != nil {
			j.refuse(err)
			return
		}
	}
	changed := map[made]sim.Ruff{}
	before := check.Find(r, scheme.Millimetres)
	for i, t := range j.r.Tries {
		j.at(wire.Progress{Phase: "trying remedies", Cell: i, Cells: len(j.r.Tries)})
		if j.ctx.Err() != nil {
			return
		}
		tried := wire.Tried{Finding: t.Finding, Remedy: t.Remedy}
		at := slices.IndexFunc(before, func(f check.Finding) bool { return f.ID == t.Finding })
		if at < 0 {
			tried.Why.Text = word.Say("this is not found any more")
		} else {
			var with sim.Ruff
			solve := func(_ context.Context, s scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
				key := made{wire.Written(s), opt.SkipFiner}
				known, ok := changed[key]
				if !ok {
					if known, err = j.solved(s, opt); err != nil {
						return known, err
					}
					if len(changed) < mostChanged {
						changed[key] = light(known)
					}
				}
				with = known
				return known, nil
			}
			var o check.Outcome
			o, err = check.Try(j.ctx, r, before[at], check.Remedy{Changes: t.Changes}, solve)
			tried.Tried, tried.Then, tried.Brings = o.Tried, o.Then, o.Brings
			if j.ctx.Err() != nil {
				return
			}
			if err != nil {
				tried.Why.Text = word.Of(err)
			}
			if tried.Tried != "" {
				becomes(&tried, before, check.Find(with, scheme.Millimetres))
			}
		}
		j.say(wire.Reply{Last: i == len(j.r.Tries)-1, Tried: &tried})
	}
}

// made is a scheme as a remedy changes it, and whether the finer grid is left out.
type made struct {
	scheme string
	rough  bool
}

// mostChanged bounds the ruffs that a try remembers: 6 MB each at worst.
const mostChanged = 8

// light is a ruff without what no finding reads: half sets, and all surfaces but
// the one at rest.
func light(r sim.Ruff) sim.Ruff {
	r.Folded.Shape.Panels = nil
	if r.Solved != nil {
		s := *r.Solved
		s.Halves = nil
		if s.Bowed != nil {
			s.Bowed = &pleat.Shape{}
		}
		if s.Other != nil {
			s.Other = &pleat.Shape{}
		}
		r.Solved = &s
	}
	return r
}

// becomes tells what else of all that stops or is to mend the change ends, and what
// it leaves.
func becomes(t *wire.Tried, before, after []check.Finding) {
	is := weighty(after)
	for _, id := range weighty(before) {
		if id != t.Finding && !slices.Contains(is, id) {
			t.Ends = append(t.Ends, id)
		}
	}
	for _, id := range is {
		if !slices.Contains(t.Brings, id) {
			t.Leaves = append(t.Leaves, id)
		}
	}
}

// weighty are the ids of what stops or is to mend.
func weighty(findings []check.Finding) []string {
	var out []string
	for _, f := range findings {
		if !f.Pending && (f.Severity == check.Stop || f.Severity == check.Mend) {
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
		far := wire.Progress{Phase: "known problems", Cell: i, Cells: len(all)}
		if i == 0 {
			j.tell(far) // how many there are, at once
		}
		j.at(far)
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
		c.Why.Text, c.Value, c.Deviation = word.Of(o.Err), 0, 0
	}
	return c
}
