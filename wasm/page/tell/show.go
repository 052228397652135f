package tell

import (
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// Patches are all that is told.
func (t Tell) Patches() []doc.Patch {
	var out doc.List
	t.entries(&out)
	t.states(&out)
	out.Text("verdict", t.Verdict())
	out.Nodes("advice", t.AdviceNodes())
	out.Nodes("findings", t.FindingNodes())
	t.matters(&out)
	out.Nodes("numbers", t.NumberNodes())
	out.Nodes("compare-acts", t.PairActs())
	out.Nodes("compare", t.pairNodes())
	out.Nodes("limits", t.LimitNodes())
	return out
}

// entries are the controls of the form.
func (t Tell) entries(out *doc.List) {
	shown := t.Scheme.Looked()
	for _, f := range fieldTable {
		id := doc.Control(f.Key)
		bad, isBad := t.Wrong[f.Key]
		switch {
		case t.Under == f.Key: // never change text that is being typed
		case isBad:
			out.Value(id, bad.Text)
		default:
			out.Value(id, f.Show(shown, t.Units))
		}
		out.Flag(id, "aria-invalid", isBad)
		out.Text(id+"-wrong", bad.Why)
		out.Text(id+"-decided", t.Decided(f))
		out.Text(id+"-unit", say.Text(f.UnitIn(t.Units)))
		out.Text(id+"-range", t.rangeWords(f))
	}
}
