package pattern

import (
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// Joins gives the places of the strip's joins in mm from its first mark, those
// in the spare left out: the same as New's Cut.Joins (TestJoinsAreThePatterns),
// without laying pieces out where the strip runs along the weft. A plan that has
// no pattern has none.
func Joins(p pleat.Plan) []float64 {
	var joins []Join
	if s := p.Scheme.Strip; s.Along == scheme.Weft {
		if checkPlan(p) != nil {
			return nil
		}
		pat := Pattern{Plan: p, Strip: newStrip(p)}
		reach := usable(s) * keeps(s, scheme.Weft)
		pat.trimSpare(reach)
		_, joins = pat.pieces(reach)
	} else {
		pat, err := New(p)
		if err != nil {
			return nil
		}
		joins = pat.Cut.Joins
	}
	var places []float64
	for _, j := range joins {
		if j.Place_mm < p.Marked_mm {
			places = append(places, j.Place_mm)
		}
	}
	return places
}
