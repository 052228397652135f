package tell

import (
	"fmt"
	"slices"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// severities by their sign, never colour alone, what a finding begins with, and what
// the comparison says.
var severities = map[check.Severity]struct{ sign, begins, found string }{
	check.Stop:    {"✕", "Stop: ", "stops"},
	check.Mend:    {"◆", "Mend: ", "to mend"},
	check.Note:    {"○", "Note: ", ""},
	check.Caution: {"△", "Caution: ", ""},
}

// openFindings are how many findings stand open: those that matter most. The rest is
// folded below them.
const openFindings = 2

// FindingNodes is the list of findings: what will be seen and why, a button that marks the
// place, what ends it, and how it looks now and then. What is not solved yet comes last,
// in one quiet paragraph.
func (t Tell) FindingNodes() []doc.Node {
	if t.Veiled {
		return []doc.Node{doc.El("p", "class=aside").Say(say.Text("First say in the lesson what is wrong. Then it stands here, with what would mend it."))}
	}
	list, rest, care := doc.El("ul", "class=findings"), doc.El("ul", "class=findings"), doc.El("ul", "class=findings")
	pending := doc.El("div", "class=pending")
	numbered, own, _ := t.deeds()
	for _, f := range t.Findings {
		switch {
		case f.Pending:
			pending.Nodes = append(pending.Nodes, doc.El("p", "").Say(say.In(f.Sentence)))
		case f.Severity == check.Caution:
			care.Nodes = append(care.Nodes, findingNode(f))
		case len(list.Nodes) < openFindings || t.Hand == f.ID:
			list.Nodes = append(list.Nodes, t.acts(findingNode(f), f, numbered, own))
		default:
			rest.Nodes = append(rest.Nodes, t.acts(findingNode(f), f, numbered, own))
		}
	}
	var out []doc.Node
	if len(list.Nodes) > 0 {
		out = append(out, list)
	}
	if n := len(rest.Nodes); n > 0 {
		out = append(out, doc.El("details", "class=more id=more-findings", doc.El("summary", "").Say(say.Count(n, "One thing more", "%s things more", say.Capital(say.Number(n)))), rest))
	}
	if len(pending.Nodes) > 0 {
		out = append(out, pending)
	}
	if len(care.Nodes) > 0 {
		out = append(out, doc.El("details", "class=care id=care", doc.El("summary", "").Say(say.Text("Take care")), care))
	}
	return out
}

// findingNode is what a finding says: what it is, and why.
func findingNode(f check.Finding) doc.Node {
	begins := say.Text(severities[f.Severity].begins)
	if f.Severity == check.Stop || f.Severity == check.Mend {
		begins += say.Sentence(say.Inside(say.Title(f.ID))) + " "
	}
	return doc.El("li", "id=finding-"+f.ID+" class=finding data-severity="+string(f.Severity),
		doc.El("p", "class=sentence",
			doc.El("span", "class=sign aria-hidden=true").Say(severities[f.Severity].sign),
			doc.El("strong", "").Say(begins),
			doc.Text(say.In(f.Sentence))))
}

// acts adds to a finding what is done at it: its place, what ends it best and which others
// do, how it looks now and then, and the changes that it alone offers.
func (t Tell) acts(node doc.Node, f check.Finding, numbered, own []deed) doc.Node {
	line := doc.El("p", "class=acts",
		doc.El("button", "type=button class=quiet data-do=hand id=hand-"+f.ID).
			With("data-with", f.ID).With("aria-pressed", fmt.Sprint(t.Hand == f.ID)).Say(say.Text("Show where")))
	mine := slices.DeleteFunc(slices.Clone(own), func(d deed) bool { return d.of[0] != f.ID })
	first := best(f, slices.Concat(numbered, mine))
	if first != nil && first.number > 0 {
		line = line.WithNodes(t.button(first, "at-"+f.ID), doc.El("span", "class=tried").Say(endedBy(f, first, numbered)))
	}
	out := []doc.Node{line}
	if first != nil {
		after := say.Text("then")
		if first.number > 0 {
			after = say.Text("with %d", first.number)
		}
		if seen, ok := glimpse(f.ID, t.Ask.Drawn(), first.Effect.Drawn, after); ok {
			node, out = node.With("data-seen", "true"), append(out, seen)
		}
	}
	var others []doc.Node
	for i := range mine {
		of := doc.El("div", "class=own", t.deedNodes(&mine[i], "own", "")...)
		if i == 0 {
			out = append(out, of)
		} else {
			others = append(others, of)
		}
	}
	if len(others) > 0 {
		out = append(out, doc.El("details", "class=others id=others-"+f.ID, doc.El("summary", "").Say(say.Text("Other ways"))).WithNodes(others...))
	}
	return node.WithNodes(out...)
}

// endedBy says which of what is told above ends a finding beside the first.
func endedBy(f check.Finding, first *deed, numbered []deed) string {
	var others []string
	for i := range numbered {
		if d := &numbered[i]; d.ends(f.ID) && d.number != first.number && !d.spoils() {
			others = append(others, fmt.Sprint(d.number))
		}
	}
	words := say.Text("ends it")
	if first.spoils() {
		words = say.Text("ends it, and brings something new")
	}
	if len(others) > 0 {
		words = say.Count(len(others), "%s; so does %s", "%s; so do %s", words, strings.Join(others, ", "))
	}
	return words
}

// News is the verdict and the first thing that must change, for the live
// region.
func (t Tell) News() string {
	if len(t.Wrong) > 0 {
		for _, f := range scheme.Fields() {
			if w, ok := t.Wrong[f.Key]; ok {
				return say.Text("%s: %s The last good ruff is shown.", say.Text(f.Label), w.Why)
			}
		}
	}
	words := t.Verdict()
	if t.Veiled {
		return words
	}
	if told := t.Ruled(); told != "" {
		return told + " " + words
	}
	for _, f := range t.Findings {
		if !f.Pending && (f.Severity == check.Stop || f.Severity == check.Mend) {
			return words + " " + say.In(f.Sentence)
		}
	}
	return words
}
