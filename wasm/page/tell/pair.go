package tell

import (
	"slices"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/check"
	"ruffwright/sim/check/compare"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// PairActs are the buttons of the comparison.
func (t Tell) PairActs() []doc.Node {
	button := func(id, label string) doc.Node {
		return doc.El("button", "type=button data-do="+id+" id="+id).Say(say.Text(label))
	}
	twin := doc.El("button", "type=button data-do=twin id=twin").Say(t.TwinLabel())
	if !t.Compares() {
		return []doc.Node{button("compare-keep", "Keep this ruff to compare"), twin}
	}
	return []doc.Node{
		button("compare-swap", "Swap A and B"), button("compare-keep", "Copy A to B"), button("compare-back", "Copy B to A"),
		twin, button("compare-stop", "Stop comparing"),
	}
}

// pairNodes are the comparison in a sentence and a table.
func (t Tell) pairNodes() []doc.Node {
	if !t.Compares() {
		return nil
	}
	c := t.Comparison()
	sentence := say.In(c.Sentence)
	if t.Veiled {
		c.Troubles, sentence = nil, t.Verdict()
	}
	out := []doc.Node{doc.El("p", "class=verdict id=compare-sentence").Say(sentence)}
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
		fields = append(fields, row(say.Text(f.Field.Label), decision(f.Field, f.A), decision(f.Field, f.B), "", "figure"))
	}
	for _, t := range c.Troubles {
		troubles = append(troubles, row(say.Text(t.Title), found(t.A, t.PendingA), found(t.B, t.PendingB), "", "found"))
	}
	for _, m := range c.Measures {
		class := "figure"
		differ := say.In(m.Difference)
		if m.Better != compare.Neither {
			differ = say.Text("%s, %s better", differ, string(m.Better))
		}
		measures = append(measures, row(say.Text(m.Label), say.In(m.A.Text), say.In(m.B.Text), differ, class))
	}
	a, b := t.Apart()
	table := doc.El("table", "class=two role=table",
		doc.El("caption", "class=hidden").Say(say.Text("A and B: what differs")),
		doc.El("thead", "role=rowgroup", doc.El("tr", "role=row", doc.El("td", "role=cell").Say(""),
			named(head("columnheader", "col", "A").With("data-of", "A"), a, t.Scheme.Name, t.B.Scheme.Name),
			named(head("columnheader", "col", "B").With("data-of", "B"), b, t.B.Scheme.Name, t.Scheme.Name),
			head("columnheader", "col", say.Text("Difference")))))
	table.Nodes = slices.Concat(table.Nodes, body(say.Text("Decided otherwise"), fields), body(say.Text("What will go wrong"), troubles), body(say.Text("What comes of it"), measures))
	return append(out, table)
}

// Apart names A and B by what was decided otherwise: how they are sewn, else by the
// first of their decisions that differ; "" where none does.
func (t Tell) Apart() (a, b string) {
	if a, b = t.Sewn(); a != b {
		return say.Capital(a), say.Capital(b)
	}
	for _, f := range t.Comparison().Fields {
		label := say.Text(f.Field.Label)
		return say.Text("%s %s", label, decision(f.Field, f.A)), say.Text("%s %s", label, decision(f.Field, f.B))
	}
	return "", ""
}

// named adds to a ruff's letter what tells it from the other, and the maker's own name
// of it where the other has another one.
func named(head doc.Node, differs, name, other string) doc.Node {
	if differs != "" {
		head.Nodes = append(head.Nodes, doc.El("span", "class=remark").Say(" "+differs))
	}
	if name != "" && name != other {
		head.Nodes = append(head.Nodes, doc.El("span", "class=remark translate=no").Say(" "+name))
	}
	return head
}

// decision is a value of a field as the form calls it.
func decision(f scheme.Field, value word.Text) string {
	text := say.In(value)
	for _, c := range f.Choices {
		if c.Value == text {
			return say.Text(c.Label)
		}
	}
	return text
}

// found says what a finding comes to in one of the two.
func found(s check.Severity, pending bool) string {
	switch {
	case s != "":
		return severities[s].sign + " " + say.Text(severities[s].found)
	case pending:
		return say.Text("not solved yet")
	}
	return say.Text("no")
}
