package sheet

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"ruffwright/geom/scheme"
)

// TestTiles: tiles begin at whole steps, overlap by 10 mm or 3/8 in, and end at the end.
func TestTiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(1, 60000).Draw(t, "length")
		units := rapid.SampledFrom([]scheme.Units{scheme.Millimetres, scheme.Inches}).Draw(t, "units")
		step, overlap_mm := 180.0, 10.0
		if units == scheme.Inches {
			step, overlap_mm = 177.8, 9.525
		}
		all := Tiles(length, units)
		for i, x := range all {
			if x.From_mm != float64(i)*step || x.To_mm-x.From_mm > step+overlap_mm+1e-9 || x.To_mm <= x.From_mm {
				t.Fatalf("tile %d: %+v", i, x)
			}
			if i > 0 && math.Abs(all[i-1].To_mm-x.From_mm-overlap_mm) > 1e-9 {
				t.Fatalf("tile %d overlaps by %g", i, all[i-1].To_mm-x.From_mm)
			}
		}
		if last := all[len(all)-1]; len(all) > 1 && last.Long() <= overlap_mm {
			t.Fatalf("the last tile, %g mm long, shows nothing that the one before does not", last.Long())
		}
		if all[len(all)-1].To_mm != length {
			t.Fatalf("ends at %g, want %g", all[len(all)-1].To_mm, length)
		}
	})
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		if got := JoinLetters(i); got != want {
			t.Errorf("join %d: %s, want %s", i, got, want)
		}
	}
}
