package page

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ruffwright/wasm/doc"
	"ruffwright/wasm/wire"
)

// handled is a page in a view with handles, whose picture is on the stage.
func handled(t testing.TB, view string) *Page {
	t.Helper()
	p, err := New()
	if err != nil {
		t.Fatal(err)
	}
	p.Handle(doc.Event{Kind: doc.Sized, Value: "800 420 1"})
	p.Handle(doc.Event{Kind: doc.Begin})
	p.Handle(doc.Event{Kind: doc.Do, Name: "view", Value: view})
	p.Handle(doc.Event{Kind: doc.Draw})
	return p
}

// hand pulls one handle of a page.
type hand struct {
	*Page
	key    string
	x, y   float64
	now_ms float64
}

func (p *Page) hand(key string) *hand {
	x, y := p.grips.Where(key)
	return &hand{p, key, x, y, 1000}
}

func (h *hand) does(what string) []doc.Patch {
	h.now_ms += 16
	return h.Handle(doc.Event{Kind: doc.Handle, Name: h.key, Value: what, At_ms: h.now_ms})
}

func (h *hand) to(phase string, dx, dy float64) []doc.Patch {
	return h.does(fmt.Sprintf("%s %g %g", phase, h.x+dx, h.y+dy))
}

// asks tells whether patches ask the solver.
func asks(out []doc.Patch) bool {
	return slices.ContainsFunc(out, func(p doc.Patch) bool {
		return p.Op == doc.OpSolver && p.Name == "ask" && !strings.Contains(p.Value, `"cancel"`)
	})
}

// One drag is one step; what is given up leaves no step and gives back what could be done
// again; the handle says its value.
func TestPullIsOneStep(t *testing.T) {
	p := handled(t, "side")
	was := p.Scheme()
	h := p.hand("ruff.depth")
	h.to("down", 0, 0)
	said := ""
	for i := range 20 {
		for _, patch := range h.to("move", float64(2*i), 0) {
			if patch.ID == "h-ruff-depth" && patch.Name == "aria-valuetext" {
				said = patch.Value
			}
		}
	}
	h.does("up")
	now := p.Scheme().Ruff.Depth
	if now <= was.Ruff.Depth || said != fmt.Sprintf("%g mm", now) {
		t.Fatalf("pulled outward the depth is %g, it was %g; the handle says %q", now, was.Ruff.Depth, said)
	}
	p.work.Undo()
	if p.Scheme().Ruff.Depth != was.Ruff.Depth {
		t.Errorf("one step back the depth is %g", p.Scheme().Ruff.Depth)
	}
	if back, forth := p.work.Ways(); back != "" || forth != "Depth" {
		t.Errorf("the ways are %q and %q", back, forth)
	}
	p.Handle(doc.Event{Kind: doc.Draw})
	h = p.hand("ruff.height")
	h.to("down", 0, 0)
	h.to("move", 0, -40)
	if p.Scheme().Ruff.Height <= was.Ruff.Height {
		t.Errorf("the crest pulled up, the height is %g", p.Scheme().Ruff.Height)
	}
	h.does("back")
	if back, forth := p.work.Ways(); back != "" || forth != "Depth" || p.Scheme().Ruff.Height != was.Ruff.Height {
		t.Errorf("given up, the height is %g and the ways are %q and %q", p.Scheme().Ruff.Height, back, forth)
	}
}

