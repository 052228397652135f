package draw

import (
	"image"
	"image/color"
	"math"

	"ruffwright/geom/light"
)

// Solid is what an eye sees of a scene: its surfaces by their light, with the lines that
// show.
type Solid struct {
	Scene *light.Scene
	Eye   Eye
	Mood  light.Mood
	Clip  Rect       // what of the sheet it may cover; zero: all of it
	Faint float64    // the part of it that what lies below shows through; 0 = none
	Halt  light.Halt // asked now and then: nothing is wanted any more; nil: never
	Plain bool       // as it is drawn while it moves: without baked light and hatching, by chords between fewer nodes, and where pixels are fine by every second
}

func (Solid) item() {}

// flat_px is how far a curve may be off where a solid is painted.
const flat_px = 0.3

// samples is how many pixels a solid is painted with across and down for one of the
// picture: two where pixels are so coarse that they show.
func samples(px float64) int {
	if px < 5 {
		return 2
	}
	return 1
}

// Seen is what a solid shows on a sheet at px pixels a millimetre: a picture whose corner
// lies at a pixel of the sheet's, and the lines over it. What is faint is so already. The
// picture is nil where nothing is seen, or where it was halted.
func (s Solid) Seen(width_mm, height_mm, px float64) (picture *image.RGBA, at image.Point, lines []Path) {
	clip := Rect{Max: Point{width_mm, height_mm}}
	if s.Clip != (Rect{}) {
		clip = Rect{Point{max(0, s.Clip.Min.X), max(0, s.Clip.Min.Y)}, Point{min(width_mm, s.Clip.Max.X), min(height_mm, s.Clip.Max.Y)}}
	}
	if !(clip.Min.X < clip.Max.X && clip.Min.Y < clip.Max.Y && s.Faint < 1) {
		return nil, image.Point{}, nil
	}
	box := image.Rect(int(math.Floor(clip.Min.X*px)), int(math.Floor(clip.Min.Y*px)), int(math.Ceil(clip.Max.X*px)), int(math.Ceil(clip.Max.Y*px)))
	look := light.Look{
		Camera: s.Eye.Camera, X: float64(box.Min.X) / px, Y: float64(box.Min.Y) / px,
		W: box.Dx(), H: box.Dy(), PxPerMM: px, Samples: samples(px), Mood: s.Mood, Flat_px: flat_px, Halt: s.Halt,
	}
	scene, coarse := s.Scene, 1
	if s.Plain {
		scene, look.Samples, look.Flat_px = s.Scene.Thin(), 1, 0
		if samples(px) == 1 {
			coarse = 2
		}
		look.W, look.H, look.PxPerMM = (look.W+coarse-1)/coarse, (look.H+coarse-1)/coarse, px/float64(coarse)
	} else if !scene.Bake(s.Halt) {
		return nil, image.Point{}, nil
	}
	seen := scene.Draw(look)
	if seen == nil {
		return nil, image.Point{}, nil
	}
	for _, l := range seen.Lines {
		p := Path{Stroke: color.NRGBA{l.Ink.R, l.Ink.G, l.Ink.B, uint8(float64(l.Ink.A)*(1-s.Faint) + 0.5)}, Width_mm: l.Width_mm}
		line := make([]Point, len(l.V))
		for i, v := range l.V {
			line[i] = Point{float64(v[0]), float64(v[1])}
		}
		p.Lines = [][]Point{line}
		lines = append(lines, p)
	}
	if s.Faint > 0 {
		for i, v := range seen.Pix {
			seen.Pix[i] = uint8(float64(v)*(1-s.Faint) + 0.5)
		}
	}
	pix := seen.Pix
	if coarse > 1 {
		pix = enlarged(seen, box.Dx(), box.Dy(), coarse)
	}
	return &image.RGBA{Pix: pix, Stride: 4 * box.Dx(), Rect: image.Rect(0, 0, box.Dx(), box.Dy())}, box.Min, lines
}

// enlarged shows each pixel of a picture n times across and down, as far as w × h go.
func enlarged(p *light.Picture, w, h, n int) []byte {
	pix := make([]byte, 4*w*h)
	for y := range h {
		row := pix[4*y*w:][:4*w]
		if y%n > 0 {
			copy(row, pix[4*(y-1)*w:])
			continue
		}
		from := p.Pix[4*(y/n)*p.W:]
		for x := range w {
			copy(row[4*x:4*x+4], from[4*(x/n):])
		}
	}
	return pix
}

// through is the solid as a sheet that is enlarged and shifted shows it, cut off at edge.
func (m move) solid(s Solid, edge Rect) Solid {
	at := m.at(Point{s.Eye.X, s.Eye.Y})
	s.Eye.X, s.Eye.Y, s.Eye.Scale = at.X, at.Y, s.Eye.Scale*m.k
	if s.Clip != (Rect{}) {
		lo, hi := m.at(s.Clip.Min), m.at(s.Clip.Max)
		edge = Rect{Point{max(lo.X, edge.Min.X), max(lo.Y, edge.Min.Y)}, Point{min(hi.X, edge.Max.X), min(hi.Y, edge.Max.Y)}}
	}
	s.Clip = edge
	return s
}
