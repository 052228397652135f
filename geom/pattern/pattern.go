// Package pattern turns a plan into what is cut, marked and sewn: the pieces of
// the strip and their joins, the band, the swatches, where each lies on the
// cloth and how much cloth to buy, the table of marks, and the amount of work.
//
// Cloth is washed before it is cut, so every size in mm is of washed cloth, as it is
// cut and as it stays; only a Layout is of cloth as sold, which the first wash makes
// shorter by the fraction s in each direction: bought = washed ÷ (1 − s).
package pattern

import (
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// Pattern is everything that is cut for one ruff, or for a pair of cuffs: Strip, Band
// and a Cut's pieces are of one, layout, cloth to buy and Work of all that are made.
type Pattern struct {
	Plan  pleat.Plan
	Made  int // how many are made: 1 ruff, 2 cuffs, the right one's band the mirror image of the left one's
	Strip Strip
	Band  Band
	Cut   Cut   // the way of cutting that the pattern follows
	Ways  []Way // all ways of cutting the strip from this cloth, to choose from
}

// Cut is one way of cutting the strip: its direction, how many pieces lie side
// by side, and what follows from that.
type Cut struct {
	Along  scheme.Along // thread that runs along the strip's length
	Side   int          // pieces of the strip side by side across the cloth (1 along the weft)
	Pieces []Piece      // of the strip, in its order
	Joins  []Join       // between the pieces: one fewer
	Layout Layout
	Buy    Buy
}

// Way is a Cut in short, for a table of choices.
type Way struct {
	Along  scheme.Along
	Side   int
	Pieces int // to cut
	Joins  int
	Shown  int // joins that no inner fold hides
	Buy    Buy
}

// New lays the pattern out as the scheme says: strip.along gives the direction. Along
// the weft a piece runs from selvedge to selvedge. Along the warp many short pieces
// need the least cloth but the most joins: it takes the number side by side that needs
// the least of both, a join counted as 10 cm of cloth (our choice, no source).
//
// The error is a scheme.Error that names the field: only for a plan that NewPlan
// did not make, or a strip too wide for the cloth.
func New(p pleat.Plan) (Pattern, error) {
	if err := checkPlan(p); err != nil {
		return Pattern{}, err
	}
	pat := Pattern{Plan: p, Strip: newStrip(p), Band: newBand(p), Made: 1}
	if p.Scheme.Wearer.Part == scheme.Wrist {
		pat.Made = 2
	}
	along := p.Scheme.Strip.Along
	if along == scheme.Weft {
		pat.trimSpare(usable(p.Scheme.Strip) * keeps(p.Scheme.Strip, scheme.Weft))
	}
	cuts := pat.cuts()
	chosen := -1
	for i, c := range cuts {
		pat.Ways = append(pat.Ways, c.way())
		if c.Along == along && (chosen < 0 || pat.Ways[i].before(pat.Ways[chosen])) {
			chosen = i
		}
	}
	if chosen < 0 {
		return Pattern{}, tooWide(pat)
	}
	pat.Cut = cuts[chosen]
	return pat, nil
}
