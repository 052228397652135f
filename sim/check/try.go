package check

import (
	"cmp"
	"context"
	"errors"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
)

// ErrUnknown is wrapped by Try's errors where the changed ruff does not tell: its
// cloth did not come to rest, or it cannot be solved.
var ErrUnknown = errors.New("it cannot be told what the remedy does")

// unknown is ErrUnknown in a whole sentence.
func unknown(english string, with ...any) error {
	return word.Fault{Text: word.Say(english, with...), Of: ErrUnknown}
}

// Solver solves a scheme, leaving out what the options say.
type Solver func(context.Context, scheme.Scheme, sim.Options) (sim.Ruff, error)

// Outcome is what became of a remedy that was tried.
type Outcome struct {
	Tried  string   // Removes, Trades or Fails
	Then   float64  // what the finding's value would be, in its unit; 0 too where that is not known
	Brings []string // ids of the findings that stop or are to mend with it, and did not, or weighed less, before
}

// Try solves the scheme of r as the remedy changes it, with the caller's solve, and
// tells what becomes of the finding f. Removes: it is gone, or only a note is left of
// a weightier one, and nothing new stops or is to mend. Trades: it is gone, but
// something new does. Fails: it stays. The outcome belongs into the remedy's own
// members.
//
// solve is given the scheme that the remedy makes and what of its mechanics need
// not be solved. It may be sim.Solve, with the caller's grid, sim.Draw for a finding
// from geometry alone, or the caller's store. Its errors, those of Apply, and
// ErrUnknown come back with an empty outcome.
func Try(ctx context.Context, r sim.Ruff, f Finding, remedy Remedy, solve Solver) (Outcome, error) {
	changed, err := Apply(r.Plan.Given, remedy)
	if err != nil {
		return Outcome{}, err
	}
	l, ok := lawOf(f.ID)
	if !ok {
		return Outcome{}, unknown("it cannot be told what the remedy does: no finding is called %q", f.ID)
	}
	after, err := solve(ctx, changed, sim.Options{SkipFiner: l.parts&finerPart == 0})
	if err != nil {
		return Outcome{}, err
	}
	then := &view{r: after, p: &after.Plan, s: after.Plan.Scheme, u: scheme.Millimetres}
	if l.From == FromMechanics {
		if s := after.Solved; s == nil || !s.Ruff.Converged {
			return Outcome{}, unknown("it cannot be told what the remedy does: with it the cloth does not come to rest")
		}
		if l.applies(then) && then.awaits(l.parts) {
			return Outcome{}, unknown("it cannot be told what the remedy does: not all of it was solved")
		}
	}
	out := Outcome{Tried: Removes, Brings: Worse(r, after)}
	left, there := l.look(then)
	if cmp.Or(left.unit, l.Unit) == f.Unit {
		out.Then = left.value
	}
	switch {
	case there && (f.Severity == Note || cmp.Or(left.severity, l.Severity) != Note):
		out.Tried = Fails
	case len(out.Brings) > 0:
		out.Tried = Trades
	}
	return out, nil
}

// Worse gives the ids of what stops or is to mend in after, and did not, or weighed
// less, in before.
func Worse(before, after sim.Ruff) []string {
	if m := after.Measured(); m != nil && !m.MeshDone && before.Measured() != nil {
		// Judge both without their doubt, which makes findings milder.
		solved := *before.Solved
		solved.Ruff.MeshDone = false
		before.Solved = &solved
	}
	weighed := map[string]int{}
	for _, f := range Find(before, scheme.Millimetres) {
		weighed[f.ID] = f.Severity.rank()
	}
	var ids []string
	for _, f := range Find(after, scheme.Millimetres) {
		was, known := weighed[f.ID]
		if rank := f.Severity.rank(); !f.Pending && rank <= Mend.rank() && (!known || rank < was) {
			ids = append(ids, f.ID)
		}
	}
	return ids
}
