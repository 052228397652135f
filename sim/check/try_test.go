package check

import (
	"context"
	"errors"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
)

func TestTryTellsWhatBecameOfIt(t *testing.T) {
	ctx := context.Background()
	r := solvedRuff(t, demo(t, "floppy"))
	bow, _ := byID(Find(r, scheme.Millimetres), "bow")
	// Sewn at both edges, without tucks.
	both := func(more ...Change) []Change {
		return append([]Change{to("pleat.anchor", "both"), to("pleat.tuck_top", "0"), to("pleat.tuck_bottom", "0"), to("band.height", "49.4")}, more...)
	}
	for _, c := range []struct {
		name    string
		changes []Change
		want    string
		brings  string
	}{
		{"both edges", both(), Removes, ""},
		{"starch alone is milder, and still to mend", []Change{to("starch.bend", "55")}, Fails, ""},
		{"a short strip", both(to("strip.have", "3000")), Trades, "strip-short"},
		{"a narrow hem of the cut", both(to("strip.takeup", "5")), Trades, "cut-width"},
	} {
		o, err := Try(ctx, r, bow, Remedy{Changes: c.changes}, solveCoarse)
		if err != nil || o.Tried != c.want || !(o.Then > 0) || strings.Join(o.Brings, " ") != c.brings {
			t.Errorf("%s: %+v: %v", c.name, o, err)
		}
	}
	// A note is removed only if it is gone.
	soft := solvedRuff(t, demo(t, "early", "cloth.mass 200", "ruff.depth 60"))
	f, _ := byID(Find(soft, scheme.Millimetres), "soft-sideways")
	if o, err := Try(ctx, soft, f, Remedy{Changes: []Change{to("ruff.depth", "61")}}, solveCoarse); o.Tried != Fails || err != nil {
		t.Errorf("a note that stays: %+v, %v", o, err)
	}
	// From geometry, drawing is enough.
	draw := func(_ context.Context, s scheme.Scheme, _ sim.Options) (sim.Ruff, error) { return sim.Draw(s) }
	g, err := sim.Draw(demo(t, "ends-up"))
	if err != nil {
		t.Fatal(err)
	}
	ends, _ := byID(Find(g, scheme.Millimetres), "ends")
	if o, err := Try(ctx, g, ends, ends.Remedies[0], draw); o.Tried != Removes || o.Then != 0 || err != nil {
		t.Errorf("ends: %+v, %v", o, err)
	}
	// What cannot be known is said to be so.
	for name, solve := range map[string]Solver{
		"drawn": draw,
		"shape only": func(ctx context.Context, s scheme.Scheme, _ sim.Options) (sim.Ruff, error) {
			return sim.Solve(ctx, s, coarse(sim.Options{SkipBow: true, SkipOther: true, SkipTangents: true}))
		},
	} {
		if o, err := Try(ctx, r, bow, Remedy{Changes: []Change{to("starch.bend", "55")}}, solve); o.Tried != "" || !errors.Is(err, ErrUnknown) {
			t.Errorf("%s: %+v, %v", name, o, err)
		}
	}
	if o, err := Try(ctx, r, bow, Remedy{Changes: []Change{to("ruff.setz", "4")}}, solveCoarse); o.Tried != "" || err == nil {
		t.Errorf("no such field: %+v, %v", o, err)
	}
	if o, err := Try(ctx, r, Finding{ID: "nothing"}, Remedy{}, solveCoarse); o.Tried != "" || !errors.Is(err, ErrUnknown) {
		t.Errorf("no such finding: %+v, %v", o, err)
	}
	stopped, cancel := context.WithCancel(ctx)
	cancel()
	if o, err := Try(stopped, r, bow, Remedy{Changes: []Change{to("starch.bend", "57")}}, solveCoarse); o.Tried != "" || !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %+v, %v", o, err)
	}
}

// Remedies come in the order in which they help.
func TestRemediesAreSorted(t *testing.T) {
	r := []Remedy{{Sentence: word.Name("a"), Tried: Fails}, {Sentence: word.Name("b"), Tried: Trades}, {Sentence: word.Name("c")}, {Sentence: word.Name("d"), Tried: Removes, Then: -0.1}, {Sentence: word.Name("e")}}
	Sort(r)
	order := ""
	for _, m := range r {
		order += m.Sentence.String()
	}
	if order != "dceba" {
		t.Errorf("%s", order)
	}
	if got := r[0].Outcome("mm", scheme.Millimetres).String(); got != "removes it (then 0.1 mm)" {
		t.Errorf("%q", got)
	}
	swap := Remedy{Tried: Trades, Brings: []string{"height"}}
	if got := swap.Outcome("mm", scheme.Millimetres).String(); got != "removes it, but brings something new: The height is off" {
		t.Errorf("%q", got)
	}
}
