package sheet

import (
	"math"

	"ruffwright/geom/scheme"
)

// TileOverlap is how far two tiles lie over each other, in mm: what a ruler in the
// units shows, 10 mm or 3/8 in.
func TileOverlap(u scheme.Units) float64 {
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

// Long is the tile's length, mm.
func (t Tile) Long() float64 { return t.To_mm - t.From_mm }

// Tiles covers 0 … length with tiles of the units' step, whole on the maker's own tape,
// and overlap; each begins at a whole multiple of the step. A tail no longer than the overlap, which the tile
// before shows anyway, gets no tile of its own.
func Tiles(length float64, u scheme.Units) []Tile {
	step, overlap := 180.0, TileOverlap(u)
	if u == scheme.Inches {
		step = 7 * 25.4
	}
	n := max(1, int(math.Ceil((length-overlap)/step)))
	out := make([]Tile, n)
	for i := range out {
		out[i] = Tile{float64(i) * step, math.Min(float64(i+1)*step+overlap, length)}
	}
	return out
}

// JoinLetters name the join between tile i and the next: A … Z, AA, AB …
func JoinLetters(i int) string {
	s := ""
	for i++; i > 0; i = (i - 1) / 26 {
		s = string(rune('A'+(i-1)%26)) + s
	}
	return s
}
