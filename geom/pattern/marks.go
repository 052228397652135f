package pattern

import "ruffwright/geom/scheme"

// Table is every mark of the strip from one end, each place rounded by itself,
// so that rounding cannot accumulate.
//
// Zero is the strip's first mark, which is its hemmed end: mark when the strip is
// joined and hemmed. Raw places are the same from the raw end before hemming.
type Table struct {
	Units   scheme.Units
	Step_mm float64 // 0.5 mm, or 1/32 in = 0.79375 mm
	Hem_mm  float64 // from the raw end to the hemmed end, what the end hem takes
	Rows    []Row
}

// Row is one line of the table: a mark, or a join that lies on no mark, in order
// along the strip.
type Row struct {
	Mark         int         // index of the plan's mark; -1 for a join beside the marks
	Set          int         // 1, 2, …: the set that the fold belongs to
	Fold         scheme.Fold // "" for a join beside the marks
	Edge         scheme.Edge // of the band that it is sewn to
	Place        Place       // from the first mark
	Raw          Place       // from the raw end
	Tucked       bool        // TuckA and TuckB are brought together
	TuckA, TuckB Place       // the fold lines of the tuck, from the first mark; at the strip's ends only the half on the strip
	Quarter      bool        // pin here
	Join         bool        // a join's seam line lies here
	Piece        int         // number of the piece that it lies on (at a join the piece that ends)
}

// Place is one place along the strip: exactly, and rounded to whole steps.
type Place struct {
	Exact_mm float64
	Steps    int // rounded place = Steps × the table's step
}

// Rounded_mm is the rounded place in mm.
func (t Table) Rounded_mm(p Place) float64 { return float64(p.Steps) * t.Step_mm }
