package figure

import (
	"image"
	"math"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/draw"
)

// The depth buffer against painting in the given order: the sorted triangles,
// painted over each other without any depth, give nearly the same picture. What
// differs is where long faces cross; a sort in the wrong sense differs nearly
// everywhere.
func TestOrderPaintsAlike(t *testing.T) {
	plan, shape := designs()[1].make(t)
	d, err := Named("hand").Draw(plan, shape, Options{Width_mm: 92, Height_mm: 120, Tilt_deg: 35, Turn_deg: 15})
	if err != nil {
		t.Fatal(err)
	}
	f := d.Items[0].(draw.Surface)
	flat := draw.Surface{Vertices: append([]draw.Vertex{}, f.Vertices...), Triangles: f.Triangles}
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
	paints := func(s draw.Surface) *image.RGBA {
		return draw.Drawing{Width_mm: 92, Height_mm: 120, Items: []draw.Item{s}}.Image(3)
	}
	exact := paints(f)
	// Without depth: each triangle nearer than all before it.
	paint := func(order func(i, n int) int) *image.RGBA {
		var vs []draw.Vertex
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
		return paints(draw.Surface{Vertices: vs, Triangles: ts})
	}
	if got := differ(exact, paint(func(i, n int) int { return i })); got > 0.04 {
		t.Errorf("painted in order, %.1f %% of the pixels differ from the depth buffer's, want at most 4 %%", 100*got)
	}
	if got := differ(exact, paint(func(i, n int) int { return n - 1 - i })); got < 0.2 {
		t.Errorf("painted backwards only %.1f %% differ: the test tells nothing", 100*got)
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
