package propose

import (
	"cmp"
	"errors"
	"slices"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// state is a scheme that was solved and checked.
type state struct {
	s     scheme.Scheme
	r     sim.Ruff
	found []check.Finding
}

// solved solves and checks s; where its mechanics cannot be solved it is drawn, and what
// geometry says tells why.
func (t *trial) solved(s scheme.Scheme, opt sim.Options) (state, error) {
	r, err := t.solve(t.ctx, s, opt)
	if errors.Is(err, sim.ErrDesign) {
		r, err = sim.Draw(s)
	}
	if err != nil {
		return state{}, err
	}
	return state{s, r, check.Find(r, t.ask.Units)}, nil
}

// reason is what stands against a state: its weightiest finding.
func (a *state) reason() (why Reason) {
	for u := range why {
		for _, f := range check.Find(a.r, scheme.Units(u)) {
			if f.Severity == check.Stop || f.Severity == check.Mend || slices.Contains(doubtful, f.ID) {
				why[u] = f.Sentence
				break
			}
		}
	}
	if why[0].Empty() && a.unknown() {
		return because(word.Say("whether it holds could not be solved: the cloth did not come to rest, or not when the wearer bowed"))
	}
	return why
}

// unknown reports that the cloth was solved and did not come to rest, upright or bowed: of
// such a ruff little is found, for little is known.
func (a *state) unknown() bool {
	m := a.r.Measured()
	return a.r.Solved != nil && (m == nil || !m.BowDone)
}

// A note may hide something worse: what a finding weighs is milder where the figure is in
// doubt, and a shape may be one of several. doubtful are the findings of which a note says
// that it is not sure whether the ruff holds, vague those that only widen its sizes.
var (
	doubtful = []string{"bow", "leans", "height", "sinks", "flaps-undecided"}
	vague    = []string{"uncertain", "several-ways"}
)

// weight is how bad a state is: what stops, what is to mend, what is in doubt, and whether
// its sizes are.
type weight struct{ stops, mends, doubts, vague int }

func (a *state) weigh() (w weight) {
	if a.unknown() {
		w.mends++
	}
	for _, f := range a.found {
		switch {
		case f.Severity == check.Stop:
			w.stops++
		case f.Severity == check.Mend, f.Pending && a.r.Solved == nil:
			w.mends++
		case f.Severity != check.Note:
		case slices.Contains(doubtful, f.ID):
			w.doubts++
		case slices.Contains(vague, f.ID):
			w.vague++
		}
	}
	return
}

func (w weight) compare(v weight) int {
	return cmp.Or(cmp.Compare(w.stops, v.stops), cmp.Compare(w.mends, v.mends), cmp.Compare(w.doubts, v.doubts), cmp.Compare(w.vague, v.vague))
}

// holds reports that nothing stops, nothing is to mend, and that this is sure.
func (w weight) holds() bool { return w.stops == 0 && w.mends == 0 && w.doubts == 0 }

// remedies are the changes that the findings offer, each set of them once, weightiest
// finding's first.
func (a *state) remedies() (all []check.Remedy) {
	for _, f := range a.found {
		if f.Severity == check.Caution || f.Severity == check.Note && !slices.Contains(doubtful, f.ID) && !slices.Contains(vague, f.ID) {
			continue
		}
		for _, r := range f.Remedies {
			if !slices.ContainsFunc(all, func(q check.Remedy) bool { return slices.Equal(q.Changes, r.Changes) }) {
				all = append(all, r)
			}
		}
	}
	return all
}
