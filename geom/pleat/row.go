package pleat

import (
	"math"

	"ruffwright/geom/scheme"
)

// Row is the pleated strip fold by fold, in order along the strip: where each fold
// lies on the strip and on the neckline, and what it is sewn to. Whatever must know
// what is sewn asks the row. Sets may differ from each other; Regular says whether
// they do.
type Row []Mark

// Mark is one fold line across the strip.
type Mark struct {
	Place_mm   float64     // on the strip, from the first mark
	Station_mm float64     // along the neckline, as sewn: the row is centred on it
	Pitch_mm   float64     // room along the neckline to the next fold; 0 at the last
	Fold       scheme.Fold // crest or trough
	Edge       scheme.Edge // of the band that it is sewn to
	Tuck_mm    float64     // tuck depth t at this mark; takes up 2t; 0 where it is not sewn
	Quarter    bool        // pin here: the sewn fold at a quarter of the row, or the next one where that hangs free
}

// Panel gives fold to fold along the strip, mm, of the panel between the folds i
// and i + 1.
func (r Row) Panel(i int) float64 { return r[i+1].Place_mm - r[i].Place_mm }

// Inner gives the inner edge of panel i, mm: what its tucks leave of it.
func (r Row) Inner(i int) float64 { return r.Panel(i) - r[i].Tuck_mm - r[i+1].Tuck_mm }

// Pitch gives the room of panel i along the neckline, mm: half of what a set takes.
func (r Row) Pitch(i int) float64 { return r[i].Pitch_mm }

// Along gives how far fold k sits along the neckline from the first fold, mm.
func (r Row) Along(k int) float64 { return r[k].Station_mm - r[0].Station_mm }

// Sewn gives the edge of the band that most folds of a kind are sewn to, EdgeNone
// where most hang free. Of equal numbers the top edge comes first, then the bottom
// edge.
func (r Row) Sewn(kind scheme.Fold) scheme.Edge {
	count := func(e scheme.Edge) (n int) {
		for _, m := range r {
			if m.Fold == kind && m.Edge == e {
				n++
			}
		}
		return n
	}
	best := scheme.EdgeTop
	for _, e := range []scheme.Edge{scheme.EdgeBottom, scheme.EdgeNone} {
		if count(e) > count(best) {
			best = e
		}
	}
	return best
}

// OneEdge reports whether one kind of fold hangs free, so that the other alone is
// sewn: Kind, to Edge.
func (r Row) OneEdge() bool {
	return r.Sewn(scheme.Crest) == scheme.EdgeNone || r.Sewn(scheme.Trough) == scheme.EdgeNone
}

// Kind gives the kind of fold that is sewn where OneEdge holds, elsewhere the crests.
func (r Row) Kind() scheme.Fold {
	if r.Sewn(scheme.Crest) == scheme.EdgeNone && r.Sewn(scheme.Trough) != scheme.EdgeNone {
		return scheme.Trough
	}
	return scheme.Crest
}

// Edge gives the edge of the band that the folds of Kind are sewn to; EdgeNone where
// nothing is sewn.
func (r Row) Edge() scheme.Edge { return r.Sewn(r.Kind()) }

// Tuck gives the depth t, mm, of the tucks at the folds of a kind; 0 where most of
// them hang free, since a tuck at a fold that is not sewn does not exist.
func (r Row) Tuck(kind scheme.Fold) float64 {
	if r.Sewn(kind) == scheme.EdgeNone {
		return 0
	}
	t := 0.0
	for _, m := range r {
		if m.Fold == kind {
			t = max(t, m.Tuck_mm)
		}
	}
	return t
}

// Tucked reports whether a tuck is sewn.
func (r Row) Tucked() bool { return r.Tuck(scheme.Crest) > 0 || r.Tuck(scheme.Trough) > 0 }

// Stitch gives the two points on the strip, mm, that the stitch of fold k brings
// together: the mark itself where there is no tuck. At an end of the strip half of
// a tuck lies on it.
func (r Row) Stitch(k int) (from, to float64) {
	m := r[k]
	return max(0, m.Place_mm-m.Tuck_mm), min(r[len(r)-1].Place_mm, m.Place_mm+m.Tuck_mm)
}

// alike_mm is how near two lengths are that no hand can tell apart.
const alike_mm = 1e-6

// Regular reports whether every set is like its neighbour: panels of one length and
// one room, and the folds of a kind sewn alike.
func (r Row) Regular() bool {
	for i := range len(r) - 1 {
		if math.Abs(r.Panel(i)-r.Panel(0)) > alike_mm || math.Abs(r.Pitch(i)-r.Pitch(0)) > alike_mm {
			return false
		}
	}
	for k := 2; k < len(r); k++ {
		if r[k].Fold != r[k-2].Fold || r[k].Edge != r[k-2].Edge || math.Abs(r[k].Tuck_mm-r[k-2].Tuck_mm) > alike_mm {
			return false
		}
	}
	return true
}
