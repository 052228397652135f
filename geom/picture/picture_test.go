package picture

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
)

// half is a small picture: left red, right blue, a white corner at the upper left.
func half(w, h int) *image.NRGBA {
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.NRGBA{200, 20, 20, 255}
			if x >= w/2 {
				c = color.NRGBA{20, 20, 200, 255}
			}
			if x < w/4 && y < h/4 {
				c = color.NRGBA{250, 250, 250, 255}
			}
			m.SetNRGBA(x, y, c)
		}
	}
	return m
}

// tagged is what holds an orientation, as TIFF tags.
func tagged(order binary.AppendByteOrder, mark string, kept int) []byte {
	b := order.AppendUint32([]byte(mark), 8)
	b = order.AppendUint16(b, 1)
	b = order.AppendUint16(b, 274)
	b = order.AppendUint16(b, 3)
	b = order.AppendUint32(b, 1)
	b = order.AppendUint16(b, uint16(kept))
	return append(b, 0, 0, 0, 0, 0, 0)
}

func made(t *testing.T, encode func(*bytes.Buffer) error) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := encode(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func jpegOf(t *testing.T, m image.Image) []byte {
	return made(t, func(b *bytes.Buffer) error { return jpeg.Encode(b, m, &jpeg.Options{Quality: 95}) })
}

func pngOf(t *testing.T, m image.Image) []byte {
	return made(t, func(b *bytes.Buffer) error { return png.Encode(b, m) })
}

// withTags puts tags behind the beginning of a JPEG.
func withTags(file, tags []byte) []byte {
	app := binary.BigEndian.AppendUint16([]byte{0xff, 0xe1}, uint16(2+6+len(tags)))
	app = append(append(app, "Exif\x00\x00"...), tags...)
	return append(append(append([]byte(nil), file[:2]...), app...), file[2:]...)
}

// chunk is a chunk of a PNG.
func chunk(kind string, data []byte) []byte {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	b = append(append(b, kind...), data...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

// colour says which of the three colours stands at a place.
func colour(m *image.NRGBA, x, y int) string {
	c := m.NRGBAAt(x, y)
	switch {
	case c.R > 180 && c.B > 180:
		return "white"
	case c.R > 150 && c.B < 80:
		return "red"
	case c.B > 150 && c.R < 80:
		return "blue"
	}
	return "none"
}

// tiny is a lossless WebP of one pixel, by hand: RIFF, VP8L, its signature and size, and
// five simple codes of one symbol (WebP Lossless Bitstream Specification).
var tiny = []byte("RIFF\x1a\x00\x00\x00WEBPVP8L\x0d\x00\x00\x00\x2f\x00\x00\x00\x10\x07\x10\x11\x11\x88\x88\xfe\x07\x00")

// TestFormats: each format opens by what it holds, 16 bits too.
func TestFormats(t *testing.T) {
	m := half(64, 48)
	deep := image.NewNRGBA64(m.Rect)
	for y := range 48 {
		for x := range 64 {
			deep.Set(x, y, m.At(x, y))
		}
	}
	for _, c := range []struct {
		name string
		file []byte
	}{
		{"JPEG", jpegOf(t, m)}, {"PNG", pngOf(t, m)}, {"PNG", pngOf(t, deep)},
		{"TIFF", made(t, func(b *bytes.Buffer) error { return tiff.Encode(b, m, &tiff.Options{Compression: tiff.Deflate}) })},
		{"BMP", made(t, func(b *bytes.Buffer) error { return bmp.Encode(b, m) })},
	} {
		got, name, err := Open(c.file)
		if err != nil || name != c.name || got.Rect != m.Rect || colour(got, 20, 30) != "red" || colour(got, 50, 30) != "blue" || colour(got, 5, 5) != "white" {
			t.Errorf("%s: %s, %v", c.name, name, err)
		}
	}
	if got, name, err := Open(pngOf(t, half(1, 1))); err != nil || name != "PNG" || got.Rect.Dx() != 1 {
		t.Errorf("one pixel: %v", err)
	}
	if got, name, err := Open(tiny); err != nil || name != "WebP" || got.Rect.Dx() != 1 {
		t.Errorf("WebP: %s, %v", name, err)
	}
}

// TestOrientation: the eight ways to keep a picture, by where its white corner goes (TIFF
// 6.0: what the first row and column of the file are seen as).
func TestOrientation(t *testing.T) {
	m := half(64, 32)
	for kept, corner := range map[int]string{1: "top left", 2: "top right", 3: "bottom right", 4: "bottom left",
		5: "top left", 6: "top right", 7: "bottom right", 8: "bottom left"} {
		for _, file := range [][]byte{
			withTags(jpegOf(t, m), tagged(binary.BigEndian, "MM\x00*", kept)),
			withTags(jpegOf(t, m), tagged(binary.LittleEndian, "II*\x00", kept)),
		} {
			got, _, err := Open(file)
			if err != nil {
				t.Fatal(err)
			}
			w, h := got.Rect.Dx(), got.Rect.Dy()
			if tall := h > w; tall != (kept >= 5) {
				t.Errorf("%d: %d × %d", kept, w, h)
			}
			for name, at := range map[string][2]int{"top left": {3, 3}, "top right": {w - 4, 3}, "bottom left": {3, h - 4}, "bottom right": {w - 4, h - 4}} {
				if white := colour(got, at[0], at[1]) == "white"; white != (name == corner) {
					t.Errorf("%d: white at %s: %v, want it at %s", kept, name, white, corner)
				}
			}
		}
	}
	plain := pngOf(t, m)
	file := append(append(append([]byte(nil), plain[:33]...), chunk("eXIf", tagged(binary.BigEndian, "MM\x00*", 6))...), plain[33:]...)
	if got, _, err := Open(file); err != nil || got.Rect.Dx() != 32 {
		t.Errorf("PNG: %v", err)
	}
	if kept := orientation([]byte("MM\x00*\xff\xff\xff\xff")); kept != 1 {
		t.Errorf("tags beyond the file: %d", kept)
	}
	if kept := orientation(tagged(binary.BigEndian, "MM\x00*", 9)); kept != 1 {
		t.Errorf("orientation 9: %d", kept)
	}
}

// TestRefused: bombs, files cut off anywhere, other files and animations are refused, and
// said why; nothing panics.
func TestRefused(t *testing.T) {
	bomb := pngOf(t, image.NewPaletted(image.Rect(0, 0, 5000, 4000), color.Palette{color.Black}))
	if len(bomb) > MostBytes {
		t.Fatalf("the bomb has %d bytes", len(bomb))
	}
	wide := append([]byte(nil), pngOf(t, half(4, 4))...) // says that it has 2³¹ − 1 columns
	copy(wide[16:], []byte{0x7f, 0xff, 0xff, 0xff})
	binary.BigEndian.PutUint32(wide[29:], crc32.ChecksumIEEE(wide[12:29]))
	moving := append([]byte("RIFF\x1a\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00\x02\x00\x00\x00"), make([]byte, 6)...)
	for _, c := range []struct {
		why  string
		file []byte
	}{
		{"5000 × 4000 pixels; allowed: 1 to 16000000", bomb}, {"the picture cannot be used", wide},
		{"bytes; allowed: at most", make([]byte, MostBytes+1)}, {"an animated WebP", moving},
		{"no JPEG, PNG, WebP, TIFF or BMP", []byte("<svg/>")}, {"no JPEG, PNG, WebP, TIFF or BMP", nil},
	} {
		if m, _, err := Open(c.file); m != nil || err == nil || !strings.Contains(err.Error(), c.why) {
			t.Errorf("%s: %v", c.why, err)
		}
	}
	for _, file := range [][]byte{jpegOf(t, half(64, 48)), pngOf(t, half(64, 48)), tiny,
		made(t, func(b *bytes.Buffer) error { return tiff.Encode(b, half(64, 48), nil) }),
		made(t, func(b *bytes.Buffer) error { return bmp.Encode(b, half(64, 48)) })} {
		for n := 0; n < len(file)*9/10; n += 1 + len(file)/200 {
			if m, _, err := Open(file[:n]); err == nil {
				t.Errorf("%.4q cut off at %d of %d opens: %v", file, n, len(file), m.Rect)
			}
		}
	}
}

// inks is a JPEG in four inks by hand (ITU-T T.81, and Adobe's segment APP14): 8 by 8 pixels
// of full magenta and yellow, each ink one DC coefficient of 7 bits.
func inks() []byte {
	b := []byte("\xff\xd8\xff\xee\x00\x0eAdobe\x00\x64\x00\x00\x00\x00\x00")
	b = append(b, "\xff\xdb\x00\x43\x00"...)
	b = append(b, bytes.Repeat([]byte{8}, 64)...)
	b = append(b, "\xff\xc0\x00\x14\x08\x00\x08\x00\x08\x04\x01\x11\x00\x02\x11\x00\x03\x11\x00\x04\x11\x00"...)
	b = append(b, "\xff\xc4\x00\x15\x00\x01\x01\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x07"...)
	b = append(b, "\xff\xc4\x00\x14\x10\x01\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00"...)
	b = append(b, "\xff\xda\x00\x0e\x04\x01\x00\x02\x00\x03\x00\x04\x00\x00\x3f\x00"...)
	return append(b, "\xbf\xa0\x08\x02\xfe\xff\xd9"...)
}

// TestCMYK: a JPEG in four inks opens in its colours.
func TestCMYK(t *testing.T) {
	if about, err := jpeg.DecodeConfig(bytes.NewReader(inks())); err != nil || about.ColorModel != color.CMYKModel {
		t.Fatalf("it is not in CMYK: %v", err)
	}
	if m, _, err := Open(inks()); err != nil || colour(m, 4, 4) != "red" {
		t.Errorf("%v: %v", m, err)
	}
}

// TestDraw: a stroke lies where it should, as wide as it should, and stays in the picture.
func TestDraw(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 40, 40))
	Draw(m, []Stroke{{[][2]float64{{-50, 10}, {20, 10}, {20, 90}}, color.NRGBA{200, 20, 20, 255}}}, 3)
	for y := range 40 {
		for x := range 40 {
			along := y >= 9 && y <= 11 && x <= 20 || x >= 19 && x <= 21 && y >= 10
			if red := colour(m, x, y) == "red"; red != along && max(x-20, 10-y) < 1 {
				t.Errorf("red at %d, %d: %v", x, y, red)
			}
		}
	}
}

// TestSmall: a picture comes no longer than it is wanted, solid and upright, with its own
// size; each pixel is the mean of those that it stands for; JPEGs may be larger than others.
func TestSmall(t *testing.T) {
	m := half(640, 480)
	m.SetNRGBA(400, 300, color.NRGBA{}) // clear
	for _, c := range []struct {
		file []byte
		own  image.Point
		w, h int
		x, y int
		want string
	}{
		{file: pngOf(t, m), own: image.Pt(640, 480), w: 64, h: 48, x: 5, y: 5, want: "white"},
		{file: pngOf(t, m), own: image.Pt(640, 480), w: 64, h: 48, x: 31, y: 40, want: "red"},
		{file: pngOf(t, m), own: image.Pt(640, 480), w: 64, h: 48, x: 32, y: 40, want: "blue"},
		{file: withTags(jpegOf(t, m), tagged(binary.BigEndian, "MM\x00*", 6)), own: image.Pt(480, 640), w: 48, h: 64, x: 42, y: 5, want: "white"},
	} {
		got, own, name, err := Small(c.file, 64)
		if err != nil || own != c.own || got.Rect != image.Rect(0, 0, c.w, c.h) || colour(got, c.x, c.y) != c.want {
			t.Errorf("%s: %v of %v: %v, want %s at %d, %d", name, got.Rect, own, err, c.want, c.x, c.y)
		}
	}
	if got, _, _, err := Small(pngOf(t, m), 640); err != nil || got.NRGBAAt(400, 300) != (color.NRGBA{255, 255, 255, 255}) || colour(got, 401, 300) != "blue" {
		t.Errorf("what is clear: %v, %v", got.NRGBAAt(400, 300), err)
	}
	two := image.NewGray(image.Rect(0, 0, 2, 1))
	two.SetGray(1, 0, color.Gray{100})
	if got, _, _, err := Small(pngOf(t, two), 1); err != nil || got.NRGBAAt(0, 0) != (color.NRGBA{50, 50, 50, 255}) {
		t.Errorf("the mean: %v, %v", got.NRGBAAt(0, 0), err)
	}
	if m, _, name, err := Small(inks(), 64); err != nil || name != "JPEG" || colour(m, 4, 4) != "red" {
		t.Errorf("four inks: %v", err)
	}
}

// TestSmallRefused: what is too large even for that is refused before it is unpacked, and
// nothing panics.
func TestSmallRefused(t *testing.T) {
	sized := func(file []byte, marker byte, w, h int) []byte { // says of itself that it has such a size
		file = append([]byte(nil), file...)
		at := bytes.Index(file, []byte{0xff, 0xc0})
		file[at+1] = marker
		binary.BigEndian.PutUint16(file[at+5:], uint16(h))
		binary.BigEndian.PutUint16(file[at+7:], uint16(w))
		return file
	}
	photo := jpegOf(t, half(64, 48))
	for _, c := range []struct {
		file []byte
		why  string
	}{
		{sized(photo, 0xc0, 20000, 6000), "20000 × 6000 pixels; allowed: 1 to 100000000 in all: save it smaller"},
		{sized(photo, 0xc2, 8000, 6000), "8000 × 6000 pixels; allowed: 1 to 40000000"},
		{pngOf(t, image.NewPaletted(image.Rect(0, 0, 5000, 4000), color.Palette{color.Black})), "allowed: 1 to 16000000"},
		{append(photo, make([]byte, MostPhotoBytes)...), "bytes; allowed: at most 67108864"},
		{photo[:len(photo)/2], "it begins as JPEG, but is damaged"},
		{nil, "no JPEG"},
	} {
		if m, _, _, err := Small(c.file, 64); m != nil || err == nil || !strings.Contains(err.Error(), c.why) {
			t.Errorf("%s: %v", c.why, err)
		}
	}
}

// FuzzOpen: whatever bytes come, a picture is opened within the caps or refused by a reason;
// nothing panics, and nothing large is unpacked. The caps are small, so that it is quick.
func FuzzOpen(f *testing.F) {
	m := half(16, 12)
	for _, encode := range []func(*bytes.Buffer) error{
		func(b *bytes.Buffer) error { return jpeg.Encode(b, m, nil) }, func(b *bytes.Buffer) error { return png.Encode(b, m) },
		func(b *bytes.Buffer) error { return tiff.Encode(b, m, &tiff.Options{Compression: tiff.Deflate}) }, func(b *bytes.Buffer) error { return bmp.Encode(b, m) },
	} {
		var b bytes.Buffer
		if err := encode(&b); err != nil {
			f.Fatal(err)
		}
		f.Add(b.Bytes())
		f.Add(b.Bytes()[:b.Len()/2])
	}
	f.Add(tiny)
	f.Add(inks())
	f.Add([]byte("RIFF\x1a\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00\x02\x00\x00\x00\x00\x00\x00\x00\x00\x00"))
	small := func(string, []byte) caps { return caps{1 << 16, 4096} }
	f.Fuzz(func(t *testing.T, file []byte) {
		var made image.Image
		var of format
		err := guarded(func() (err error) {
			if made, of, err = decoded(file, small); err == nil {
				made = turned(shrunk(made, 20), orientation(of.tags(file)))
			}
			return err
		})
		switch {
		case err != nil && !strings.HasPrefix(err.Error(), "the picture cannot be used: "):
			t.Errorf("refused without a reason: %v", err)
		case err == nil && (made.Bounds().Empty() || made.Bounds().Dx() > 20 || made.Bounds().Dy() > 20):
			t.Errorf("%s opens as %v", of.name, made.Bounds())
		}
	})
}
