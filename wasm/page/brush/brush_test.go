package brush

import (
	"image/color"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/frame"
	"ruffwright/wasm/page/screen"
	"ruffwright/wasm/painting"
)

// desk is a brush with a painter that answers when it is told to.
type desk struct {
	t *testing.T
	Brush
	painter *painting.Painter
	asked   []doc.Patch // that the painter has not seen
	said    []doc.Event // that the brush has not heard
	frames  int
	pixels  int  // of the last frame
	due     bool // a frame is to be drawn
	timer   bool
	held    bool // the reader holds the ruff
	scene   *light.Scene
	items   []draw.Item
}

func newDesk(t *testing.T) *desk {
	d := &desk{t: t}
	tint := light.Tint{}
	for i := range tint {
		tint[i] = color.NRGBA{200, 200, 200, 255}
	}
	d.scene = &light.Scene{Sheets: []light.Sheet{{Cols: 2, Rows: 2, Tints: []light.Tint{tint}, V: []geom.Vec3{{X: -10, Z: -10}, {X: -10, Z: 10}, {X: 10, Z: -10}, {X: 10, Z: 10}}}}}
	eye := draw.NewEye(0, 0)
	eye.X, eye.Y = 20, 20
	d.items = []draw.Item{draw.Solid{Scene: d.scene, Eye: eye}, draw.Path{Lines: [][]draw.Point{{{X: 1}, {X: 9}}}, Width_mm: 1, Stroke: color.NRGBA{A: 255}}}
	return d
}

func (d *desk) take(patches []doc.Patch) {
	defer func() {
		for _, p := range d.Rest(d.held) {
			d.timer = d.timer || p.Op == doc.OpTimer
		}
	}()
	for _, p := range patches {
		switch p.Op {
		case doc.OpPainter:
			switch p.Name {
			case "start":
				d.painter = painting.New(func(head string, body []byte) { d.said = append(d.said, doc.Event{Value: head, Body: body}) })
			case "ask":
				d.asked = append(d.asked, p)
			}
		case doc.OpDraw:
			d.due = true
		case doc.OpPixels:
			d.pixels = max(len(p.Body), p.Size)
		case doc.OpFrame:
			f, err := frame.Read(p.Body)
			if err != nil || f.Pixels() != d.pixels {
				d.t.Fatalf("%v: %d bytes of pixels for %d", err, d.pixels, f.Pixels())
			}
			if _, ok := f.Items[len(f.Items)-1].(frame.Path); !ok {
				d.t.Errorf("the line is not over the cloth: %+v", f.Items)
			}
			d.frames++
		}
	}
}

func (d *desk) draw(now_ms float64) {
	d.due = false
	if d.Busy(now_ms) {
		return
	}
	d.take(d.Draw(draw.Drawing{Width_mm: 40, Height_mm: 40, Items: d.items}, screen.On(80, 80, 2, draw.Point{X: 20, Y: 20}), now_ms))
}

// work lets the painter answer all that it was asked.
func (d *desk) work() {
	for _, p := range d.asked {
		d.painter.Take(p.Value, p.Body)
	}
	d.asked = nil
	d.hear()
}

func (d *desk) hear() {
	said := d.said
	d.said = nil
	for _, e := range said {
		d.take(d.Hear(e.Value, e.Body))
	}
}

