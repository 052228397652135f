package paper

import (
	"math"

	"ruffwright/geom/scheme"
)

// tileOverlap is how far two tiles lie over each other, in mm: what a ruler in the
// units shows, 10 mm or 3/8 in.
func tileOverlap(u scheme.Units) float64 {
	if u == scheme.Inches {
		return 25.4 * 3 / 8
	}
	return 10
}

// Tile is the part of a length that one tile shows. Neighbours share the last
// overlap of the one and the first of the other; each tile is laid by its own
// place, so that an error in laying one does not move the next.
type Tile struct {
	From_mm, To_mm float64 // what it shows, overlap included
}

// letters of the join between tile i and the next: A … Z, AA, AB …
func joinLetters(i int) string {
	s := ""
	for i++; i > 0; i = (i - 1) / 26 {
		s = string(rune('A'+(i-1)%26)) + s
	}
	return s
}

// tiles covers 0 … length with tiles of the units' step and the overlap; every tile but
// the last begins at a whole multiple of the step. A tail no longer than the
// overlap that the tile before shows anyway gets no tile of its own.
func tiles(length float64, u scheme.Units) []Tile {
	step, overlap_mm := tileStep(u), tileOverlap(u)
	n := int(math.Ceil((length - overlap_mm) / step))
	n = max(n, 1)
	out := make([]Tile, n)
	for i := range out {
		out[i] = Tile{float64(i) * step, math.Min(float64(i+1)*step+overlap_mm, length)}
	}
	return out
}

// tileStep is the step of tiles in the units: whole on the maker's own tape.
func tileStep(u scheme.Units) float64 {
	if u == scheme.Inches {
		return 7 * 25.4
	}
	return 180
}
