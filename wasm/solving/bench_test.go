package solving

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/window"
	"ruffwright/testdata/demos"
	"ruffwright/wasm/wire"
)

var demo = demos.Scheme

// line is a page that talks to a bench: it reads what comes through the wire.
type line struct {
	t     testing.TB
	bench *Bench
	heard chan wire.Reply

	mu      sync.Mutex
	onYield func() // once
}

// connect starts a bench.
func connect(t testing.TB) *line {
	t.Helper()
	l := &line{t: t, heard: make(chan wire.Reply, 1000)}
	ctx, cancel := context.WithCancel(context.Background())
	l.bench = New(func(head string, body []byte) {
		r, err := wire.ReadReply(head, body)
		if err != nil {
			t.Errorf("a reply that cannot be read: %v: %.200s", err, head)
			return
		}
		l.heard <- r
	}, l.yields)
	l.bench.breath = 0 // at every step, whatever the machine
	ended := make(chan struct{})
	go func() { l.bench.Serve(ctx); close(ended) }()
	t.Cleanup(func() { cancel(); <-ended })
	if r := l.hear(); !r.Alive {
		t.Fatalf("the first reply is %+v", r)
	}
	return l
}

func (l *line) yields() {
	l.mu.Lock()
	f := l.onYield
	l.onYield = nil
	l.mu.Unlock()
	if f != nil {
		f()
	}
}

// atYield lets f happen while the bench works.
func (l *line) atYield(f func()) { l.mu.Lock(); l.onYield = f; l.mu.Unlock() }

func (l *line) hear() wire.Reply {
	l.t.Helper()
	select {
	case r := <-l.heard:
		return r
	case <-time.After(time.Minute):
		l.t.Fatal("no reply in a minute")
		return wire.Reply{}
	}
}

func (l *line) ask(r wire.Request) {
	l.t.Helper()
	head, body, err := r.Encode()
	if err != nil {
		l.t.Fatal(err)
	}
	l.bench.Take(head, body)
}

// until gives the replies to request id up to its last one, and holds them to
// what every request must keep: taken up first, nothing after the last.
func (l *line) until(id int) []wire.Reply {
	l.t.Helper()
	var all []wire.Reply
	for {
		r := l.hear()
		if r.ID != id {
			continue
		}
		if len(all) == 0 && (r.Progress == nil || *r.Progress != (wire.Progress{})) && !r.Cancelled {
			l.t.Errorf("request %d begins with %+v", id, r)
		}
		all = append(all, r)
		if r.Last {
			return all
		}
	}
}

func results(replies []wire.Reply) []*wire.Result {
	var out []*wire.Result
	for _, r := range replies {
		if r.Result != nil {
			out = append(out, r.Result)
		}
	}
	return out
}

// TestSolveInParts: the shape first, then bow, bob and lean, then the other
// equilibrium where one edge is sewn; the last result is what sim.Solve gives at
// once, and makes the same findings.
func TestSolveInParts(t *testing.T) {
	for _, c := range []struct {
		name   string
		awaits []string // of each result
	}{
		{"sound", []string{"bow", ""}},
		{"floppy", []string{"bow,other", "other", ""}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := demo(t, c.name)
			l := connect(t)
			l.ask(wire.Request{ID: 7, Task: wire.Solve, Scheme: wire.Written(s)})
			got := results(l.until(7))
			if len(got) != len(c.awaits) {
				t.Fatalf("%d results, want %d", len(got), len(c.awaits))
			}
			for i, r := range got {
				if a := strings.Join(r.Awaits, ","); a != c.awaits[i] {
					t.Errorf("result %d awaits %q, want %q", i, a, c.awaits[i])
				}
				m := r.Solved.Ruff
				if m.BowDone != (i > 0) || m.TangentsDone != (i > 0) || (r.Solved.Bowed != nil) != (i > 0) || m.OtherDone != (i > 1) {
					t.Errorf("result %d: bow %v, tangents %v, bowed shape %v, other %v", i, m.BowDone, m.TangentsDone, r.Solved.Bowed != nil, m.OtherDone)
				}
				if r.Solved.Grid != window.Fine {
					t.Errorf("result %d on the grid %v", i, r.Solved.Grid)
				}
			}
			want, err := sim.Solve(context.Background(), s, sim.Options{})
			if err != nil {
				t.Fatal(err)
			}
			last := got[len(got)-1].Solved
			// A solve ends where the forces are small, not zero: the shapes may
			// differ by as much, far below what can be seen.
			const near = 0.02 // mm
			a, b := want.Solved.Ruff, last.Ruff
			for _, v := range [][2]float64{
				{a.HeightOuter_mm, b.HeightOuter_mm}, {a.Droop_mm, b.Droop_mm}, {a.Bow_mm, b.Bow_mm},
				{a.Loop_mm, b.Loop_mm}, {a.OtherHeights[0], b.OtherHeights[0]}, {a.Tilt_deg, b.Tilt_deg},
			} {
				if math.Abs(v[0]-v[1]) > near {
					t.Errorf("%v at once, %v in parts", v[0], v[1])
				}
			}
			for i, p := range want.Solved.Shape.Panels {
				for k, v := range p.V {
					if d := v.Sub(last.Shape.Panels[i].V[k]).Norm(); d > near {
						t.Fatalf("panel %d, node %d is %g mm off", i, k, d)
					}
				}
			}
			page := want
			page.Solved = last
			if a, b := told(want), told(page); a != b {
				t.Errorf("findings at once\n%s\nin parts\n%s", a, b)
			}
		})
	}
}

