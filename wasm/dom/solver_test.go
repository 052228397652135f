//go:build !js

package dom

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"ruffwright/wasm/doc"
	"ruffwright/wasm/page"
	"ruffwright/wasm/solving"
	"ruffwright/wasm/wire"
)

// desk is a page whose workers are real solvers, on threads of their own.
type desk struct {
	*Document
	t     *testing.T
	p     *page.Page
	news  chan message       // from the workers
	bench map[string]*worker // by number, "" the first
	did   int                // patches carried out
	dead  bool
}

type worker struct {
	stop context.CancelFunc
	ask  func(head string, body []byte)
}

type message struct {
	head string
	body []byte
	of   *worker
}

func seated(t *testing.T) *desk {
	t.Helper()
	d, p := opened(t)
	k := &desk{Document: d, t: t, p: p, news: make(chan message, 1000), bench: map[string]*worker{}}
	t.Cleanup(func() {
		for _, w := range k.bench {
			w.stop()
		}
	})
	k.Send(50, doc.Timer, "solver", "")
	k.carry()
	return k
}

// carry does what the page asked of its workers.
func (k *desk) carry() {
	for ; k.did < len(k.Solver); k.did++ {
		p := k.Solver[k.did]
		what, n, _ := strings.Cut(p.Name, " ")
		switch w := k.bench[n]; what {
		case "start":
			if k.dead {
				continue
			}
			ctx, stop := context.WithCancel(context.Background())
			w = &worker{stop: stop}
			bench := solving.New(func(head string, body []byte) { k.news <- message{head, body, w} }, func() {})
			bench.Holds()
			go bench.Serve(ctx)
			w.ask = bench.Take
			k.bench[n] = w
		case "end":
			if w != nil {
				w.stop()
			}
			delete(k.bench, n)
		case "ask":
			if w != nil {
				w.ask(p.Value, p.Body)
			}
		}
	}
}

// hear lets one message of the worker come in.
func (k *desk) hear() wire.Reply {
	k.t.Helper()
	select {
	case m := <-k.news:
		n := ""
		for of, w := range k.bench {
			if w == m.of {
				n = of
			}
		}
		if k.bench[n] != m.of {
			return k.hear() // what one that is ended said is lost
		}
		k.Hear(20, n, m.head, m.body)
		k.carry()
		r, err := wire.ReadReply(m.head, m.body)
		if err != nil {
			k.t.Fatal(err)
		}
		return r
	case <-time.After(time.Minute):
		k.t.Fatal("the worker says nothing")
		return wire.Reply{}
	}
}

// until hears until the page's solver is in the state, or has said what.
func (k *desk) until(what func() bool) {
	k.t.Helper()
	for i := 0; !what(); i++ {
		if i > 500 {
			k.t.Fatalf("never came: %s", k.Text["solving"])
		}
		k.hear()
	}
}

func (k *desk) state() string { return k.Attr["solver"]["data-state"] }

func (k *desk) done() { k.t.Helper(); k.until(func() bool { return k.state() == "done" }) }

func (k *desk) send(wait float64, kind doc.Kind, name, value string) {
	k.Send(wait, kind, name, value)
	k.carry()
}

// asked are the requests sent so far.
func (k *desk) asked() []wire.Request {
	k.t.Helper()
	var out []wire.Request
	for _, p := range k.Solver {
		if p.Name == "ask" {
			r, err := wire.ReadRequest(p.Value, p.Body)
			if err != nil {
				k.t.Fatal(err)
			}
			out = append(out, r)
		}
	}
	return out
}

// TestSolvedReplacesDrawn: the page opens on geometry, wakes its worker when its
// first numbers are out, and then tells and shows the solved ruff; its remedies are
// tried and marked.
func TestSolvedReplacesDrawn(t *testing.T) {
	d, _ := opened(t)
	if len(d.Solver) > 0 {
		t.Error("the solver starts before the first numbers are seen")
	}
	k := seated(t)
	k.send(10, doc.Set, "ruff.sets", "42")
	if strings.Contains(k.Text["verdict"], "is not solved") || k.state() != "" { // busy from the start
		t.Errorf("at first: %q, %s", k.Text["verdict"], k.state())
	}
	k.done()
	if got := k.Text["verdict"]; strings.Contains(got, "solved") {
		t.Errorf("solved, and still: %q", got)
	}
	if !strings.HasPrefix(k.Text["solving"], "Solved: how the cloth hangs.") {
		t.Errorf("says %q", k.Text["solving"])
	}
	for _, want := range []string{"Moves when the wearer bows", "Gives up and down", "hanging", "24 × 12"} {
		if !strings.Contains(k.Words("numbers"), want) {
			t.Errorf("the numbers lack %q", want)
		}
	}
	if !strings.Contains(k.Text["description"], "As the cloth hangs") {
		t.Errorf("described as %q", k.Text["description"])
	}
	if k.Attr["pose-bow"]["aria-disabled"] != "false" || k.Attr["pose-other"]["aria-disabled"] == "false" {
		t.Errorf("poses: bow %v, other %v", k.Attr["pose-bow"], k.Attr["pose-other"])
	}
	if !strings.Contains(k.Words("findings"), "Gone: sets do not divide into quarters.") {
		t.Errorf("no change is told as tried: %s", k.Words("findings"))
	}
	for _, f := range k.p.Findings() {
		if f.Pending && f.ID == "not-solved" && len(f.Awaits) == 0 {
			t.Errorf("%+v", f)
		}
	}
}

