package tell

import (
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/ask"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/work"
	"ruffwright/wasm/wire"
)

// TestOffered: a change is offered as a cure only where it removes its finding
// and brings nothing; one that trades says so and comes after it, one that only
// lessens comes last, and one that does nothing is not offered.
func TestOffered(t *testing.T) {
	f := check.Finding{ID: "bow", Severity: check.Stop, Unit: "mm", Value: 9, Sentence: word.Name("It swings.")}
	for _, name := range []string{"nothing", "trade", "lessen", "harm", "cure", "unknown", "untried"} {
		f.Remedies = append(f.Remedies, check.Remedy{Sentence: word.Name("Do " + name + "."), Changes: []check.Change{{Key: "name", Value: name}}})
	}
	w, err := work.New(scheme.Default())
	if err != nil {
		t.Fatal(err)
	}
	w.Findings = []check.Finding{f}
	a := &ask.Ask{Voice: &say.Voice{}}
	a.See(ask.Want{A: w.Asked, Whole: true, Findings: w.Findings}, true)
	a.Wake(0)
	hear := func(r wire.Reply) {
		head, body, err := r.Encode()
		if err != nil {
			t.Fatal(err)
		}
		a.Hear(head, body, 0)
	}
	hear(wire.Reply{Alive: true})
	a.Next(0) // the remedies are asked for
	for i, tried := range []wire.Tried{
		{Tried: check.Fails, Then: 9},
		{Tried: check.Trades, Then: 1.2, Brings: []string{"height"}, Leaves: []string{"joins"}},
		{Tried: check.Fails, Then: 4},
		{Tried: check.Fails, Then: 4, Brings: []string{"sinks"}},
		{Tried: check.Removes, Then: 1.5, Ends: []string{"sinks"}},
		{Why: word.Packed{Text: word.Say("it did not come to rest")}},
	} {
		tried.Finding, tried.Remedy = "bow", i
		hear(wire.Reply{ID: 1, Tried: &tried})
	}
	if got := a.Offered(f); !slices.Equal(got, []int{4, 5, 6, 1, 2}) {
		t.Errorf("offered in the order %v", got)
	}
	html := doc.HTML(Tell{Work: w, Ask: a}.FindingNodes()...)
	for _, want := range []string{
		"Apply: Do cure.", "Try: Do trade.", "Try: Do lessen.", "Try: Do untried.",
		"tried: removes it (then 1.2 mm), but brings something new: the height is off; left: a join shows",
		"tried: removes it (then 1.5 mm); also removes: the ruff sinks or turns up",
		"tried: does not remove it (then 4 mm)",
	} {
		if !strings.Contains(html, want) {
			t.Errorf("no %q in %s", want, html)
		}
	}
	for _, never := range []string{"Do nothing", "Do harm", "Apply: Do trade", "Apply: Do untried"} {
		if strings.Contains(html, never) {
			t.Errorf("%q is offered", never)
		}
	}
}
