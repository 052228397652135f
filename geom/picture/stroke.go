package picture

import (
	"image"
	"image/color"
	"math"
)

// Stroke is a line through points of a picture, px.
type Stroke struct {
	Through [][2]float64
	Colour  color.NRGBA
}

// Draw lays strokes on a picture, so many px wide; what lies outside is left out.
func Draw(on *image.NRGBA, strokes []Stroke, width float64) {
	dot := func(x, y float64, c color.NRGBA) {
		r := width / 2
		for v := int(math.Ceil(y - r)); v <= int(math.Floor(y+r)); v++ {
			for u := int(math.Ceil(x - r)); u <= int(math.Floor(x+r)); u++ {
				if math.Hypot(float64(u)-x, float64(v)-y) <= r && image.Pt(u, v).In(on.Rect) {
					on.SetNRGBA(u, v, c)
				}
			}
		}
	}
	far := float64(on.Rect.Dx() + on.Rect.Dy()) // a stroke that leaves the picture so far is not followed
	for _, s := range strokes {
		for i := 1; i < len(s.Through); i++ {
			a, b := s.Through[i-1], s.Through[i]
			steps := min(math.Ceil(2*math.Hypot(b[0]-a[0], b[1]-a[1])), 4*far)
			for k := 0.0; k <= steps; k++ {
				t := k / max(steps, 1)
				dot(a[0]+t*(b[0]-a[0]), a[1]+t*(b[1]-a[1]), s.Colour)
			}
		}
	}
}
