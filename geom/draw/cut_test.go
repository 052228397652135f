package draw

import (
	"image/color"
	"math"
	"testing"
)

// TestCut: what is cut off at a box has the area and length that it must: a
// triangle over the corner of a square, by hand; a polyline in and out.
func TestCut(t *testing.T) {
	box := Rect{Point{0, 0}, Point{10, 10}}
	s := Surface{Vertices: []Vertex{{X: -10, Y: 0}, {X: 10, Y: 0, Color: color.NRGBA{200, 0, 0, 255}}, {X: 10, Y: 20}, {X: 50, Y: 50}, {X: 60, Y: 50}, {X: 60, Y: 60}}, Triangles: []uint32{0, 1, 2, 3, 4, 5}}
	out := move{k: 1}.surface(s, box)
	area := 0.0
	for i := 0; i < len(out.Triangles); i += 3 {
		a, b, c := out.Vertices[out.Triangles[i]], out.Vertices[out.Triangles[i+1]], out.Vertices[out.Triangles[i+2]]
		area += math.Abs(float64((b.X-a.X)*(c.Y-a.Y)-(c.X-a.X)*(b.Y-a.Y))) / 2
	}
	if math.Abs(area-100) > 1e-4 { // the hypotenuse y = x + 10 passes the square's upper left corner
		t.Errorf("area %g, want 100", area)
	}
	lines := cutLine([]Point{{-5, 5}, {5, 5}, {5, 15}, {8, 15}, {8, 5}}, box)
	length := 0.0
	for _, l := range lines {
		for i := 1; i < len(l); i++ {
			length += math.Hypot(l[i].X-l[i-1].X, l[i].Y-l[i-1].Y)
		}
	}
	if len(lines) != 2 || math.Abs(length-15) > 1e-9 {
		t.Errorf("%v: %d lines of %g, want 2 of 15", lines, len(lines), length)
	}
	if got := cutLine([]Point{{-5, -5}, {-1, 20}}, box); got != nil {
		t.Errorf("outside: %v", got)
	}
}
