// Package screen lays drawings out for the stage: a drawing in mm becomes a frame in
// device pixels.
package screen

import (
	"math"

	"ruffwright/geom/draw"
	"ruffwright/wasm/frame"
)

// Screen lays out one drawing after the other; it keeps the words that it has drawn.
// The zero Screen is ready.
type Screen struct{ stamps stamps }

// Place is where a drawing lies on the stage.
type Place struct {
	PxPerMM       float64    // device pixels
	Middle        draw.Point // of the sheet, in mm: what lies in the stage's middle
	Width, Height int        // of the stage, device pixels
}

// On is the place on a stage of a sheet with middle in its middle, or the nearest at
// which pixels of the sheet are pixels of the stage.
func On(width, height int, pxPerMM float64, middle draw.Point) Place {
	snap := func(mm float64, side int) float64 {
		half := float64(side) / 2
		return (half - math.Round(half-mm*pxPerMM)) / pxPerMM
	}
	return Place{pxPerMM, draw.Point{X: snap(middle.X, width), Y: snap(middle.Y, height)}, width, height}
}

// Stage is where a place of the sheet lies on the stage, device pixels from its corner;
// Sheet is the other way.
func (p Place) Stage(q draw.Point) (x, y float64) {
	return (q.X-p.Middle.X)*p.PxPerMM + float64(p.Width)/2, (q.Y-p.Middle.Y)*p.PxPerMM + float64(p.Height)/2
}

// Sheet is the place of the sheet that lies at a place of the stage.
func (p Place) Sheet(x, y float64) draw.Point {
	return draw.Point{X: p.Middle.X + (x-float64(p.Width)/2)/p.PxPerMM, Y: p.Middle.Y + (y-float64(p.Height)/2)/p.PxPerMM}
}

// window is what of the sheet is on the stage.
func (p Place) window() draw.Rect {
	x, y := float64(p.Width)/2/p.PxPerMM, float64(p.Height)/2/p.PxPerMM
	return draw.Rect{Min: draw.Point{X: p.Middle.X - x, Y: p.Middle.Y - y}, Max: draw.Point{X: p.Middle.X + x, Y: p.Middle.Y + y}}
}

func (p Place) at(q draw.Point) frame.Point {
	return frame.Point{X: float32((q.X - p.Middle.X) * p.PxPerMM), Y: float32((q.Y - p.Middle.Y) * p.PxPerMM)}
}

// Lay lays a drawing out, but for what is solid in it: nil stands in the place of each
// solid.
func (s *Screen) Lay(d draw.Drawing, place Place) frame.Frame {
	f := frame.Frame{Ground: d.Ground}
	for _, it := range d.Items {
		switch it := it.(type) {
		case draw.Path:
			f.Items = append(f.Items, path(it, place))
		case draw.Label:
			stamp, ok := s.stamps.of(it, it.Size_mm*place.PxPerMM)
			if !ok {
				continue
			}
			stamp.Ink = it.Color
			stamp.At = place.at(it.Box().Min)
			px := it.Size_mm * place.PxPerMM
			stamp.At.X -= margin
			stamp.At.Y += float32(0.77*px - baseline(px))
			f.Items = append(f.Items, stamp)
		case draw.Solid:
			f.Items = append(f.Items, nil)
		}
	}
	return f
}

// Solid paints what is solid, as far as it is on the stage: its picture and the lines on
// it, none where nothing is seen, and the picture's pixels.
func Solid(s draw.Solid, width_mm, height_mm float64, place Place) (items []frame.Item, pixels []byte) {
	s.Clip = within(within(s.Clip, draw.Rect{Max: draw.Point{X: width_mm, Y: height_mm}}), place.window())
	if !(s.Clip.Min.X < s.Clip.Max.X && s.Clip.Min.Y < s.Clip.Max.Y) {
		return nil, nil
	}
	img, at, lines := s.Seen(width_mm, height_mm, place.PxPerMM)
	if img == nil {
		return nil, nil
	}
	corner := place.at(draw.Point{})
	corner.X, corner.Y = corner.X+float32(at.X), corner.Y+float32(at.Y)
	items = append(items, frame.Picture{At: corner, Width: img.Rect.Dx(), Height: img.Rect.Dy()})
	for _, line := range lines {
		items = append(items, path(line, place))
	}
	return items, img.Pix
}

// within is what of clip (none: all) is in the window.
func within(clip, window draw.Rect) draw.Rect {
	if clip == (draw.Rect{}) {
		return window
	}
	return draw.Rect{
		Min: draw.Point{X: max(clip.Min.X, window.Min.X), Y: max(clip.Min.Y, window.Min.Y)},
		Max: draw.Point{X: min(clip.Max.X, window.Max.X), Y: min(clip.Max.Y, window.Max.Y)},
	}
}

func path(p draw.Path, place Place) frame.Path {
	out := frame.Path{
		Lines: make([][]frame.Point, len(p.Lines)), Closed: p.Closed, Fill: p.Fill, Stroke: p.Stroke,
		Width: float32(p.Width_mm * place.PxPerMM),
	}
	for i, line := range p.Lines {
		out.Lines[i] = make([]frame.Point, len(line))
		for j, q := range line {
			out.Lines[i][j] = place.at(q)
		}
	}
	for _, d := range p.Dash_mm {
		out.Dash = append(out.Dash, float32(d*place.PxPerMM))
	}
	return out
}
