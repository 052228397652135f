package page

import (
	"math"
	"testing"

	"ruffwright/geom/figure"
	"ruffwright/wasm/doc"
)

func newPage(t *testing.T) *Page {
	t.Helper()
	p, err := New()
	if err != nil {
		t.Fatal(err)
	}
	p.Handle(doc.Event{Kind: doc.Sized, Value: "800 600 1"})
	return p
}

// TestDrag: a drag of d px turns by d × degreesPerPixel, whatever the steps; a
// lifted pointer turns nothing.
func TestDrag(t *testing.T) {
	p := newPage(t)
	turn, tilt := p.camera.Turn_deg, p.camera.Tilt_deg
	p.Handle(doc.Event{Kind: doc.Pointer, Name: "down", Value: "1 100 100"})
	for _, at := range []string{"1 110 100", "1 150 105", "1 160 110"} {
		p.Handle(doc.Event{Kind: doc.Pointer, Name: "move", Value: at})
	}
	if got, want := p.camera.Turn_deg-turn, 60*degreesPerPixel; math.Abs(got-want) > 1e-9 {
		t.Errorf("60 px turn by %g°, want %g°", got, want)
	}
	if got, want := p.camera.Tilt_deg-tilt, 10*degreesPerPixel; math.Abs(got-want) > 1e-9 {
		t.Errorf("10 px tilt by %g°, want %g°", got, want)
	}
	p.Handle(doc.Event{Kind: doc.Pointer, Name: "up", Value: "1 160 110"})
	was := p.camera
	p.Handle(doc.Event{Kind: doc.Pointer, Name: "move", Value: "1 300 300"})
	if p.camera != was {
		t.Error("a pointer that is up turns the ruff")
	}
}

// TestPinch: twice the distance of two fingers is twice the size; fingers may
// be lifted in any order.
func TestPinch(t *testing.T) {
	for _, view := range []string{"hand", "flat"} {
		p := newPage(t)
		p.Handle(doc.Event{Kind: doc.Do, Name: "view", Value: view})
		p.Handle(doc.Event{Kind: doc.Pointer, Name: "down", Value: "1 350 300"})
		p.Handle(doc.Event{Kind: doc.Pointer, Name: "down", Value: "2 450 300"})
		p.Handle(doc.Event{Kind: doc.Pointer, Name: "move", Value: "2 550 300"})
		got := p.camera.Zoom
		if view == "flat" {
			got = p.camera.Lens.Scale
		}
		if math.Abs(got-2) > 1e-9 {
			t.Errorf("%s: twice the distance enlarges %g times", view, got)
		}
		p.Handle(doc.Event{Kind: doc.Pointer, Name: "up", Value: "1 350 300"})
		if p.Handle(doc.Event{Kind: doc.Pointer, Name: "move", Value: "2 560 300"}); len(p.gesture.down) != 1 {
			t.Errorf("%s: %d fingers down, want 1", view, len(p.gesture.down))
		}
	}
}

// TestLens: under the lens the place below the pointer stays there while the
// sheet is enlarged, and the lens never leaves the sheet.
func TestLens(t *testing.T) {
	p := newPage(t)
	p.Handle(doc.Event{Kind: doc.Do, Name: "view", Value: "above"})
	under := func() (x, y float64) { // place of the sheet at 500, 200
		l := p.camera.Lens
		return l.X + (500.0/800-0.5)/l.Scale, l.Y + (200.0/600-0.5)/l.Scale
	}
	x, y := under()
	for range 12 {
		p.Handle(doc.Event{Kind: doc.Wheel, Value: "-120 500 200"})
		if X, Y := under(); math.Abs(X-x)+math.Abs(Y-y) > 1e-9 {
			t.Fatalf("at %g times the place moved from %g, %g to %g, %g", p.camera.Lens.Scale, x, y, X, Y)
		}
	}
	for range 40 {
		p.Handle(doc.Event{Kind: doc.Key, Name: "ArrowRight"})
		p.Handle(doc.Event{Kind: doc.Key, Name: "ArrowDown"})
	}
	half := 0.5 / p.camera.Lens.Scale
	if l := p.camera.Lens; l.X > 1-half+1e-12 || l.Y > 1-half+1e-12 || l.X < 0.9 {
		t.Errorf("the lens left the sheet or never reached its corner: %+v", l)
	}
	p.Handle(doc.Event{Kind: doc.Key, Name: "Home"})
	if p.camera != home {
		t.Errorf("Home gives %+v", p.camera)
	}
}

