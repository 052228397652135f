package work

import (
	"slices"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/check"
	"ruffwright/wasm/page/say"
)

// State is how what the page shows stands to what is typed. It is worked out in
// one place; verdict, picture, numbers, findings, comparison, Save, Link and
// sheets ask it. That the program has died no program can say: the loader does.
type State struct {
	Kind    Manner
	Refused []Refusal // entries that cannot be used, in the order of the form
	Why     string    // where it cannot be solved
}

// Refusal is an entry that cannot be used.
type Refusal struct {
	Field     scheme.Field
	Text, Why string
	Used      string // what stands in its place, with its unit
}

// Manner is what a state says first.
type Manner string

const (
	AsTyped Manner = "typed"   // shown is what is typed, and as much as there is to know of it
	Solving Manner = "solving" // the same, and the solver works on it
	Cannot  Manner = "cannot"  // the same, and its cloth cannot be solved
	Typing  Manner = "typing"  // an entry cannot be used as far as it is typed: shown is the ruff before it
	LastOne Manner = "last"    // entries cannot be used: shown is the last good ruff
)

// Old reports that something else is shown than what is typed.
func (s State) Old() bool { return s.Kind == LastOne || s.Kind == Typing }

// State gives the state; busy is whether the solver works on it, none why it has no
// answer, empty where it has or may have.
func (w *Work) State(busy bool, none word.Text) State {
	s := State{Kind: AsTyped}
	var waiting []scheme.Field // entries that may not be usable: most often there are none
	if len(w.Wrong) > 0 || w.draft != nil {
		waiting = scheme.Fields()
	}
	for _, f := range waiting {
		entry, bad := w.Wrong[f.Key]
		if !bad && len(w.Wrong) == 0 && w.draft != nil && w.Under == f.Key {
			entry, bad = *w.draft, true
		}
		if bad {
			used := f.Show(w.Scheme.Looked(), w.Units)
			if unit := f.UnitIn(w.Units); unit != "" {
				used += " " + say.Text(unit)
			}
			s.Refused = append(s.Refused, Refusal{f, say.Brief(entry.Text), entry.Why, say.Brief(used)})
		}
	}
	if i := slices.IndexFunc(w.Findings, func(f check.Finding) bool { return f.ID == cannotSolve }); i >= 0 {
		s.Why = say.In(w.Findings[i].Sentence)
	} else if w.Misfit != nil { // a finding that stops says the same in its own way
		s.Why = say.Why(w.Misfit)
	} else if !none.Empty() {
		s.Why = say.Sentence(say.In(none))
	}
	switch {
	case len(w.Wrong) > 0:
		s.Kind = LastOne
	case len(s.Refused) > 0:
		s.Kind = Typing
	case s.Why != "":
		s.Kind = Cannot
	case busy:
		s.Kind = Solving
	}
	return s
}

// cannotSolve is the finding that the half set has no mechanics.
const cannotSolve = "cannot-solve"

// Entries names what cannot be used, and why.
func (s State) Entries() string {
	var out []string
	for _, r := range s.Refused {
		out = append(out, say.Text("%s: %s", say.Text(r.Field.Label), r.Why))
	}
	return strings.Join(out, " ")
}

// Of says which ruff a panel is of, where it is not what is typed; else "".
func (s State) Of() string {
	if !s.Old() {
		return ""
	}
	var used []string
	for _, r := range s.Refused {
		used = append(used, say.Text("%s %s", say.Text(r.Field.Label), r.Used))
	}
	return say.Text("Of the last good ruff, with %s; not of what is typed.", strings.Join(used, "; "))
}
