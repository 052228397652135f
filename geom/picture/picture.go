// Package picture opens pictures that came from anywhere: JPEG, PNG, WebP, TIFF and BMP, by
// what they hold and not by their names, no larger than the caps, and upright as their
// orientation tag says. What cannot be opened is refused by an error that says why.
package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/jpeg"
	"image/png"
	"io"
	"slices"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
	"golang.org/x/image/webp"

	"ruffwright/geom/word"
)

// What a picture may have at most. A file of 420 KB can unpack to 144 megapixels, so the
// size is read and judged before anything is unpacked.
const (
	MostBytes  = 10 << 20
	MostPixels = 16_000_000
)

// caps are what one file may have at most.
type caps struct{ bytes, pixels int }

func usual(string, []byte) caps { return caps{MostBytes, MostPixels} }

// format is one kind of file: how it begins, and who reads it.
type format struct {
	name   string
	begins func([]byte) bool
	size   func(io.Reader) (image.Config, error)
	decode func(io.Reader) (image.Image, error)
	tags   func([]byte) []byte // where the orientation may stand, in the form of TIFF; nil for none
}

var formats = []format{
	{"JPEG", start("\xff\xd8\xff"), jpeg.DecodeConfig, jpeg.Decode, jpegTags},
	{"PNG", start("\x89PNG\r\n\x1a\n"), png.DecodeConfig, png.Decode, pngTags},
	{"WebP", isWebP, webp.DecodeConfig, webp.Decode, webpTags},
	{"TIFF", func(b []byte) bool { return start("II*\x00")(b) || start("MM\x00*")(b) }, tiff.DecodeConfig, tiff.Decode, func(b []byte) []byte { return b }},
	{"BMP", start("BM"), bmp.DecodeConfig, bmp.Decode, func([]byte) []byte { return nil }},
}

func start(magic string) func([]byte) bool {
	return func(b []byte) bool { return bytes.HasPrefix(b, []byte(magic)) }
}

func isWebP(b []byte) bool {
	return len(b) >= 16 && string(b[:4]) == "RIFF" && string(b[8:12]) == "WEBP"
}

// Open decodes a picture, 8 bits a channel and upright, and names its format. A panic of a
// decoder is an error like any other.
func Open(file []byte) (upright *image.NRGBA, name string, err error) {
	err = guarded(func() error {
		made, f, err := decoded(file, usual)
		name = f.name
		if err == nil {
			upright = turned(plain(made), orientation(f.tags(file)))
		}
		return err
	})
	return upright, name, err
}

// guarded calls do; a panic is an error that says that the file is damaged.
func guarded(do func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = refused(word.Say("the file is damaged: %s", word.Name(fmt.Sprint(r))))
		}
	}()
	return do()
}

// decoded decodes a file that has no more than most says, as it is kept in the file.
func decoded(file []byte, most func(format string, file []byte) caps) (image.Image, format, error) {
	i := slices.IndexFunc(formats, func(f format) bool { return f.begins(file) })
	var f format
	if i >= 0 {
		f = formats[i]
	}
	allowed := most(f.name, file)
	switch {
	case len(file) > allowed.bytes:
		return nil, f, refused(word.Say("it has %d bytes; allowed: at most %d: save it smaller", len(file), allowed.bytes))
	case i < 0:
		return nil, f, refused(word.Say("it is no JPEG, PNG, WebP, TIFF or BMP"))
	case f.name == "WebP" && string(file[12:16]) == "VP8X" && len(file) > 20 && file[20]&2 != 0:
		return nil, f, refused(word.Say("it is an animated WebP; allowed: a still one"))
	}
	damaged := func(why word.Text) error {
		return refused(word.Say("it begins as %s, but is damaged: %s", f.name, why))
	}
	about, err := f.size(bytes.NewReader(file))
	if err != nil {
		return nil, f, damaged(word.Of(err))
	}
	if about.Width < 1 || about.Height < 1 || about.Width > allowed.pixels/about.Height {
		return nil, f, refused(word.Say("it has %d × %d pixels; allowed: 1 to %d in all: save it smaller", about.Width, about.Height, allowed.pixels))
	}
	made, err := f.decode(bytes.NewReader(file))
	if err != nil {
		return nil, f, damaged(word.Of(err))
	}
	if made.Bounds().Dx() != about.Width || made.Bounds().Dy() != about.Height {
		return nil, f, damaged(word.Say("it has two sizes"))
	}
	return made, f, nil
}

// refused is the error of a picture.
func refused(why word.Text) error {
	return word.Fault{Text: word.Say("the picture cannot be used: %s", why)}
}

// plain is a picture in 8 bits a channel, its corner at 0, 0.
func plain(from image.Image) *image.NRGBA {
	b := from.Bounds()
	to := image.NewNRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(to, to.Bounds(), from, b.Min, draw.Src)
	return to
}

// turned puts a picture upright that was kept in one of the eight orientations of TIFF 6.0
// (tag 274): 2 to 4 mirrored and upside down, 5 to 8 with rows and columns exchanged.
func turned(from *image.NRGBA, kept int) *image.NRGBA {
	if kept == 1 {
		return from
	}
	w, h := from.Rect.Dx(), from.Rect.Dy()
	size := image.Rect(0, 0, w, h)
	if kept >= 5 {
		size = image.Rect(0, 0, h, w)
	}
	to := image.NewNRGBA(size)
	for y := range size.Dy() {
		for x := range size.Dx() {
			u, v := x, y
			if kept >= 5 {
				u, v = y, x
			}
			if kept == 2 || kept == 3 || kept == 7 || kept == 8 {
				u = w - 1 - u
			}
			if kept == 3 || kept == 4 || kept == 6 || kept == 7 {
				v = h - 1 - v
			}
			copy(to.Pix[to.PixOffset(x, y):][:4], from.Pix[from.PixOffset(u, v):][:4])
		}
	}
	return to
}
