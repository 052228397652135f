package draw

import (
	"math"
	"testing"
)

// TestCut: what is cut off at a box has the area and length that it must: a
// triangle over the corner of a square, by hand; a polyline in and out.
func TestCut(t *testing.T) {
	box := Rect{Point{0, 0}, Point{10, 10}}
	out := cutPolygon([]Point{{-10, 0}, {10, 0}, {10, 20}}, box)
	if got := area(out); math.Abs(got-100) > 1e-9 { // the hypotenuse y = x + 10 passes the square's upper left corner
		t.Errorf("area %g, want 100", got)
	}
	if out := cutPolygon([]Point{{50, 50}, {60, 50}, {60, 60}}, box); len(out) != 0 {
		t.Errorf("outside: %v", out)
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

// area is that of a polygon, mm².
func area(p []Point) (sum float64) {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		sum += (a.X*b.Y - b.X*a.Y) / 2
	}
	return math.Abs(sum)
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
