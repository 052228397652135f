package draw

import (
	"image/color"
	"math"
	"slices"
	"testing"
)

// TestCut: what is cut off at a box has the area and length that it must: a
// triangle over the corner of a square, by hand; a polyline in and out.
func TestCut(t *testing.T) {
	box := Rect{Point{0, 0}, Point{10, 10}}
	s := Surface{Vertices: []Vertex{{X: -10, Y: 0}, {X: 10, Y: 0, Color: color.NRGBA{200, 0, 0, 255}}, {X: 10, Y: 20}, {X: 50, Y: 50}, {X: 60, Y: 50}, {X: 60, Y: 60}}, Triangles: []uint32{0, 1, 2, 3, 4, 5}}
	out := move{k: 1}.surface(s, box)
	if got := area(out); math.Abs(got-100) > 1e-4 { // the hypotenuse y = x + 10 passes the square's upper left corner
		t.Errorf("area %g, want 100", got)
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

// area is that of a surface's triangles, mm².
func area(s Surface) (sum float64) {
	for t := range slices.Chunk(s.Triangles, 3) {
		a, b, c := s.Vertices[t[0]], s.Vertices[t[1]], s.Vertices[t[2]]
		sum += math.Abs(float64((b.X-a.X)*(c.Y-a.Y)-(c.X-a.X)*(b.Y-a.Y))) / 2
	}
	return sum
}

// Under a lens a path's line and dashes grow with it, and the drawing that it is of
// stays as it was; two drawings beside each other have the lesser scale.
func TestBesideScales(t *testing.T) {
	dash := []float64{1, 2}
	p := Path{Lines: [][]Point{{Pt(49, 40), Pt(51, 40)}}, Stroke: rgb(0), Width_mm: 0.5, Dash_mm: dash}
	a := Drawing{Width_mm: 100, Height_mm: 80, Scale: 2, Items: []Item{p}}
	b := a
	b.Scale = 3
	d := Beside(a, b, false, Lens{Scale: 3, X: 0.5, Y: 0.5})
	got := d.Items[0].(Path)
	if got.Width_mm != 1.5 || got.Dash_mm[0] != 3 || got.Dash_mm[1] != 6 || dash[0] != 1 {
		t.Errorf("three times as large: width %g, dashes %v; its own are %v", got.Width_mm, got.Dash_mm, dash)
	}
	if l := got.Lines[0]; l[0] != Pt(47, 40) || l[1] != Pt(53, 40) {
		t.Errorf("it lies at %v", l)
	}
	if d.Scale != 2 {
		t.Errorf("scale %g, want the lesser", d.Scale)
	}
}

// A closed path that is cut off keeps its fill, and its outline closes: of a square of
// 4 about the border of a box of 10, half is filled and the stroke has three sides.
func TestClosedPathIsCut(t *testing.T) {
	square := Path{Lines: [][]Point{{{8, 3}, {12, 3}, {12, 7}, {8, 7}}}, Closed: true, Fill: rgb(1), Stroke: rgb(2), Width_mm: 1}
	box := Rect{Max: Point{10, 10}}
	out := move{k: 1}.path(square, box)
	if len(out) != 2 {
		t.Fatalf("%d items, want fill and stroke", len(out))
	}
	fill, stroke := out[0].(Path), out[1].(Path)
	if fill.Stroke.A != 0 || stroke.Fill.A != 0 || stroke.Closed {
		t.Errorf("fill %+v, stroke %+v", fill, stroke)
	}
	long := 0.0
	for _, l := range stroke.Lines {
		for i := 1; i < len(l); i++ {
			long += math.Hypot(l[i].X-l[i-1].X, l[i].Y-l[i-1].Y)
		}
	}
	if long != 8 {
		t.Errorf("the stroke is %g long, want 2 + 4 + 2", long)
	}
	square.Stroke.A = 0
	if out := (move{k: 1}).path(square, box); len(out) != 1 {
		t.Errorf("without a stroke %d items", len(out))
	}
	square.Fill.A, square.Stroke.A = 0, 255
	if out := (move{k: 1}).path(square, box); len(out) != 1 || out[0].(Path).Closed {
		t.Errorf("without a fill %v, want the stroke", out)
	}
	if out := (move{k: 1, x: 50}).path(square, box); len(out) != 0 {
		t.Errorf("off the box %d items", len(out))
	}
}

// An open line that is cut off stays open and unfilled.
func TestOpenPathIsCut(t *testing.T) {
	open := Path{Lines: [][]Point{{{8, 3}, {12, 3}, {12, 7}, {8, 7}}}, Fill: rgb(1), Stroke: rgb(2), Width_mm: 1}
	out := move{k: 1}.path(open, Rect{Max: Point{10, 10}})
	if len(out) != 1 {
		t.Fatalf("%d items, want its stroke", len(out))
	}
	if l := out[0].(Path).Lines; len(l) != 2 || l[0][1] != Pt(10, 3) || l[1][0] != Pt(10, 7) || l[1][1] != Pt(8, 7) {
		t.Errorf("it lies at %v", l)
	}
	open.Width_mm = 0
	if out := (move{k: 1}).path(open, Rect{Max: Point{10, 10}}); len(out) != 0 {
		t.Errorf("without a width %d items", len(out))
	}
}

// Enlarged twice and shifted by 1, 2, a surface's corners lie where they must, and a new
// corner halfway along a side is halfway between its ends in all. Of its 30 mm² a quarter is cut off.
func TestSurfaceUnderLens(t *testing.T) {
	s := Surface{Vertices: []Vertex{{2, 1, 3, color.NRGBA{0, 100, 200, 255}}, {7, 1, 7, color.NRGBA{100, 0, 101, 155}}, {2, 4, 3, color.NRGBA{}}}, Triangles: []uint32{0, 1, 2}}
	out := move{k: 2, x: 1, y: 2}.surface(s, Rect{Max: Point{10, 20}})
	if v := out.Vertices[:3]; v[0].X != 5 || v[0].Y != 4 || v[1].X != 15 || v[1].Y != 4 || v[2].X != 5 || v[2].Y != 10 {
		t.Errorf("its corners lie at %v", v)
	}
	if want := (Vertex{10, 4, 5, color.NRGBA{50, 50, 151, 205}}); math.Abs(area(out)-22.5) > 1e-5 || !slices.Contains(out.Vertices, want) {
		t.Errorf("%v, want 22.5 mm² with %v", out, want)
	}
}

// A hatching line swells with the dark, from a third of its greatest width to all, and
// darkens to the ink; it lies 0.12 mm above its cloth.
func TestHatch(t *testing.T) {
	var s Body
	ink := color.NRGBA{200, 100, 50, 255}
	s.Hatch(Vertex{Z: 2}, Vertex{X: 10, Z: 4}, Vertex{X: 10, Y: 5}, Vertex{Y: 5}, 0.2, [2]float32{0, 1}, 0.4, ink)
	v := s.Vertices
	if near, far := v[1].X-v[0].X, v[2].X-v[3].X; math.Abs(float64(near)-1.4) > 1e-5 || math.Abs(float64(far)-4) > 1e-5 {
		t.Errorf("in the light %g wide, in the dark %g, want 1.4 and 4", near, far)
	}
	if v[0].Color != (color.NRGBA{}) || v[3].Color != ink || math.Abs(float64(v[0].Z)-2.52) > 1e-6 || v[0].X != 2 || v[3].Y != 5 {
		t.Errorf("its corners are %v", v)
	}
	s.Hatch(Vertex{}, Vertex{X: 10}, Vertex{X: 10, Y: 5}, Vertex{Y: 5}, 0.2, [2]float32{1. / 3, 1}, 0.4, ink)
	if got, want := s.Vertices[4].Color, (color.NRGBA{100, 50, 25, 128}); got != want {
		t.Errorf("in a third of the dark it is %v, want half its ink, %v", got, want)
	}
}

// A ribbon is as wide at either end as it is to be, and reaches out by 0.7 of the first
// half width; none is drawn from a place to itself.
func TestRibbon(t *testing.T) {
	var s Body
	s.Ribbon(Vertex{X: 1, Y: 1, Z: 3}, Vertex{X: 4, Y: 5, Z: 4}, 1, 2, 0.5, rgb(1)) // along 0.6, 0.8
	want := [4][3]float64{{1 - 0.8 - 0.42, 1 + 0.6 - 0.56, 3.5}, {1 + 0.8 - 0.42, 1 - 0.6 - 0.56, 3.5}, {4 + 1.6 + 0.42, 5 - 1.2 + 0.56, 4.5}, {4 - 1.6 + 0.42, 5 + 1.2 + 0.56, 4.5}}
	for i, v := range s.Vertices {
		if w := want[i]; math.Abs(float64(v.X)-w[0])+math.Abs(float64(v.Y)-w[1])+math.Abs(float64(v.Z)-w[2]) > 1e-5 || v.Color != rgb(1) {
			t.Errorf("corner %d is %v, want %v", i, v, w)
		}
	}
	if s.Ribbon(Vertex{}, Vertex{X: 5e-5}, 1, 1, 0, rgb(1)); len(s.Vertices) != 4 {
		t.Errorf("%d corners, want four", len(s.Vertices))
	}
}

// A body is made of a drawing that has one, and is new where there is none.
func TestReuse(t *testing.T) {
	var b Body
	d := &Drawing{Items: []Item{Path{}, Surface{}, b.Reusable()}}
	b.Face(0, 1)
	d.Items[2] = b.Reusable()
	if got := d.Reuse(); got != &b {
		t.Errorf("it is made of %p, want %p", got, &b)
	}
	if got := d.Reuse(); got == nil || got == &b {
		t.Errorf("made of what is used up: %p", got)
	}
}
