package ask

import (
	"strings"
	"testing"

	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// hears lets the worker say r.
func hears(t *testing.T, s *Ask, r wire.Reply) *Answer {
	t.Helper()
	head, body, err := r.Encode()
	if err != nil {
		t.Fatal(err)
	}
	_, a := s.Hear(0, head, body, 0)
	return a
}

// asked is what the patches ask the worker for.
func asked(t *testing.T, patches []doc.Patch) wire.Request {
	t.Helper()
	for _, c := range patches {
		if c.Op == doc.OpSolver && c.Name == "ask" {
			r, err := wire.ReadRequest(c.Value, c.Body)
			if err != nil {
				t.Fatal(err)
			}
			return r
		}
	}
	return wire.Request{}
}

// TestOrder: the ruff at hand is asked for first, then the one beside it; when
// another stands beside it by then, that one is asked for, and the answer for the
// first is no answer.
func TestOrder(t *testing.T) {
	s := &Ask{Voice: &say.Voice{}}
	s.See(Want{A: "a", B: "b"}, true)
	if out := s.Next(0); len(out) > 0 {
		t.Fatalf("a worker that does not run is asked: %v", out)
	}
	s.Wake(0)
	hears(t, s, wire.Reply{Alive: true})
	first := asked(t, s.Next(0))
	if first.Scheme != "a" || !s.Busy() {
		t.Fatalf("first is asked for %q", first.Scheme)
	}
	whole := func(id int) wire.Reply {
		return wire.Reply{ID: id, Last: true, Error: &wire.Error{Cause: wire.NoDesign, Why: word.Packed{Text: word.Say("it has no mechanics")}}}
	}
	if a := hears(t, s, whole(first.ID)); a != nil || s.None().Empty() || !s.Settled() {
		t.Errorf("no answer for A: %+v, %q", a, s.None())
	}
	second := asked(t, s.Next(0))
	if second.Scheme != "b" {
		t.Fatalf("then %q is asked for", second.Scheme)
	}
	s.See(Want{A: "a", B: "c"}, false)
	third := asked(t, s.Next(0))
	if third.Scheme != "c" {
		t.Fatalf("of another beside it, %q is asked for", third.Scheme)
	}
	if a := hears(t, s, whole(second.ID)); a != nil {
		t.Errorf("the answer for the one before is taken: %+v", a)
	}
	if a := hears(t, s, whole(third.ID)); a == nil || !a.OfB || a.Solved != nil {
		t.Errorf("the answer for B is %+v", a)
	}
	// B changed while it was asked for, and nothing was asked since.
	s.See(Want{A: "a", B: "d"}, false)
	late := asked(t, s.Next(0))
	s.See(Want{A: "a"}, false)
	if a := hears(t, s, whole(late.ID)); a != nil {
		t.Errorf("nothing stands beside it, and the answer is taken: %+v", a)
	}
	if s.working() || s.Busy() {
		t.Error("the worker has something to do")
	}
}

// TestTaken: a ruff of which everything is known is not asked for.
func TestTaken(t *testing.T) {
	s := &Ask{Voice: &say.Voice{}}
	s.Wake(0)
	hears(t, s, wire.Reply{Alive: true})
	s.See(Want{A: "a", Whole: true, Solved: &sim.Solved{}}, true)
	if out := s.Next(0); len(out) > 0 || s.Busy() || !s.Settled() {
		t.Errorf("asked for: %v", out)
	}
	if out := s.Move(true, 0); len(out) != 1 || !strings.HasPrefix(s.wanted(), coarsely) {
		t.Errorf("a control moves: %v, wanted %q", out, s.wanted())
	}
}
