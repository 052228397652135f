package work

import (
	"testing"

	"ruffwright/geom/scheme"
)

// TestComparedSteps: thirty steps of comparing go back, one by one, and forth.
func TestComparedSteps(t *testing.T) {
	w, err := New(scheme.Default())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Pair("compare-keep"); err != nil || !w.Compares() {
		t.Fatal(err)
	}
	if !w.Enter("ruff.height", "40", false) || w.Scheme.Ruff.Height != 40 || w.B.Scheme.Ruff.Height == 40 {
		t.Fatalf("A %g, B %+v", w.Scheme.Ruff.Height, w.B.Scheme)
	}
	state := w.AskedBoth
	var was []string
	names := []string{"compare-swap", "compare-keep", "twin", "compare-back", "twin", "compare-stop", "twin"}
	for i := 0; len(was) < 30; i++ {
		here, steps := state(), len(w.past)
		if _, err := w.Pair(names[i%len(names)]); err != nil {
			t.Fatal(err)
		}
		if len(w.past) > steps {
			was = append(was, here)
		}
		if i > 1000 {
			t.Fatal("commands leave no steps")
		}
	}
	end := state()
	for i := len(was) - 1; i >= 0; i-- {
		w.Undo()
		if got := state(); got != was[i] {
			t.Fatalf("back at step %d: %s, want %s", i, got, was[i])
		}
	}
	for range was {
		w.Redo()
	}
	if got := state(); got != end {
		t.Errorf("forth again: %s, want %s", got, end)
	}
}
