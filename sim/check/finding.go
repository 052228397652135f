// Package check reads a ruff and says what will go wrong at the work table, by
// how much, and what to change. Find never solves anything; Try lets its caller
// solve what a remedy would change.
//
// Every finding, or close family of findings, has a file of its own: its rule
// (severity, limit and where the limit comes from) and the function that finds it.
// table.go lists them in order. A finding from the mechanics of the cloth can only be made once
// its own part is solved (shape first, then bow, bob and lean, then the other
// shape it may rest in); until then one pending finding names what is still
// unknown. Where the cloth did not come to rest nothing is said of its mechanics
// but that.
package check

import (
	"cmp"
	"slices"

	"ruffwright/geom/word"
)

// Severity ranks a finding.
type Severity string

const (
	Stop    Severity = "stop"    // do not sew this
	Mend    Severity = "mend"    // will be seen; change it
	Note    Severity = "note"    // worth knowing
	Caution Severity = "caution" // can hurt somebody; never goes away, has no remedy
)

// rank orders the severities; lower comes first.
func (s Severity) rank() int { return slices.Index([]Severity{Stop, Mend, Note, Caution}, s) }

// Where is the place that a finding points at; views mark it on the drawing.
type Where string

// The places that findings point at.
const (
	WhereOuter   Where = "outer edge"
	WhereInner   Where = "inner edge"
	WhereBand    Where = "band"
	WhereOpening Where = "opening"
	WhereMarks   Where = "marks"
	WhereJoins   Where = "joins"
	WhereNeck    Where = "neck"
	WhereTucks   Where = "tucks"
	WhereStrip   Where = "strip"
	WhereFlaps   Where = "flaps"
	WhereChin    Where = "chin"
	WhereSupport Where = "support" // the collar or the supporter that the ruff rests on
	WhereWhole   Where = "ruff"
)

// Finding is one thing that will be seen at the work table. Value and Limit are
// in Unit (lengths in mm, whatever the sentence is written in).
type Finding struct {
	ID       string    `json:"id"`
	Severity Severity  `json:"severity"`
	Where    Where     `json:"where"`
	At       []int     `json:"at,omitempty"` // numbers of the marks that it speaks of, counted from 1 along the strip; none where it speaks of all
	Value    float64   `json:"value"`
	Limit    float64   `json:"limit"`
	Unit     string    `json:"unit"`
	Sentence word.Text `json:"sentence"`
	Pending  bool      `json:"pending"`          // only mechanics can know, and it is not solved yet
	Awaits   []string  `json:"awaits,omitempty"` // where pending: ids of the findings that are not known yet
	Remedies []Remedy  `json:"remedies"`         // never nil; empty where none can be named
}

// Remedy is one way to remove a finding: changes to the scheme, by key.
type Remedy struct {
	Sentence word.Text `json:"sentence"`
	Changes  []Change  `json:"changes"`
	Tried    string    `json:"tried"`            // "" not yet, or Removes, Trades, Fails
	Then     float64   `json:"then,omitempty"`   // where tried: the finding's value with it, in its unit; 0 too where that is not known
	Brings   []string  `json:"brings,omitempty"` // where tried: ids of the findings that newly stop or are to mend with it
}

// Take writes into the remedy what became of it.
func (r *Remedy) Take(o Outcome) { r.Tried, r.Then, r.Brings = o.Tried, o.Then, o.Brings }

// order is the place among the remedies of one finding: what cures it first, then
// what was not tried, what trades it for something else, and what leaves it.
func (r Remedy) order() int { return slices.Index([]string{Removes, "", Trades, Fails}, r.Tried) }

// Sort brings the remedies of one finding into the order in which to offer them,
// otherwise as they are.
func Sort(remedies []Remedy) {
	slices.SortStableFunc(remedies, func(a, b Remedy) int { return cmp.Compare(a.order(), b.order()) })
}

// What became of a remedy that was tried.
const (
	Removes = "removes it"
	Trades  = "removes it, but brings something new"
	Fails   = "does not remove it"
)

// Change sets one field of the scheme.
type Change struct {
	Key   string `json:"key"`
	Value string `json:"value"` // as scheme.Set takes it, lengths in mm
}
