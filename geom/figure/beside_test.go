package figure

import (
	"image/color"
	"math"
	"testing"
)

// inside reports whether an item keeps to a box, lines by their middle.
func inside(it Item, box Rect) bool {
	box = box.Grow(1e-3)
	switch it := it.(type) {
	case Path:
		for _, line := range it.Lines {
			for _, p := range line {
				if !(Rect{p, p}).Inside(box) {
					return false
				}
			}
		}
	case Surface:
		for _, i := range it.Triangles {
			p := Point{float64(it.Vertices[i].X), float64(it.Vertices[i].Y)}
			if !(Rect{p, p}).Inside(box) {
				return false
			}
		}
	case Label:
		return it.Box().Inside(box.Grow(0.6))
	}
	return true
}

// TestBeside: every view of two ruffs, side by side and stacked, whole and under a
// lens: each keeps to its own half of the sheet, and both have their letters.
func TestBeside(t *testing.T) {
	plan, shape := designs()[0].make(t)
	for _, v := range views() {
		for _, stacked := range []bool{false, true} {
			for _, lens := range []Lens{{}, {3, 0.4, 0.6}} {
				opt := Options{Width_mm: 100, Height_mm: 90, Turn_deg: 28, Tilt_deg: 26, Zoom: 2}
				opt.Letter = "A"
				a, err := v.draw(plan, shape, opt)
				if err != nil {
					t.Fatal(err)
				}
				opt.Letter = "B"
				b, err := v.draw(plan, shape, opt)
				if err != nil {
					t.Fatal(err)
				}
				d := Beside(a, b, stacked, lens)
				first := Rect{Point{}, Point{100, 90}}
				second := Rect{Point{100 + Gutter, 0}, Point{200 + Gutter, 90}}
				if stacked {
					second = Rect{Point{0, 90 + Gutter}, Point{100, 180 + Gutter}}
				}
				letters, labels := map[string]bool{}, 0
				for i, it := range d.Items {
					if !inside(it, first) && !inside(it, second) && i < len(d.Items)-1 { // the last parts the two
						t.Errorf("%s, stacked %v, lens %v: item %d %T keeps to neither half", v.name, stacked, lens, i, it)
					}
					if l, ok := it.(Label); ok {
						labels++
						if l.Face == Bold {
							letters[l.Text] = true
						}
					}
				}
				if !letters["A"] || !letters["B"] || lens.Scale == 0 && labels < len(a.Labels())+len(b.Labels()) {
					t.Errorf("%s: letters %v, %d labels of %d and %d", v.name, letters, labels, len(a.Labels()), len(b.Labels()))
				}
				if box := (Rect{Point{}, Point{d.Width_mm, d.Height_mm}}); !second.Inside(box) || d.Title == "" || d.Desc == "" {
					t.Errorf("%s: the sheet is %g × %g mm, %q", v.name, d.Width_mm, d.Height_mm, d.Title)
				}
			}
		}
	}
}

// TestSameScale: drawn again at the lesser of their scales, two ruffs have one.
func TestSameScale(t *testing.T) {
	plan, shape := designs()[0].make(t)
	for _, v := range views() {
		if v.name == "flat" {
			continue
		}
		large, err := v.draw(plan, shape, Options{Width_mm: 200, Height_mm: 180})
		if err != nil {
			t.Fatal(err)
		}
		want := large.Scale * 0.7
		small, err := v.draw(plan, shape, Options{Width_mm: 200, Height_mm: 180, Scale: want})
		if err != nil || math.Abs(small.Scale-want) > 1e-9 {
			t.Errorf("%s: scale %g, want %g (%v)", v.name, small.Scale, want, err)
		}
	}
}

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
