package check

import (
	"math"
	"strconv"
)

// setsTo changes the number of sets, and with it what would contradict it: the room
// as sewn, the maker's own marks.
func (v *view) setsTo(n int) []Change {
	c := []Change{to("ruff.sets", strconv.Itoa(n))}
	if v.s.Pleat.Pitch > 0 {
		c = append(c, to("pleat.pitch", "0"))
	}
	if v.p.MarksOwn {
		c = append(c, to("pleat.marks", ""))
	}
	return c
}

// fourfold gives the multiples of four next below and above n that ruff.sets
// takes, n itself where it is one; 0 for none.
func (v *view) fourfold(n float64) (below, above int) {
	below = quarterSets * int(math.Floor(n/quarterSets))
	above = quarterSets * int(math.Ceil(n/quarterSets))
	if !v.allowed("ruff.sets", float64(below)) {
		below = 0
	}
	if !v.allowed("ruff.sets", float64(above)) {
		above = 0
	}
	return below, above
}
