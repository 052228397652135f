// Package work is the maker's document while it is worked on: the ruff at hand,
// the one beside it, what was entered and cannot be used, and the steps to go back
// to. What the solver finds comes in and is kept with the ruffs; nobody is asked
// from here.
package work

import (
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/check/compare"
)

// Work is what is worked on. New makes one. Its ruffs keep their places in memory.
type Work struct {
	Units  scheme.Units
	Scheme scheme.Scheme // A, the ruff at hand: the last good one
	Ruff   sim.Ruff
	Whole  bool   // Ruff holds all that the solver finds of it
	Misfit error  // why it has no mechanics; nil: it has
	Asked  string // it as the solver is asked for it

	Findings []check.Finding
	B        Rival

	Whose
	Lesson   string // that is open; "" none
	Restored bool   // the ruff at hand is the last visit's, as it was
	By       string // names this open page among the device's tabs

	Wrong   map[string]Wrong // entries that cannot be used, by key
	Under   string           // key of the field under the reader's hands: its text is theirs
	Doubt   string           // what the page asks about before it gives the last good ruff away: save or share; "" nothing
	draft   *Wrong           // what is being typed, where it cannot be used so far
	ruled   []scheme.Overruled
	ruledBy string // the field whose last entry ruled
	editing string // key whose step grows while it is typed
	holds   hold

	past, future []step
	former       Rival // what was A, solved
	compared     compared
	changes      Changes
	lines        int // ruffs begun in this page
}

// Whose tells one ruff from another, and whose it is.
type Whose struct {
	Line  string // every change keeps it; another ruff has another one
	Own   bool   // the reader decided something of it
	Guest bool   // it came by a link and nothing was decided yet: it is not saved
}

// Wrong is an entry that cannot be used, and why.
type Wrong struct{ Text, Why string }

// Changes is what is another than when it was last asked for.
type Changes struct {
	Shown  bool // anything that a picture shows
	Taken  bool // a scheme was taken,
	Turned bool // and it is another to the solver
}

// Held is a ruff with all that is saved of it.
type Held struct {
	Scheme scheme.Scheme
	Beside *scheme.Scheme // B of a comparison; nil: none
	Units  scheme.Units
	Whose
	By     string // the open page that has it
	Lesson string // that is open; "" none
	Asked  string // both as the solver is asked for them; "" of one that is not at hand
}

// Rival is B.
type Rival struct {
	Scheme   *scheme.Scheme // nil: nothing is compared. Steps share it: it is never changed
	Asked    string         // as the solver is asked for it
	Side     compare.Side
	Findings []check.Finding
	Done     bool // the solver's whole answer is here
	None     bool // or there is none
}

// compared is a comparison already made, and of what.
type compared struct {
	of struct {
		a, b             string
		solvedA, solvedB *sim.Solved
		units            scheme.Units
	}
	comparison compare.Comparison
	costly     string       // the scheme whose cost is known
	cost       compare.Cost // of A
}

// step is one state to go back to.
type step struct {
	before scheme.Scheme
	what   string         // in words
	lesson string         // that was open; "" none
	rival  *scheme.Scheme // B; nil: nothing was compared
	whose  Whose          // the ruff was before
}

// hold is what a step that is taken back puts in order again, beside the scheme.
type hold struct {
	future   []step
	restored bool
	ruled    []scheme.Overruled
	ruledBy  string
}
