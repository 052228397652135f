//go:build !js

package dom

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/wire"
)

// both hears until A and B are solved.
func (k *desk) both() {
	k.t.Helper()
	k.until(func() bool { return k.state() == "done" && !strings.Contains(k.Words("compare"), "not solved yet") })
}

// letters are those on the drawing.
func (k *desk) letters() (out []string) {
	k.t.Helper()
	d, _, _, err := k.p.Look.Picture()
	if err != nil {
		k.t.Fatal(err)
	}
	for _, l := range d.Labels() {
		if l.Face == draw.Bold && (l.Text == "A" || l.Text == "B") {
			out = append(out, l.Text)
		}
	}
	return out
}

// TestCompareSewing: one click puts the other way of sewing beside the ruff: both on
// the stage, a sentence that says which is better and why, a table; B comes at a
// lower priority. It can be taken, and taken back.
func TestCompareSewing(t *testing.T) {
	k := seated(t)
	k.send(10, doc.Do, "demo", "untucked") // whose two ways of sewing differ beyond doubt
	k.done()
	if k.Words("compare") != "" || len(k.letters()) != 0 || k.Attr["stage"]["data-two"] != "" {
		t.Error("something is compared from the start")
	}
	k.send(10, doc.Do, "twin", "")
	if words := k.Words("compare"); !strings.Contains(words, "B is not solved yet") || !strings.Contains(words, "Strip") {
		t.Errorf("at once: %s", words)
	}
	if got := k.letters(); !slices.Equal(got, []string{"A", "B"}) {
		t.Errorf("on the drawing: %v", got)
	}
	k.both()
	words := k.Words("compare")
	for _, want := range []string{"A is better", "(sewn at the top and bottom edge) moves by", "(sewn at the top edge only) by", "Sewn to", "Moves when the wearer bows", "A better", "same", "The lower edge is not supported", "Hours of work"} {
		if !strings.Contains(words, want) {
			t.Errorf("the comparison lacks %q: %s", want, words)
		}
	}
	if d := k.Text["description"]; !strings.Contains(d, "A: ") || !strings.Contains(d, "B: ") || strings.Count(d, "As the cloth hangs") != 2 {
		t.Errorf("described as %q", d)
	}
	asked := len(k.asked())
	k.send(10, doc.Do, "compare-swap", "")
	if a := k.p.Scheme().Pleat.Anchor; a != "top" {
		t.Errorf("swapped: sewn at %s", a)
	}
	if words := k.Words("compare"); !strings.Contains(words, "B is better") {
		t.Errorf("swapped: %s", words)
	}
	if got := k.asked()[asked:]; slices.ContainsFunc(got, func(r wire.Request) bool { return r.Task == wire.Solve }) {
		t.Errorf("what is solved already is solved again: %+v", got)
	}
	k.both()
	k.send(10, doc.Do, "undo", "")
	if a := k.p.Scheme().Pleat.Anchor; a != "both" || !strings.Contains(k.Words("compare"), "A is better") {
		t.Errorf("undone: sewn at %s: %s", a, k.Words("compare"))
	}
	k.send(10, doc.Do, "undo", "")
	if k.Words("compare") != "" || k.Attr["stage"]["data-two"] != "" || len(k.letters()) != 0 {
		t.Errorf("undone once more, and still: %s", k.Words("compare"))
	}
	k.send(10, doc.Do, "redo", "")
	k.both()
	if !strings.Contains(k.Words("compare"), "A is better") {
		t.Errorf("done again: %s", k.Words("compare"))
	}
}

// TestCompareKept: a ruff is kept and the other changed: the table follows, a change
// of A does not wait for B, the steps undo, and units switch in the table.
func TestCompareKept(t *testing.T) {
	k := seated(t)
	k.send(10, doc.Do, "demo", "untucked") // solved in a sixth of the time
	k.done()
	asked := len(k.asked())
	k.send(10, doc.Do, "compare-keep", "")
	if words := k.Words("compare"); !strings.Contains(words, "the same ruff") {
		t.Errorf("kept: %s", words)
	}
	if got := k.asked()[asked:]; slices.ContainsFunc(got, func(r wire.Request) bool { return r.Task == wire.Solve }) {
		t.Errorf("what is solved already is solved again: %+v", got)
	}
	k.send(10, doc.Set, "ruff.sets", "48")
	all := k.asked()
	if last := all[len(all)-1]; last.Task != wire.Solve || !strings.Contains(fmt.Sprint(must(t, last.Scheme).Ruff.Sets), "48") {
		t.Errorf("after the change the solver is asked for %+v", last)
	}
	k.both()
	words := k.Words("compare")
	if !strings.Contains(words, "48 sets") || !strings.Contains(words, "40 sets") || strings.Contains(words, "the same ruff") {
		t.Errorf("changed: %s", words)
	}
	k.send(10, doc.Do, "units", "in")
	if words := k.Words("compare"); !strings.Contains(words, " in") || strings.Contains(words, " mm") {
		t.Errorf("in inches: %s", words)
	}
	k.send(10, doc.Do, "units", "mm")
	// B is under way when A changes: A comes first, then B again.
	k.send(10, doc.Do, "twin", "")
	all = k.asked()
	if b := must(t, all[len(all)-1].Scheme); b.Pleat.Anchor != scheme.AnchorTop || b.Ruff.Sets != 48 {
		t.Errorf("B is not asked for: %+v", b.Pleat)
	}
	k.send(10, doc.Set, "ruff.sets", "44")
	all = k.asked()
	if a := must(t, all[len(all)-1].Scheme); a.Ruff.Sets != 44 {
		t.Error("a change of A waits for B")
	}
	k.both()
	k.send(10, doc.Do, "compare-back", "")
	if s := k.p.Scheme(); s.Pleat.Anchor != scheme.AnchorTop || s.Ruff.Sets != 48 || !strings.Contains(k.Words("compare"), "the same ruff") {
		t.Errorf("B to A: %+v: %s", s.Pleat, k.Words("compare"))
	}
	k.send(10, doc.Do, "undo", "")
	if s := k.p.Scheme(); s.Pleat.Anchor != scheme.AnchorBoth || s.Ruff.Sets != 44 {
		t.Errorf("undone: %+v", s.Pleat)
	}
	k.send(10, doc.Do, "compare-keep", "") // A to B
	if !strings.Contains(k.Words("compare"), "the same ruff") {
		t.Errorf("A to B: %s", k.Words("compare"))
	}
	k.send(10, doc.Do, "compare-stop", "")
	if k.Words("compare") != "" {
		t.Errorf("stopped: %s", k.Words("compare"))
	}
	for range 6 {
		k.send(10, doc.Do, "undo", "")
	}
	if s := k.p.Scheme(); s.Ruff.Sets != 40 || k.Words("compare") != "" {
		t.Errorf("all undone: %d sets: %s", s.Ruff.Sets, k.Words("compare"))
	}
}

