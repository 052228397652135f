package page

import (
	"math"
	"strings"
	"testing"

	"ruffwright/geom/figure"
	"ruffwright/wasm/doc"
)

// two is a page that compares its start with a lower ruff, on a stage of a size.
func two(t *testing.T, stage string) *Page {
	t.Helper()
	p, err := New()
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range []doc.Event{{Kind: doc.Sized, Value: stage}, {Kind: doc.Begin}, {Kind: doc.Do, Name: "compare-keep"}, {Kind: doc.Set, Name: "ruff.height", Value: "40"}} {
		p.Handle(e)
	}
	if !p.compares() || p.scheme.Ruff.Height != 40 || p.rival.scheme.Ruff.Height == 40 {
		t.Fatalf("A %g, B %+v", p.scheme.Ruff.Height, p.rival.scheme)
	}
	return p
}

// TestPanes: two stand side by side where there is room and one above the other on a
// narrow stage; what a pointer does in B's half it does as in A's.
func TestPanes(t *testing.T) {
	for stage, want := range map[string]bool{"700 450 1": false, "1200 700 1": false, "560 450 1": false, "390 480 3": true, "320 340 2": true, "479 300 1": true} {
		p := two(t, stage)
		w, h, stacked := p.pane()
		if stacked != want || w <= 0 || h <= 0 || w > p.width() || h > p.height() {
			t.Errorf("%s: %g × %g, stacked %v", stage, w, h, stacked)
		}
		p.view = figure.Named("above")
		shift := place{p.width() - w, 0}
		if stacked {
			shift = place{0, p.height() - h}
		}
		at := place{0.3 * w, 0.4 * h}
		p.zoomAt(2, at)
		a := p.camera
		p.camera = home
		p.zoomAt(2, place{at.x + shift.x, at.y + shift.y})
		b := p.camera
		if a.Lens.Scale != 2 || math.Abs(a.Lens.X-b.Lens.X) > 1e-9 || math.Abs(a.Lens.Y-b.Lens.Y) > 1e-9 || a.Lens == home.Lens {
			t.Errorf("%s: enlarged in A %v, in B %v", stage, a.Lens, b.Lens)
		}
		p.Handle(doc.Event{Kind: doc.Do, Name: "compare-stop"})
		if w, h, _ := p.pane(); w != p.width() || h != p.height() {
			t.Errorf("%s: alone it has %g × %g", stage, w, h)
		}
	}
}

// TestComparedSteps: thirty steps of comparing go back, one by one, and forth.
func TestComparedSteps(t *testing.T) {
	p := two(t, "700 450 1")
	state := func() string {
		b := ""
		if p.compares() {
			b = p.rival.written
		}
		return p.written + " " + b
	}
	var was []string
	names := []string{"compare-swap", "compare-keep", "twin", "compare-back", "twin", "compare-stop", "twin"}
	for i := 0; len(was) < 30; i++ {
		here, steps := state(), len(p.past)
		p.Handle(doc.Event{Kind: doc.Do, Name: names[i%len(names)]})
		if len(p.past) > steps {
			was = append(was, here)
		}
		if i > 1000 {
			t.Fatal("commands leave no steps")
		}
	}
	end := state()
	for i := len(was) - 1; i >= 0; i-- {
		p.Handle(doc.Event{Kind: doc.Do, Name: "undo"})
		if got := state(); got != was[i] {
			t.Fatalf("back at step %d: %s, want %s", i, got, was[i])
		}
	}
	for range was {
		p.Handle(doc.Event{Kind: doc.Do, Name: "redo"})
	}
	if got := state(); got != end {
		t.Errorf("forth again: %s, want %s", got, end)
	}
}

// TestComparedLinks: old links of one are read as before; a pair opens the compare; a
// broken one changes nothing, and says so.
func TestComparedLinks(t *testing.T) {
	p := two(t, "700 450 1")
	a, b := p.written, p.rival.written
	code := p.code()
	if code != a+"~"+b {
		t.Fatalf("the code is %s", code)
	}
	p.Handle(doc.Event{Kind: doc.Do, Name: "compare-stop"})
	p.Handle(doc.Event{Kind: doc.Do, Name: "fresh"})
	if got := p.code(); strings.Contains(got, "~") {
		t.Errorf("the code of one is %s", got)
	}
	p.Handle(doc.Event{Kind: doc.Address, Value: "#" + code})
	if p.written != a || p.rival.written != b {
		t.Errorf("opened: %s and %s", p.written, p.rival.written)
	}
	steps := len(p.past)
	p.Handle(doc.Event{Kind: doc.Address, Value: "#" + code})
	if len(p.past) != steps {
		t.Error("the same link again is a step")
	}
	for _, bad := range []string{"#" + code + "~" + b, "#" + a + "~", "#" + a + "~2.AAAA", "#" + a + "~<b>"} {
		p.Handle(doc.Event{Kind: doc.Address, Value: bad})
		if p.written != a || p.rival.written != b || p.voice.notice == "" || len(p.past) != steps {
			t.Errorf("%s: %s and %s, %q", bad, p.written, p.rival.written, p.voice.notice)
		}
	}
}
