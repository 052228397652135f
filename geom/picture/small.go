package picture

import (
	"encoding/binary"
	"image"
	"image/draw"
)

// What a JPEG may have at most that is only wanted small. Decoded it takes 1.5 to 4 bytes a
// pixel and is never unpacked further; one that is kept in several passes takes 6 more.
const (
	MostPhotoBytes  = 64 << 20
	MostPhotoPixels = 100_000_000
	mostPassPixels  = 40_000_000
)

// photo are the caps of what is wanted small.
func photo(format string, file []byte) caps {
	switch {
	case format != "JPEG":
		return usual(format, file)
	case inPasses(file):
		return caps{MostPhotoBytes, mostPassPixels}
	}
	return caps{MostPhotoBytes, MostPhotoPixels}
}

// inPasses reports whether a JPEG is kept in several passes (SOF2 of ITU-T T.81).
func inPasses(file []byte) bool {
	for at := 2; at+4 <= len(file) && file[at] == 0xff && file[at+1] != 0xda; {
		if file[at+1] == 0xc2 {
			return true
		}
		at += 2 + max(int(binary.BigEndian.Uint16(file[at+2:])), 2)
	}
	return false
}

// Small decodes a picture as Open does, upright, but no longer than so many px at either
// side, and solid: what is clear in it is white. own is its size as it is kept, upright, and
// name its format. JPEGs may have up to 100 megapixels (40 of those in several passes), the
// others as in Open.
func Small(file []byte, longest int) (upright *image.NRGBA, own image.Point, name string, err error) {
	err = guarded(func() error {
		made, f, err := decoded(file, photo)
		name = f.name
		if err != nil {
			return err
		}
		own = made.Bounds().Size()
		kept := orientation(f.tags(file))
		if kept >= 5 {
			own.X, own.Y = own.Y, own.X
		}
		upright = turned(shrunk(made, longest), kept)
		return nil
	})
	return upright, own, name, err
}

// shrunk is a picture no longer than so many px, each of them the mean of those of from that
// it stands for. It is unpacked a few rows at a time.
func shrunk(from image.Image, longest int) *image.NRGBA {
	b := from.Bounds()
	w, h := b.Dx(), b.Dy()
	size := image.Pt(w, h)
	if long := max(w, h); long > longest {
		size = image.Pt(max(w*longest/long, 1), max(h*longest/long, 1))
	}
	to := image.NewNRGBA(image.Rectangle{Max: size})
	var rows *image.RGBA
	sums := make([][4]uint64, size.X)
	for y := range size.Y {
		top, bottom := y*h/size.Y, (y+1)*h/size.Y
		if rows == nil || rows.Rect.Dy() != bottom-top {
			rows = image.NewRGBA(image.Rect(0, 0, w, bottom-top))
		}
		draw.Draw(rows, rows.Rect, from, b.Min.Add(image.Pt(0, top)), draw.Src)
		clear(sums)
		for v := range bottom - top {
			row := rows.Pix[v*rows.Stride:]
			for x := range size.X {
				s := &sums[x]
				for u := x * w / size.X; u < (x+1)*w/size.X; u++ {
					p := row[4*u : 4*u+4]
					s[0] += uint64(p[0])
					s[1] += uint64(p[1])
					s[2] += uint64(p[2])
					s[3] += uint64(p[3])
				}
			}
		}
		for x, s := range sums {
			n := uint64((bottom - top) * ((x+1)*w/size.X - x*w/size.X))
			p := to.Pix[to.PixOffset(x, y):][:4]
			for c := range 3 { // the colours are already less by what is clear
				p[c] = uint8(min((s[c]+n*255-s[3]+n/2)/n, 255))
			}
			p[3] = 255
		}
	}
	return to
}