// TestLimits: no stream of events, however absurd, leaves the camera's ranges.
func TestLimits(t *testing.T) {
	p := newPage(t)
	for _, e := range []doc.Event{
		{Kind: doc.Pointer, Name: "down", Value: "x y z"}, {Kind: doc.Pointer, Name: "move", Value: ""}, {Kind: doc.Pointer, Name: "down", Value: "1 NaN 3"},
		{Kind: doc.Wheel, Value: "NaN 1 1"}, {Kind: doc.Wheel, Value: "1e308 1 1"}, {Kind: doc.Wheel, Value: "-1e308 Inf 1"}, {Kind: doc.Sized, Value: "0 0 0"}, {Kind: doc.Sized, Value: "NaN 1 1"},
		{Kind: doc.Key, Name: "F5"}, {Kind: doc.Do, Name: "camera", Value: "Escape"}, {Kind: doc.Do, Name: "nothing of the kind"}, {Kind: "unknown"},
		{Kind: doc.Do, Name: "apply", Value: "quarters 99"}, {Kind: doc.Do, Name: "apply", Value: "x"}, {Kind: doc.Do, Name: "view", Value: "x"}, {Kind: doc.Do, Name: "units", Value: "ell"},
		{Kind: doc.Set, Name: "no.such.key", Value: "1"}, {Kind: doc.Typing, Name: "", Value: ""},
	} {
		p.Handle(e)
	}
	for range 200 {
		p.Handle(doc.Event{Kind: doc.Key, Name: "ArrowDown"})
		p.Handle(doc.Event{Kind: doc.Key, Name: "+"})
	}
	if c := p.camera; !(c.Tilt_deg <= highestTilt && c.Zoom <= mostZoom) {
		t.Errorf("camera %+v", c)
	}
	if _, _, _, err := p.Picture(); err != nil {
		t.Errorf("the farthest camera cannot be drawn: %v", err)
	}
}

// TestPictures: every view draws at every size of stage that the page has, the
// smallest and a very wide one too.
func TestPictures(t *testing.T) {
	p := newPage(t)
	for _, size := range []string{"320 180 1", "296 192 3", "390 287 2", "670 448 1", "3000 700 1", "16 16 1"} {
		p.Handle(doc.Event{Kind: doc.Sized, Value: size})
		for _, v := range figure.Views {
			p.Handle(doc.Event{Kind: doc.Do, Name: "view", Value: v.Name})
			d, lens, px, err := p.Picture()
			if err != nil || len(d.Items) == 0 || lens.Scale < 1 || !(px > 0) {
				t.Errorf("%s at %s: %v, %d items, lens %+v, %g px per mm", v.Name, size, err, len(d.Items), lens, px)
			}
		}
	}
}

// TestMotion: while the ruff is dragged the cloth is coarser, and it is fine
// again once the drag has stopped for a while.
func TestMotion(t *testing.T) {
	p := newPage(t)
	p.Handle(doc.Event{Kind: doc.Pointer, Name: "down", Value: "1 100 100", At_ms: 1000})
	patches := p.Handle(doc.Event{Kind: doc.Pointer, Name: "move", Value: "1 110 100", At_ms: 1010})
	if len(patches) != 1 || patches[0].Op != doc.OpTimer || p.cells() == 0 {
		t.Fatalf("a drag gives %v, %d cells", patches, p.cells())
	}
	p.Handle(doc.Event{Kind: doc.Pointer, Name: "move", Value: "1 120 100", At_ms: 1100})
	p.Changed()
	again := p.Handle(doc.Event{Kind: doc.Timer, Name: "still", At_ms: 1010 + still_ms})
	if len(again) != 1 || p.cells() == 0 || p.Changed() {
		t.Fatalf("still moving 60 ms ago: %v, %d cells", again, p.cells())
	}
	if p.Handle(doc.Event{Kind: doc.Timer, Name: "still", At_ms: 1100 + still_ms}); p.cells() != 0 || !p.Changed() {
		t.Error("the picture stays coarse")
	}
}
