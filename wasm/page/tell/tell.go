// Package tell puts the ruff into words and tables: the form, the verdict, the
// findings with their remedies, the numbers, the comparison. It changes nothing.
package tell

import (
	"ruffwright/geom/scheme"
	"ruffwright/wasm/page/ask"
	"ruffwright/wasm/page/work"
)

// fieldTable is every field of the form: Fields gives a new one each time.
var fieldTable = scheme.Fields()

// Tell is what there is to tell of: the work, what the solver has done for it, and
// the id of the finding in hand.
type Tell struct {
	*work.Work
	Ask  *ask.Ask
	Hand string
	// Veiled: what is wrong is not told, since a lesson asks the reader to say it first.
	Veiled bool
}

// State is how what is shown stands to what is typed.
func (t Tell) State() work.State { return t.Work.State(t.Ask.Busy(), t.Ask.None()) }