// TestCoarseThenFine: while a field is typed the solver gets coarse requests;
// when it is still, or left, a fine one. Each newer one takes the older's place.
func TestCoarseThenFine(t *testing.T) {
	k := seated(t)
	k.done()
	before := len(k.asked())
	for i, typed := range []string{"3", "38", "380"} { // the first two are no necks
		k.send(60, doc.Typing, "wearer.girth", typed)
		if got := len(k.asked()) - before; got != map[int]int{0: 0, 1: 0, 2: 1}[i] {
			t.Errorf("after %q %d requests", typed, got)
		}
	}
	k.send(60, doc.Typing, "wearer.girth", "381")
	all := k.asked()[before:]
	if len(all) != 2 || !all[0].Coarse || !all[1].Coarse || !all[1].Skip.Bow {
		t.Fatalf("while typing: %+v", all)
	}
	k.until(func() bool { return k.Attr["pose-bow"] != nil && strings.Contains(k.Words("numbers"), "16 × 8") })
	k.send(500, doc.Timer, "rest", "")
	all = k.asked()[before:]
	if last := all[len(all)-1]; last.Coarse || last.Skip != (wire.Skip{}) || last.Task != wire.Solve {
		t.Errorf("when still: %+v", last)
	}
	k.done()
	if !strings.Contains(k.Words("numbers"), "24 × 12") {
		t.Error("the fine ruff did not come")
	}
	was := len(k.asked())
	k.send(60, doc.Set, "wearer.girth", "381") // left unchanged
	if got := k.asked()[was:]; len(got) > 0 {
		t.Errorf("leaving the field asks again: %+v", got)
	}
	k.send(60, doc.Typing, "wearer.girth", "383")
	k.send(20, doc.Set, "wearer.girth", "383")
	all = k.asked()[was:]
	if len(all) != 2 || !all[0].Coarse || all[1].Coarse {
		t.Errorf("typed and left at once: %+v", all)
	}
	k.done()
}

// TestStop: the reader stops the solver, the page says so, and can go on.
func TestStop(t *testing.T) {
	k := seated(t)
	k.send(10, doc.Set, "wearer.ratio", "1.2")
	k.until(func() bool { return len(k.asked()) > 0 })
	k.send(10, doc.Do, "solver", "")
	if all := k.asked(); all[len(all)-1].Task != wire.Cancel {
		t.Fatalf("asked %+v", all[len(all)-1])
	}
	if k.state() != "halted" || k.Text["halt"] != "Solve again" || !strings.Contains(k.Text["solving"], "stopped") {
		t.Errorf("%s, button %q, says %q", k.state(), k.Text["halt"], k.Text["solving"])
	}
	for range 200 { // let what is under way end
		select {
		case m := <-k.news:
			k.Hear(10, "", m.head, m.body)
		case <-time.After(50 * time.Millisecond):
		}
		if k.state() != "halted" {
			t.Fatal("it goes on by itself")
		}
		if len(k.news) == 0 {
			break
		}
	}
	k.send(10, doc.Do, "solver", "")
	k.done()
}

// TestUnsolvable: sets without mechanics are said to be so, in one sentence.
func TestUnsolvable(t *testing.T) {
	k := seated(t)
	k.done()
	k.send(10, doc.Set, "pleat.panel", "30") // the tucks leave too little
	k.until(func() bool { return k.state() == "none" })
	if got := k.Text["solving"]; !strings.Contains(got, "cannot be solved") {
		t.Errorf("says %q", got)
	}
	k.send(10, doc.Do, "undo", "")
	k.done()
}

