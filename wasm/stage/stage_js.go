package main

import (
	"image"
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"

	"ruffwright/wasm/frame"
)

// stage draws the newest frame, once, and again where its size changes.
type stage struct {
	first  func() // called after the first frame
	frame  frame.Frame
	pixels []byte // of the frame's pictures

	dirty, shown  bool
	drawn         bool
	width, height int // device pixels
	ink           ink
	vertices      []ebiten.Vertex
	white         *ebiten.Image
	stamps        stamps
	pictures      []*ebiten.Image
}

func newStage(first func()) *stage { return &stage{first: first, stamps: stamps{}} }

// show takes a frame. What is none leaves the last one.
func (s *stage) show(body []byte) {
	f, err := frame.Read(body)
	if err != nil || len(s.pixels) < f.Pixels() {
		return
	}
	s.frame, s.dirty, s.shown = f, true, true
	//lint:ignore SA1019 see run
	ebiten.ScheduleFrame()
}

// run shows the stage until it fails; without WebGL 2 at once.
func (s *stage) run() error {
	ebiten.SetScreenClearedEveryFrame(false)
	// Frames come when asked for: an idle stage costs nothing. What is recommended
	// instead, a screen that is not cleared, still runs a frame for every one of the
	// display.
	//lint:ignore SA1019 nothing else leaves an idle stage without frames
	ebiten.SetFPSMode(ebiten.FPSModeVsyncOffMinimum)
	return ebiten.RunGameWithOptions(s, &ebiten.RunGameOptions{InitUnfocused: true})
}

// Update does nothing: what changes, changes through show.
func (s *stage) Update() error { return nil }

// Layout takes the canvas's size in device pixels.
func (s *stage) Layout(width, height int) (int, int) {
	w, h := s.LayoutF(float64(width), float64(height))
	return int(w), int(h)
}

// LayoutF takes the canvas's size in device pixels.
func (s *stage) LayoutF(width, height float64) (float64, float64) {
	ratio := ebiten.Monitor().DeviceScaleFactor()
	w, h := math.Max(1, math.Floor(width*ratio)), math.Max(1, math.Floor(height*ratio))
	if int(w) != s.width || int(h) != s.height {
		s.width, s.height, s.dirty = int(w), int(h), true
	}
	return w, h
}

// Draw draws, if there is anything new.
func (s *stage) Draw(screen *ebiten.Image) {
	if !s.dirty || !s.shown {
		return
	}
	s.dirty = false
	if s.white == nil {
		s.white = ebiten.NewImage(3, 3)
		s.white.Fill(color.White)
	}
	screen.Fill(s.frame.Ground)
	pictures, from := 0, 0
	for _, item := range s.frame.Items {
		path, ok := item.(frame.Path)
		if ok {
			s.path(path)
			continue
		}
		s.flush(screen)
		switch item := item.(type) {
		case frame.Stamp:
			s.stamp(screen, item)
		case frame.Picture:
			size := 4 * item.Width * item.Height
			s.picture(screen, item, pictures, s.pixels[from:from+size])
			pictures, from = pictures+1, from+size
		}
	}
	s.flush(screen)
	if !s.drawn {
		s.drawn = true
		s.first()
	}
}

// at is a place of a frame on the canvas.
func (s *stage) at(p frame.Point) point {
	return point{float64(p.X) + float64(s.width)/2, float64(p.Y) + float64(s.height)/2}
}

func (k *ink) reset() { k.x, k.y, k.tint, k.index = k.x[:0], k.y[:0], k.tint[:0], k.index[:0] }

// mostVertices is how many vertices one call of the canvas takes: its indices
// have 16 bits.
const mostVertices = 1 << 16

