package screen

import (
	"image"
	"math"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"

	"ruffwright/geom/draw"
	"ruffwright/wasm/frame"
)

// margin is what a stamp has around its words, px.
const margin = 2

// baseline is how far below a stamp's top its words' baseline lies, px.
func baseline(px float64) float64 { return math.Ceil(px) + margin }

// Words smaller and larger than this are left out, px.
const leastWords, mostWords = 2, 400

// stamps keeps the words that were drawn, by what they say and how.
type stamps struct {
	made  map[wording]frame.Stamp
	last  uint32 // number given
	fonts map[draw.Face]*truetype.Font
}

type wording struct {
	text string
	px   float32
	face draw.Face
}

// mostStamps bounds what is kept.
const mostStamps = 300

// of is the stamp of a label px high; false where there is nothing to see. Its place
// and ink are the label's own.
func (s *stamps) of(l draw.Label, px float64) (frame.Stamp, bool) {
	if !(px >= leastWords && px <= mostWords) {
		return frame.Stamp{}, false
	}
	key := wording{l.Text, float32(math.Round(px*8) / 8), l.Face}
	made, ok := s.made[key]
	if !ok {
		if s.made == nil || len(s.made) >= mostStamps {
			s.made = map[wording]frame.Stamp{}
		}
		made = s.write(key)
		s.made[key] = made
	}
	return made, made.ID > 0
}

// write draws a line of words: baseline at baseline(px), margin on all sides.
func (s *stamps) write(w wording) frame.Stamp {
	px := float64(w.px)
	face := truetype.NewFace(s.font(w.face), &truetype.Options{Size: px, DPI: 72})
	wide := font.MeasureString(face, w.text).Ceil() + 2*margin
	if wide <= 2*margin || wide > 8192 {
		return frame.Stamp{}
	}
	cover := image.NewAlpha(image.Rect(0, 0, wide, int(baseline(px)+math.Ceil(px*0.4))+margin))
	pen := font.Drawer{Dst: cover, Src: image.Opaque, Face: face, Dot: fixed.P(margin, int(baseline(px)))}
	pen.DrawString(w.text)
	s.last++
	return frame.Stamp{ID: s.last, Width: wide, Height: cover.Rect.Dy(), Cover: cover.Pix}
}

// font is a face's font, read once.
func (s *stamps) font(face draw.Face) *truetype.Font {
	if s.fonts == nil {
		s.fonts = map[draw.Face]*truetype.Font{}
	}
	f, ok := s.fonts[face]
	if !ok {
		f, _ = truetype.Parse(draw.TTF(face)) // bytes that are compiled in: draw's TestFonts
		s.fonts[face] = f
	}
	return f
}
