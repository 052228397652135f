package stage

import (
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"

	"ruffwright/geom/draw"
	"ruffwright/wasm/page/look"
)

// Stage draws what its source gives, once for each Redraw or new size.
type Stage struct {
	source func() (draw.Drawing, look.Lens, float64, error)
	first  func() // called after the first frame

	dirty         bool
	drawn         bool
	width, height int // device pixels
	ratio         float64
	ink           ink
	vertices      []ebiten.Vertex
	white         *ebiten.Image
	labels        labels
	flawed        error
}

// New makes a stage; first is called when its first frame is drawn.
func New(source func() (draw.Drawing, look.Lens, float64, error), first func()) *Stage {
	return &Stage{source: source, first: first, dirty: true, labels: labels{}}
}

// Redraw asks for a frame.
func (s *Stage) Redraw() {
	s.dirty = true
	//lint:ignore SA1019 see Run
	ebiten.ScheduleFrame()
}

// Run shows the stage until it fails; without WebGL 2 at once.
func (s *Stage) Run() (err error) {
	ebiten.SetScreenClearedEveryFrame(false)
	// Frames come when asked for: an idle stage costs nothing. What is recommended
	// instead, a screen that is not cleared, still runs a frame for every one of the
	// display.
	//lint:ignore SA1019 nothing else leaves an idle stage without frames
	ebiten.SetFPSMode(ebiten.FPSModeVsyncOffMinimum)
	return ebiten.RunGameWithOptions(s, &ebiten.RunGameOptions{InitUnfocused: true})
}

// Update does nothing: what changes, changes through Redraw.
func (s *Stage) Update() error { return s.flawed }

// Layout takes the canvas's size in device pixels.
func (s *Stage) Layout(width, height int) (int, int) {
	w, h := s.LayoutF(float64(width), float64(height))
	return int(w), int(h)
}

// LayoutF takes the canvas's size in device pixels.
func (s *Stage) LayoutF(width, height float64) (float64, float64) {
	s.ratio = ebiten.Monitor().DeviceScaleFactor()
	w, h := math.Max(1, math.Floor(width*s.ratio)), math.Max(1, math.Floor(height*s.ratio))
	if int(w) != s.width || int(h) != s.height {
		s.width, s.height, s.dirty = int(w), int(h), true
	}
	return w, h
}

// Draw draws, if there is anything new.
func (s *Stage) Draw(screen *ebiten.Image) {
	if !s.dirty {
		return
	}
	s.dirty = false
	d, lens, pixelPerMM, err := s.source()
	if err != nil {
		return // the last picture stays; the page says what is wrong
	}
	if s.white == nil {
		s.white = ebiten.NewImage(3, 3)
		s.white.Fill(color.White)
	}
	px := pixelPerMM * s.ratio * lens.Scale
	v := view{
		scale: px,
		x:     float64(s.width)/2 - lens.X*d.Width_mm*px,
		y:     float64(s.height)/2 - lens.Y*d.Height_mm*px,
	}
	screen.Fill(d.Ground)
	for _, item := range d.Items {
		switch item := item.(type) {
		case draw.Path:
			s.path(screen, item, v)
		case draw.Surface:
			s.surface(screen, item, v)
		case draw.Label:
			s.label(screen, item, v)
		}
	}
	if !s.drawn {
		s.drawn = true
		s.first()
	}
}

// view maps a sheet's mm to pixels.
type view struct{ scale, x, y float64 }

func (v view) at(p draw.Point) draw.Point {
	return draw.Point{X: p.X*v.scale + v.x, Y: p.Y*v.scale + v.y}
}

func (k *ink) reset() { k.x, k.y, k.tint, k.index = k.x[:0], k.y[:0], k.tint[:0], k.index[:0] }

// mostVertices is how many vertices one call of the canvas takes: its indices
// have 16 bits.
const mostVertices = 1 << 16

