package solving

import (
	"context"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/propose"
	"ruffwright/wasm/wire"
)

// hold looks for ways to sew the scheme's look that hold. It solves from nothing each
// time, so that equal questions have equal answers, whatever was solved before.
func (j *job) hold() {
	s, err := scheme.Parse([]byte(j.r.Scheme))
	if err != nil {
		j.refuse(err)
		return
	}
	tried := 0
	at := func(sim.Progress) { j.at(wire.Progress{Phase: "looking for what holds", Cell: tried, Cells: tried}) }
	got, err := propose.Propose(j.ctx, s, propose.Asked{
		Solve: func(ctx context.Context, s scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
			opt.Progress = at
			return sim.Solve(ctx, s, opt)
		},
		Progress: func(n int) { tried = n },
	})
	if err != nil {
		j.refuse(err)
		return
	}
	held := &wire.Held{Ways: []wire.HoldingWay{}, Refused: []wire.RefusedWay{}, Assumed: got.Assumed}
	for _, a := range got.Alternatives {
		w := wire.HoldingWay{Kind: pack(a.Kind.Name()), Changes: a.Changes, Notes: []word.Packed{}, Price: price(a.Price)}
		for _, f := range a.Findings {
			if f.Severity == check.Note {
				w.Notes = append(w.Notes, pack(check.Title(f.ID)))
			}
		}
		held.Ways = append(held.Ways, w)
	}
	for _, r := range got.Refused {
		way := wire.RefusedWay{Kind: pack(r.Kind.Name())}
		for u, why := range r.Reason {
			way.Why[u] = pack(why)
		}
		held.Refused = append(held.Refused, way)
	}
	j.say(wire.Reply{Last: true, Held: held})
}

// mend looks for the fewest changes that leave nothing to stop for or to mend, first among
// those that were found worth while.
func (j *job) mend() {
	r, ok := j.atHand()
	if !ok {
		return
	}
	units, _ := scheme.ParseUnits(j.r.Units) // else mm
	ask := propose.Asked{Units: units, Solve: func(_ context.Context, s scheme.Scheme, opt sim.Options) (sim.Ruff, error) { return j.make(s, opt) }}
	for _, t := range j.r.Tries {
		ask.Begins = append(ask.Begins, t.Changes)
	}
	ways, err := propose.Mend(j.ctx, r, ask)
	if j.ctx.Err() != nil {
		return
	}
	if err != nil {
		j.refuse(err)
		return
	}
	got := &wire.Mended{Now: price(propose.PriceOf(r)), Ways: []wire.MendingWay{}}
	for _, w := range ways {
		out := wire.MendingWay{Changes: w.Changes, Effect: j.effect(w.Effect, w.Scheme)}
		for _, said := range w.Sentences {
			out.Sentences = append(out.Sentences, pack(said))
		}
		got.Ways = append(got.Ways, out)
	}
	j.say(wire.Reply{Last: true, Mended: got})
}

func pack(t word.Text) word.Packed { return word.Packed{Text: t} }
