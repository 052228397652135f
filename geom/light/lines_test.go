package light

import (
	"image/color"
	"math"
	"testing"
)

// TestBridges: where a line shows too little for less than bridge_mm it goes on; where it
// does so for longer, or something lies before it, it ends, and no line ends in what
// shows too little.
func TestBridges(t *testing.T) {
	d := blank(400, 40)
	w := window{px: 5, w: 400, h: 40}
	for _, c := range []struct {
		from, to float64 // mm of 70, in which it shows so much
		much     float32
		want     []float64 // lengths, mm
	}{
		{30, 32, 0, []float64{60}}, {30, 36, 0, []float64{25, 29}}, {30, 32, hides, []float64{25, 33}},
		{5, 7, 0, []float64{58}}, {30, 31, hides, []float64{60}}, {60, 65, 0, []float64{55}}, {6, 6, 0, []float64{60}},
	} {
		lines := d.stretches([]spot{{x: 25, y: 20}, {x: 325, y: 20}}, w, 0.2, color.NRGBA{A: 255}, func(at spot, _, _ float32) float32 {
			if x := float64(at.x) / w.px; x > c.from && x < c.to {
				return c.much
			}
			return 1
		})
		ok := len(lines) == len(c.want)
		for i := range min(len(lines), len(c.want)) {
			ok = ok && math.Abs(span(lines[i].V)-c.want[i]) < 0.7 && lines[i].Width_mm == 0.2
		}
		if !ok {
			t.Errorf("%g from %g to %g mm: %v, want lengths %v", c.much, c.from, c.to, lines, c.want)
		}
	}
}
