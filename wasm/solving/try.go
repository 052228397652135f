package solving

import (
	"context"
	"slices"
	"time"

	"ruffwright/geom/figure"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/propose"
	"ruffwright/sim/shell/known"
	"ruffwright/wasm/wire"
)

// try solves the scheme as each change would make it, and tells what that does to all
// that is found.
func (j *job) try() {
	r, ok := j.atHand()
	if !ok {
		return
	}
	for i, t := range j.r.Tries {
		j.at(wire.Progress{Phase: "trying changes", Cell: i, Cells: len(j.r.Tries)})
		tried := j.tried(r, t.Changes)
		if j.ctx.Err() != nil {
			return
		}
		j.say(wire.Reply{Last: i == len(j.r.Tries)-1, Tried: &tried})
	}
}

// atHand is the ruff of the request, solved whole. It comes with the first request of
// several: so every worker of the page judges by the same, whichever of them solved it.
func (j *job) atHand() (sim.Ruff, bool) {
	if j.r.Base != nil {
		r, _, err := j.drawn()
		if err != nil {
			j.refuse(err)
			return sim.Ruff{}, false
		}
		r.Solved = j.r.Base.Solved
		j.b.base = base{j.r.Scheme, r}
	}
	if j.b.base.scheme != j.r.Scheme {
		j.fail(wire.BadRequest, word.Say("these changes came without their ruff"))
		return sim.Ruff{}, false
	}
	if j.b.changed.of != j.r.Scheme {
		j.b.changed = changed{of: j.r.Scheme, ruffs: map[made]sim.Ruff{}, drawn: map[string]figure.Outline{}}
	}
	return j.b.base.ruff, true
}

// tried is what becomes of a ruff when it is changed.
func (j *job) tried(r sim.Ruff, changes []check.Change) wire.Tried {
	t := wire.Tried{Changes: changes, Now: price(propose.PriceOf(r))}
	s, err := check.Apply(r.Plan.Given, check.Remedy{Changes: changes})
	if err != nil {
		t.Why.Text = word.Of(err)
		return t
	}
	after, err := j.make(s, sim.Options{SkipFiner: !j.finer(r, s)})
	switch {
	case err != nil:
		t.Why.Text = word.Of(err)
	case !propose.Told(after):
		t.Why.Text = word.Say("with it the cloth does not come to rest, or cannot be solved")
	default:
		e := j.effect(propose.Weigh(r, after), s)
		t.Effect = &e
	}
	return t
}

// finer reports that a finding which offers the changes to s is told on a finer grid.
func (j *job) finer(r sim.Ruff, s scheme.Scheme) bool {
	return slices.ContainsFunc(check.Find(r, scheme.Millimetres), func(f check.Finding) bool {
		return check.Finer(f.ID) && slices.ContainsFunc(f.Remedies, func(m check.Remedy) bool {
			with, err := check.Apply(r.Plan.Given, m)
			return err == nil && len(check.Between(with, s)) == 0
		})
	})
}

// effect is what changes do that make s.
func (j *job) effect(e propose.Effect, s scheme.Scheme) wire.Effect {
	return wire.Effect{Gone: e.Gone, Left: e.Left, Eased: e.Eased, New: e.New, Quiet: e.Quiet, Then: price(e.Price), Drawn: j.b.changed.drawn[wire.Written(s)]}
}

func price(p propose.Price) wire.Price {
	return wire.Price{Cloth_mm: p.Cloth_mm, Starch_mm: p.Starch_mm, Height_mm: p.Height_mm, Droop_mm: p.Droop_mm, Bow_mm: p.Bow_mm,
		Least_h: p.Hours.Least, Most_h: p.Hours.Most}
}

// make solves a changed ruff, and remembers it and its lines.
func (j *job) make(s scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
	text := wire.Written(s)
	key, all := made{text, opt.SkipFiner}, &j.b.changed
	if known, ok := all.ruffs[key]; ok {
		return known, nil
	}
	r, err := j.solved(s, opt)
	if err != nil || r.Solved == nil {
		return r, err
	}
	if drawn, err := figure.NewOutline(r.Plan, r.Solved.Shape, r.Solved.Bowed); err == nil {
		all.drawn[text] = drawn
	}
	r = light(r)
	if len(all.ruffs) < mostChanged {
		all.ruffs[key] = r
	}
	return r, nil
}

// changed are the ruffs that changes to one scheme made.
type changed struct {
	of    string
	ruffs map[made]sim.Ruff
	drawn map[string]figure.Outline
}

// made is a scheme as changes make it, and whether the finer grid is left out.
type made struct {
	scheme string
	rough  bool
}

// mostChanged bounds the ruffs that are remembered: 6 MB each at worst.
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
