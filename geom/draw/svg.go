package draw

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// fontFamilies is the one list of fonts of an SVG; text keeps the width that it
// was laid out with whichever of them is found.
const fontFamilies = "Iowan Old Style, Palatino Linotype, Palatino, Book Antiqua, Georgia, serif"

// solidRes is the resolution in px/mm at which solids are set into an SVG: 140 dots an
// inch. Their lines are paths, and sharp at any size.
const solidRes = 5.5

// SVG writes the drawing as one SVG file in sheet mm with a title and a
// description. Solids become groups, each a picture with its lines over it; all else
// stays lines and text. Text is escaped, characters that XML forbids are left out.
func (d Drawing) SVG() []byte {
	var b bytes.Buffer
	w, h := Number(d.Width_mm), Number(d.Height_mm)
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" role="img" aria-labelledby="t d">`+"\n", w, h, w, h)
	fmt.Fprintf(&b, "<title id=\"t\">%s</title>\n<desc id=\"d\">%s</desc>\n", Escape(d.Title), Escape(d.Desc))
	fmt.Fprintf(&b, `<rect width="%s" height="%s"%s/>`+"\n", w, h, paint("fill", d.Ground))
	fmt.Fprintf(&b, "<g stroke-linecap=\"round\" stroke-linejoin=\"round\" font-family=\"%s\">\n", fontFamilies)
	for _, it := range d.Items {
		switch it := it.(type) {
		case Path:
			svgPath(&b, it)
		case Label:
			svgLabel(&b, it)
		case Solid:
			svgSolid(&b, it, d)
		}
	}
	b.WriteString("</g>\n</svg>\n")
	return b.Bytes()
}

func svgPath(b *bytes.Buffer, p Path) {
	b.WriteString(`<path d="`)
	for _, line := range p.Lines {
		for i, q := range line {
			if i == 0 {
				b.WriteByte('M')
			} else {
				b.WriteByte('L')
			}
			b.WriteString(Number(q.X) + " " + Number(q.Y))
		}
		if p.Closed {
			b.WriteByte('Z')
		}
	}
	b.WriteByte('"')
	if p.Closed && p.Fill.A > 0 {
		b.WriteString(paint("fill", p.Fill))
	} else {
		b.WriteString(` fill="none"`)
	}
	if p.Stroke.A > 0 && p.Width_mm > 0 {
		b.WriteString(paint("stroke", p.Stroke) + ` stroke-width="` + Number(p.Width_mm) + `"`)
		if len(p.Dash_mm) > 0 {
			dash := make([]string, len(p.Dash_mm))
			for i, x := range p.Dash_mm {
				dash[i] = Number(x)
			}
			b.WriteString(` stroke-dasharray="` + strings.Join(dash, " ") + `"`)
		}
	}
	b.WriteString("/>\n")
}

func svgLabel(b *bytes.Buffer, l Label) {
	box := l.Box()
	fmt.Fprintf(b, `<text x="%s" y="%s" font-size="%s" textLength="%s"%s`, Number(box.Min.X), Number(box.Min.Y+l.Size_mm*baseline),
		Number(l.Size_mm), Number(box.Max.X-box.Min.X), paint("fill", l.Color))
	switch l.Face {
	case Italic:
		b.WriteString(` font-style="italic"`)
	case Bold:
		b.WriteString(` font-weight="bold"`)
	}
	b.WriteString(">" + Escape(l.Text) + "</text>\n")
}

func svgSolid(b *bytes.Buffer, f Solid, d Drawing) {
	s := resolution(d, solidRes)
	img, at, lines := f.Seen(d.Width_mm, d.Height_mm, s)
	if img == nil {
		return
	}
	b.WriteString("<g class=\"solid\">\n")
	svgPicture(b, img, at, s)
	for _, l := range lines {
		svgPath(b, l)
	}
	b.WriteString("</g>\n")
}

// svgPicture sets a picture of s px/mm with its corner at a pixel of the sheet's.
func svgPicture(b *bytes.Buffer, img *image.RGBA, at image.Point, s float64) {
	var p bytes.Buffer
	_ = (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&p, img) // a bytes.Buffer takes every write, and the size is held by resolution
	fmt.Fprintf(b, `<image x="%s" y="%s" width="%s" height="%s" href="data:image/png;base64,%s"/>`+"\n",
		Number(float64(at.X)/s), Number(float64(at.Y)/s), Number(float64(img.Rect.Dx())/s), Number(float64(img.Rect.Dy())/s),
		base64.StdEncoding.EncodeToString(p.Bytes()))
}

// Number writes a number of mm to a thousandth, without trailing zeros.
func Number(x float64) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "0"
	}
	s := strconv.FormatFloat(x, 'f', 3, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func paint(what string, c color.NRGBA) string {
	s := fmt.Sprintf(` %s="#%02x%02x%02x"`, what, c.R, c.G, c.B)
	if c.A < 255 {
		s += fmt.Sprintf(` %s-opacity="%s"`, what, Number(float64(c.A)/255))
	}
	return s
}

// Escape makes text safe inside an element or an attribute.
func Escape(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&quot;")
		case r == '\'':
			b.WriteString("&#39;")
		case r == '\t' || r == '\n' || r == '\r':
			b.WriteByte(' ')
		case r < ' ' || r == utf8.RuneError || r == 0xFFFE || r == 0xFFFF || r == 0x7F:
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
