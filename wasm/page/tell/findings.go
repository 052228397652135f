package tell

import (
	"fmt"

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

// FindingNodes is the list of findings: what will be seen, a button that marks
// the place, the best remedy, and the others folded. What is not solved yet comes last, in
// one quiet paragraph.
func (t Tell) FindingNodes() []doc.Node {
	if t.Veiled {
		return []doc.Node{doc.El("p", "class=aside").Say(say.Text("First say in the lesson what is wrong. Then it stands here, with what would mend it."))}
	}
	list, rest, care := doc.El("ul", "class=findings"), doc.El("ul", "class=findings"), doc.El("ul", "class=findings")
	pending := doc.El("div", "class=pending")
	for _, f := range t.Findings {
		switch {
		case f.Pending:
			pending.Nodes = append(pending.Nodes, doc.El("p", "").Say(say.In(f.Sentence)))
		case f.Severity == check.Caution:
			care.Nodes = append(care.Nodes, findingNode(f))
		case len(list.Nodes) < openFindings || t.Hand == f.ID:
			list.Nodes = append(list.Nodes, findingNode(f).WithNodes(t.acts(f)...))
		default:
			rest.Nodes = append(rest.Nodes, findingNode(f).WithNodes(t.acts(f)...))
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

// findingNode is what a finding says.
func findingNode(f check.Finding) doc.Node {
	return doc.El("li", "id=finding-"+f.ID+" class=finding data-severity="+string(f.Severity),
		doc.El("p", "class=sentence",
			doc.El("span", "class=sign aria-hidden=true").Say(severities[f.Severity].sign),
			doc.El("strong", "").Say(say.Text(severities[f.Severity].begins)),
			doc.Text(say.In(f.Sentence))))
}

// acts are the buttons of a finding: its place, its first remedy, and the others folded.
func (t Tell) acts(f check.Finding) []doc.Node {
	first := doc.El("p", "class=acts",
		doc.El("button", "type=button class=quiet data-do=hand id=hand-"+f.ID).
			With("data-with", f.ID).With("aria-pressed", fmt.Sprint(t.Hand == f.ID)).Say(say.Text("Show where")))
	var others []doc.Node
	for n, i := range t.Ask.Offered(f) {
		label := say.Text("Try: %s", f.Remedies[i].Sentence)
		if t.Ask.Cures(f, i) {
			label = say.Text("Apply: %s", f.Remedies[i].Sentence)
		}
		way := []doc.Node{doc.El("button", fmt.Sprintf("type=button class=apply data-do=apply id=apply-%s-%d", f.ID, i)).
			With("data-with", fmt.Sprintf("%s %d", f.ID, i)).Say(label)}
		if words := t.Ask.Outcome(f, i, t.Units); words != "" {
			way = append(way, doc.El("span", "class=tried").Say(words))
		}
		if n == 0 {
			first = first.WithNodes(way...)
		} else {
			others = append(others, way...)
		}
	}
	if len(others) == 0 {
		return []doc.Node{first}
	}
	return []doc.Node{first, doc.El("details", "class=others id=others-"+f.ID,
		doc.El("summary", "").Say(say.Text("Other ways")), doc.El("p", "class=acts", others...))}
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
