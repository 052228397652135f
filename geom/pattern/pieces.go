package pattern

import (
	"math"
	"sort"

	"ruffwright/geom/scheme"
)

// nearCrest is how far a join stays from a top fold where it must lie beside the
// folds, in join allowances: its layers then lie beside the fold, not on it
// (common practice, no source).
const nearCrest = 2

// pieces cuts the strip into pieces no longer than reach as cut, and places the joins.
//
// A trough hides a join: it lies low between the panels beside it, its layers folded
// away from whoever looks; where it is sewn, the tuck takes the join inward. So a join's
// seam line lies on a trough's mark. Each piece is cut as long as it may be and then
// shortened back to the last trough in reach; no other choice needs fewer pieces, since
// a join further back never lets the next one lie further on. (A test compares with
// the exhaustive answer.)
//
// A join in the spare need not be hidden: that cloth is cut off. Where no trough is in
// reach the join falls where the piece ends, moved off a top fold by nearCrest
// allowances where that leaves at least half of the piece.
func (p Pattern) pieces(reach float64) ([]Piece, []Join) {
	var (
		s      = p.Strip
		a      = p.Plan.Scheme.Strip.Join
		end    = s.end()
		stays  = s.Marked_mm + s.Hem_mm // beyond lies the spare that is cut off
		pieces []Piece
		joins  []Join
	)
	next := Piece{Number: 1, From_mm: -s.Hem_mm, Width_mm: s.Width_mm}
	longest := reach
	if s.Have_mm > 0 {
		next.AtHand, longest = true, s.Have_mm
	}
	for {
		room := longest - next.JoinA_mm
		// What is in the last bits of the sums is no reason for another piece.
		if next.From_mm+room >= end-1e-9 {
			next.To_mm = end
			next.Length_mm = next.JoinA_mm + (next.To_mm - next.From_mm)
			return append(pieces, next), joins
		}
		full := next.From_mm + room - a
		j := p.joinAt(next.From_mm, full, stays)
		j.Consumes_mm, j.Back_mm = 2*a, full-j.Place_mm
		next.To_mm, next.JoinB_mm = j.Place_mm, a
		next.Length_mm = next.JoinA_mm + (next.To_mm - next.From_mm) + a
		pieces, joins = append(pieces, next), append(joins, j)
		next = Piece{Number: next.Number + 1, From_mm: j.Place_mm, JoinA_mm: a, Width_mm: s.Width_mm}
		longest = reach
	}
}

// joinAt finds the join of a piece that begins at from and could reach to full.
func (p Pattern) joinAt(from, full, stays float64) Join {
	if full >= stays+p.Plan.Scheme.Strip.Join {
		return Join{Place_mm: full, Mark: -1, Hidden: true}
	}
	marks := p.Plan.Row
	// The first and the last mark are the hemmed ends.
	k := min(sort.Search(len(marks), func(k int) bool { return marks[k].Place_mm > full }), len(marks)-1) - 1
	for ; k > 0 && marks[k].Place_mm > from; k-- {
		if marks[k].Fold == scheme.Trough {
			return Join{Place_mm: marks[k].Place_mm, Mark: k, Hidden: true}
		}
	}
	near := nearCrest * p.Plan.Scheme.Strip.Join
	place := full
	for _, m := range marks {
		if m.Fold == scheme.Crest && math.Abs(m.Place_mm-place) < near {
			if back := m.Place_mm - near; back-from >= (full-from)/2 {
				place = back
			}
			break
		}
	}
	return Join{Place_mm: place, Mark: -1}
}

// evenReach is the least reach with which the strip takes at most n pieces, all
// joins hidden, to 1e-6 mm; the whole strip's length where n is 1.
func (p Pattern) evenReach(n int) float64 {
	good := p.Strip.Length_mm
	if n <= 1 {
		return good
	}
	fits := func(reach float64) (float64, bool) {
		pieces, joins := p.pieces(reach)
		for _, j := range joins {
			if !j.Hidden {
				return 0, false
			}
		}
		cut, most := 0, 0.0
		for _, c := range pieces {
			if !c.AtHand {
				cut++
				most = math.Max(most, c.Length_mm)
			}
		}
		return most, cut <= n
	}
	bad := good / float64(4*n) // shorter than any share of the strip
	if _, ok := fits(good); !ok {
		return good
	}
	for good-bad > 1e-6 {
		middle := (good + bad) / 2
		if middle <= 2*p.Plan.Scheme.Strip.Join+1 {
			bad = middle
			continue
		}
		if most, ok := fits(middle); ok {
			if most == 0 {
				return p.Strip.Length_mm
			}
			// The longest piece's own length would do, but for the last bits of its
			// sum: they can put a trough out of reach and make one piece more.
			good = math.Min(middle, most+1e-9)
		} else {
			bad = middle
		}
	}
	return good
}
