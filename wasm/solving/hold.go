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
	held := &wire.Held{Ways: []wire.HoldingWay{}, Refused: []wire.RefusedWay{}}
	pack := func(t word.Text) word.Packed { return word.Packed{Text: t} }
	for _, a := range got.Alternatives {
		w := wire.HoldingWay{Kind: pack(a.Kind.Name()), Changes: a.Changes, Notes: []word.Packed{}, Cloth_mm: a.Cloth_mm, Starch_mm: a.Starch_mm,
			Height_mm: a.Height_mm, Bow_mm: a.Bow_mm, Least_h: a.Hours.Least, Most_h: a.Hours.Most}
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
