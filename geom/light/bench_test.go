package light

import (
	"fmt"
	"math"
	"testing"

	"ruffwright/geom"
)

// ruffle is a ring of so many waves, as fine a grid as a solved ruff's.
func ruffle(sets int) Scene {
	const along, rows = 48, 13
	t := Sheet{Cols: sets*along + 1, Rows: rows, Ring: true, Through: 1.3, Tints: []Tint{grey()}, Hatch_mm: 1.15, Hem_mm: [4]float64{0.1, 0.26}, Fold_mm: 0.2}
	for c := range t.Cols {
		at := 2 * math.Pi * float64(c%(sets*along)) / float64(sets*along)
		swing := math.Sin(float64(sets) * at)
		for r := range rows {
			out := float64(r) / (rows - 1)
			bend := at + 0.9*out/float64(sets)*math.Sin(2*float64(sets)*at)
			s, k := math.Sincos(bend)
			t.V = append(t.V, geom.Vec3{X: (60 + 60*out) * k, Y: (60 + 60*out) * s, Z: 22 * swing})
		}
	}
	return Scene{Sheets: []Sheet{t, tube(57, -10, 40, 96, 8)}}
}

// BenchmarkDraw: a whole ruff at the size of a stage, moving and at rest.
func BenchmarkDraw(b *testing.B) {
	for _, sets := range []int{40, 120} {
		s := ruffle(sets)
		c := NewCamera(25, 28)
		c.Far, c.Scale, c.X, c.Y = 600, 0.8, 98, 56
		for _, l := range []struct {
			name string
			look Look
		}{
			{"moving", Look{Camera: c, W: 740, H: 420, PxPerMM: 3.78}},
			{"rest", Look{Camera: c, W: 740, H: 420, PxPerMM: 3.78, Samples: 2, Flat_px: 0.3}},
			{"rest2", Look{Camera: c, W: 1480, H: 840, PxPerMM: 7.56, Flat_px: 0.3}},
		} {
			b.Run(fmt.Sprintf("%d/%s", sets, l.name), func(b *testing.B) {
				for b.Loop() {
					s.Draw(l.look)
				}
			})
		}
	}
}

// BenchmarkBake: what light reaches where, once for a shape.
func BenchmarkBake(b *testing.B) {
	s := ruffle(40)
	for b.Loop() {
		s.baked = nil
		s.Bake(nil)
	}
}
