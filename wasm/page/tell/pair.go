package tell

import (
	"slices"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/sim/check/compare"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// PairActs are the buttons of the comparison.
func (t Tell) PairActs() []doc.Node {
	button := func(id, key string) doc.Node {
		return doc.El("button", "type=button data-do="+id+" id="+id).Say(say.Word(key))
	}
	twin := doc.El("button", "type=button data-do=twin id=twin").Say(t.TwinLabel())
	if !t.Compares() {
		return []doc.Node{button("compare-keep", "compare.keep"), twin}
	}
	return []doc.Node{
		button("compare-swap", "compare.swap"), button("compare-keep", "compare.atob"), button("compare-back", "compare.btoa"),
		twin, button("compare-stop", "compare.stop"),
	}
}

// pairNodes are the comparison in a sentence and a table.
func (t Tell) pairNodes() []doc.Node {
	if !t.Compares() {
		return nil
	}
	c := t.Comparison()
	out := []doc.Node{doc.El("p", "class=verdict id=compare-sentence").Say(say.Theirs(c.Sentence.String()))}
	cell := func(role, class string, words string) doc.Node {
		return doc.El("td", "role="+role+" class="+class).Say(words)
	}
	head := func(role, scope, words string) doc.Node {
		return doc.El("th", "scope="+scope+" role="+role).Say(words)
	}
	body := func(title string, rows []doc.Node) []doc.Node {
		if len(rows) == 0 {
			return nil
		}
		first := doc.El("tr", "role=row class=part", doc.El("th", "scope=rowgroup role=rowheader colspan=4").Say(title))
		return []doc.Node{doc.El("tbody", "role=rowgroup", append([]doc.Node{first}, rows...)...)}
	}
	row := func(label, a, b, differ, class string) doc.Node {
		return doc.El("tr", "role=row", head("rowheader", "row", label),
			cell("cell", class, a).With("data-of", "A"), cell("cell", class, b).With("data-of", "B"), cell("cell", "remark", differ))
	}
	var fields, troubles, measures []doc.Node
	for _, f := range c.Fields {
		fields = append(fields, row(say.Theirs(f.Field.Label), t.decision(f.Field, f.A.String()), t.decision(f.Field, f.B.String()), "", "figure"))
	}
	for _, t := range c.Troubles {
		troubles = append(troubles, row(say.Theirs(t.Title), found(t.A, t.PendingA), found(t.B, t.PendingB), "", "found"))
	}
	for _, m := range c.Measures {
		class := "figure"
		differ := say.Theirs(m.Difference.String())
		if m.Better != compare.Neither {
			differ = say.Word("compare.better", "difference", differ, "which", string(m.Better))
		}
		measures = append(measures, row(say.Theirs(m.Label), say.Theirs(m.A.Text.String()), say.Theirs(m.B.Text.String()), differ, class))
	}
	table := doc.El("table", "class=two role=table",
		doc.El("caption", "class=hidden").Say(say.Word("compare.caption")),
		doc.El("thead", "role=rowgroup", doc.El("tr", "role=row", doc.El("td", "role=cell").Say(""),
			named(head("columnheader", "col", say.Word("compare.a")).With("data-of", "A"), t.Scheme.Name),
			named(head("columnheader", "col", say.Word("compare.b")).With("data-of", "B"), t.B.Scheme.Name),
			head("columnheader", "col", say.Word("compare.differ")))))
	table.Nodes = slices.Concat(table.Nodes, body(say.Word("compare.fields"), fields), body(say.Word("compare.troubles"), troubles), body(say.Word("compare.measures"), measures))
	return append(out, table)
}

// named adds the maker's own name of a ruff to its letter.
func named(head doc.Node, name string) doc.Node {
	if name != "" {
		head.Nodes = append(head.Nodes, doc.El("span", "class=remark translate=no").Say(" "+name))
	}
	return head
}

// decision is a value of a field as the form calls it.
func (t Tell) decision(f scheme.Field, value string) string {
	for _, c := range f.Choices {
		if c.Value == value {
			return say.Theirs(c.Label)
		}
	}
	return say.Theirs(value)
}

// found says what a finding comes to in one of the two.
func found(s check.Severity, pending bool) string {
	switch {
	case s != "":
		return signs[s] + " " + say.Word("found."+string(s))
	case pending:
		return say.Word("found.pending")
	}
	return say.Word("found.no")
}
