package pleat

import (
	"math"
	"testing"

	"ruffwright/geom"
)

// The quintic between two folds against the neckline itself, and its parallel
// against the neckline's places and normals.
func TestSpanFollowsNeckline(t *testing.T) {
	for _, c := range []struct {
		girth, ratio, h, bound float64
	}{
		{415, 1, 5, 1e-8}, {415, 1.3, 5, 1e-7}, {415, 1.3, 26, 1e-3}, {150, 1, 10, 1e-4}, {415, 0.7, 26, 3e-3},
	} {
		n, err := geom.NewNeckline(c.girth, c.ratio)
		if err != nil {
			t.Fatal(err)
		}
		worst, out := 0., 0.
		for from := 0.; from < c.girth; from += c.girth / 37 {
			a, b := n.At(from), n.At(from+c.h)
			s := newSpan(a, b, 0, c.h)
			for _, at := range []struct{ got, want geom.Vec2 }{{s.at(0), a.Pos}, {s.at(1), b.Pos}} {
				if at.got != at.want {
					t.Errorf("%+v: a fold at %v, on the neckline at %v", c, at.got, at.want)
				}
			}
			wall := newSpan(a, b, 70, c.h+70*turnBetween(a, b, c.h))
			for i := range 21 {
				want := n.At(from + c.h*float64(i)/20)
				worst = math.Max(worst, s.at(float64(i)/20).Sub(want.Pos).Norm())
				// The same place of the parallel, by what has been turned so far.
				arc := c.h*float64(i)/20 + 70*turnBetween(a, want, c.h*float64(i)/20)
				got := wall.at(arc / (c.h + 70*turnBetween(a, b, c.h)))
				out = math.Max(out, got.Sub(want.Pos.Add(want.Normal.Scale(70))).Norm())
			}
		}
		if worst > c.bound || out > 10*c.bound {
			t.Errorf("%+v: off by %.2g mm, the parallel by %.2g mm", c, worst, out)
		}
	}
}
