package solving

import (
	"context"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/matter"
	"ruffwright/wasm/wire"
)

// matter tells which fields move the ruff most, each as soon as it is known.
func (j *job) matter() {
	s, err := scheme.Parse([]byte(j.r.Scheme))
	if err != nil {
		j.refuse(err)
		return
	}
	solves := 0
	solve := func(ctx context.Context, s scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
		solves++
		opt.Progress = func(sim.Progress) {
			j.at(wire.Progress{Phase: "finding what matters", Cell: solves, Cells: solves})
		}
		return sim.Solve(ctx, s, opt)
	}
	if _, err = matter.Find(j.ctx, s, solve, func(f matter.Field) { j.say(wire.Reply{Matter: &f}) }); err != nil {
		j.refuse(err)
	}
}
