//go:build !js

package dom

import (
	"bytes"
	"fmt"
	"testing"

	"ruffwright/wasm/doc"
	"ruffwright/wasm/frame"
	"ruffwright/wasm/painting"
	"ruffwright/wasm/port"
)

// TestPainted: page and painter together: the first picture does not wait for the
// painter; while the ruff is dragged one picture follows the other, each with its own
// lines and words; at rest comes the full one; the cloth crosses once; then nothing is
// drawn or sent.
func TestPainted(t *testing.T) {
	d, _ := opened(t)
	d.Send(0, doc.Sized, "", "300 200 1")
	page, worker := port.Pair()
	page.Listen(func(head string, body []byte) {
		d.tell(doc.Event{Kind: doc.Painter, Name: "said", Value: head, Body: body, At_ms: d.now_ms})
	})
	screen := func(wait_ms float64) { // takes a frame, if there is one
		if d.Due {
			d.Due = false
			d.Send(wait_ms, doc.Draw, "", "")
		}
	}
	wishes, sent := 0, 0
	work := func() { // the painter answers
		asked := d.Painter
		d.Painter = nil
		for _, p := range asked {
			if p.Name == "ask" {
				wishes, sent = wishes+1, sent+len(p.Body)
				page.Post(p.Value, p.Body)
			}
		}
	}
	see := func() frame.Frame {
		t.Helper()
		last := d.Frames[len(d.Frames)-1]
		f, err := frame.Read(last.Bytes)
		if err != nil || f.Pixels() != len(last.Pixels) || f.Pixels() == 0 {
			t.Fatalf("%v: %d bytes of pixels for %d", err, len(last.Pixels), f.Pixels())
		}
		return f
	}
	screen(16)
	if len(d.Frames) != 1 || d.Attr["stage"]["data-painting"] != "true" {
		t.Fatalf("%d frames before the painter is there; painting: %q", len(d.Frames), d.Attr["stage"]["data-painting"])
	}
	own := d.Frames[0]
	see()
	worker.Listen(painting.New(worker.Post).Take)
	d.Send(1, doc.Pointer, "down", "1 100 100")
	for i := range 6 {
		was, asked := len(d.Frames), wishes
		d.Send(4, doc.Pointer, "move", fmt.Sprintf("1 %d 100", 110+10*i))
		screen(4)
		d.Send(4, doc.Pointer, "move", fmt.Sprintf("1 %d 100", 115+10*i))
		screen(4) // the picture is under way: the wish waits
		work()
		if len(d.Frames) != was+1 || wishes != asked+1 {
			t.Fatalf("drag %d: %d wishes, %d frames", i, wishes-asked, len(d.Frames)-was)
		}
	}
	if bytes.Equal(own.Pixels, d.Frames[len(d.Frames)-1].Pixels) {
		t.Error("dragged, the ruff looks as before")
	}
	screen(16)
	work()
	if d.Due || len(d.Painter) > 0 {
		t.Error("the drag is over, and pictures go on")
	}
	if sent == 0 {
		t.Error("no scene was sent")
	}
	for range 2 {
		d.Send(200, doc.Timer, "rest-picture", "")
		screen(16)
	}
	if len(d.Painter) > 0 {
		t.Error("the full picture is asked for while the ruff is held")
	}
	d.Send(10, doc.Pointer, "up", "1 165 100")
	once, plain := sent, see()
	for range 3 {
		d.Send(100, doc.Timer, "rest-picture", "")
		screen(16)
		work()
	}
	full := see()
	if d.Attr["stage"]["data-painting"] != "" || len(full.Items) == 0 || d.Due {
		t.Errorf("at rest the picture is unfinished: %q", d.Attr["stage"]["data-painting"])
	}
	if len(plain.Items) == 0 || bytes.Equal(d.Frames[len(d.Frames)-1].Pixels, d.Frames[len(d.Frames)-2].Pixels) {
		t.Error("the full picture is the plain one")
	}
	if sent != once {
		t.Errorf("the scene crossed again: %d bytes, then %d", once, sent)
	}
	frames, asked := len(d.Frames), wishes
	for range 3 {
		d.Send(1000, doc.Timer, "rest-picture", "")
		screen(16)
		work()
	}
	if len(d.Frames) != frames || wishes != asked {
		t.Errorf("a still page draws %d frames and asks for %d pictures", len(d.Frames)-frames, wishes-asked)
	}
	d.Send(10, doc.Set, "ruff.sets", "44")
	screen(16)
	work()
	if len(d.Frames) != frames+1 || sent == once {
		t.Errorf("another ruff gives %d frames, %d bytes of scenes", len(d.Frames)-frames, sent-once)
	}
}
