// Package propose finds what to do: the changes to a scheme that leave nothing to stop
// for and nothing to mend. Nothing is proposed that was not solved whole and checked.
//
// Mend looks for the fewest changes to a ruff as it stands. Propose looks for the ways
// of sewing that hold the look that is wanted, and what each of them costs.
package propose

import (
	"cmp"
	"context"
	"slices"
	"sync"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// Asked is what a proposal may do.
type Asked struct {
	// Solve solves a scheme, leaving out what its options say; nil: sim.Solve.
	Solve check.Solver
	// Free are the keys of fields that Propose may change beside those of pleats, band,
	// starch and supporter, Keep those of fields that stay as they are.
	Free, Keep []string
	// Units are those of the lengths in the sentences of a Way.
	Units scheme.Units
	// Begins are the changes that Mend looks at first, as fields that differ from the
	// scheme, in the order of the fields; nil: all that the findings offer.
	Begins [][]check.Change
	// Together tries several kinds at once, on as many threads as there are.
	Together bool
	// Progress is told how many whole ruffs and half sets were solved so far, one call at
	// a time; nil: no calls.
	Progress func(solves int)
}

// Alternative is a way to sew the ruff that leaves nothing to stop for or to mend.
type Alternative struct {
	Kind    Kind
	Changes []check.Change // to what was given, in the order of the fields

	Scheme   scheme.Scheme
	Ruff     sim.Ruff        // of Scheme, solved whole
	Findings []check.Finding // what is left: notes and cautions
	Strip_mm float64
	Price
}

// Refused is a way to sew that was tried and not taken.
type Refused struct {
	Kind   Kind
	Reason Reason
}

// Reason says why, by the units in which its lengths are said.
type Reason [units]word.Text

const units = 3

// because is a reason without lengths.
func because(why word.Text) Reason { return Reason{why, why, why} }

// Answer is what Propose found.
type Answer struct {
	Alternatives []Alternative // at most three; least cloth first, then least starch, then least work
	Refused      []Refused
	Assumed      []check.Change // what was asked for hangs on these, which may be nobody's decision
	Solves       int
}

// most is how many alternatives are given.
const most = 3

// Propose finds how the look of s can be made to hold: for each kind of sewing the scheme
// that leaves nothing to stop for or to mend, with the least starch that does. Equal
// arguments give equal answers.
//
// An error means bad input or a cancelled context. That nothing holds is no error: then
// Refused says why.
func Propose(ctx context.Context, s scheme.Scheme, ask Asked) (Answer, error) {
	if _, err := sim.Draw(s); err != nil {
		return Answer{}, err
	}
	count := counter{told: ask.Progress}
	answer := Answer{Alternatives: []Alternative{}, Refused: []Refused{}, Assumed: assumptions(s)}
	for _, some := range kinds {
		if len(answer.Alternatives) >= most {
			break
		}
		if err := answer.add(ctx, s, some, ask, &count); err != nil {
			return answer, err
		}
	}
	answer.Solves = count.n
	slices.SortStableFunc(answer.Alternatives, cheaper)
	answer.Alternatives = answer.Alternatives[:min(most, len(answer.Alternatives))]
	return answer, nil
}

// add tries some kinds at once and takes what became of each.
func (a *Answer) add(ctx context.Context, s scheme.Scheme, some []Kind, ask Asked, count *counter) error {
	type outcome struct {
		found   *Alternative
		refused Reason
		err     error
	}
	got := make([]outcome, len(some))
	var all sync.WaitGroup
	for i, k := range some {
		run := func() {
			t := newTrial(ctx, s, k, ask, count)
			o := &got[i]
			o.found, o.refused, o.err = t.run()
		}
		if ask.Together {
			all.Go(run)
		} else {
			run()
		}
	}
	all.Wait()
	for i, o := range got {
		switch {
		case o.err != nil:
			return o.err
		case o.found != nil:
			a.Alternatives = append(a.Alternatives, *o.found)
		default:
			a.Refused = append(a.Refused, Refused{some[i], o.refused})
		}
	}
	return nil
}

// alike_mm is how much cloth counts as the same: what a bolt is cut to.
const alike_mm = 100

// cheaper orders by cloth, then starch, then work.
func cheaper(a, b Alternative) int {
	return cmp.Or(cmp.Compare(ceil(a.Cloth_mm, alike_mm), ceil(b.Cloth_mm, alike_mm)),
		cmp.Compare(a.Starch_mm, b.Starch_mm), cmp.Compare(a.Hours.Most, b.Hours.Most))
}

// counter counts solves, from several goroutines.
type counter struct {
	lock sync.Mutex
	n    int
	told func(int)
}

func (c *counter) one() {
	c.lock.Lock()
	defer c.lock.Unlock()
	if c.n++; c.told != nil {
		c.told(c.n)
	}
}
