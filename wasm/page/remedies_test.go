package page

import (
	"slices"
	"strings"
	"testing"

	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/wire"
)

// TestOffered: a change is offered as a cure only where it removes its finding
// and brings nothing; one that trades says so and comes after it, one that only
// lessens comes last, and one that does nothing is not offered.
func TestOffered(t *testing.T) {
	p := newPage(t)
	f := check.Finding{ID: "bow", Severity: check.Stop, Unit: "mm", Value: 9, Sentence: "It swings."}
	for _, name := range []string{"nothing", "trade", "lessen", "harm", "cure", "unknown", "untried"} {
		f.Remedies = append(f.Remedies, check.Remedy{Sentence: "Do " + name + ".", Changes: []check.Change{{Key: "name", Value: name}}})
	}
	p.findings = []check.Finding{f}
	p.tried = map[string]wire.Tried{}
	for i, tried := range []wire.Tried{
		{Tried: check.Fails, Then: 9},
		{Tried: check.Trades, Then: 1.2, Brings: []string{"height"}, Leaves: []string{"joins"}},
		{Tried: check.Fails, Then: 4},
		{Tried: check.Fails, Then: 4, Brings: []string{"sinks"}},
		{Tried: check.Removes, Then: 1.5, Ends: []string{"sinks"}},
		{Why: "it did not come to rest"},
	} {
		tried.Finding, tried.Remedy = "bow", i
		p.marks(tried)
	}
	if got := p.offered(f); !slices.Equal(got, []int{4, 5, 6, 1, 2}) {
		t.Errorf("offered in the order %v", got)
	}
	html := doc.HTML(p.findingNodes()...)
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
