package measure

import "math"

// Figure is one of the lengths that a maker measures on the ruff when it is made.
type Figure int

// The figures, in the order in which they are told.
const (
	Height  Figure = iota // at the outer edge
	Droop                 // of the outer edge
	Bow                   // how far the outer edge moves when the wearer bows
	Loop                  // its clear width, of the narrower one
	Reach                 // outer edge from the neck
	Figures               // how many they are
)

// Lengths are one length for each figure, mm.
type Lengths [Figures]float64

// Figures are what was measured of each.
func (v *Values) Figures() Lengths {
	return Lengths{v.HeightOuter_mm, v.Droop_mm, v.Bow_mm, v.Loop_mm, v.Reach_mm}
}

// Row is the row of the table of measures in which the figure stands.
func (f Figure) Row() *Measure {
	v := new(Values)
	return Row(v, [Figures]*float64{&v.HeightOuter_mm, &v.Droop_mm, &v.Bow_mm, &v.Loop_mm, &v.Reach_mm}[f])
}

// Known says whether the figure was measured.
func (f Figure) Known(v *Values) bool { return f.Row().Known(v) }

// farther keeps for each figure the larger move of the two, with its sign.
func (l Lengths) farther(m Lengths) Lengths {
	for f, x := range m {
		if x*x > l[f]*l[f] {
			l[f] = x
		}
	}
	return l
}

// Less gives the figures less those of m.
func (l Lengths) Less(m Lengths) Lengths {
	for f, x := range m {
		l[f] -= x
	}
	return l
}

// Positive says that the figure cannot be less than 0.
func (f Figure) Positive() bool { return f == Bow || f == Loop || f == Reach }

// Surest_mm is how sure a figure of that size is at best: what solves of half sets, tucked
// or not, moved by on other meshes (Alike).
func (f Figure) Surest_mm(size float64, tucked bool) float64 {
	if f == Bow {
		return Move.Within(Sets{Tucked: tucked}, math.Abs(size))
	}
	return Shape.Within(Sets{Tucked: tucked}, math.Abs(size))
}
