package page

import (
	"context"
	"regexp"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/teach"
)

// solvedFor solves a scheme as the page's worker does in the end.
func solvedFor(t *testing.T, s scheme.Scheme) (sim.Ruff, []check.Finding) {
	t.Helper()
	r, err := sim.Solve(context.Background(), s, sim.Options{})
	if err != nil {
		if r, err = sim.Draw(s); err != nil {
			t.Fatal(err)
		}
	}
	return r, check.Find(r, scheme.Millimetres)
}

var numeral = regexp.MustCompile(`\d+(?:\.\d+)?`)

// TestLearning: a lesson is one step, goes away with it, and comes back with
// redo; its link opens it; begun again it is as at first; a ruff of one's own ends
// it.
func TestLearning(t *testing.T) {
	p := newPage(t)
	p.Handle(doc.Event{Kind: doc.Begin})
	was := p.Scheme().Code()
	out := p.Handle(doc.Event{Kind: doc.Address, Value: "#lesson=ends-up"})
	if p.work.Lesson != "ends-up" || p.Scheme().Pleat.First != scheme.Crest {
		t.Fatalf("the link opens %q, first fold %s", p.work.Lesson, p.Scheme().Pleat.First)
	}
	if !slices.ContainsFunc(out, func(c doc.Patch) bool { return c.Op == doc.OpFocus && c.ID == "lesson" }) {
		t.Error("the lesson is not led to")
	}
	if !slices.ContainsFunc(out, func(c doc.Patch) bool { return c.ID == "lesson-title" && strings.Contains(c.Value, "chin") }) {
		t.Error("the lesson is not shown")
	}
	began := p.Scheme().Code()
	p.Handle(doc.Event{Kind: doc.Do, Name: "undo"})
	if p.work.Lesson != "" || p.Scheme().Code() != was {
		t.Error("undo does not take the lesson back")
	}
	p.Handle(doc.Event{Kind: doc.Do, Name: "redo"})
	if p.work.Lesson != "ends-up" || p.Scheme().Code() != began {
		t.Error("redo does not open the lesson again")
	}
	p.Handle(doc.Event{Kind: doc.Set, Name: "pleat.first", Value: "trough"})
	if p.work.Lesson != "ends-up" {
		t.Error("an entry ends the lesson")
	}
	p.Handle(doc.Event{Kind: doc.Do, Name: "lesson-again"})
	if p.work.Lesson != "ends-up" || p.Scheme().Code() != began {
		t.Error("again is not as at first")
	}
	p.Handle(doc.Event{Kind: doc.Do, Name: "undo"})
	if p.Scheme().Pleat.First != scheme.Trough || p.work.Lesson != "ends-up" {
		t.Error("beginning again cannot be undone")
	}
	// What is wrong is not told, and nothing offered, before it is said.
	html := func() string { return doc.HTML(p.tell().FindingNodes()...) + p.tell().Verdict() + p.tell().News() }
	p.Handle(doc.Event{Kind: doc.Do, Name: "lesson-again"})
	if got := html(); strings.Contains(got, "data-do=\"apply\"") || strings.Contains(strings.ToLower(got), "flap") || !p.Look.Veiled {
		t.Errorf("given away: %s", got)
	}
	p.Handle(doc.Event{Kind: doc.Do, Name: "lesson-claim", Value: "trough"})
	if got := html(); strings.Contains(got, "data-do=\"apply\"") {
		t.Error("a wrong answer opens the findings")
	}
	p.Handle(doc.Event{Kind: doc.Do, Name: "lesson-claim", Value: "crest"})
	if got := html(); !strings.Contains(got, "data-do=\"apply\"") || !strings.Contains(strings.ToLower(got), "flap") || p.Look.Veiled {
		t.Errorf("said, and not told: %s", got)
	}
	seen := map[string]bool{}
	lessons := teach.Lessons()
	for range lessons {
		seen[p.work.Lesson] = true
		p.Handle(doc.Event{Kind: doc.Do, Name: "lesson-next"})
	}
	if len(seen) != len(lessons) || p.work.Lesson != "ends-up" {
		t.Errorf("next leads through %d of %d lessons, to %s", len(seen), len(lessons), p.work.Lesson)
	}
	p.Handle(doc.Event{Kind: doc.Do, Name: "fresh"})
	if p.work.Lesson != "" {
		t.Error("another ruff leaves the lesson open")
	}
	was = p.Scheme().Code()
	p.Handle(doc.Event{Kind: doc.Address, Value: "#lesson=<b>none</b>"})
	if p.work.Lesson != "" || p.Scheme().Code() != was || p.voice.Line() == "" {
		t.Errorf("a lesson that is not there: %q, notice %q", p.work.Lesson, p.voice.Line())
	}
	p.Handle(doc.Event{Kind: doc.Address, Value: "#lesson=top-only"})
	p.Handle(doc.Event{Kind: doc.Do, Name: "lesson-away"})
	if p.work.Lesson != "" || p.Scheme().Pleat.Anchor != scheme.AnchorTop {
		t.Error("put away, the ruff goes as well")
	}
}
