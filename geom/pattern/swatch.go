package pattern

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// Sizes and numbers of test pieces. Strips of 25 mm × 250 mm are those of ISO
// 9073-7, three or four in each direction are usual with the cantilever tests
// (both from memory of the standards, to be checked there); a square of 10 cm
// gives g/m² as its weight in g × 100 (ISO 3801's 100 cm², same area). Two
// trials of starch with three strips each: our choice.
const (
	swatchLong, swatchWide = 250, 25
	swatchEach             = 3
	starchTrials           = 2
	squareSide             = 100
)

// HoldLong_mm is what of a test strip lies on the table while the rest hangs over.
const HoldLong_mm = 50

// Swatches gives the test pieces that are cut along with the ruff, sizes as washed.
// Starched strips are longer where the wanted bending length needs it: they hang over
// by twice that. Strips along the weft are no longer than the cloth is wide.
func (p Pattern) Swatches() []Swatch { return p.swatches(p.Cut.Along) }

func (p Pattern) swatches(along scheme.Along) []Swatch {
	s := p.Plan.Scheme
	across := usable(s.Strip) * keeps(s.Strip, scheme.Weft)
	long := func(want float64, along scheme.Along) float64 {
		if along == scheme.Weft {
			return math.Min(want, across)
		}
		return want
	}
	starched := math.Max(swatchLong, 2*s.Starch.Bend+HoldLong_mm)
	return []Swatch{
		{Kind: KindWeft, Count: swatchEach, Long_mm: long(swatchLong, scheme.Weft), Wide_mm: swatchWide, Along: scheme.Weft, For: word.Say("bending length across the cloth, unstarched")},
		{Kind: KindStarch, Count: starchTrials * swatchEach, Long_mm: long(starched, along), Wide_mm: swatchWide, Along: along, For: word.Say("bending length along the strip, starched and dried flat: two trials of three")},
		{Kind: KindSquare, Count: 1, Long_mm: math.Min(squareSide, across), Wide_mm: math.Min(squareSide, across), Along: scheme.Warp, For: word.Say("weigh it: grams × 100 are g/m²")},
		{Kind: KindWarp, Count: swatchEach, Long_mm: swatchLong, Wide_mm: swatchWide, Along: scheme.Warp, For: word.Say("bending length along the cloth, unstarched")},
	}
}
