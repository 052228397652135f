package look

import (
	"math"
	"testing"

	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// newLook looks at the default scheme's ruff on a stage of 800 × 600.
func newLook(t testing.TB) *Look {
	t.Helper()
	r, err := sim.Draw(scheme.Default())
	if err != nil {
		t.Fatal(err)
	}
	l := New(&say.Voice{})
	l.A = &r
	l.Resize("800 600 1")
	return l
}

// TestDrag: a drag of d px turns by d × degreesPerPixel, whatever the steps; a
// lifted pointer turns nothing.
func TestDrag(t *testing.T) {
	l := newLook(t)
	turn, tilt := l.camera.Turn_deg, l.camera.Tilt_deg
	l.Move(doc.Pointer, "down", "1 100 100")
	for _, at := range []string{"1 110 100", "1 150 105", "1 160 110"} {
		l.Move(doc.Pointer, "move", at)
	}
	if got, want := l.camera.Turn_deg-turn, 60*degreesPerPixel; math.Abs(got-want) > 1e-9 {
		t.Errorf("60 px turn by %g°, want %g°", got, want)
	}
	if got, want := l.camera.Tilt_deg-tilt, 10*degreesPerPixel; math.Abs(got-want) > 1e-9 {
		t.Errorf("10 px tilt by %g°, want %g°", got, want)
	}
	l.Move(doc.Pointer, "up", "1 160 110")
	was := l.camera
	l.Move(doc.Pointer, "move", "1 300 300")
	if l.camera != was {
		t.Error("a pointer that is up turns the ruff")
	}
}

// TestPinch: twice the distance of two fingers is twice the size; fingers may
// be lifted in any order.
func TestPinch(t *testing.T) {
	for _, view := range []string{"hand", "flat"} {
		l := newLook(t)
		l.shows(figure.Named(view))
		l.Move(doc.Pointer, "down", "1 350 300")
		l.Move(doc.Pointer, "down", "2 450 300")
		l.Move(doc.Pointer, "move", "2 550 300")
		got := l.camera.Zoom
		if view == "flat" {
			got = l.camera.Lens.Scale
		}
		if math.Abs(got-2) > 1e-9 {
			t.Errorf("%s: twice the distance enlarges %g times", view, got)
		}
		l.Move(doc.Pointer, "up", "1 350 300")
		if l.Move(doc.Pointer, "move", "2 560 300"); len(l.gesture.down) != 1 {
			t.Errorf("%s: %d fingers down, want 1", view, len(l.gesture.down))
		}
	}
}

// TestLens: under the lens the place below the pointer stays there while the
// sheet is enlarged, and the lens never leaves the sheet.
func TestLens(t *testing.T) {
	l := newLook(t)
	l.shows(figure.Named("above"))
	under := func() (x, y float64) { // place of the sheet at 500, 200
		lens := l.camera.Lens
		return lens.X + (500.0/800-0.5)/lens.Scale, lens.Y + (200.0/600-0.5)/lens.Scale
	}
	x, y := under()
	for range 12 {
		l.Move(doc.Wheel, "", "-120 500 200")
		if X, Y := under(); math.Abs(X-x)+math.Abs(Y-y) > 1e-9 {
			t.Fatalf("at %g times the place moved from %g, %g to %g, %g", l.camera.Lens.Scale, x, y, X, Y)
		}
	}
	for range 40 {
		l.Key("ArrowRight", false)
		l.Key("ArrowDown", false)
	}
	half := 0.5 / l.camera.Lens.Scale
	if at := l.camera.Lens; at.X > 1-half+1e-12 || at.Y > 1-half+1e-12 || at.X < 0.9 {
		t.Errorf("the lens left the sheet or never reached its corner: %+v", at)
	}
	l.Key("Home", false)
	if l.camera != home {
		t.Errorf("Home gives %+v", l.camera)
	}
}

// TestLimits: no stream of events, however absurd, leaves the camera's ranges.
func TestLimits(t *testing.T) {
	l := newLook(t)
	for _, size := range []string{"0 0 0", "NaN 1 1", "1 1"} {
		l.Resize(size)
	}
	for _, at := range [][2]string{{"down", "x y z"}, {"move", ""}, {"down", "1 NaN 3"}} {
		l.Move(doc.Pointer, at[0], at[1])
	}
	for _, by := range []string{"NaN 1 1", "1e308 1 1", "-1e308 Inf 1"} {
		l.Move(doc.Wheel, "", by)
	}
	l.Key("F5", false)
	for _, do := range [][2]string{{"camera", "Escape"}, {"view", "x"}, {"pose", "x"}, {"colour", "x"}, {"hand", "x"}} {
		if _, ok := l.Do(do[0], do[1], 0); !ok {
			t.Errorf("%s is no command of the stage", do[0])
		}
	}
	if _, ok := l.Do("nothing of the kind", "", 0); ok {
		t.Error("whatever is asked is a command of the stage")
	}
	for range 200 {
		l.Key("ArrowDown", false)
		l.Key("+", false)
	}
	if c := l.camera; !(c.Tilt_deg <= highestTilt && c.Zoom <= mostZoom) {
		t.Errorf("camera %+v", c)
	}
	if _, _, _, err := l.Picture(); err != nil {
		t.Errorf("the farthest camera cannot be drawn: %v", err)
	}
}

// TestPictures: every view draws at every size of stage that the page has, the
// smallest and a very wide one too.
func TestPictures(t *testing.T) {
	l := newLook(t)
	for _, size := range []string{"320 180 1", "296 192 3", "390 287 2", "670 448 1", "3000 700 1", "16 16 1"} {
		l.Resize(size)
		for _, v := range figure.Views {
			l.shows(v)
			d, lens, px, err := l.Picture()
			if err != nil || len(d.Items) == 0 || lens.Scale < 1 || !(px > 0) {
				t.Errorf("%s at %s: %v, %d items, lens %+v, %g px per mm", v.Name, size, err, len(d.Items), lens, px)
			}
		}
	}
}
