package ask

import (
	"cmp"
	"slices"
	"strings"

	"ruffwright/sim/check"
	"ruffwright/wasm/wire"
)

// mostTries is how many changes are tried for one ruff.
const mostTries = 40

// key is a change as it is remembered.
func key(changes []check.Change) string {
	var b strings.Builder
	for _, c := range changes {
		b.WriteString(c.Key + "=" + c.Value + "\n")
	}
	return b.String()
}

// offered gathers the changes that the findings offer, in their order.
func offered(w Want) (all []Change) {
	at := map[string]int{}
	for _, f := range w.Findings {
		if f.Pending || f.Severity == check.Caution {
			continue
		}
		for i, r := range f.Remedies {
			with, err := check.Apply(w.Scheme, r)
			if err != nil {
				continue
			}
			changes := check.Between(w.Scheme, with)
			if len(changes) == 0 {
				continue
			}
			k := key(changes)
			if n, known := at[k]; known {
				all[n].Of = append(all[n].Of, f.ID)
				continue
			}
			at[k] = len(all)
			all = append(all, Change{Sentence: r.Sentence, Changes: changes, Of: []string{f.ID}, Number: i})
		}
	}
	return all
}

// untried is the first change that no hand has tried on this scheme or tries now; none
// where all have been.
func (s *Ask) untried() []wire.Trial {
	for n, c := range s.offers {
		if n == mostTries {
			break
		}
		if _, told := s.tried[key(c.Changes)]; !told && !s.tries(c.Changes) {
			return []wire.Trial{{Changes: c.Changes}}
		}
	}
	return nil
}

// tries reports that a hand tries changes.
func (s *Ask) tries(changes []check.Change) bool {
	return slices.ContainsFunc(s.hands[:], func(h hand) bool {
		return h.out != nil && slices.ContainsFunc(h.out.tries, func(t wire.Trial) bool { return slices.Equal(t.Changes, changes) })
	})
}

// marks notes what became of a change.
func (s *Ask) marks(t wire.Tried) {
	if s.tried == nil {
		s.tried = map[string]wire.Tried{}
	}
	s.tried[key(t.Changes)] = t
}

// Spoils reports that a change brings what stops or is to mend.
func (c Change) Spoils() bool { return c.Effect != nil && len(c.Effect.New) > 0 }

// Ends reports that a change was tried and ends the finding of that id, or makes a note
// of it.
func (c Change) Ends(id string) bool {
	return c.Effect != nil && (slices.Contains(c.Effect.Gone, id) || slices.Contains(c.Effect.Quiet, id))
}

// useless reports that a change was tried and mends nothing.
func (c Change) useless() bool {
	e := c.Effect
	return e != nil && len(e.Gone)+len(e.Eased) == 0 && (len(e.Quiet) == 0 || len(e.New) > 0)
}

// rank orders changes: what spoils nothing and leaves least first, what was not tried
// after it, what spoils something last.
func (c Change) rank() int {
	switch {
	case c.Effect == nil:
		return 1000
	case c.Spoils():
		return 2000 + len(c.Effect.New) + len(c.Effect.Left)
	}
	return len(c.Effect.Left)
}

// Changes are the changes that the findings offer, with what became of them, the best
// first. What was tried and does nothing is not among them.
func (s *Ask) Changes() (all []Change) {
	for _, c := range s.offers {
		if t, ok := s.tried[key(c.Changes)]; ok {
			c.Effect, c.Why = t.Effect, t.Why.Text
		}
		if !c.useless() {
			all = append(all, c)
		}
	}
	slices.SortStableFunc(all, func(a, b Change) int { return cmp.Compare(a.rank(), b.rank()) })
	return all
}
