// Package check reads a ruff and says what will go wrong at the work table, by
// how much, and what to change. It never solves anything.
package check

// Severity ranks a finding.
type Severity string

const (
	Stop    Severity = "stop"    // do not sew this
	Mend    Severity = "mend"    // will be seen; change it
	Note    Severity = "note"    // worth knowing
	Caution Severity = "caution" // can hurt somebody; never goes away, has no remedy
)

// Where is the place that a finding points at; views mark it on the drawing.
type Where string

// Finding is one thing that will be seen at the work table.
type Finding struct {
	ID       string   `json:"id"`
	Severity Severity `json:"severity"`
	Where    Where    `json:"where"`
	Value    float64  `json:"value"`
	Limit    float64  `json:"limit"`
	Unit     string   `json:"unit"`
	Sentence string   `json:"sentence"`
	Pending  bool     `json:"pending"` // only mechanics can know, and it is not solved yet
	Remedies []Remedy `json:"remedies"`
}

// Remedy is one way to remove a finding: changes to the scheme, by key.
type Remedy struct {
	Sentence string   `json:"sentence"`
	Changes  []Change `json:"changes"`
	Tried    string   `json:"tried"` // "", "removes it" or "does not"
}

// Change sets one field of the scheme.
type Change struct {
	Key   string `json:"key"`
	Value string `json:"value"` // as scheme.Set takes it, lengths in mm
}
