package draw

import (
	"fmt"
	"image"
	"image/color"
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
// lines and text by gg, surfaces with a depth buffer. Below 0.1 px/mm and above
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
		case Surface:
			part, at := it.raster(s, d.Width_mm, d.Height_mm)
			if part != nil {
				draw.Draw(img, part.Bounds().Add(at), part, image.Point{}, draw.Over)
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

const oversample = 2 // samples across and down a pixel of a surface

// raster paints the surface with a depth buffer at s px/mm, oversample² samples
// a pixel, and gives the part of the sheet that it covers and where it lies;
// nil where nothing does.
func (f Surface) raster(s, width_mm, height_mm float64) (*image.RGBA, image.Point) {
	box := nowhere
	for _, v := range f.Vertices {
		box = box.about(Point{float64(v.X), float64(v.Y)})
	}
	lo, hi := Point{max(box.Min.X, 0), max(box.Min.Y, 0)}, Point{min(box.Max.X, width_mm), min(box.Max.Y, height_mm)}
	if !(lo.X < hi.X && lo.Y < hi.Y) {
		return nil, image.Point{}
	}
	at := image.Pt(int(lo.X*s), int(lo.Y*s))
	w, h := int(math.Ceil(hi.X*s))-at.X, int(math.Ceil(hi.Y*s))-at.Y
	const n = oversample
	z := zbuffer{w: w * n, h: h * n, near: make([]float32, w*n*h*n), pix: make([]color.NRGBA, w*n*h*n)}
	for i := range z.near {
		z.near[i] = -math.MaxFloat32
	}
	k, ox, oy := float32(s*n), float32(at.X*n), float32(at.Y*n)
	// Nearest first, so that what is hidden is weighed and never coloured.
	for t := len(f.Triangles)/3*3 - 3; t >= 0; t -= 3 {
		var c [3]Vertex
		for i := range c {
			v := f.Vertices[f.Triangles[t+i]]
			v.X, v.Y = v.X*k-ox, v.Y*k-oy
			c[i] = v
		}
		z.triangle(c[0], c[1], c[2])
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := 0; y < h; y++ {
		for x := 0; x < w; x++ {
			var r, g, b, a int
			for j := 0; j < n; j++ {
				row := (y*n+j)*z.w + x*n
				for i := 0; i < n; i++ {
					c := z.pix[row+i]
					if c.A > 0 {
						r, g, b, a = r+int(c.R), g+int(c.G), b+int(c.B), a+255
					}
				}
			}
			o := out.Pix[out.PixOffset(x, y):]
			o[0], o[1], o[2], o[3] = uint8(r/(n*n)), uint8(g/(n*n)), uint8(b/(n*n)), uint8(a/(n*n))
		}
	}
	return out, at
}

type zbuffer struct {
	w, h int
	near []float32
	pix  []color.NRGBA // A > 0 where painted
}

// triangle paints one triangle in buffer pixels, sampled at pixel centres,
// depth and colour linear; either sense of turning.
//
// Each row is walked only from edge to edge. Cloth seen on its edge is made of
// triangles whose boxes are nearly empty (of a ruff of 200 sets from above they
// cover a fortieth), so walking boxes took most of a picture's time.
func (b *zbuffer) triangle(p, q, r Vertex) {
	area := (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X)
	if area == 0 || area != area {
		return
	}
	inv := 1 / area
	// lo, mid, hi: by height. Every row crosses the long edge lo–hi and one of
	// the others.
	lo, mid, hi := p, q, r
	if mid.Y < lo.Y {
		lo, mid = mid, lo
	}
	if hi.Y < mid.Y {
		mid, hi = hi, mid
		if mid.Y < lo.Y {
			lo, mid = mid, lo
		}
	}
	y0, y1 := max(0, int(lo.Y+0.5)), min(b.h-1, int(hi.Y-0.5))
	long, below, over := slope(lo, hi), slope(lo, mid), slope(mid, hi)
	for y := y0; y <= y1; y++ {
		fy := float32(y) + 0.5
		xa, xb := lo.X+(fy-lo.Y)*long, lo.X+(fy-lo.Y)*below
		if fy > mid.Y {
			xb = mid.X + (fy-mid.Y)*over
		}
		if xa > xb {
			xa, xb = xb, xa
		}
		// Less than half a pixel: what rounding takes in is weighed, not painted.
		x0, x1 := max(0, int(xa+0.48)), min(b.w-1, int(xb-0.48))
		for x := x0; x <= x1; x++ {
			fx := float32(x) + 0.5
			wq := ((fx-p.X)*(r.Y-p.Y) - (fy-p.Y)*(r.X-p.X)) * inv
			wr := ((q.X-p.X)*(fy-p.Y) - (q.Y-p.Y)*(fx-p.X)) * inv
			wp := 1 - wq - wr
			if wp < 0 || wq < 0 || wr < 0 {
				continue
			}
			depth := wp*p.Z + wq*q.Z + wr*r.Z
			i := y*b.w + x
			if depth <= b.near[i] {
				continue
			}
			b.near[i] = depth
			f := func(a, c, d uint8) uint8 { return uint8(wp*float32(a) + wq*float32(c) + wr*float32(d) + 0.5) }
			b.pix[i] = color.NRGBA{f(p.Color.R, q.Color.R, r.Color.R), f(p.Color.G, q.Color.G, r.Color.G), f(p.Color.B, q.Color.B, r.Color.B), 255}
		}
	}
}

// slope is how far the edge runs across for a row down; 0 for a level edge, on
// which no row's centres lie but by its ends.
func slope(u, v Vertex) float32 {
	if v.Y == u.Y {
		return 0
	}
	return (v.X - u.X) / (v.Y - u.Y)
}
