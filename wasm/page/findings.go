package page

import (
	"fmt"

	"ruffwright/sim/check"
)

// signs of the severities: never colour alone.
var signs = map[check.Severity]string{check.Stop: "✕", check.Mend: "◆", check.Note: "○", check.Caution: "△"}

// findingNodes is the list of findings: what will be seen, a button that marks
// the place, one button a remedy. What is not solved yet comes last, in one
// quiet paragraph.
func (p *Page) findingNodes() []Node {
	list, care := el("ul", "class=findings"), el("ul", "class=findings")
	var pending []string
	for _, f := range p.findings {
		if f.Pending {
			pending = append(pending, f.Sentence)
			continue
		}
		item := el("li", "id=finding-"+f.ID+" class=finding data-severity="+string(f.Severity),
			el("p", "class=sentence",
				el("span", "class=sign aria-hidden=true").say(signs[f.Severity]),
				el("strong", "").say(word("severity."+string(f.Severity))),
				text(f.Sentence)))
		if f.Severity == check.Caution {
			care.Nodes = append(care.Nodes, item)
			continue
		}
		acts := el("p", "class=acts",
			el("button", "type=button class=quiet data-do=hand id=hand-"+f.ID).
				with("data-with", f.ID).with("aria-pressed", fmt.Sprint(p.hand == f.ID)).say(word("finding.where")))
		for _, i := range p.offered(f) {
			label := word("finding.try", "change", f.Remedies[i].Sentence)
			if p.wayOf(f, i) == cures {
				label = word("finding.apply", "change", f.Remedies[i].Sentence)
			}
			button := el("button", fmt.Sprintf("type=button class=apply data-do=apply id=apply-%s-%d", f.ID, i)).
				with("data-with", fmt.Sprintf("%s %d", f.ID, i)).say(label)
			acts.Nodes = append(acts.Nodes, button)
			if words := p.outcome(f, i); words != "" {
				acts.Nodes = append(acts.Nodes, el("span", "class=tried").say(words))
			}
		}
		item.Nodes = append(item.Nodes, acts)
		list.Nodes = append(list.Nodes, item)
	}
	var out []Node
	if len(list.Nodes) > 0 {
		out = append(out, list)
	}
	if len(pending) > 0 {
		fold := el("div", "class=pending")
		for _, s := range pending {
			fold.Nodes = append(fold.Nodes, el("p", "").say(s))
		}
		out = append(out, fold)
	}
	if len(care.Nodes) > 0 {
		out = append(out, el("div", "class=care", el("h3", "").say(word("finding.care")), care))
	}
	return out
}

// news is the verdict and the first thing that must change, for the live
// region.
func (p *Page) news() string {
	if len(p.wrong) > 0 {
		for _, f := range fields() {
			if w, ok := p.wrong[f.Key]; ok {
				return word("entry.bad", "field", f.Label, "why", w.why)
			}
		}
	}
	words := p.verdict()
	if told := p.ruledWords(); told != "" {
		return told + " " + words
	}
	for _, f := range p.findings {
		if !f.Pending && (f.Severity == check.Stop || f.Severity == check.Mend) {
			return words + " " + f.Sentence
		}
	}
	return words
}
