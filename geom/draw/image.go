package draw

import (
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"io"
	"math"

	"github.com/fogleman/gg"
	"github.com/golang/freetype/truetype"
)

// maxPixels is the largest picture that Image makes, a little over A2 at
// 300 dots an inch.
const maxPixels = 40e6

// Image paints the drawing at the given pixels per sheet mm (96 dpi = 3.78),
// lines and text by gg, solids by light. Below 0.1 px/mm and above
// what gives 40 megapixels the resolution is held at the limit. The same
// drawing gives the same picture.
func (d Drawing) Image(pxPerMM float64) *image.RGBA {
	s := resolution(d, pxPerMM)
	img := image.NewRGBA(image.Rect(0, 0, int(math.Ceil(d.Width_mm*s)), int(math.Ceil(d.Height_mm*s))))
	draw.Draw(img, img.Bounds(), image.NewUniform(d.Ground), image.Point{}, draw.Src)
	dc := gg.NewContextForRGBA(img)
	dc.SetLineCapRound()
	dc.SetLineJoinRound()
	for _, it := range d.Items {
		switch it := it.(type) {
		case Path:
			paintPath(dc, it, s)
		case Label:
			paintLabel(dc, it, s)
		case Solid:
			part, at, lines := it.Seen(d.Width_mm, d.Height_mm, s)
			if part != nil {
				draw.Draw(img, part.Bounds().Add(at), part, image.Point{}, draw.Over)
			}
			for _, l := range lines {
				paintPath(dc, l, s)
			}
		}
	}
	return img
}

// PNG writes Image as PNG.
func (d Drawing) PNG(w io.Writer, pxPerMM float64) error {
	if !(pxPerMM > 0) || math.IsInf(pxPerMM, 0) {
		return fmt.Errorf("draw: resolution is %g px/mm, want above 0", pxPerMM)
	}
	return png.Encode(w, d.Image(pxPerMM))
}

func resolution(d Drawing, pxPerMM float64) float64 {
	return max(0.1, min(pxPerMM, math.Sqrt(maxPixels/(d.Width_mm*d.Height_mm))))
}

func paintPath(dc *gg.Context, p Path, s float64) {
	trace := func() {
		for _, line := range p.Lines {
			for i, q := range line {
				if i == 0 {
					dc.MoveTo(q.X*s, q.Y*s)
				} else {
					dc.LineTo(q.X*s, q.Y*s)
				}
			}
			if p.Closed {
				dc.ClosePath()
			}
		}
	}
	if p.Closed {
		trace()
		dc.SetColor(p.Fill)
		dc.Fill()
	}
	if p.Width_mm > 0 {
		dash := make([]float64, len(p.Dash_mm))
		for i, x := range p.Dash_mm {
			dash[i] = x * s
		}
		dc.SetDash(dash...)
		trace()
		dc.SetColor(p.Stroke)
		dc.SetLineWidth(p.Width_mm * s)
		dc.Stroke()
	}
}

func paintLabel(dc *gg.Context, l Label, s float64) {
	// A face of its own for each size: glyph caches are not shared between
	// goroutines, and a sheet has few sizes.
	dc.SetFontFace(truetype.NewFace(fontOf(l.Face), &truetype.Options{Size: l.Size_mm * s, DPI: 72}))
	dc.SetColor(l.Color)
	b := l.Box()
	dc.DrawString(l.Text, b.Min.X*s, (b.Min.Y+l.Size_mm*baseline)*s)
}
