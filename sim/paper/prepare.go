package paper

import (
	"context"
	"errors"
	"slices"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// Preparing is how a scheme is made ready for paper.
type Preparing struct {
	Units  scheme.Units
	Drawn  bool                  // leave the cloth unsolved: the ruff in closed form, no starch target
	Solve  sim.Options           // Grid, Progress; the rest is usually left at zero
	Starch func(bend_mm float64) // told the bending length being tried for the starch target; nil = nobody
}

// Prepare gives all that the sheets of a scheme show; paper, date, printer and address
// are left to the caller. Only here does this package solve anything, so that whoever
// prints gets the same sheets for the same scheme. Where these sets have no mechanics
// the ruff is drawn in closed form, and the input says why.
//
// The error is of a bad scheme, by scheme.Error, or the context's.
func Prepare(ctx context.Context, s scheme.Scheme, how Preparing) (Input, error) {
	in := Input{Units: how.Units}
	r, err := sim.Draw(s)
	if err != nil {
		return in, err
	}
	in.Ruff = r
	if !how.Drawn {
		r, err := sim.Solve(ctx, s, how.Solve)
		switch {
		case errors.Is(err, sim.ErrDesign):
			in.Unsolved = word.Say("what the findings say of these sets tells why.")
		case err != nil:
			return in, err
		default:
			in.Ruff = r
		}
	}
	in.Findings = check.Find(in.Ruff, how.Units)
	if !in.Unsolved.Empty() {
		// Nothing more will come: what waits for the mechanics waits in vain.
		in.Findings = slices.DeleteFunc(in.Findings, func(f check.Finding) bool { return f.Pending })
	}
	if in.Pattern, err = pattern.New(in.Ruff.Plan); err != nil {
		return in, err
	}
	if in.Ruff.Solved == nil {
		return in, nil
	}
	n, err := sim.Need(ctx, s, how.Solve.Grid, check.Limits(), func(bend_mm float64, _ bool) {
		if how.Starch != nil {
			how.Starch(bend_mm)
		}
	})
	switch {
	case errors.Is(err, sim.ErrDesign):
		in.Need = &sim.Needed{Reason: word.Say("how stiff it must be cannot be solved for these sets.")}
	case err != nil:
		return in, err
	default:
		in.Need = &n
	}
	return in, nil
}

// Stops is how many findings say: do not sew this.
func (in Input) Stops() int { return in.counted(check.Stop) }

// Mends is how many findings ask to be mended.
func (in Input) Mends() int { return in.counted(check.Mend) }

func (in Input) counted(as check.Severity) int {
	n := 0
	for _, f := range in.Findings {
		if f.Severity == as && !f.Pending {
			n++
		}
	}
	return n
}
