package stage

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"ruffwright/geom/draw"
)

// margin is what a written label has around it, px.
const margin = 2

// baseline is how far below a label picture's top its baseline lies, px.
func baseline(px float64) float64 { return math.Ceil(px) + margin }

// fonts keeps the faces that were read.
var fonts = map[draw.Face]*opentype.Font{}

func fontOf(face draw.Face) (*opentype.Font, error) {
	if f, ok := fonts[face]; ok {
		return f, nil
	}
	f, err := opentype.Parse(draw.TTF(face))
	if err != nil {
		return nil, err
	}
	fonts[face] = f
	return f, nil
}

// write draws a line of text px pixels high in its own picture, baseline at
// baseline(px), margin on all sides; nil where there is nothing to see.
func write(text string, px float64, face draw.Face, c color.NRGBA) *image.RGBA {
	f, err := fontOf(face)
	if err != nil {
		return nil
	}
	of, err := opentype.NewFace(f, &opentype.FaceOptions{Size: px, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		return nil
	}
	defer of.Close()
	wide := font.MeasureString(of, text).Ceil() + 2*margin
	if wide <= 2*margin || wide > 8192 {
		return nil
	}
	picture := image.NewRGBA(image.Rect(0, 0, wide, int(baseline(px)+math.Ceil(px*0.4))+margin))
	pen := font.Drawer{Dst: picture, Src: image.NewUniform(c), Face: of, Dot: fixed.P(margin, int(baseline(px)))}
	pen.DrawString(text)
	return picture
}
