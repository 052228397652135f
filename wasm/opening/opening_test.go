//go:build !js

package opening

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"strings"
	"testing"

	"ruffwright/wasm/wire"
)

// TestOpen: a large picture comes small, with its own size; one that cannot be used comes as
// a reason and no pixels.
func TestOpen(t *testing.T) {
	m := image.NewGray(image.Rect(0, 0, 3000, 1500))
	for y := range 1500 {
		for x := 1500; x < 3000; x++ {
			m.SetGray(x, y, color.Gray{200})
		}
	}
	var file bytes.Buffer
	if err := png.Encode(&file, m); err != nil {
		t.Fatal(err)
	}
	head, body := Open(file.Bytes())
	o, err := wire.ReadOpened(head)
	if err != nil || o.Format != "PNG" || o.Wide != 3000 || o.High != 1500 || o.Width != 2000 || o.Height != 1000 || len(body) != 4*2000*1000 {
		t.Fatalf("%s (%v), %d bytes", head, err, len(body))
	}
	if left, right := body[4*(500*2000+990)], body[4*(500*2000+1010)]; left != 0 || right != 200 {
		t.Errorf("left %d, right %d", left, right)
	}
	head, body = Open([]byte("GIF89a"))
	if o, err := wire.ReadOpened(head); err != nil || body != nil || !strings.Contains(o.Why.String(), "no JPEG") {
		t.Errorf("%s (%v), %d bytes", head, err, len(body))
	}
	if o, err := wire.ReadOpened(Ready()); err != nil || !o.Alive {
		t.Errorf("%+v, %v", o, err)
	}
}
