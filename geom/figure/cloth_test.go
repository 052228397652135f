package figure

import (
	"math"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/pleat"
)

// Two panels meet in the middle of their ends; every other place is the shape's.
func TestJoined(t *testing.T) {
	shape := pleat.Shape{NU: 2, NV: 1}
	for k := range 3 {
		var p pleat.Panel
		for i := range 3 {
			p.V = append(p.V, geom.Vec3{X: float64(3*k + i)}, geom.Vec3{X: float64(3*k + i), Y: 5})
		}
		shape.Panels = append(shape.Panels, p)
	}
	c := newCloth(shape, 1, 3)
	for col, want := range []float64{3, 4, 5.5, 7, 8} {
		if in, out := c.at(col, 0), c.at(col, 1); in.X != want || out != (geom.Vec3{X: want, Y: 5}) {
			t.Errorf("column %d lies at %v and %v, want %g", col, in, out, want)
		}
	}
	if p := c.part(1, 2); p.cols != 3 || p.at(0, 0).X != 5.5 || p.at(2, 1).X != 8 {
		t.Errorf("its second panel: %+v", p)
	}
}

// A refined cloth keeps its nodes and runs through a circle's points to the
// error of the cubic: with 24 points a turn, h⁴κ³/100 of a 10 mm circle, 0.002.
func TestRefine(t *testing.T) {
	c := cloth{cols: 25, rows: 2, per: 24}
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

// A straight cloth that is refined stays straight and even to its ends, and its dye too.
func TestRefineStraight(t *testing.T) {
	c := cloth{cols: 4, rows: 2, per: 1}
	for i := range 8 {
		c.v = append(c.v, geom.Vec3{X: 3 * float64(i/2), Z: 6 * float64(i/2)})
		c.dye = append(c.dye, float64(i/2))
	}
	f := c.refine(3)
	if f.cols != 10 || f.per != 3 {
		t.Fatalf("%d columns, %d a panel", f.cols, f.per)
	}
	for i := range f.cols {
		if d := f.at(i, 1).Sub(geom.Vec3{X: float64(i), Z: 2 * float64(i)}).Norm(); d > 1e-12 || math.Abs(f.dye[2*i]-float64(i)/3) > 1e-12 {
			t.Errorf("column %d lies at %v, dyed %g", i, f.at(i, 1), f.dye[2*i])
		}
	}
}
