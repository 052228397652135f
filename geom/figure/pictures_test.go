package figure

import (
	"image"
	"image/color"
	"image/png"
	"os"
	"testing"
)

// TestPictures holds painted sheets to what they looked like: cloth in light and shade,
// dyed and hatched, block and band, the legend and what is selected. Each 2 mm of a
// sheet is the mean of what is painted there, and may differ by 2 of 255: floats differ
// in their last bits between targets. -update paints testdata/pictures.png anew.
func TestPictures(t *testing.T) {
	plan, shape := design{"golden", "sound", []string{"ruff.sets", "12", "ruff.depth", "30"}, 8, 4}.make(t)
	tone := tones(t, plan, shape)
	const wide, high, res, tile = 92, 120, 4, 8 // mm, px/mm, px
	sheets := []struct {
		view string
		opt  Options
	}{
		{"hand", Options{Turn_deg: 20, Tilt_deg: 30, Set: 4}},
		{"hand", Options{Turn_deg: 200, Tilt_deg: -40, Tone: tone[1], Zoom: 1.5}},
		{"hand", Options{Turn_deg: 20, Tilt_deg: 50, Row: true, Tone: tone[0]}},
		{"above", Options{Tone: tone[0]}},
		{"set", Options{Tone: tone[0], Notes: longNotes()}},
		{"side", Options{Tone: tone[1], Set: 3}},
	}
	got := image.NewRGBA(image.Rect(0, 0, len(sheets)*wide*res/tile, high*res/tile))
	for i, s := range sheets {
		s.opt.Width_mm, s.opt.Height_mm = wide, high
		d, err := Named(s.view).Draw(plan, shape, s.opt)
		if err != nil {
			t.Fatal(err)
		}
		img := d.Image(res)
		for y := range high * res / tile {
			for x := range wide * res / tile {
				var sum [3]int
				for k := range tile * tile {
					c := img.RGBAAt(x*tile+k%tile, y*tile+k/tile)
					sum[0], sum[1], sum[2] = sum[0]+int(c.R), sum[1]+int(c.G), sum[2]+int(c.B)
				}
				const n = tile * tile
				got.SetRGBA(i*wide*res/tile+x, y, color.RGBA{uint8(sum[0] / n), uint8(sum[1] / n), uint8(sum[2] / n), 255})
			}
		}
	}
	const file = "testdata/pictures.png"
	if *update {
		f, err := os.Create(file)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if err := png.Encode(f, got); err != nil {
			t.Fatal(err)
		}
		return
	}
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	want, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range got.Pix {
		x, y := i/4%got.Rect.Dx(), i/4/got.Rect.Dx()
		r, g, b, _ := want.At(x, y).RGBA()
		if w := [4]uint32{r >> 8, g >> 8, b >> 8, 255}[i%4]; uint32(v)+2 < w || uint32(v) > w+2 {
			t.Fatalf("%s: at %d, %d mm it is %v, want %d, %d, %d", sheets[x/(wide*res/tile)].view, 2*x%wide, 2*y, got.RGBAAt(x, y), r>>8, g>>8, b>>8)
		}
	}
}
