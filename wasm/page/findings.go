package page

import (
	"fmt"
	"strings"

	"ruffwright/sim/check"
)

// severityWords are what a severity is called, and its sign: never colour
// alone.
var severityWords = map[check.Severity]struct{ sign, word string }{
	check.Stop:    {"✕", "Stop"},
	check.Mend:    {"◆", "Mend"},
	check.Note:    {"○", "Note"},
	check.Caution: {"△", "Caution"},
}

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
		w := severityWords[f.Severity]
		item := el("li", "id=finding-"+f.ID+" class=finding data-severity="+string(f.Severity),
			el("p", "class=sentence",
				el("span", "class=sign aria-hidden=true").say(w.sign),
				el("strong", "").say(w.word+": "),
				text(f.Sentence)))
		if f.Severity == check.Caution {
			care.Nodes = append(care.Nodes, item)
			continue
		}
		acts := el("p", "class=acts",
			el("button", "type=button class=quiet data-do=hand id=hand-"+f.ID).
				with("data-with", f.ID).with("aria-pressed", fmt.Sprint(p.hand == f.ID)).say(onDrawing))
		for i, r := range f.Remedies {
			button := el("button", fmt.Sprintf("type=button class=apply data-do=apply id=apply-%s-%d", f.ID, i)).
				with("data-with", fmt.Sprintf("%s %d", f.ID, i)).say("Apply: " + r.Sentence)
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
		out = append(out, el("div", "class=care", el("h3", "").say(takeCare), care))
	}
	return out
}

// verdict is one plain sentence on all findings.
func (p *Page) verdict() string {
	count, pending := map[check.Severity]int{}, 0
	for _, f := range p.findings {
		if f.Pending {
			pending++
			continue
		}
		count[f.Severity]++
	}
	words := ""
	switch stop, mend := count[check.Stop], count[check.Mend]; {
	case stop > 0 && mend > 0:
		words = fmt.Sprintf("%s this ruff, and %s to mend.", things(stop, "stops", "stop"), number(mend))
	case stop > 0:
		words = things(stop, "stops", "stop") + " this ruff."
	case mend > 0:
		words = fmt.Sprintf("Nothing stops this ruff; %s to mend.", things(mend, "is", "are"))
		words = strings.Replace(words, "; One thing", "; one thing", 1)
	default:
		words = "Nothing stops this ruff."
	}
	if pending > 0 {
		what, how := " That is its geometry; how the cloth hangs ", "is not solved."
		if p.ruff.Solved != nil {
			what = " How firmly it holds "
		}
		if p.busy() {
			how = "is being solved."
		}
		words += what + how
	}
	return words
}

var numbers = []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}

// number is a small count in words.
func number(n int) string {
	if n < len(numbers) {
		return numbers[n]
	}
	return fmt.Sprint(n)
}

// things is "One thing stops", "Two things stop".
func things(n int, one, many string) string {
	if n == 1 {
		return "One thing " + one
	}
	return sentenceStart(number(n)) + " things " + many
}

func sentenceStart(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// news is the verdict and the first thing that must change, for the live
// region.
func (p *Page) news() string {
	if len(p.wrong) > 0 {
		for _, f := range fieldsInOrder() {
			if w, ok := p.wrong[f.Key]; ok {
				return f.Label + ": " + w.why + " The last good ruff is shown."
			}
		}
	}
	words := p.verdict()
	for _, f := range p.findings {
		if !f.Pending && (f.Severity == check.Stop || f.Severity == check.Mend) {
			return words + " " + f.Sentence
		}
	}
	return words
}
