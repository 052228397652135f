package check

import (
	"context"
	"errors"
	"fmt"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// ErrUnknown is wrapped by Try's errors where the changed ruff does not tell: its
// cloth did not come to rest, or it cannot be solved.
var ErrUnknown = errors.New("it cannot be told what the remedy does")

// Solver solves a scheme, leaving out what the options say.
type Solver func(context.Context, scheme.Scheme, sim.Options) (sim.Ruff, error)

// Try solves the scheme of r as the remedy changes it, with the caller's solve,
// and tells what becomes of the finding f: Removes where it is gone, or only a
// note is left of a weightier one, Swaps where that is so but something stops that did not stop
// before, Fails otherwise. value is what f.Value would be, in f's unit; 0 too
// where that is not known. Both belong into the remedy's Tried and Then.
//
// solve is given the scheme that the remedy makes and what of its mechanics need
// not be solved. It may be sim.Solve, with the caller's grid, sim.Draw for a finding
// from geometry alone, or the caller's store. Its errors, those of Apply, and
// ErrUnknown come back with tried empty.
func Try(ctx context.Context, r sim.Ruff, f Finding, remedy Remedy, solve Solver) (tried string, value float64, err error) {
	changed, err := Apply(r.Plan.Given, remedy)
	if err != nil {
		return "", 0, err
	}
	l, ok := lawOf(f.ID)
	if !ok {
		return "", 0, fmt.Errorf("%w: no finding is called %q", ErrUnknown, f.ID)
	}
	after, err := solve(ctx, changed, sim.Options{SkipFiner: l.parts&finerPart == 0})
	if err != nil {
		return "", 0, err
	}
	then := &view{r: after, p: &after.Plan, s: after.Plan.Scheme, u: scheme.Millimetres}
	if l.From == FromMechanics {
		if s := after.Solved; s == nil || !s.Ruff.Converged {
			return "", 0, fmt.Errorf("%w: with it the cloth does not come to rest", ErrUnknown)
		}
		if l.applies(then) && then.awaits(l.parts) {
			return "", 0, fmt.Errorf("%w: not all of it was solved", ErrUnknown)
		}
	}
	unit := f.Unit
	left, there := l.look(then)
	if left.unit == unit || left.unit == "" && l.Unit == unit {
		value = left.value
	}
	if there && (f.Severity == Note || l.severityOf(left) != Note) {
		return Fails, value, nil
	}
	stopped := map[string]bool{}
	for _, g := range Find(r, scheme.Millimetres) {
		stopped[g.ID] = g.Severity == Stop
	}
	for _, g := range Find(after, scheme.Millimetres) {
		if g.Severity == Stop && !stopped[g.ID] {
			return Swaps, value, nil
		}
	}
	return Removes, value, nil
}
