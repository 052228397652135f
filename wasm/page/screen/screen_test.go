package screen

import (
	"image/color"
	"math"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/wasm/frame"
)

// TestLay: a drawing's parts come as its frame's, in order, at their places in device
// pixels from the stage's middle; what stands in the middle of the stage stands at 0.
func TestLay(t *testing.T) {
	ink := color.NRGBA{20, 30, 40, 255}
	d := draw.Drawing{
		Width_mm: 100, Height_mm: 80, Ground: color.NRGBA{250, 250, 240, 255},
		Items: []draw.Item{
			draw.Solid{},
			draw.Path{Lines: [][]draw.Point{{{X: 0, Y: 0}, {X: 100, Y: 80}}}, Stroke: ink, Width_mm: 0.5, Dash_mm: []float64{2, 1}},
			draw.Label{At: draw.Point{X: 50, Y: 40}, Text: "12 mm", Size_mm: 4, Color: ink},
		},
	}
	var s Screen
	f := s.Lay(d, On(400, 320, 4, draw.Point{X: 50, Y: 40}))
	if len(f.Items) != 3 || f.Ground != d.Ground || f.Items[0] != nil {
		t.Fatalf("%+v", f)
	}
	p := f.Items[1].(frame.Path)
	if p.Lines[0][0] != (frame.Point{X: -200, Y: -160}) || p.Lines[0][1] != (frame.Point{X: 200, Y: 160}) || p.Width != 2 || p.Dash[0] != 8 {
		t.Errorf("path %+v", p)
	}
	words := f.Items[2].(frame.Stamp)
	if words.Ink != ink || words.At.X != -margin || math.Abs(float64(words.At.Y)+baseline(16)-0.77*16) > 1e-4 {
		t.Errorf("words at %v in %v", words.At, words.Ink)
	}
	again := s.Lay(d, On(401, 300, 4, draw.Point{}))
	if got := again.Items[2].(frame.Stamp); got.ID != words.ID {
		t.Errorf("the same words are stamp %d, and then %d", words.ID, got.ID)
	}
}

// TestSolid: a sheet of cloth before the eye covers the pixels that it should, wherever
// the stage looks, and nothing is painted beside the stage.
func TestSolid(t *testing.T) {
	scene := &light.Scene{Sheets: []light.Sheet{{Cols: 2, Rows: 2, Tints: make([]light.Tint, 1), V: []geom.Vec3{{X: -10, Z: -10}, {X: -10, Z: 10}, {X: 10, Z: -10}, {X: 10, Z: 10}}}}}
	for i := range scene.Sheets[0].Tints[0] {
		scene.Sheets[0].Tints[0][i] = color.NRGBA{100, 100, 100, 255}
	}
	eye := draw.NewEye(0, 0)
	eye.X, eye.Y = 50, 40
	for _, c := range []struct {
		middle     draw.Point
		x, y, w, h int // of the picture, from the stage's middle
	}{
		{draw.Point{X: 50, Y: 40}, -200, -160, 400, 320},
		{draw.Point{X: 60, Y: 40}, -200, -160, 360, 320}, // a part of the stage lies beside the sheet
		{draw.Point{X: 300, Y: 40}, 0, 0, 0, 0},
	} {
		items, pixels := Solid(draw.Solid{Scene: scene, Eye: eye, Plain: true}, 100, 80, On(400, 320, 4, c.middle))
		if c.w == 0 {
			if len(items)+len(pixels) > 0 {
				t.Errorf("beside the stage: %+v", items)
			}
			continue
		}
		p := items[0].(frame.Picture)
		if p != (frame.Picture{At: frame.Point{X: float32(c.x), Y: float32(c.y)}, Width: c.w, Height: c.h}) || len(pixels) != 4*c.w*c.h {
			t.Errorf("middle %v: %+v, %d bytes", c.middle, p, len(pixels))
			continue
		}
		covered := 0
		for i := 3; i < len(pixels); i += 4 {
			covered += int(pixels[i]) / 255
		}
		if want := 80 * 80; covered < want*97/100 || covered > want*103/100 {
			t.Errorf("middle %v: %d pixels are covered, want %d", c.middle, covered, want)
		}
	}
}

// TestStamps: written words are as wide as the drawing says they are, within a pixel
// and a half, and have ink; no words and words too large to show are none.
func TestStamps(t *testing.T) {
	var s stamps
	for _, face := range []draw.Face{draw.Upright, draw.Italic, draw.Bold} {
		const px = 40.0
		l := draw.Label{Text: "272 mm, 15 ½ in", Face: face}
		stamp, ok := s.of(l, px)
		if !ok {
			t.Fatalf("face %v writes nothing", face)
		}
		want := draw.TextWidth(l.Text, px, face)
		if got := float64(stamp.Width - 2*margin); math.Abs(got-want) > 1.5 {
			t.Errorf("face %v: %g px wide, the drawing says %g", face, got, want)
		}
		inked := 0
		for _, c := range stamp.Cover {
			if c > 128 {
				inked++
			}
		}
		if inked < 500 {
			t.Errorf("face %v: %d pixels of ink", face, inked)
		}
	}
	for _, l := range []draw.Label{{Text: ""}, {Text: "x"}} {
		if _, ok := s.of(l, 500*float64(len(l.Text))); ok {
			t.Errorf("%q gives a stamp", l.Text)
		}
	}
	for i := range 2 * mostStamps {
		if _, ok := s.of(draw.Label{Text: string(rune('a' + i%26))}, 10+float64(i)/8); !ok || len(s.made) > mostStamps {
			t.Fatalf("%d stamps are kept, most %d", len(s.made), mostStamps)
		}
	}
}