func (s *Stage) path(screen *ebiten.Image, p draw.Path, v view) {
	s.ink.reset()
	for _, line := range p.Lines {
		on := make([]draw.Point, len(line))
		for i, at := range line {
			on[i] = v.at(at)
		}
		if p.Fill.A > 0 {
			s.ink.fill(on, p.Fill)
		}
		if p.Stroke.A == 0 || p.Width_mm <= 0 {
			continue
		}
		width, tint := thin(p.Width_mm*v.scale, p.Stroke)
		if len(p.Dash_mm) == 0 {
			s.ink.stroke(on, p.Closed, width, tint)
			continue
		}
		pattern := make([]float64, len(p.Dash_mm))
		for i, d := range p.Dash_mm {
			pattern[i] = d * v.scale
		}
		for _, dash := range dashes(on, p.Closed, pattern) {
			s.ink.stroke(dash, false, width, tint)
		}
	}
	s.flush(screen)
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

func (s *Stage) surface(screen *ebiten.Image, f draw.Surface, v view) {
	s.draw(screen, f.Triangles, len(f.Vertices), func(i int) ebiten.Vertex {
		at := &f.Vertices[i]
		return dab(at.X*float32(v.scale)+float32(v.x), at.Y*float32(v.scale)+float32(v.y), at.Color)
	})
}

// flush draws what ink holds.
func (s *Stage) flush(screen *ebiten.Image) {
	s.draw(screen, s.ink.index, len(s.ink.x), func(i int) ebiten.Vertex { return dab(s.ink.x[i], s.ink.y[i], s.ink.tint[i]) })
}

// dab is a vertex of plain colour.
func dab(x, y float32, c color.NRGBA) ebiten.Vertex {
	return ebiten.Vertex{
		DstX: x, DstY: y, SrcX: 1.5, SrcY: 1.5,
		ColorR: float32(c.R) / 255, ColorG: float32(c.G) / 255, ColorB: float32(c.B) / 255, ColorA: float32(c.A) / 255,
	}
}

// draw draws triangles over n vertices.
func (s *Stage) draw(screen *ebiten.Image, triangles []uint32, n int, vertex func(int) ebiten.Vertex) {
	if len(triangles) == 0 {
		return
	}
	pieces(triangles, n, mostVertices, func(pick []uint32, index []uint16) {
		s.vertices = s.vertices[:0]
		if pick == nil {
			for i := range n {
				s.vertices = append(s.vertices, vertex(i))
			}
		}
		for _, i := range pick {
			s.vertices = append(s.vertices, vertex(int(i)))
		}
		screen.DrawTriangles(s.vertices, index, s.white, &ebiten.DrawTrianglesOptions{
			AntiAlias: true, ColorScaleMode: ebiten.ColorScaleModeStraightAlpha,
		})
	})
}

// labels keeps the drawn text, by what it says and how.
type labels map[labelKey]*ebiten.Image

type labelKey struct {
	text  string
	px    float32
	face  draw.Face
	color color.NRGBA
}

// mostLabels bounds what is kept.
const mostLabels = 300

func (s *Stage) label(screen *ebiten.Image, l draw.Label, v view) {
	px := l.Size_mm * v.scale
	if px < 2 || px > 400 {
		return
	}
	key := labelKey{l.Text, float32(math.Round(px*8) / 8), l.Face, l.Color}
	drawn, ok := s.labels[key]
	if !ok {
		if len(s.labels) >= mostLabels {
			for k, old := range s.labels {
				old.Deallocate()
				delete(s.labels, k)
			}
		}
		picture := write(l.Text, float64(key.px), l.Face, l.Color)
		if picture == nil {
			return
		}
		drawn = ebiten.NewImageFromImage(picture)
		s.labels[key] = drawn
	}
	box := l.Box()
	at := v.at(box.Min)
	var place ebiten.DrawImageOptions
	place.GeoM.Translate(math.Round(at.X)-margin, math.Round(at.Y+0.77*px)-baseline(float64(key.px)))
	screen.DrawImage(drawn, &place)
}
