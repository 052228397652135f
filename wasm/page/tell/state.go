package tell

import (
	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/work"
)

// stateNodes are the banner beside the verdict: what is refused, with a way to
// it, or why the cloth cannot be solved. Nothing where all is as typed.
func stateNodes(s work.State) []doc.Node {
	switch s.Kind {
	case work.LastOne:
		list := doc.El("ul", "")
		for _, r := range s.Refused {
			list.Nodes = append(list.Nodes, doc.El("li", "",
				doc.Text(say.Text("%s: %s", say.Text(r.Field.Label), r.Why)),
				goTo(r.Field, "state-"+doc.Control(r.Field.Key))))
		}
		return []doc.Node{doc.El("p", "", doc.El("span", "class=sign aria-hidden=true").Say("✕"), doc.El("strong", "").Say(say.Text("What you see is the last good ruff, not what is typed."))), list}
	case work.Cannot:
		return []doc.Node{doc.El("p", "", doc.El("span", "class=sign aria-hidden=true").Say("✕"), doc.El("strong", "").Say(say.Text("How this cloth hangs cannot be solved. ")), doc.Text(s.Why))}
	}
	return nil
}

// goTo is a button that leads to a field.
func goTo(f scheme.Field, id string) doc.Node {
	return doc.El("button", "type=button class=quiet data-do=goto id="+id).With("data-with", f.Key).Say(say.Text("Go to: %s", say.Text(f.Label)))
}

// panels of the page that show the ruff; each says which one where it is not
// what is typed, in its own line.
var panels = []struct{ id, of string }{
	{"stage", "stage-of"}, {"to-findings", "findings-of"}, {"to-numbers", "numbers-of"}, {"to-compare", "compare-of"},
}

// states show how what is shown stands to what is typed.
func (t Tell) states(out *doc.List) {
	s := t.State()
	out.Nodes("state", stateNodes(s))
	out.Attr("state", "data-state", string(s.Kind))
	for _, panel := range panels {
		words := s.Of()
		if panel.id == "stage" && words != "" { // the drawing has little room
			words = say.Text("The last good ruff, not what is typed")
		}
		if panel.of == "compare-of" && !t.Compares() {
			words = ""
		}
		out.Text(panel.of, words)
		out.Flag(panel.id, "data-old", words != "")
	}
	for _, g := range scheme.Groups() { // a folded part of the form tells of the entries in it
		if fields := folded(g.Key); len(fields) > 0 {
			words, bad := t.told(fields)
			out.Text("told-"+g.Key, words)
			out.Flag("group-"+g.Key, "data-refused", bad > 0)
		}
	}
}
