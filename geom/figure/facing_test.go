package figure

import (
	"math"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/draw"
)

// Notes without marks stand round the neck in front of the eye: the first faces it, the
// others lie left and right of it by turns, evenly, and none behind the neck. That they
// do is a choice: common practice, no source.
func TestFacing(t *testing.T) {
	for _, turn := range []float64{0, 28, -135} {
		w := &whole{eye: draw.NewEye(turn, 20)}
		toward := geom.Vec2{X: w.eye.Toward.X, Y: w.eye.Toward.Y}
		var at [maxNotes + 1]float64 // degrees from the side that faces the eye
		for nth := range at {
			way := w.facing(nth)
			at[nth] = math.Atan2(toward.X*way.Y-toward.Y*way.X, toward.Dot(way)) * 180 / math.Pi
		}
		if math.Abs(at[0]) > 1e-9 {
			t.Errorf("turned by %g°: the first stands %g° off", turn, at[0])
		}
		step := at[1]
		if !(step > 0) || step*maxNotes/2 >= 90 {
			t.Fatalf("turned by %g°: the second stands at %g°", turn, step)
		}
		for nth := 1; nth <= maxNotes; nth++ {
			want := float64((nth+1)/2) * step
			if nth%2 == 0 {
				want = -want
			}
			if math.Abs(at[nth]-want) > 1e-9 {
				t.Errorf("turned by %g°: note %d stands at %g°, want %g°", turn, nth, at[nth], want)
			}
		}
	}
}
