package figure

import (
	"math"
	"testing"

	"ruffwright/geom/draw"
)

// inside reports whether an item keeps to a box, lines by their middle.
func inside(it draw.Item, box draw.Rect) bool {
	box = box.Grow(1e-3)
	switch it := it.(type) {
	case draw.Path:
		for _, line := range it.Lines {
			for _, p := range line {
				if !(draw.Rect{Min: p, Max: p}).Inside(box) {
					return false
				}
			}
		}
	case draw.Solid:
		return it.Clip.Inside(box)
	case draw.Label:
		return it.Box().Inside(box.Grow(0.6))
	}
	return true
}

// TestBeside: every view of two ruffs, side by side and stacked, whole and under a
// lens: each keeps to its own half of the sheet, and both have their letters.
func TestBeside(t *testing.T) {
	t.Parallel()
	plan, shape := designs()[0].make(t)
	for _, v := range Views {
		for _, stacked := range []bool{false, true} {
			for _, lens := range []draw.Lens{{}, {Scale: 3, X: 0.4, Y: 0.6}} {
				opt := Options{Width_mm: 100, Height_mm: 90, Turn_deg: 28, Tilt_deg: 26, Zoom: 2}
				opt.Letter = "A"
				a, err := v.Draw(plan, shape, opt)
				if err != nil {
					t.Fatal(err)
				}
				opt.Letter = "B"
				b, err := v.Draw(plan, shape, opt)
				if err != nil {
					t.Fatal(err)
				}
				d := draw.Beside(a, b, stacked, lens)
				first := draw.Rect{Max: draw.Pt(100, 90)}
				second := draw.Rect{Min: draw.Pt(100+draw.Gutter, 0), Max: draw.Pt(200+draw.Gutter, 90)}
				if stacked {
					second = draw.Rect{Min: draw.Pt(0, 90+draw.Gutter), Max: draw.Pt(100, 180+draw.Gutter)}
				}
				letters, labels := map[string]bool{}, 0
				for i, it := range d.Items {
					if !inside(it, first) && !inside(it, second) && i < len(d.Items)-1 { // the last parts the two
						t.Errorf("%s, stacked %v, lens %v: item %d %T keeps to neither half", v.Name, stacked, lens, i, it)
					}
					if l, ok := it.(draw.Label); ok {
						labels++
						if l.Face == draw.Bold {
							letters[l.Text] = true
						}
					}
				}
				if !letters["A"] || !letters["B"] || lens.Scale == 0 && labels < len(a.Labels())+len(b.Labels()) {
					t.Errorf("%s: letters %v, %d labels of %d and %d", v.Name, letters, labels, len(a.Labels()), len(b.Labels()))
				}
				if box := (draw.Rect{Max: draw.Pt(d.Width_mm, d.Height_mm)}); !second.Inside(box) || d.Title == "" || d.Desc == "" {
					t.Errorf("%s: the sheet is %g × %g mm, %q", v.Name, d.Width_mm, d.Height_mm, d.Title)
				}
			}
		}
	}
}

// TestSameScale: drawn again at the lesser of their scales, two ruffs have one.
func TestSameScale(t *testing.T) {
	plan, shape := designs()[0].make(t)
	for _, v := range Views {
		if v.Strip {
			continue
		}
		large, err := v.Draw(plan, shape, Options{Width_mm: 200, Height_mm: 180})
		if err != nil {
			t.Fatal(err)
		}
		want := large.Scale * 0.7
		small, err := v.Draw(plan, shape, Options{Width_mm: 200, Height_mm: 180, Scale: want})
		if err != nil || math.Abs(small.Scale-want) > 1e-9 {
			t.Errorf("%s: scale %g, want %g (%v)", v.Name, small.Scale, want, err)
		}
	}
}
