package pattern

import (
	"math"
	"slices"
	"strconv"

	"ruffwright/geom/scheme"
)

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

// thirtySecond of an inch in mm; the inch is 25.4 mm by definition since 1959.
const thirtySecond = 25.4 / 32

// step is what places are rounded to: 0.5 mm, or 1/32 in for inches.
func step(u scheme.Units) float64 {
	if u == scheme.Inches {
		return thirtySecond
	}
	return 0.5
}

// Marks gives the table of marks, rounded to 0.5 mm (mm and cm) or 1/32 in. Every
// place is rounded by itself from its exact place: none is off by more than half a
// step, however long the strip. Places do not decrease; they strictly increase
// where marks lie at least a step apart (planned ones are 5 mm apart or more).
//
// A tuck of less than a millionth of a millimetre is none. A join in the spare
// stands behind the last mark.
func (p Pattern) Marks(u scheme.Units) Table {
	t := Table{Units: u, Step_mm: step(u), Hem_mm: p.Strip.Hem_mm}
	marks := p.Plan.Row
	t.Rows = make([]Row, 0, len(marks)+len(p.Cut.Joins))
	set := 1
	for k, m := range marks {
		if k > 0 && m.Fold == marks[0].Fold && k < len(marks)-1 {
			set++
		}
		row := Row{
			Mark: k, Set: set, Fold: m.Fold, Edge: m.Edge, Quarter: m.Quarter,
			Place: t.place(m.Place_mm), Raw: t.place(m.Place_mm + t.Hem_mm),
		}
		if m.Tuck_mm > tiny {
			row.Tucked = true
			from, to := marks.Stitch(k)
			row.TuckA, row.TuckB = t.place(from), t.place(to)
		}
		t.Rows = append(t.Rows, row)
	}
	for _, j := range p.Cut.Joins {
		if j.Mark >= 0 {
			t.Rows[j.Mark].Join = true
		}
	}
	for _, j := range p.Cut.Joins {
		if j.Mark >= 0 {
			continue
		}
		row := Row{Mark: -1, Join: true, Place: t.place(j.Place_mm), Raw: t.place(j.Place_mm + t.Hem_mm)}
		i, _ := slices.BinarySearchFunc(t.Rows, j.Place_mm, func(r Row, at float64) int {
			if r.Place.Exact_mm < at {
				return -1
			}
			return 1
		})
		row.Set = t.Rows[max(i-1, 0)].Set
		t.Rows = slices.Insert(t.Rows, i, row)
	}
	c := 0
	for i := range t.Rows {
		for c+1 < len(p.Cut.Pieces) && t.Rows[i].Place.Exact_mm > p.Cut.Pieces[c].To_mm {
			c++
		}
		t.Rows[i].Piece = p.Cut.Pieces[c].Number
	}
	return t
}

// place rounds one place. A place that lies half way in all but its last bits goes
// up, so that every machine prints the same table.
func (t Table) place(mm float64) Place {
	return Place{Exact_mm: mm, Steps: int(math.Floor(mm/t.Step_mm + 0.5 + 1e-9))}
}

// Text gives the rounded place in the table's unit, bare, for people: "1234.5" mm,
// "123.45" cm, "48 19/32" in.
func (t Table) Text(p Place) string {
	if t.Units == scheme.Inches {
		return scheme.BareLength(t.Rounded_mm(p), scheme.Inches)
	}
	return t.decimal(p)
}

// decimal gives the rounded place in the table's unit as an exact decimal number:
// 1 decimal of mm, 2 of cm, 5 of inches (1/32 = 0.03125).
func (t Table) decimal(p Place) string {
	switch t.Units {
	case scheme.Inches:
		return strconv.FormatFloat(float64(p.Steps)/32, 'f', 5, 64)
	case scheme.Centimetres:
		return strconv.FormatFloat(float64(p.Steps)/20, 'f', 2, 64)
	}
	return strconv.FormatFloat(float64(p.Steps)/2, 'f', 1, 64)
}