// TestWorkerDies: it is started again once, then the page says so and goes on
// without it; the reader may have it started once more.
func TestWorkerDies(t *testing.T) {
	for name, die := range map[string]func(k *desk){
		"ends":    func(k *desk) { k.send(10, doc.Solver, "died", "its program ended by itself") },
		"riddles": func(k *desk) { k.Hear(10, "", "{]", nil); k.carry() },
		"silent": func(k *desk) {
			for range 3 { // one look, a second one to be sure
				k.send(7000, doc.Timer, "watch", "")
			}
		},
	} {
		t.Run(name, func(t *testing.T) {
			k := seated(t)
			k.done()
			verdict := k.Text["verdict"]
			k.send(10, doc.Set, "ruff.sets", "44")
			starts := func() (n int) {
				for _, p := range k.Solver {
					if p.Name == "start" {
						n++
					}
				}
				return n
			}
			if starts() != 1 {
				t.Fatalf("%d starts", starts())
			}
			die(k)
			if starts() != 2 || k.state() != "busy" {
				t.Fatalf("after the first death %d starts, %s: %s", starts(), k.state(), k.Text["solving"])
			}
			k.until(func() bool {
				return k.asked()[len(k.asked())-1].Task == wire.Solve && k.state() == "busy" && len(k.asked()) > 1
			})
			k.hear() // at work
			die(k)
			if starts() != 2 || k.state() != "gone" || !strings.Contains(k.Text["solving"], "does not run") {
				t.Fatalf("after the second death %d starts, %s: %s", starts(), k.state(), k.Text["solving"])
			}
			k.send(10, doc.Set, "ruff.sets", "40") // the page goes on
			if k.Text["verdict"] == "" || k.Control["f-ruff-sets"] == "44" || starts() != 2 {
				t.Errorf("verdict %q, %d starts", k.Text["verdict"], starts())
			}
			k.send(10, doc.Do, "solver", "")
			k.done()
			if k.Text["verdict"] != verdict {
				t.Errorf("verdict %q, before all this %q", k.Text["verdict"], verdict)
			}
		})
	}
}

// TestErrandKills: a worker that solves the ruff and dies of what comes after is
// not started again and again; what it solved stays, and the page says so.
func TestErrandKills(t *testing.T) {
	k := seated(t)
	k.done()
	k.send(10, doc.Do, "twin", "")
	rival := func() bool { // asked for, after the ruff itself
		all := k.asked()
		return all[len(all)-1].Task == wire.Solve && all[len(all)-1].Scheme != all[0].Scheme
	}
	for range 5 {
		k.until(func() bool { return rival() || k.state() == "gone" })
		if k.state() == "gone" {
			break
		}
		k.send(10, doc.Solver, "died", "its program ended by itself")
		k.until(func() bool { return !rival() || k.state() == "gone" })
	}
	starts := 0
	for _, p := range k.Solver {
		if p.Name == "start" {
			starts++
		}
	}
	if starts != 2 || k.state() != "gone" || !strings.Contains(k.Text["solving"], "What was solved until then is shown") {
		t.Errorf("%d starts, %s: %s", starts, k.state(), k.Text["solving"])
	}
	if strings.Contains(k.Text["verdict"], "not solved") {
		t.Errorf("what was solved is gone: %s", k.Text["verdict"])
	}
}

// TestSettle: the cloth settles from the drawn to the solved shape in a quarter
// of a second, in small steps; under reduced motion at once.
func TestSettle(t *testing.T) {
	for _, calm := range []bool{false, true} {
		k := seated(t)
		if calm {
			k.send(0, doc.Calm, "yes", "")
		}
		count := func() (n int) {
			for _, p := range k.Timers {
				if p.Name == "settle" {
					n++
				}
			}
			return n
		}
		k.until(func() bool { return strings.Contains(k.Words("numbers"), "hanging") })
		if calm {
			if count() != 0 {
				t.Error("moves under reduced motion")
			}
			continue
		}
		if count() != 1 {
			t.Fatalf("%d timers to settle", count())
		}
		last := ""
		frames := 0
		for count() > frames {
			frames++
			k.send(20, doc.Timer, "settle", "")
			d, _, _, err := k.p.Look.Picture()
			if err != nil {
				t.Fatal(err)
			}
			now := fmt.Sprint(d.Items)
			if now == last {
				t.Error("a frame without movement")
			}
			last = now
			if frames > 100 {
				t.Fatal("never settles")
			}
		}
		if frames < 8 || frames > 20 {
			t.Errorf("%d frames of 20 ms", frames)
		}
	}
}
