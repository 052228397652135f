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
	Clip  Rect    // what of the sheet it may cover; zero: all of it
	Faint float64 // the part of it that what lies below shows through; 0 = none
	Plain bool    // as it is drawn while it moves: without baked light, by the nodes' own chords
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
// picture is nil where nothing is seen.
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
		W: box.Dx(), H: box.Dy(), PxPerMM: px, Samples: samples(px), Mood: s.Mood, Flat_px: flat_px,
	}
	if s.Plain {
		look.Samples, look.Flat_px = 1, 0
	} else {
		s.Scene.Bake()
	}
	seen := s.Scene.Draw(look)
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
	return &image.RGBA{Pix: seen.Pix, Stride: 4 * seen.W, Rect: image.Rect(0, 0, seen.W, seen.H)}, box.Min, lines
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
