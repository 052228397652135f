package sim

import (
	"context"
	"math"
	"testing"

	"ruffwright/geom/pleat"
	"ruffwright/sim/shell"
	"ruffwright/sim/window"
	"ruffwright/testdata/demos"
)

// TestLayers: the layers of a tuck, which pass through each other in the solved shape, lie
// beside each other in the drawn one, at rest and as the wearer bows: no edge of the grid
// pierces a cell of its panel. Folds, stitches and outer edge stay, as do all heights and
// distances from the neck's axis; nothing goes round the neck by more than 3 mm.
func TestLayers(t *testing.T) {
	for name, opt := range map[string]Options{"sound": {SkipTangents: true}, "wide": {SkipBow: true, SkipTangents: true}} {
		r, err := Solve(context.Background(), demos.Scheme(t, name), opt)
		if err != nil {
			t.Fatal(err)
		}
		c := r.Solved.Halves[0]
		if n := pierced(c.U, c.V, c.Shape); n < 10 {
			t.Errorf("%s: as solved only %d edges pierce the cloth: this shape shows nothing", name, n)
		}
		staysBeside(t, name, c, lay(c, c.Shape))
		shapes := []*pleat.Shape{&r.Solved.Shape}
		if r.Solved.Bowed != nil {
			shapes = append(shapes, r.Solved.Bowed)
		}
		if name == "sound" && len(shapes) < 2 {
			t.Error("sound does not bow")
		}
		for pose, shape := range shapes {
			for _, k := range []int{0, 1, len(shape.Panels) / 4, len(shape.Panels) / 2} {
				var x []float64
				for _, v := range shape.Panels[k].V {
					x = append(x, v.X, v.Y, v.Z)
				}
				if n := pierced(c.U, c.V, x); n > 0 {
					t.Errorf("%s, pose %d: in panel %d %d edges pierce the cloth", name, pose, k, n)
				}
			}
		}
	}
}

// pierced counts the edges of a panel that go through its cells by more than 0.02 mm.
func pierced(u, v, x []float64) int {
	sheet := shell.Sheet{U: u, V: v}
	return len(sheet.Crossings(x, 0.02))
}

func staysBeside(t *testing.T, name string, c *window.Window, laid []float64) {
	tuck := c.Design.Run().Folds
	last := c.U[len(c.U)-1]
	for i, u := range c.U {
		for j := range c.V {
			p, q := c.Node(c.Shape, i, j), c.Node(laid, i, j)
			moved := math.Hypot(p[0]-q[0], p[1]-q[1])
			r0 := 1 / c.Design.Kappa_1pmm
			if p[2] != q[2] || math.Abs(math.Hypot(p[0]+r0, p[1])-math.Hypot(q[0]+r0, q[1])) > 1e-9 || moved > 3 {
				t.Fatalf("%s: node %d, %d went from %.3f to %.3f", name, i, j, p, q)
			}
			stitch := j == 0 && (math.Abs(u-tuck[0].Tuck_mm) < 1e-6 || math.Abs(last-u-tuck[1].Tuck_mm) < 1e-6)
			if stays := stitch || i == 0 || i == len(c.U)-1 || j == len(c.V)-1; stays && moved > 0 {
				t.Fatalf("%s: node %d, %d, which is held, went %.3g mm", name, i, j, moved)
			}
		}
	}
}

// TestLayersUntucked: where no tuck is sewn there is nothing to lay.
func TestLayersUntucked(t *testing.T) {
	c := &window.Window{Design: window.DefaultDesign(), U: []float64{0, 30, 60}, V: []float64{0, 75}}
	c.Design.TuckTop_mm, c.Design.TuckBottom_mm = 0, 0
	shape := []float64{0, 0, 35, 75, 0, 40, 0, 3, 18, 75, 9, 18, 0, 5, 0, 75, 5, -5}
	laid := lay(c, shape)
	for k := range shape {
		if laid[k] != shape[k] {
			t.Fatalf("number %d of an untucked shape went from %g to %g", k, shape[k], laid[k])
		}
	}
}
