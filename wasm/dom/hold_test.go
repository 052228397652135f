//go:build !js

package dom

import (
	"strings"
	"testing"

	"ruffwright/wasm/doc"
)

// TestHold: asked what would hold, the page looks once the ruff is solved, lists the ways
// with what they cost, and takes one as one step; another ruff ends the question.
func TestHold(t *testing.T) {
	k := seated(t)
	k.done()
	k.send(10, doc.Do, "demo", "flaps-up")
	k.done()
	k.send(20, doc.Do, "hold", "")
	if k.Attr["hold-go"]["aria-disabled"] != "true" {
		t.Error("asked, it can be asked again")
	}
	k.done()
	words := k.Words("hold-ways")
	for _, want := range []string{"Sewn to both edges, with tucks.", "hours. It stands", "Apply: both edges, with tucks", "Taken for granted, as a new ruff has it: ", "It changes: sewn to: both edges; "} {
		if !strings.Contains(words, want) {
			t.Errorf("no %q in %s", want, words)
		}
	}
	if got := k.Text["hold-stands"]; !strings.Contains(got, "hold, the one with least cloth first") {
		t.Errorf("it stands: %s", got)
	}
	k.send(30, doc.Do, "hold-take", "0")
	k.done()
	if got := k.Text["verdict"]; strings.Contains(got, "top") || k.Words("hold-ways") != "" {
		t.Errorf("taken: %s; %s", got, k.Words("hold-ways"))
	}
	if got := k.Words("findings"); strings.Contains(got, "Stop: ") || strings.Contains(got, "Mend: ") {
		t.Errorf("what is taken does not hold: %s", got)
	}
	k.send(40, doc.Do, "undo", "")
	k.done()
	if got := k.Words("findings"); !strings.Contains(got, "Stop: ") {
		t.Errorf("undone: %s", got)
	}
}