// A handle goes as far as the scheme lets it and says why no farther; what comes back
// under the hand moves again at once.
func TestPullMeetsLimits(t *testing.T) {
	p := handled(t, "side")
	h := p.hand("ruff.depth")
	h.to("down", 0, 0)
	h.to("move", -5000, 0)
	if got := p.Scheme().Ruff.Depth; got < 10 || got > 60 {
		t.Errorf("pulled inward without end, the depth is %g", got)
	}
	least, _ := p.shown.values["attr h-ruff-depth aria-valuetext"]
	if !strings.Contains(least, "mm. ") {
		t.Errorf("at its least the handle says %q", least)
	}
	h.to("move", 0, 0)
	if got := p.Scheme().Ruff.Depth; got != 70 {
		t.Errorf("back where it was taken, the depth is %g", got)
	}
	h.does("up")
	for _, what := range []string{"move 1 1", "up", "down x y", "down", "key Nonsense", "move NaN Inf", "typing", ""} {
		h.does(what) // nothing of it does anything
	}
	if got := p.Scheme().Ruff.Depth; got != 70 {
		t.Errorf("nonsense makes a depth of %g", got)
	}
	for _, f := range []string{"pleat.tuck_top", "pleat.tuck_bottom"} { // deeper than there is room
		if why := p.work.Pull(f, 9, 40, 0.5); why == "" || p.work.Ruff.Plan.TucksFitted {
			t.Errorf("%s of 40 mm: %q, fitted %v", f, why, p.work.Ruff.Plan.TucksFitted)
		}
	}
}

// While the hand moves the solver is asked nothing; when it stops, coarsely, and when it
// rests, in full.
func TestPullAsksWhenItStops(t *testing.T) {
	p := handled(t, "side")
	p.Handle(doc.Event{Kind: doc.Timer, Name: "solver"})
	head, body, err := wire.Reply{Alive: true}.Encode()
	if err != nil {
		t.Fatal(err)
	}
	p.Handle(doc.Event{Kind: doc.Solver, Name: "said", Value: head, Body: body})
	h := p.hand("ruff.depth")
	h.to("down", 0, 0)
	for i := range 10 {
		if asks(h.to("move", float64(4*i), 0)) {
			t.Fatal("the solver is asked while the hand moves")
		}
	}
	var asked []doc.Patch
	for _, wait := range []float64{20, 13, 400} {
		h.now_ms += wait
		for _, timer := range []string{"still", "rest"} {
			asked = append(asked, h.Handle(doc.Event{Kind: doc.Timer, Name: timer, At_ms: h.now_ms})...)
		}
		if wait == 20 && asks(asked) {
			t.Error("20 ms after a move the solver is asked")
		}
	}
	var coarse []bool
	for _, patch := range asked {
		if patch.Op == doc.OpSolver && patch.Name == "ask" {
			coarse = append(coarse, strings.Contains(patch.Value, `"coarse":true`))
		}
	}
	if !slices.Equal(coarse, []bool{true, false}) {
		t.Errorf("asked coarsely: %v", coarse)
	}
}

// While a handle is pulled the form, the findings and what is saved follow now and then,
// and in full when it rests; the handle's own number follows every move.
func TestPullTellsNowAndThen(t *testing.T) {
	p := handled(t, "side")
	h := p.hand("ruff.depth")
	h.to("down", 0, 0)
	told, followed := 0, 0
	for i := range 60 {
		for _, patch := range h.to("move", float64(i+1), 0) {
			if patch.ID == "f-ruff-depth" && patch.Op == doc.OpValue {
				told++
			}
			if patch.ID == "h-ruff-depth" && patch.Name == "aria-valuenow" {
				followed++
			}
		}
	}
	if told < 3 || told > 8 || followed < 20 { // in a second
		t.Errorf("of 60 moves the form followed %d, the handle %d", told, followed)
	}
	h.now_ms += rests_ms
	p.Handle(doc.Event{Kind: doc.Timer, Name: "rest", At_ms: h.now_ms})
	if got, want := p.shown.values["value f-ruff-depth"], fmt.Sprintf("%g", p.Scheme().Ruff.Depth); got != want {
		t.Errorf("at rest the form says %s, the depth is %s", got, want)
	}
}

// rests_ms is longer than a control moves after its last move.
const rests_ms = 500

// BenchmarkPull is one move of a drag on the page's thread, without its picture.
func BenchmarkPull(b *testing.B) {
	h := handled(b, "side").hand("ruff.depth")
	h.to("down", 0, 0)
	for i := range b.N {
		h.to("move", float64(2*(i%8)), 0)
	}
}