func must(t *testing.T, written string) scheme.Scheme {
	t.Helper()
	s, err := scheme.Parse([]byte(written))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestCompareLink: a link holds both; opening it compares them, in one step. A
// broken one says whose it is and changes nothing; a link of one leaves B.
func TestCompareLink(t *testing.T) {
	k := seated(t)
	k.send(10, doc.Set, "ruff.sets", "44")
	k.send(10, doc.Do, "twin", "")
	k.send(10, doc.Do, "share", "")
	if k.Clip == "" || !strings.Contains(k.Clip, "~") {
		t.Fatalf("the link is %q", k.Clip)
	}
	other := seated(t)
	other.send(10, doc.Address, "", k.Clip)
	if s := other.p.Scheme(); s.Ruff.Sets != 44 || s.Pleat.Anchor != scheme.AnchorBoth {
		t.Errorf("A: %d sets, %s", s.Ruff.Sets, s.Pleat.Anchor)
	}
	if len(other.letters()) != 2 || !strings.Contains(other.Words("compare"), "Sewn to") {
		t.Errorf("opened: %s", other.Words("compare"))
	}
	was := other.Words("compare")
	other.send(10, doc.Address, "", k.Clip[:len(k.Clip)-4])
	if got := other.Text["notice"]; !strings.Contains(got, "B cannot be read") || !strings.Contains(got, "nothing was changed") {
		t.Errorf("a broken B: %q", got)
	}
	if other.Words("compare") != was || other.p.Scheme().Ruff.Sets != 44 {
		t.Errorf("a broken B: %s", other.Words("compare"))
	}
	s := scheme.Default()
	s.Ruff.Depth = 60
	other.send(10, doc.Address, "", "#"+s.Code())
	if len(other.letters()) != 2 || other.p.Scheme().Ruff.Depth != 60 || !strings.Contains(other.Words("compare"), "Depth") {
		t.Errorf("a link of one: %s", other.Words("compare"))
	}
	other.send(10, doc.Do, "undo", "")
	other.send(10, doc.Do, "undo", "")
	if len(other.letters()) != 0 || other.p.Scheme().Ruff.Sets != 40 {
		t.Errorf("undone: %s", other.Words("compare"))
	}
}

// TestComparePicture: both are drawn at one scale in every view, however the stage
// is shaped, and turning turns both.
func TestComparePicture(t *testing.T) {
	k := seated(t)
	k.send(10, doc.Do, "compare-keep", "")
	k.send(10, doc.Set, "ruff.depth", "35")
	for _, size := range []string{"700 450 1", "390 430 2", "300 300 3", "1400 800 1"} {
		k.send(10, doc.Sized, "", size)
		for _, v := range figure.Views {
			k.send(10, doc.Do, "view", v.Name)
			d, lens, pixels, err := k.p.Look.Picture()
			if err != nil {
				t.Fatalf("%s %s: %v", size, v.Name, err)
			}
			var w, h float64
			fmt.Sscan(size, &w, &h)
			if d.Width_mm*pixels > w+1 || d.Height_mm*pixels > h+1 || lens.Scale != 1 || !slices.Equal(k.letters(), []string{"A", "B"}) {
				t.Errorf("%s %s: %.0f × %.0f px, lens %v, %v", size, v.Name, d.Width_mm*pixels, d.Height_mm*pixels, lens, k.letters())
			}
		}
	}
	k.send(10, doc.Do, "view", "hand")
	before := surfaces(t, k)
	k.send(10, doc.Key, "ArrowLeft", "")
	after := surfaces(t, k)
	if len(before) != 2 || len(after) != 2 || before[0] == after[0] || before[1] == after[1] {
		t.Errorf("%d and %d surfaces; turning does not turn both", len(before), len(after))
	}
}

// surfaces writes how each ruff on the drawing is seen.
func surfaces(t *testing.T, k *desk) (out []string) {
	t.Helper()
	d, _, _, err := k.p.Look.Picture()
	if err != nil {
		t.Fatal(err)
	}
	for _, it := range d.Items {
		if s, ok := it.(draw.Solid); ok {
			out = append(out, fmt.Sprint(s.Eye))
		}
	}
	return out
}
