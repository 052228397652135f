// Package check reads a ruff and says what will go wrong at the work table, by
// how much, and what to change. Find never solves anything; Try lets its caller
// solve what a remedy would change.
//
// One table (table.go) holds every finding's severity, limit and where the limit
// comes from. A finding from the mechanics of the cloth can only be made once
// its own part is solved (shape first, then bow, bob and lean, then the other
// shape it may rest in); until then one pending finding names what is still
// unknown. Where the cloth did not come to rest nothing is said of its mechanics
// but that.
package check

// Severity ranks a finding.
type Severity string

const (
	Stop    Severity = "stop"    // do not sew this
	Mend    Severity = "mend"    // will be seen; change it
	Note    Severity = "note"    // worth knowing
	Caution Severity = "caution" // can hurt somebody; never goes away, has no remedy
)

// rank orders the severities; lower comes first.
func (s Severity) rank() int {
	switch s {
	case Stop:
		return 0
	case Mend:
		return 1
	case Note:
		return 2
	}
	return 3
}

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
	WhereWhole   Where = "ruff"
)

// Finding is one thing that will be seen at the work table. Value and Limit are
// in Unit (lengths in mm, whatever the sentence is written in).
type Finding struct {
	ID       string   `json:"id"`
	Severity Severity `json:"severity"`
	Where    Where    `json:"where"`
	Value    float64  `json:"value"`
	Limit    float64  `json:"limit"`
	Unit     string   `json:"unit"`
	Sentence string   `json:"sentence"`
	Pending  bool     `json:"pending"`          // only mechanics can know, and it is not solved yet
	Awaits   []string `json:"awaits,omitempty"` // where pending: ids of the findings that are not known yet
	Remedies []Remedy `json:"remedies"`         // never nil; empty where none can be named
}

// Remedy is one way to remove a finding: changes to the scheme, by key.
type Remedy struct {
	Sentence string   `json:"sentence"`
	Changes  []Change `json:"changes"`
	Tried    string   `json:"tried"`          // "" not yet, or Removes, Swaps, Fails
	Then     float64  `json:"then,omitempty"` // where tried: the finding's value with it, in its unit; 0 too where that is not known
}

// What became of a remedy that was tried.
const (
	Removes = "removes it"
	Swaps   = "removes it, but something else then stops"
	Fails   = "does not"
)

// Change sets one field of the scheme.
type Change struct {
	Key   string `json:"key"`
	Value string `json:"value"` // as scheme.Set takes it, lengths in mm
}
