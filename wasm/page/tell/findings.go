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

// FindingNodes is the list of findings: what will be seen, a button that marks
// the place, one button a remedy. What is not solved yet comes last, in one
// quiet paragraph.
func (t Tell) FindingNodes() []doc.Node {
	list, care := doc.El("ul", "class=findings"), doc.El("ul", "class=findings")
	var pending []string
	for _, f := range t.Findings {
		if f.Pending {
			pending = append(pending, say.In(f.Sentence))
			continue
		}
		item := doc.El("li", "id=finding-"+f.ID+" class=finding data-severity="+string(f.Severity),
			doc.El("p", "class=sentence",
				doc.El("span", "class=sign aria-hidden=true").Say(severities[f.Severity].sign),
				doc.El("strong", "").Say(say.Text(severities[f.Severity].begins)),
				doc.Text(say.In(f.Sentence))))
		if f.Severity == check.Caution {
			care.Nodes = append(care.Nodes, item)
			continue
		}
		acts := doc.El("p", "class=acts",
			doc.El("button", "type=button class=quiet data-do=hand id=hand-"+f.ID).
				With("data-with", f.ID).With("aria-pressed", fmt.Sprint(t.Hand == f.ID)).Say(say.Text("Show where")))
		for _, i := range t.Ask.Offered(f) {
			label := say.Text("Try: %s", f.Remedies[i].Sentence)
			if t.Ask.Cures(f, i) {
				label = say.Text("Apply: %s", f.Remedies[i].Sentence)
			}
			button := doc.El("button", fmt.Sprintf("type=button class=apply data-do=apply id=apply-%s-%d", f.ID, i)).
				With("data-with", fmt.Sprintf("%s %d", f.ID, i)).Say(label)
			acts.Nodes = append(acts.Nodes, button)
			if words := t.Ask.Outcome(f, i, t.Units); words != "" {
				acts.Nodes = append(acts.Nodes, doc.El("span", "class=tried").Say(words))
			}
		}
		item.Nodes = append(item.Nodes, acts)
		list.Nodes = append(list.Nodes, item)
	}
	var out []doc.Node
	if len(list.Nodes) > 0 {
		out = append(out, list)
	}
	if len(pending) > 0 {
		fold := doc.El("div", "class=pending")
		for _, s := range pending {
			fold.Nodes = append(fold.Nodes, doc.El("p", "").Say(s))
		}
		out = append(out, fold)
	}
	if len(care.Nodes) > 0 {
		out = append(out, doc.El("div", "class=care", doc.El("h3", "").Say(say.Text("Take care")), care))
	}
	return out
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
