package draw

import (
	"math"
	"testing"
)

// A handle that is pulled to where it stands at a value has grown to that value, straight
// or round; across its way it does not grow; and one that cannot go never does.
func TestHandleGoesItsWay(t *testing.T) {
	for _, h := range []Handle{
		{Value: 60, At: Pt(30, 40), Along: Pt(1.5, 0)},
		{Value: 9, At: Pt(3, -4), Along: Pt(0.3, -0.4)},
		{Value: 40, At: Pt(10, 0), About: Pt(2, 1), Turn: 2 * math.Pi / 40},
	} {
		for _, by := range []float64{-3, 0, 0.5, 7} {
			if got := h.By(h.At, h.Stands(h.Value+by)); math.Abs(got-by) > 1e-9 {
				t.Errorf("%+v: pulled to where it stands %g further it grows by %g", h, by, got)
			}
		}
	}
	across := Handle{At: Pt(0, 0), Along: Pt(2, 0)}
	if got := across.By(Pt(0, 0), Pt(0, 50)); got != 0 {
		t.Errorf("across its way it grows by %g", got)
	}
	clock := Handle{At: Pt(0, -10), Turn: 0.1} // from the top to the right, on a sheet whose y runs down
	if got := clock.By(Pt(0, -10), Pt(10, 0)); math.Abs(got-math.Pi/2/0.1) > 1e-9 {
		t.Errorf("a quarter clockwise is %g", got)
	}
	if got := (Handle{}).By(Pt(0, 0), Pt(9, 9)); got != 0 {
		t.Errorf("what cannot go grew by %g", got)
	}
}

// Beside another drawing the handles of the first alone stay, where its lines went.
func TestHandlesBeside(t *testing.T) {
	sheet := func(letter string) Drawing {
		return Drawing{
			Width_mm: 100, Height_mm: 80, Letter: letter,
			Items:   []Item{Path{Lines: [][]Point{{Pt(30, 20), Pt(40, 20)}}}},
			Handles: []Handle{{Field: letter, At: Pt(30, 20), Along: Pt(1, 0), Number: Rect{Pt(20, 20), Pt(24, 23)}}},
		}
	}
	d := Beside(sheet("A"), sheet("B"), false, Lens{Scale: 2, X: 0.3, Y: 0.25})
	if len(d.Handles) != 1 || d.Handles[0].Field != "A" {
		t.Fatalf("handles %+v", d.Handles)
	}
	h, line := d.Handles[0], d.Items[0].(Path).Lines[0]
	if h.At != line[0] || h.Along != Pt(2, 0) || h.Number.Max.X-h.Number.Min.X != 8 {
		t.Errorf("the handle is %+v, its line begins at %v", h, line[0])
	}
}
