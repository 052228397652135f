package cloth

import (
	"math"

	"ruffwright/geom/scheme"
)

// Source is where the stiffness of a scheme's cloth is known from.
type Source string

// The sources, from the least sure.
const (
	ByName   Source = "name"   // a guess for the cloth's name
	ByLength Source = "length" // bending lengths entered, and not how sure they are
	ByError  Source = "error"  // with how far they may be off: cloth.error
)

// Sure is how sure the stiffness of a cloth is: it may be so many times that of the
// scheme, at least and at most.
type Sure struct {
	Least, Most float64
	From        Source
}

// guessTimes is how many times as stiff, and as limp, as guessed a named cloth may be
// (scheme.NamedCloth).
const guessTimes = 2

// HowSure gives how sure the stiffness of the cloth of given is, a scheme as it was typed:
// what is 0 there is filled in by the cloth's name. The rigidity goes with the cube of the
// bending length. Where nobody says how far that may be off, SingleReading stands in.
func HowSure(given scheme.Scheme) Sure {
	c := given.Cloth
	u, _, err := Along(c.BendWarp, c.BendWeft, given.Strip.Along)
	off, from := SingleReading, ByLength
	switch {
	case c.Error > 0:
		off, from = c.Error/100, ByError
	case u == 0 || err != nil:
		return Sure{1. / guessTimes, guessTimes, ByName}
	}
	return Sure{math.Pow(1-off, 3), math.Pow(1+off, 3), from}
}
