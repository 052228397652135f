package sheets

import (
	"strings"
	"testing"

	"ruffwright/wasm/page/say"
)

// TestSquare: what the square of 100 mm measures is read, and what cannot be it is
// complained of when the control is left, not while it is typed; nothing is made
// with it.
func TestSquare(t *testing.T) {
	for text, want := range map[string]float64{"": 0, "99": 99, "9.9 cm": 99, " 101.5 ": 101.5} {
		if got, why := readSquare(text); got != want || why != "" {
			t.Errorf("%q is %g (%s), want %g", text, got, why, want)
		}
	}
	s := New(&say.Voice{})
	for _, bad := range []string{"9", "106", "wide"} {
		s.Enter(acrossKey, "", false)
		if s.Enter(acrossKey, bad, true); s.wrong[0] != "" {
			t.Errorf("%q is complained of while it is typed: %s", bad, s.wrong[0])
		}
		if s.Enter(acrossKey, bad, false); s.wrong[0] == "" {
			t.Errorf("%q is taken", bad)
		}
		if out := s.Make(0); len(out) > 0 || s.busy || s.state() != "gone" {
			t.Errorf("sheets are made at %q: %v", bad, out)
		}
	}
	if _, _, ok := s.Enter("ruff.depth", "90", false); ok {
		t.Error("a field is taken for a control of the sheets")
	}
	if id, holds, ok := s.Enter(paperKey, "Papyrus", false); !ok || id+holds != "" || s.paper != papers[0] {
		t.Errorf("on %s", s.paper)
	}
}

// TestMade: one run at a time; a press that is stopped or fails is ended, and what it
// says later is not heard.
func TestMade(t *testing.T) {
	s := New(&say.Voice{})
	if out := s.Make(0); len(out) != 2 || out[0].Name != "start" || !s.busy {
		t.Fatalf("making begins with %v", out)
	}
	if out := s.Make(1); len(out) > 0 {
		t.Errorf("a second one begins: %v", out)
	}
	if out := s.Stop(); len(out) != 1 || out[0].Name != "end" || s.busy || !strings.Contains(s.words(), say.Text("Stopped; no new sheets were made.")) {
		t.Errorf("stopped: %v, %s", out, s.words())
	}
	if out := s.Hear("{", nil, 2); len(out) > 0 {
		t.Errorf("one that is ended is heard: %v", out)
	}
	s.Make(3)
	if out := s.Hear("{", nil, 4); len(out) != 1 || out[0].Name != "end" || s.state() != "gone" {
		t.Errorf("what cannot be read: %v, %s", out, s.state())
	}
	s.Now.Entries = "Depth: much."
	if out := s.Make(5); len(out) > 0 || !strings.Contains(s.words(), "Depth: much.") {
		t.Errorf("with entries that cannot be used: %v, %s", out, s.words())
	}
}
