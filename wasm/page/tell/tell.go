// Package tell puts the ruff into words and tables: the form, the verdict, the
// findings with their remedies, the numbers, the comparison. It changes nothing.
package tell

import (
	"slices"

	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/ask"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/work"
)

// Tell is what there is to tell of: the work, what the solver has done for it, and
// the id of the finding in hand.
type Tell struct {
	*work.Work
	Ask  *ask.Ask
	Hand string
}

// State is how what is shown stands to what is typed.
func (t Tell) State() work.State { return t.Work.State(t.Ask.Busy(), t.Ask.None()) }

// Patches are all that is told.
func (t Tell) Patches() []doc.Patch {
	s := t.State()
	return slices.Concat(t.entries(), t.statePatches(s), []doc.Patch{
		{Op: doc.OpText, ID: "verdict", Value: t.Verdict()},
		{Op: doc.OpNodes, ID: "findings", Nodes: t.FindingNodes()},
		{Op: doc.OpNodes, ID: "numbers", Nodes: t.NumberNodes()},
		{Op: doc.OpNodes, ID: "compare-acts", Nodes: t.PairActs()},
		{Op: doc.OpNodes, ID: "compare", Nodes: t.pairNodes()},
		{Op: doc.OpNodes, ID: "limits", Nodes: t.LimitNodes()},
	})
}

// entries are the controls of the form.
func (t Tell) entries() []doc.Patch {
	var out []doc.Patch
	shown := t.Scheme.Looked()
	for _, f := range say.Fields() {
		id := doc.Control(f.Key)
		bad, isBad := t.Wrong[f.Key]
		switch {
		case t.Under == f.Key: // never change text that is being typed
		case isBad:
			out = append(out, doc.Patch{Op: doc.OpValue, ID: id, Value: bad.Text})
		default:
			out = append(out, doc.Patch{Op: doc.OpValue, ID: id, Value: f.Show(shown, t.Units)})
		}
		out = append(out,
			doc.Patch{Op: doc.OpAttr, ID: id, Name: "aria-invalid", Value: "true", Gone: !isBad},
			doc.Patch{Op: doc.OpText, ID: id + "-wrong", Value: bad.Why},
			doc.Patch{Op: doc.OpText, ID: id + "-decided", Value: t.Decided(f)},
			doc.Patch{Op: doc.OpText, ID: id + "-unit", Value: say.Theirs(f.UnitIn(t.Units))},
			doc.Patch{Op: doc.OpText, ID: id + "-range", Value: t.rangeWords(f)})
	}
	return out
}
