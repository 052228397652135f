package pleat

import "ruffwright/geom/scheme"

// Joins gives the places along the strip, in mm from its first mark, where
// pieces cut at the cloth's full width are joined; none where the strip runs
// along the warp, for the bolt is longer than any strip.
//
// A piece cut across the cloth is as long as the bolt is wide less the two
// selvedges, after the first wash (strip.shrink_weft). The first of them gives
// its beginning to the end hem, and at a join each piece gives its allowance.
// Nothing is trimmed to bring a join to a fold that hides it: the pattern does
// that; here stands what happens without.
func (p Plan) Joins() []float64 {
	s := p.Scheme.Strip
	if s.Along != scheme.Weft {
		return nil
	}
	piece := (s.Bolt - 2*s.Selvedge) * (1 - s.ShrinkWeft/100)
	step := piece - 2*s.Join
	if !(step > 0) {
		return nil
	}
	first := piece - s.Join - p.endHems()/2
	var joins []float64
	for k := 0; ; k++ {
		place := first + float64(k)*step
		if place >= p.Marked_mm {
			return joins
		}
		if place > 0 {
			joins = append(joins, place)
		}
	}
}
