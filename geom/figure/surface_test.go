package figure

import (
	"image"
	"math"
	"testing"

	"ruffwright/geom"
)

// The depth buffer against painting in the given order: the sorted triangles,
// painted over each other without any depth, give nearly the same picture. What
// differs is where long faces cross; a sort in the wrong sense differs nearly
// everywhere.
func TestOrderPaintsAlike(t *testing.T) {
	plan, shape := designs()[1].make(t)
	d, err := InHand(plan, shape, Options{Width_mm: 92, Height_mm: 120, Tilt_deg: 35, Turn_deg: 15})
	if err != nil {
		t.Fatal(err)
	}
	f := d.Items[0].(Surface)
	flat := Surface{Vertices: append([]Vertex{}, f.Vertices...), Triangles: f.Triangles}
	differ := func(a, b *image.RGBA) float64 {
		n, off := 0, 0
		for i := 0; i < len(a.Pix); i += 4 {
			if a.Pix[i+3] == 0 {
				continue
			}
			n++
			if math.Abs(float64(a.Pix[i])-float64(b.Pix[i])) > 24 {
				off++
			}
		}
		return float64(off) / float64(n)
	}
	exact, _ := f.raster(3, 92, 120)
	// Without depth: each triangle nearer than all before it.
	paint := func(order func(i, n int) int) *image.RGBA {
		var vs []Vertex
		var ts []uint32
		n := len(f.Triangles) / 3
		for i := range n {
			k := order(i, n) * 3
			for _, j := range f.Triangles[k : k+3] {
				v := flat.Vertices[j]
				v.Z = float32(i)
				ts = append(ts, uint32(len(vs)))
				vs = append(vs, v)
			}
		}
		img, _ := Surface{Vertices: vs, Triangles: ts}.raster(3, 92, 120)
		return img
	}
	if got := differ(exact, paint(func(i, n int) int { return i })); got > 0.04 {
		t.Errorf("painted in order, %.1f %% of the pixels differ from the depth buffer's, want at most 4 %%", 100*got)
	}
	if got := differ(exact, paint(func(i, n int) int { return n - 1 - i })); got < 0.2 {
		t.Errorf("painted backwards only %.1f %% differ: the test tells nothing", 100*got)
	}
}

// Two crossing triangles: nearer wins on either side of where they cross, and
// the edge's pixels are covered in part.
func TestRasterDepth(t *testing.T) {
	red, blue := rgb(0xff0000), rgb(0x0000ff)
	f := Surface{
		Vertices: []Vertex{
			{0, 0, 0, red}, {20, 0, 10, red}, {20, 10, 10, red}, {0, 10, 0, red},
			{0, 0, 10, blue}, {20, 0, 0, blue}, {20, 10, 0, blue}, {0, 10, 10, blue},
		},
		Triangles: []uint32{0, 1, 2, 0, 2, 3, 4, 5, 6, 4, 6, 7},
	}
	img, at := f.raster(1, 40, 40)
	if at != (image.Point{}) {
		t.Fatalf("lies at %v", at)
	}
	if c := img.RGBAAt(2, 5); c.B != 255 || c.R != 0 {
		t.Errorf("on the left the blue one is nearer, got %v", c)
	}
	if c := img.RGBAAt(17, 5); c.R != 255 || c.B != 0 {
		t.Errorf("on the right the red one is nearer, got %v", c)
	}
	if img, _ := (Surface{}).raster(1, 40, 40); img != nil {
		t.Error("nothing was painted, and a picture came")
	}
	half, _ := Surface{Vertices: []Vertex{{0, 0, 0, red}, {10.5, 0, 0, red}, {10.5, 10, 0, red}, {0, 10, 0, red}}, Triangles: []uint32{0, 1, 2, 0, 2, 3}}.raster(1, 40, 40)
	if a := half.RGBAAt(10, 5).A; a < 100 || a > 155 {
		t.Errorf("half a pixel is covered with alpha %d, want about 127", a)
	}
}

// The eye's axes are right-handed unit vectors, and turn and tilt look from
// where their names say.
func TestEye(t *testing.T) {
	for _, c := range []struct {
		turn, tilt float64
		toward     geom.Vec3
	}{
		{0, 0, geom.Vec3{Y: -1}}, // the wearer's front is at −y
		{90, 0, geom.Vec3{X: 1}}, // +x is the wearer's left
		{180, 0, geom.Vec3{Y: 1}},
		{0, 90, geom.Vec3{Z: 1}},
		{77, -90, geom.Vec3{Z: -1}},
	} {
		e := newEye(c.turn, c.tilt)
		if d := e.toward.Sub(c.toward).Norm(); d > 1e-12 {
			t.Errorf("turn %g tilt %g looks from %v, want %v", c.turn, c.tilt, e.toward, c.toward)
		}
		if d := e.right.Cross(e.up).Sub(e.toward).Norm(); d > 1e-12 {
			t.Errorf("turn %g tilt %g: right × up is off toward by %g", c.turn, c.tilt, d)
		}
	}
}

// A refined cloth keeps its nodes and runs through a circle's points to the
// error of the cubic: with 24 points a turn, h⁴κ³/100 of a 10 mm circle, 0.002.
func TestRefine(t *testing.T) {
	c := cloth{cols: 25, rows: 2, per: 24, lo: make([]float64, 2), hi: make([]float64, 2)}
	for i := range c.cols {
		s, k := math.Sincos(2 * math.Pi * float64(i) / 24)
		c.v = append(c.v, geom.Vec3{X: 10 * k, Z: 10 * s}, geom.Vec3{X: 10 * k, Y: 5, Z: 10 * s})
	}
	f := c.refine(4)
	for i := range f.cols {
		if i%4 == 0 && f.at(i, 0).Sub(c.at(i/4, 0)).Norm() > 1e-12 {
			t.Errorf("node %d moved", i/4)
		}
		if i < 4 || i > f.cols-5 {
			continue // the ends have no neighbour beyond
		}
		if r := math.Hypot(f.at(i, 0).X, f.at(i, 0).Z); math.Abs(r-10) > 0.002 {
			t.Errorf("point %d lies %.5f mm from the middle, want 10", i, r)
		}
	}
}
