package solving

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"ruffwright/assets"
	"ruffwright/geom/figure"
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
	l.ask(wire.Request{ID: 3, Task: wire.Solve, Coarse: true, Scheme: wire.Written(s)})
	solved := results(l.until(3))
	troughs := []check.Change{{Key: "pleat.first", Value: "trough"}, {Key: "pleat.last", Value: "trough"}}
	l.ask(wire.Request{ID: 1, Task: wire.Try, Coarse: true, Scheme: wire.Written(s), Base: solved[len(solved)-1], Tries: []wire.Trial{
		{Changes: troughs},
		{Changes: []check.Change{{Key: "ruff.sets", Value: "44"}}},
		{Changes: append(slices.Clone(troughs), check.Change{Key: "strip.have", Value: "2000"})},
		{Changes: []check.Change{{Key: "ruff.sets", Value: "1"}}},
	}})
	var got []wire.Tried
	for _, r := range l.until(1) {
		if r.Tried != nil {
			got = append(got, *r.Tried)
		}
	}
	want := []struct{ gone, left, brings string }{{"ends", "", ""}, {"", "ends", ""}, {"ends", "", "strip-short"}}
	if len(got) != len(want)+1 {
		t.Fatalf("%d tries answered: %+v", len(got), got)
	}
	for i, w := range want {
		e := got[i].Effect
		if e == nil || strings.Join(e.Gone, " ") != w.gone || strings.Join(e.Left, " ") != w.left || strings.Join(e.New, " ") != w.brings {
			t.Errorf("try %d: %+v, want %+v", i, e, w)
		}
		if e != nil && (len(e.Drawn.Crest) == 0 || e.Then.Cloth_mm == 0 || !(e.Then.Height_mm > 0)) {
			t.Errorf("try %d: %+v", i, e)
		}
	}
	if last := got[len(want)]; last.Effect != nil || last.Why.Empty() {
		t.Errorf("what does not fit: %+v", last)
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
	ask := wire.Request{ID: 2, Task: wire.Try, Scheme: wire.Written(s), Tries: []wire.Trial{{Changes: found[at].Remedies[0].Changes}}}
	l.ask(ask)
	if all := l.until(2); all[len(all)-1].Error == nil {
		t.Errorf("changes to a ruff that was not given: %+v", all)
	}
	ask.ID, ask.Base = 3, got[len(got)-1]
	l.ask(ask)
	all := l.until(3)
	g := all[len(all)-1].Tried
	if g == nil || g.Effect == nil || !slices.Contains(g.Effect.Gone, "bow") || len(g.Effect.New) > 0 || !(g.Effect.Then.Bow_mm < g.Now.Bow_mm/4) || g.Now.Bow_mm != found[at].Value {
		t.Fatalf("%+v, before %g mm", g, found[at].Value)
	}
	// Its lines show what the finding speaks of: the bottom fold no longer swings.
	swing := func(o figure.Outline) float64 {
		a, b := o.Trough[len(o.Trough)-1], o.BowedTrough[len(o.BowedTrough)-1]
		return math.Hypot(a[0]-b[0], a[1]-b[1])
	}
	now, err := figure.NewOutline(r.Plan, r.Solved.Shape, r.Solved.Bowed)
	if err != nil {
		t.Fatal(err)
	}
	if a, b := swing(now), swing(g.Effect.Drawn); !(a > 5) || !(b < 2) {
		t.Errorf("drawn, the lower edge swings by %.1f mm, then by %.1f", a, b)
	}
}

// TestMend: what to do about the floppy ruff is found by the worker, and leaves nothing.
func TestMend(t *testing.T) {
	l := connect(t)
	l.bench.Holds()
	both := []check.Change{{Key: "pleat.anchor", Value: "both"}, {Key: "band.height", Value: "49.4"}}
	s := wire.Written(demo(t, "floppy"))
	l.ask(wire.Request{ID: 1, Task: wire.Solve, Scheme: s})
	solved := results(l.until(1))
	l.ask(wire.Request{ID: 2, Task: wire.Mend, Scheme: s, Base: solved[len(solved)-1], Tries: []wire.Trial{{Changes: both}}})
	all := l.until(2)
	m := all[len(all)-1].Mended
	if m == nil || len(m.Ways) != 1 || !slices.Equal(m.Ways[0].Changes, both) || len(m.Ways[0].Effect.Left) > 0 || len(m.Ways[0].Effect.Drawn.BowedCrest) == 0 {
		t.Errorf("%+v", m)
	}
}
