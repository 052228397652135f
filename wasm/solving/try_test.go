package solving

import (
	"context"
	"slices"
	"strings"
	"testing"

	"ruffwright/assets"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/window"
	"ruffwright/wasm/wire"
)

// TestTries: a change that removes its finding is told so, one that does not as
// well, with what is left; what is then new is named; what cannot be told says why.
func TestTries(t *testing.T) {
	l := connect(t)
	s := demo(t, "ends-up")
	troughs := []check.Change{{Key: "pleat.first", Value: "trough"}, {Key: "pleat.last", Value: "trough"}}
	l.ask(wire.Request{ID: 1, Task: wire.Try, Coarse: true, Scheme: wire.Written(s), Tries: []wire.Trial{
		{Finding: "ends", Remedy: 0, Changes: troughs},
		{Finding: "ends", Remedy: 1, Changes: []check.Change{{Key: "ruff.sets", Value: "44"}}},
		{Finding: "ends", Remedy: 2, Changes: append(slices.Clone(troughs), check.Change{Key: "strip.have", Value: "2000"})},
		{Finding: "tea", Remedy: 3, Changes: troughs},
		{Finding: "ends", Remedy: 4, Changes: []check.Change{{Key: "ruff.sets", Value: "1"}}},
	}})
	var got []wire.Tried
	for _, r := range l.until(1) {
		if r.Tried != nil {
			got = append(got, *r.Tried)
		}
	}
	want := []struct{ tried, brings string }{{check.Removes, ""}, {check.Fails, ""}, {check.Trades, "strip-short"}, {"", ""}, {"", ""}}
	if len(got) != len(want) {
		t.Fatalf("%d tries answered: %+v", len(got), got)
	}
	for i, w := range want {
		if g := got[i]; g.Remedy != i || g.Tried != w.tried || strings.Join(g.Brings, " ") != w.brings || !g.Why.Empty() != (w.tried == "") {
			t.Errorf("try %d: %+v, want %+v", i, g, w)
		}
	}
}

// TestLight: every demo, solved, makes the same findings without what light
// leaves out.
func TestLight(t *testing.T) {
	for _, name := range assets.Demos() {
		r, err := sim.Solve(context.Background(), demo(t, name), sim.Options{Grid: window.Coarse})
		if err != nil {
			continue // no mechanics, nothing to leave out
		}
		if a, b := told(r), told(light(r)); a != b {
			t.Errorf("%s: findings\n%s\nwithout surfaces\n%s", name, a, b)
		}
	}
}

// TestRemediesOfMechanics: the floppy ruff is found so once it is solved, and
// sewing the other edge as well is tried and removes it.
func TestRemediesOfMechanics(t *testing.T) {
	l := connect(t)
	s := demo(t, "floppy")
	l.ask(wire.Request{ID: 1, Task: wire.Solve, Scheme: wire.Written(s)})
	got := results(l.until(1))
	r, err := sim.Draw(s)
	if err != nil {
		t.Fatal(err)
	}
	r.Solved = got[len(got)-1].Solved
	found := check.Find(r, scheme.Millimetres)
	at := slices.IndexFunc(found, func(f check.Finding) bool { return f.ID == "bow" })
	if at < 0 || found[at].Severity != check.Stop || len(found[at].Remedies) == 0 {
		t.Fatalf("found %+v", found)
	}
	l.ask(wire.Request{ID: 2, Task: wire.Try, Scheme: wire.Written(s), Tries: []wire.Trial{{Finding: "bow", Changes: found[at].Remedies[0].Changes}}})
	all := l.until(2)
	if g := all[len(all)-1].Tried; g == nil || g.Tried != check.Removes || len(g.Brings) > 0 || !(g.Then < found[at].Value/4) {
		t.Errorf("%+v, before %g mm", g, found[at].Value)
	}
}
