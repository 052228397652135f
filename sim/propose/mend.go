package propose

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// Way is what may be done about a ruff: changes that together leave less to stop for and
// to mend, and nothing new, as the whole ruff solved with them shows.
type Way struct {
	Sentences []word.Text    // one a change, in the order in which they were found
	Changes   []check.Change // all of them, in the order of the fields
	Effect                   // New is empty

	Scheme scheme.Scheme
	Ruff   sim.Ruff // of Scheme, solved whole
}

const (
	// mendRounds is how many changes one way holds at most, mostWays how many ways are
	// told.
	mendRounds, mostWays = 4, 3
)

// Mend finds what to do about the whole solved ruff r: the fewest changes, of those that
// its findings offer, that leave nothing to stop for and nothing to mend; where there are
// none, those that leave least. The first way is the best, others that leave as little
// follow. No way brings anything new. There is none where nothing stops or is to mend, or
// where no change is better. An error is that of a cancelled context, or of the solver.
func Mend(ctx context.Context, r sim.Ruff, ask Asked) ([]Way, error) {
	count := counter{told: ask.Progress}
	m := mending{trial: newTrial(ctx, r.Plan.Given, "", ask, &count)}
	m.root = state{r.Plan.Given, r, check.Find(r, ask.Units)}
	first, others, err := m.step(step{state: m.root})
	if err != nil || first == nil {
		return nil, err
	}
	for range mendRounds - 1 {
		if w := first.weigh(); w.stops+w.mends == 0 {
			break
		}
		next, _, err := m.step(*first)
		if err != nil {
			return nil, err
		}
		if next == nil {
			break
		}
		first = next
	}
	ways := []Way{m.way(*first)}
	for _, o := range others {
		if len(ways) == mostWays {
			break
		}
		whole, ok, err := m.sure(o, m.root)
		if err != nil {
			return nil, err
		}
		if w := m.way(whole); ok && len(w.Left) <= len(ways[0].Left) && !slices.Equal(w.Changes, ways[0].Changes) {
			ways = append(ways, w)
		}
	}
	return ways, nil
}

// mending is a Mend under way.
type mending struct {
	*trial
	root state
}

// step is a state and how it was come to.
type step struct {
	state
	said []word.Text
}

// step makes the best change to what a step came to, nil where none is better; others
// are those that would do too, best first, not solved whole yet.
func (m *mending) step(from step) (best *step, others []step, err error) {
	var good []step
	first := len(from.said) == 0
	for _, r := range from.remedies() {
		next, wrong := check.Apply(from.s, r)
		if wrong != nil || first && m.ask.Begins != nil && !slices.ContainsFunc(m.ask.Begins, func(c []check.Change) bool { return slices.Equal(c, check.Between(m.given, next)) }) || slices.ContainsFunc(check.Between(m.given, next), func(c check.Change) bool { return slices.Contains(m.ask.Keep, c.Key) }) {
			continue
		}
		s, err := m.see(next, real)
		if err != nil {
			return nil, nil, err
		}
		if m.better(s, from.state) {
			good = append(good, step{s, append(slices.Clone(from.said), r.Sentence)})
		}
	}
	slices.SortStableFunc(good, m.rank)
	for k, g := range good {
		whole, ok, err := m.sure(g, from.state)
		if err != nil {
			return nil, nil, err
		}
		if ok {
			return &whole, good[k+1:], nil
		}
	}
	return nil, nil, nil
}

// sure solves a step whole and says whether it is still better.
func (m *mending) sure(g step, than state) (step, bool, error) {
	s, err := m.see(g.s, whole)
	return step{s, g.said}, err == nil && m.better(s, than), err
}

// better reports that all of s is known, that less of it stops or is to mend than did, and
// nothing that did not at first.
func (m *mending) better(s, than state) bool {
	a, b := s.weigh(), than.weigh()
	a.doubts, a.vague, b.doubts, b.vague = 0, 0, 0, 0
	return !s.unknown() && a.compare(b) < 0 && len(check.Worse(m.root.r, s.r)) == 0
}

// rank orders steps: by what is left, then those first that keep the look, then by the
// number of fields, the cloth and the starch.
func (m *mending) rank(a, b step) int {
	look := func(s step) int {
		n := 0
		for _, c := range check.Between(m.given, s.s) {
			if strings.HasPrefix(c.Key, "ruff.") {
				n++
			}
		}
		return n
	}
	x, y := a.weigh(), b.weigh()
	return cmp.Or(x.compare(y), cmp.Compare(look(a), look(b)),
		cmp.Compare(len(check.Between(m.given, a.s)), len(check.Between(m.given, b.s))),
		cmp.Compare(a.r.Plan.Strip_mm, b.r.Plan.Strip_mm), cmp.Compare(a.s.Starch.Bend, b.s.Starch.Bend))
}

// way is what a step is told as.
func (m *mending) way(g step) Way {
	return Way{Sentences: g.said, Changes: check.Between(m.given, g.s), Effect: Weigh(m.root.r, g.r), Scheme: g.s, Ruff: g.r}
}
