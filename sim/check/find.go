package check

import (
	"cmp"
	"slices"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
)

// Find says what will be seen at the work table if r is made as it stands, with
// lengths in sentences in u. First what stops, then what to mend, notes and
// cautions; within these in the order of the table. The flame caution is always
// among them. It solves nothing: what only a part of r.Solved could tell is pending
// until that part is there. An empty ruff gives the cautions alone.
func Find(r sim.Ruff, u scheme.Units) []Finding {
	v := &view{r: r, p: &r.Plan, s: r.Plan.Scheme, u: u}
	var found []Finding
	for _, l := range rules {
		seen, ok := l.look(v)
		if !ok {
			continue
		}
		f := Finding{
			ID: l.ID, Severity: cmp.Or(seen.severity, l.Severity), Where: cmp.Or(seen.where, l.Where), At: seen.at, Unit: cmp.Or(seen.unit, l.Unit),
			Value: seen.value, Limit: seen.limit, Sentence: seen.sentence,
			Remedies: []Remedy{}, Pending: len(seen.awaits) > 0, Awaits: seen.awaits,
		}
		for _, m := range seen.remedies {
			// What the scheme would refuse is no way out, nor is what was said already.
			if slices.ContainsFunc(f.Remedies, func(n Remedy) bool { return slices.Equal(n.Changes, m.Changes) }) {
				continue
			}
			if _, err := Apply(v.p.Given, m); err == nil {
				f.Remedies = append(f.Remedies, m)
			}
		}
		found = append(found, f)
	}
	slices.SortStableFunc(found, func(a, b Finding) int {
		return cmp.Compare(a.Severity.rank(), b.Severity.rank())
	})
	return found
}

// seen is what a rule has found, without what the table says of it.
type seen struct {
	value, limit float64
	unit         string   // "": the table's
	severity     Severity // "": the table's
	where        Where    // "": the table's
	at           []int    // numbers of marks, counted from 1; none: everywhere
	sentence     word.Text
	remedies     []Remedy
	awaits       []string
}

// says makes a finding's sentence.
func (s *seen) says(english string, with ...any) { s.sentence = word.Say(english, with...) }

// offer adds a remedy.
func (s *seen) offer(changes []Change, english string, with ...any) {
	s.remedies = append(s.remedies, Remedy{Sentence: word.Say(english, with...), Changes: changes})
}
