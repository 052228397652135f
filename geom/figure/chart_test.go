package figure

import (
	"math"
	"testing"

	"ruffwright/geom/draw"
)

// TestChart: the curve and the limit stand where their numbers say, more is higher, the
// present place lies on the curve; what is no chart is empty.
func TestChart(t *testing.T) {
	pal := draw.Light()
	c := Chart{Values: []float64{10, 20, 40}, Lengths: []float64{1, 5, 9}, Limits: []float64{5, 400}, Now: 30}
	if y := c.At(30); math.Abs(y-7) > 1e-12 || c.At(5) != 1 || c.At(50) != 9 {
		t.Errorf("between 5 and 9: %g", y)
	}
	d := c.Draw(pal)
	var curve, limits, mark []draw.Point
	for _, it := range d.Items {
		p := it.(draw.Path)
		switch {
		case p.Stroke == pal.Woad:
			curve = p.Lines[0]
		case p.Stroke == pal.Madder:
			limits = append(limits, p.Lines[0]...)
		case p.Closed:
			mark = p.Lines[0]
		}
		for _, q := range p.Lines[0] {
			if q.X < 0 || q.X > d.Width_mm || q.Y < 0 || q.Y > d.Height_mm {
				t.Errorf("%v lies off the chart", q)
			}
		}
	}
	if len(curve) != 3 || len(limits) != 2 || len(mark) != 4 {
		t.Fatalf("%v, %v, %v", curve, limits, mark)
	}
	if !(curve[0].Y > curve[1].Y && curve[1].Y > curve[2].Y) || math.Abs(limits[0].Y-curve[1].Y) > 1e-9 {
		t.Errorf("%v beside the limit %v", curve, limits)
	}
	if x, y := mark[0].X+1.2, mark[0].Y; math.Abs(x-(curve[1].X+curve[2].X)/2) > 1e-9 || math.Abs(y-(curve[1].Y+curve[2].Y)/2) > 1e-9 {
		t.Errorf("the place %g, %g lies off %v", x, y, curve)
	}
	for _, none := range []Chart{{}, {Values: []float64{1, 1}, Lengths: []float64{1, 2}}, {Values: []float64{1, 2}}} {
		if d := none.Draw(pal); len(d.Items) > 0 {
			t.Errorf("%+v is drawn", none)
		}
	}
}
