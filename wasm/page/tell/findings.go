package tell

import (
	"fmt"

	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// signs of the severities: never colour alone.
var signs = map[check.Severity]string{check.Stop: "✕", check.Mend: "◆", check.Note: "○", check.Caution: "△"}

// FindingNodes is the list of findings: what will be seen, a button that marks
// the place, one button a remedy. What is not solved yet comes last, in one
// quiet paragraph.
func (t Tell) FindingNodes() []doc.Node {
	list, care := doc.El("ul", "class=findings"), doc.El("ul", "class=findings")
	var pending []string
	for _, f := range t.Findings {
		if f.Pending {
			pending = append(pending, f.Sentence.String())
			continue
		}
		item := doc.El("li", "id=finding-"+f.ID+" class=finding data-severity="+string(f.Severity),
			doc.El("p", "class=sentence",
				doc.El("span", "class=sign aria-hidden=true").Say(signs[f.Severity]),
				doc.El("strong", "").Say(say.Word("severity."+string(f.Severity))),
				doc.Text(f.Sentence.String())))
		if f.Severity == check.Caution {
			care.Nodes = append(care.Nodes, item)
			continue
		}
		acts := doc.El("p", "class=acts",
			doc.El("button", "type=button class=quiet data-do=hand id=hand-"+f.ID).
				With("data-with", f.ID).With("aria-pressed", fmt.Sprint(t.Hand == f.ID)).Say(say.Word("finding.where")))
		for _, i := range t.Ask.Offered(f) {
			label := say.Word("finding.try", "change", f.Remedies[i].Sentence)
			if t.Ask.Cures(f, i) {
				label = say.Word("finding.apply", "change", f.Remedies[i].Sentence)
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
		out = append(out, doc.El("div", "class=care", doc.El("h3", "").Say(say.Word("finding.care")), care))
	}
	return out
}

// News is the verdict and the first thing that must change, for the live
// region.
func (t Tell) News() string {
	if len(t.Wrong) > 0 {
		for _, f := range say.Fields() {
			if w, ok := t.Wrong[f.Key]; ok {
				return say.Word("entry.bad", "field", f.Label, "why", w.Why)
			}
		}
	}
	words := t.Verdict()
	if told := t.Ruled(); told != "" {
		return told + " " + words
	}
	for _, f := range t.Findings {
		if !f.Pending && (f.Severity == check.Stop || f.Severity == check.Mend) {
			return words + " " + f.Sentence.String()
		}
	}
	return words
}