// path adds a path to the ink: those that follow each other go to the canvas in one.
func (s *stage) path(p frame.Path) {
	for _, line := range p.Lines {
		on := make([]point, len(line))
		for i, at := range line {
			on[i] = s.at(at)
		}
		if p.Fill.A > 0 && p.Closed {
			s.ink.fill(on, p.Fill)
		}
		if p.Stroke.A == 0 || p.Width <= 0 {
			continue
		}
		width, tint := thin(float64(p.Width), p.Stroke)
		if len(p.Dash) == 0 {
			s.ink.stroke(on, p.Closed, width, tint)
			continue
		}
		for _, dash := range dashes(on, p.Closed, p.Dash) {
			s.ink.stroke(dash, false, width, tint)
		}
	}
}

// dab is a vertex of plain colour.
func dab(x, y float32, c color.NRGBA) ebiten.Vertex {
	return ebiten.Vertex{
		DstX: x, DstY: y, SrcX: 1.5, SrcY: 1.5,
		ColorR: float32(c.R) / 255, ColorG: float32(c.G) / 255, ColorB: float32(c.B) / 255, ColorA: float32(c.A) / 255,
	}
}

// thin keeps a line at least a pixel wide, paler instead of thinner, so that
// it never breaks up.
func thin(width float64, c color.NRGBA) (float64, color.NRGBA) {
	if width >= 1 {
		return width, c
	}
	c.A = uint8(math.Round(float64(c.A) * math.Max(width, 0.25)))
	return 1, c
}

// flush draws the ink.
func (s *stage) flush(screen *ebiten.Image) {
	if len(s.ink.index) == 0 {
		return
	}
	pieces(s.ink.index, len(s.ink.x), mostVertices, func(pick []uint32, index []uint16) {
		s.vertices = s.vertices[:0]
		add := func(i int) { s.vertices = append(s.vertices, dab(s.ink.x[i], s.ink.y[i], s.ink.tint[i])) }
		if pick == nil {
			for i := range s.ink.x {
				add(i)
			}
		}
		for _, i := range pick {
			add(int(i))
		}
		screen.DrawTriangles(s.vertices, index, s.white, &ebiten.DrawTrianglesOptions{ColorScaleMode: ebiten.ColorScaleModeStraightAlpha})
	})
	s.ink.reset()
}

// stamps keeps words as the canvas's own pictures, white, by their numbers.
type stamps map[uint32]*ebiten.Image

// mostStamps bounds what is kept.
const mostStamps = 300

func (s *stage) stamp(screen *ebiten.Image, l frame.Stamp) {
	drawn, ok := s.stamps[l.ID]
	if !ok {
		if len(s.stamps) >= mostStamps {
			for k, old := range s.stamps {
				old.Deallocate()
				delete(s.stamps, k)
			}
		}
		white := make([]byte, 0, 4*len(l.Cover))
		for _, c := range l.Cover {
			white = append(white, c, c, c, c)
		}
		drawn = ebiten.NewImage(l.Width, l.Height)
		drawn.WritePixels(white)
		s.stamps[l.ID] = drawn
	}
	place := s.place(l.At)
	place.ColorScale.ScaleWithColor(l.Ink)
	screen.DrawImage(drawn, &place)
}

// picture draws the n-th picture of the frame.
func (s *stage) picture(screen *ebiten.Image, p frame.Picture, n int, pixels []byte) {
	for len(s.pictures) <= n {
		s.pictures = append(s.pictures, nil)
	}
	on := s.pictures[n]
	if on == nil || on.Bounds().Dx() != p.Width || on.Bounds().Dy() != p.Height {
		if on != nil {
			on.Deallocate()
		}
		on = ebiten.NewImageWithOptions(image.Rect(0, 0, p.Width, p.Height), &ebiten.NewImageOptions{Unmanaged: true})
		s.pictures[n] = on
	}
	on.WritePixels(pixels)
	place := s.place(p.At)
	screen.DrawImage(on, &place)
}

// place puts a picture's corner on the whole pixel nearest to p.
func (s *stage) place(p frame.Point) (place ebiten.DrawImageOptions) {
	at := s.at(p)
	place.GeoM.Translate(math.Round(at.X), math.Round(at.Y))
	return place
}
