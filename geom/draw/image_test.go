package draw

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"testing"
)

// TestImage looks at single pixels of a sheet at 2 px/mm, which is rounded up to whole
// pixels: closed shapes are filled and open ones are not, a line has its width and its
// dashes, and a solid lies in its place in its colour, in part where it covers a part.
func TestImage(t *testing.T) {
	white, red, blue, brown := rgb(0xffffff), rgb(0xff0000), rgb(0x0000ff), rgb(0x785030)
	d := Drawing{Width_mm: 60.2, Height_mm: 24.3, Ground: white, Items: []Item{
		Path{Lines: [][]Point{{{2, 2}, {12, 2}, {12, 12}, {2, 12}}}, Closed: true, Fill: red},
		Path{Lines: [][]Point{{{2, 14}, {12, 14}, {12, 24}, {2, 24}}}, Fill: red},
		Path{Lines: [][]Point{{{20, 10}, {40, 10}}}, Stroke: blue, Width_mm: 3, Dash_mm: []float64{6, 8}},
		Path{Lines: [][]Point{{{20, 20}, {40, 20}}}, Stroke: blue, Width_mm: 1},
		board(brown, Rect{Point{44.25, 6.25}, Point{54.25, 22.25}}),
	}}
	img := d.Image(2)
	if b := img.Bounds(); b != image.Rect(0, 0, 121, 49) {
		t.Errorf("the picture is %v", b)
	}
	for _, c := range []struct {
		x, y float64 // mm
		want color.NRGBA
	}{
		{2.3, 2.3, red}, {11.7, 11.7, red}, {12.8, 7, white}, {3, 1.5, white}, {1.4, 3, white}, {7, 18, white},
		{23, 10, blue}, {23, 11.2, blue}, {23, 12, white}, {30, 10, white}, {37, 10, blue}, {30, 20, blue}, {30, 21, white},
		{44.75, 7, brown}, {49.25, 14, brown}, {53.75, 21.7, brown}, {44.4, 14, color.NRGBA{188, 168, 152, 255}},
		{43.7, 14, white}, {54.8, 14, white}, {49, 5.7, white}, {49, 22.8, white},
	} {
		got := img.RGBAAt(int(c.x*2), int(c.y*2))
		for _, d := range [4]int{int(got.R) - int(c.want.R), int(got.G) - int(c.want.G), int(got.B) - int(c.want.B), 4 * (int(got.A) - 255)} {
			if d < -13 || d > 13 {
				t.Errorf("at %g, %g mm it is %v, want %v", c.x, c.y, got, c.want)
				break
			}
		}
	}
}

// A letter of the picture stands on the baseline of its box, as high as the font's
// capitals (0.72 of its size) and within the box's width.
func TestImageLabel(t *testing.T) {
	l := Label{At: Pt(30, 5), Text: "H", Size_mm: 10, Color: rgb(0)}
	img := Drawing{Width_mm: 60, Height_mm: 30, Ground: rgb(0xffffff), Items: []Item{l}}.Image(4)
	ink := nowhere
	for y := range 120 {
		for x := range 240 {
			if img.RGBAAt(x, y).R < 128 {
				ink = ink.about(Pt(float64(x)/4, float64(y)/4)).about(Pt(float64(x+1)/4, float64(y+1)/4))
			}
		}
	}
	box := l.Box()
	if !ink.Inside(box) || math.Abs(ink.Max.Y-12.7) > 0.3 || math.Abs(ink.Max.Y-ink.Min.Y-7.2) > 0.4 || ink.Max.X-ink.Min.X < 0.7*(box.Max.X-box.Min.X) {
		t.Errorf("the letter covers %v of the box %v, want it on 12.7 and 7.2 high", ink, box)
	}
}

// A picture has 40 megapixels at most and a tenth of a pixel a mm at least.
func TestResolution(t *testing.T) {
	d := Drawing{Width_mm: 1000, Height_mm: 400}
	for _, c := range [][2]float64{{0.05, 0.1}, {0.15, 0.15}, {5, 5}, {100, 10}} {
		if got := resolution(d, c[0]); math.Abs(got-c[1]) > 1e-12 {
			t.Errorf("%g px/mm become %g, want %g", c[0], got, c[1])
		}
	}
}

// A PNG has the pixels asked for; no such file is made of what is no resolution.
func TestPNG(t *testing.T) {
	d := Drawing{Width_mm: 30, Height_mm: 20}
	var b bytes.Buffer
	if err := d.PNG(&b, 2); err != nil {
		t.Fatal(err)
	}
	if img, err := png.Decode(&b); err != nil || img.Bounds() != image.Rect(0, 0, 60, 40) {
		t.Errorf("%v, %v", img.Bounds(), err)
	}
	for _, x := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if err := d.PNG(io.Discard, x); err == nil {
			t.Errorf("%g px/mm were written", x)
		}
	}
}