// TestBrush: the page's thread paints until the painter is there; then there is never
// more than one picture under way, and the newest wish waits; at rest the full picture
// is asked for, once; a scene crosses once; then all is still.
func TestBrush(t *testing.T) {
	d := newDesk(t)
	d.take(d.Start())
	d.take(d.Change(0))
	d.draw(10)
	if d.frames != 1 || len(d.asked) != 0 || !d.Unfinished() {
		t.Fatalf("before the painter is there: %d frames, %d wishes, unfinished %v", d.frames, len(d.asked), d.Unfinished())
	}
	if d.take(d.Rings(false, 400)); d.due || d.timer {
		t.Fatal("the full picture is not left to the painter")
	}
	d.hear() // it is alive
	if !d.timer {
		t.Fatal("the painter is there, and is not asked for the full picture")
	}
	sizes := []int{}
	for i := range 5 {
		d.take(d.Change(20 + float64(i)))
		if i == 0 || d.due {
			d.draw(20 + float64(i))
		}
		if len(d.asked) > 1 {
			t.Fatalf("%d wishes at once", len(d.asked))
		}
	}
	sizes = append(sizes, len(d.asked[0].Body))
	d.work()
	if d.frames != 2 || !d.due {
		t.Fatalf("%d frames; the newest picture is asked for: %v", d.frames, d.due)
	}
	d.draw(30)
	sizes = append(sizes, len(d.asked[0].Body))
	if d.take(d.Rings(false, 40)); d.due {
		t.Error("the full picture is asked for while the plain one is under way")
	}
	d.held, d.timer = true, false
	d.work()
	if d.take(d.Rings(true, 200)); d.due || d.timer {
		t.Fatal("the full picture is asked for while the ruff is held")
	}
	d.held = false
	if d.take(nil); !d.timer {
		t.Fatal("let go, it does not rest")
	}
	d.take(d.Rings(false, 300))
	if !d.due || !d.Full() {
		t.Fatal("at rest the full picture is not asked for")
	}
	d.draw(210)
	d.work()
	if d.frames != 4 || d.due || d.Unfinished() {
		t.Errorf("in the end %d frames, due %v, unfinished %v", d.frames, d.due, d.Unfinished())
	}
	d.timer = false
	if d.take(d.Rings(false, 400)); d.due || d.timer {
		t.Error("a still picture is drawn again")
	}
	if sizes[0] == 0 || sizes[1] != 0 {
		t.Errorf("the scene crosses with %v bytes", sizes)
	}
	other := *d.scene
	d.items[0] = draw.Solid{Scene: &other, Eye: d.items[0].(draw.Solid).Eye}
	d.take(d.Change(500))
	d.draw(510)
	if len(d.asked) != 1 || len(d.asked[0].Body) == 0 {
		t.Error("another scene is not sent")
	}
}

// TestNoPainter: one that dies, that cannot paint what it is asked or that falls silent
// is replaced by the page's own thread, and nothing is lost.
func TestNoPainter(t *testing.T) {
	for name, end := range map[string]func(*desk){
		"dies":    func(d *desk) { d.take(d.Die()) },
		"refuses": func(d *desk) { d.take(d.Hear(`{"Why":"no"}`, nil)) },
		"garbled": func(d *desk) { d.take(d.Hear(`{"Counts":[1],"Bytes":[9]}`, nil)) },
		"silent":  func(d *desk) { d.Busy(40 + mostWait); d.due = true },
	} {
		d := newDesk(t)
		d.take(d.Start())
		d.hear()
		d.take(d.Change(10))
		d.draw(20)
		end(d)
		if !d.due {
			t.Errorf("%s: nothing is drawn", name)
		}
		d.draw(50 + mostWait)
		if d.frames != 1 {
			t.Errorf("%s: %d frames", name, d.frames)
		}
		d.work() // too late
		d.take(d.Rings(false, 1e6))
		d.draw(1e6)
		if d.frames != 2 || d.Unfinished() {
			t.Errorf("%s: in the end %d frames, unfinished %v", name, d.frames, d.Unfinished())
		}
	}
}

// A full picture that is not wanted any more is not waited for: the next is asked for at
// once, and what comes of the first is passed over, late or whole.
func TestLeavesFull(t *testing.T) {
	for _, late := range []bool{true, false} {
		d := newDesk(t)
		d.take(d.Start())
		d.hear()
		d.take(d.Change(10))
		d.draw(20)
		d.work()
		d.take(d.Rings(false, 200))
		d.draw(210)
		d.take(d.Change(220))
		if !d.due || d.Busy(221) {
			t.Fatal("the full picture is waited for")
		}
		d.draw(222)
		if len(d.asked) != 2 {
			t.Fatalf("%d wishes under way, want the full one and the next", len(d.asked))
		}
		if d.take(d.Change(230)); d.due {
			t.Error("a plain picture is not waited for")
		}
		if late {
			d.asked = d.asked[1:]
			d.take(d.Hear(`{"Late":true}`, nil))
		}
		frames := d.frames
		d.work()
		if d.frames != frames+1 || !d.due || d.Busy(240) {
			t.Errorf("late %v: %d frames more, due %v", late, d.frames-frames, d.due)
		}
		d.draw(250)
		d.work()
		d.take(d.Rings(false, 500))
		d.draw(510)
		d.work()
		if d.Unfinished() || d.frames != frames+3 {
			t.Errorf("late %v: in the end %d frames more, unfinished %v", late, d.frames-frames, d.Unfinished())
		}
	}
}