func told(r sim.Ruff) string {
	var b strings.Builder
	for _, f := range check.Find(r, scheme.Millimetres) {
		fmt.Fprintln(&b, f.ID, f.Severity, f.Pending, f.Awaits, f.Sentence)
	}
	return b.String()
}

// TestCoarseAndSkipped: the quick solve of a moving control is one result on the
// coarse grid; the next of its kind starts from it, where sets are not tucked.
func TestCoarseAndSkipped(t *testing.T) {
	l := connect(t)
	s := demo(t, "untucked")
	quick := wire.Request{ID: 1, Task: wire.Solve, Coarse: true, Skip: wire.Skip{Bow: true, Tangents: true, Other: true}, Scheme: wire.Written(s)}
	l.ask(quick)
	got := results(l.until(1))
	if len(got) != 1 || got[0].Solved.Grid != window.Coarse || len(got[0].Awaits) > 0 || got[0].Solved.Ruff.BowDone {
		t.Fatalf("%d results, the first %+v", len(got), got[0].Solved.Ruff)
	}
	cold := got[0].Solved.Ruff.Iterations
	s.Starch.Bend += 3
	quick.ID, quick.Scheme = 2, wire.Written(s)
	l.ask(quick)
	warm := results(l.until(2))[0].Solved.Ruff.Iterations
	s.Wearer.Ratio = 1.1
	l.ask(wire.Request{ID: 3, Task: wire.Solve, Scheme: wire.Written(s), Skip: quick.Skip})
	oval := results(l.until(3))
	if len(oval) != 2 || strings.Join(oval[0].Awaits, " ") != "fine" || oval[0].Solved.Grid != window.Coarse || oval[1].Solved.Grid != window.Fine {
		t.Errorf("an oval neck: %d results, the first %+v", len(oval), oval[0].Awaits)
	}
	fresh := connect(t)
	fresh.ask(quick)
	again := results(fresh.until(2))[0].Solved.Ruff.Iterations
	if warm >= again {
		t.Errorf("a small change takes %d factorisations from the earlier ruff and %d from none (%d before the change)", warm, again, cold)
	}
}

// TestNewestWins: a newer request ends the older one, which says so; one that
// waited behind it never begins.
func TestNewestWins(t *testing.T) {
	l := connect(t)
	s := wire.Written(demo(t, "floppy"))
	l.atYield(func() {
		l.ask(wire.Request{ID: 2, Task: wire.Verify})
		l.ask(wire.Request{ID: 3, Task: wire.Solve, Scheme: s, Coarse: true, Skip: wire.Skip{Bow: true, Tangents: true, Other: true}})
	})
	l.ask(wire.Request{ID: 1, Task: wire.Solve, Scheme: s})
	var ends []string
	for len(ends) < 3 {
		if r := l.hear(); r.Last {
			ends = append(ends, fmt.Sprintf("%d %v %v", r.ID, r.Cancelled, r.Result != nil))
		} else if r.Result != nil {
			t.Errorf("request %d gave a result", r.ID)
		}
	}
	slices.Sort(ends)
	if want := []string{"1 true false", "2 true false", "3 false true"}; !slices.Equal(ends, want) {
		t.Errorf("the requests end with %q, want %q", ends, want)
	}
}

// TestCancel: each task stops when asked, the bench goes on.
func TestCancel(t *testing.T) {
	l := connect(t)
	l.bench.Holds()
	s := wire.Written(demo(t, "floppy"))
	l.ask(wire.Request{ID: 1, Task: wire.Solve, Scheme: s})
	solved := results(l.until(1))
	tries := []wire.Trial{{Changes: []check.Change{{Key: "pleat.anchor", Value: "both"}, {Key: "band.height", Value: "49.4"}}}}
	for i, r := range []wire.Request{
		{Task: wire.Solve, Scheme: s}, {Task: wire.Try, Scheme: s, Tries: tries}, {Task: wire.Mend, Scheme: s, Tries: tries}, {Task: wire.Matter, Scheme: s}, {Task: wire.Verify},
	} {
		r.ID = 10 + i
		if r.Task == wire.Try || r.Task == wire.Mend {
			r.Base = solved[len(solved)-1]
		}
		l.atYield(func() {
			l.ask(wire.Request{ID: 99, Task: wire.Cancel}) // another one: nothing happens
			l.ask(wire.Request{ID: r.ID * (i % 2), Task: wire.Cancel})
		})
		l.ask(r)
		all := l.until(r.ID)
		if last := all[len(all)-1]; !last.Cancelled {
			t.Errorf("%s ends with %+v", r.Task, last)
		}
	}
	l.ask(wire.Request{ID: 50, Task: wire.Solve, Coarse: true, Scheme: s, Skip: wire.Skip{Bow: true, Tangents: true, Other: true}})
	if all := l.until(50); all[len(all)-1].Result == nil {
		t.Errorf("after all that: %+v", all[len(all)-1])
	}
}

