package light

import "ruffwright/geom"

// Picture is what a camera sees of a scene in a window of the sheet.
type Picture struct {
	W, H  int     // pixels
	Pix   []uint8 // red, green, blue and 255, or four times 0 where nothing is: a row after the other
	Lines []Line  // what lines show, the later over the earlier

	depth  *depths
	window window
	camera Camera
}

// Look is how a scene is drawn.
type Look struct {
	Camera       Camera
	X, Y         float64 // the window's corner on the sheet, mm
	W, H         int     // its pixels
	PxPerMM      float64 // pixels of a sheet's millimetre
	Samples      int     // of a pixel, across and down; 0 = 1
	Mood         Mood
	Flat_px      float64 // how far a curve may be off where it is drawn by chords; 0: as the sheets' own nodes have it
	WithoutLines bool
	Halt         Halt // nil: never
}

// Halt tells whether what is under way is not wanted any more. It is asked now and then,
// from where the work was begun.
type Halt func() bool

func (h Halt) now() bool { return h != nil && h() }

// Draw draws the scene; nil where it was halted. A scene that Check refuses must not be
// drawn.
func (s *Scene) Draw(l Look) *Picture {
	n := max(l.Samples, 1)
	w := window{l.X, l.Y, l.PxPerMM * float64(n), l.W * n, l.H * n}
	p := &Picture{W: l.W, H: l.H, Pix: make([]uint8, 4*w.w*w.h), window: w, camera: l.Camera}
	f := s.refine(&l.Camera, w, l.Flat_px*float64(n))
	if l.Halt.now() {
		return nil
	}
	s.light(f, newLamp(l.Mood, &l.Camera))
	if p.depth = f.draw(w, l.Halt); p.depth == nil || l.Halt.now() {
		return nil
	}
	s.paint(f, p.depth, w, p.Pix)
	if l.Halt.now() {
		return nil
	}
	if !l.WithoutLines {
		p.Lines = s.lines(f, p.depth, &l.Camera, w)
	}
	if n > 1 {
		p.Pix = mean(p.Pix, l.W, l.H, n)
	}
	return p
}

// crews is in how many parts at once light is baked and pixels are painted; what comes
// out is the same for any number.
const crews = 4

// mean makes one pixel of each n × n; what is not covered counts as clear.
func mean(fine []uint8, w, h, n int) []uint8 {
	out := make([]uint8, 4*w*h)
	for y := range h {
		for x := range w {
			var sum [4]int
			for j := range n {
				row := fine[4*((y*n+j)*w*n+x*n):][:4*n]
				for i, v := range row {
					sum[i&3] += int(v)
				}
			}
			for k, v := range sum {
				out[4*(y*w+x)+k] = uint8(v / (n * n))
			}
		}
	}
	return out
}

// Hides tells whether a place lies behind what the picture shows, by more than lift mm.
// Outside the window nothing hides it.
func (p *Picture) Hides(v geom.Vec3, lift_mm float64) bool {
	x, y, near := p.camera.See(v)
	px, py := p.window.at(x, y)
	q := p.depth.farthest(px, py)
	if px < 0 || py < 0 || px >= float32(p.window.w) || py >= float32(p.window.h) {
		return false
	}
	return q >= float32(p.camera.depth(near)+lift_mm)
}

// Place is the place of the scene that is seen at a pixel's middle; ok is false where
// there is none.
func (p *Picture) Place(x, y int) (v geom.Vec3, ok bool) {
	n := p.window.w / p.W
	if x < 0 || y < 0 || x >= p.W || y >= p.H {
		return v, false
	}
	i, j := x*n+n/2, y*n+n/2
	q := p.depth.q[j*p.window.w+i]
	if q == nothing {
		return v, false
	}
	c := &p.camera
	near, k := float64(q), c.Scale
	if c.Far > 0 {
		near = c.Far - c.Far*c.Far/(near+c.Far)
		k *= c.Far / (c.Far - near)
	}
	sx, sy := p.window.x+(float64(i)+0.5)/p.window.px, p.window.y+(float64(j)+0.5)/p.window.px
	return c.Mid.Add(c.Toward.Scale(near)).Add(c.Right.Scale((sx - c.X) / k)).Add(c.Up.Scale((c.Y - sy) / k)), true
}