// TestErrors: what has no answer ends with its cause.
func TestErrors(t *testing.T) {
	l := connect(t)
	none := demo(t, "sound")
	none.Pleat.Panel, none.Pleat.TuckTop, none.Pleat.TuckBottom = 30, 9, 9 // the inner edge does not reach
	l.bench.Take("no JSON", nil)
	if r := l.hear(); r.ID != 0 || r.Error == nil || r.Error.Cause != wire.BadRequest {
		t.Errorf("no JSON: %+v", r)
	}
	for i, c := range []struct {
		task   wire.Task
		scheme string
		cause  wire.Cause
	}{
		{wire.Solve, `{"version":1`, wire.BadScheme},
		{wire.Solve, `{"version":1,"tea":2}`, wire.BadScheme},
		{wire.Solve, wire.Written(none), wire.NoDesign},
	} {
		l.ask(wire.Request{ID: i + 1, Task: c.task, Scheme: c.scheme})
		all := l.until(i + 1)
		last := all[len(all)-1]
		if last.Error == nil || last.Error.Cause != c.cause {
			t.Errorf("%s %.30s: %+v", c.task, c.scheme, last)
		}
	}
}

// TestPanic: a fault in the middle of the work is told, and the next request is
// served.
func TestPanic(t *testing.T) {
	l := connect(t)
	s := wire.Written(demo(t, "sound"))
	l.atYield(func() { panic("a fault") })
	l.ask(wire.Request{ID: 1, Task: wire.Solve, Scheme: s})
	all := l.until(1)
	if last := all[len(all)-1]; last.Error == nil || last.Error.Cause != wire.Fault || !strings.Contains(last.Error.Why.String(), "a fault") {
		t.Errorf("the fault is told as %+v", last)
	}
	l.ask(wire.Request{ID: 2, Task: wire.Solve, Coarse: true, Scheme: s})
	if got := results(l.until(2)); len(got) != 2 {
		t.Errorf("%d results after the fault", len(got))
	}
}

// TestProgress: long work is heard of, and not more often than the pulse.
func TestProgress(t *testing.T) {
	l := connect(t)
	l.bench.pulse = 20 * time.Millisecond
	began := time.Now()
	l.ask(wire.Request{ID: 1, Task: wire.Solve, Scheme: wire.Written(demo(t, "floppy"))})
	n := 0
	for _, r := range l.until(1) {
		if p := r.Progress; p != nil {
			n++
			if n > 1 && (p.Phase == "" || p.Cells == 0 || p.Factorisation == 0) {
				t.Errorf("progress %+v", *p)
			}
		}
	}
	took := time.Since(began)
	if most := 2 + int(took/l.bench.pulse); n > most || took > 10*l.bench.pulse && n < 3 {
		t.Errorf("%d progress messages in %v at a pulse of %v", n, took, l.bench.pulse)
	}
}

// TestVerify: known problems are told one by one, with their source.
func TestVerify(t *testing.T) {
	l := connect(t)
	l.ask(wire.Request{ID: 1, Task: wire.Verify})
	n := 0
	for n < 3 {
		r := l.hear()
		if c := r.Checked; c != nil {
			n++
			if !c.Held || c.Source == "" || c.Name == "" || c.Unit == "" {
				t.Errorf("%+v", *c)
			}
		}
	}
	l.ask(wire.Request{Task: wire.Cancel})
	l.cancelled(1)
}

// cancelled waits for the end of request id.
func (l *line) cancelled(id int) {
	l.t.Helper()
	for {
		if r := l.hear(); r.ID == id && r.Last {
			if !r.Cancelled {
				l.t.Errorf("request %d ends with %+v", id, r)
			}
			return
		}
	}
}

// TestHold: only a program that looks for what would hold is asked that; it answers with
// ways and with what was refused, and ends when it is cancelled.
func TestHold(t *testing.T) {
	l := connect(t)
	ask := wire.Request{ID: 1, Task: wire.Hold, Scheme: wire.Written(demo(t, "short"))}
	l.ask(ask)
	if r := l.until(1); r[len(r)-1].Error == nil {
		t.Errorf("a program that does not look answers %+v", r)
	}
	l.bench.Holds()
	ask.ID = 2
	l.ask(ask)
	replies := l.until(2)
	h := replies[len(replies)-1].Held
	if h == nil || len(h.Ways) != 0 || len(h.Refused) == 0 || h.Refused[0].Why[0].Empty() || h.Refused[0].Kind.Empty() {
		t.Errorf("a strip too short: %+v", h)
	}
	l.ask(wire.Request{ID: 3, Task: wire.Hold, Scheme: wire.Written(demo(t, "sound"))})
	l.ask(wire.Request{Task: wire.Cancel})
	l.cancelled(3)
}
