package figure

import (
	"fmt"
	"math"

	"ruffwright/geom"
	"ruffwright/geom/pleat"
)

// Outline is a ruff in a few lines, mm, to set beside another of the same look. Each line
// is a row of places {along, up}: up over the band's bottom edge.
type Outline struct {
	Band_mm float64 `json:"band_mm"` // height of the band

	// One set cut from the neck outward, along how far that is: its top fold and its bottom
	// fold, and the same as the wearer bows (none where that was not solved). It is the set
	// that then moves most.
	Crest       Line `json:"crest"`
	Trough      Line `json:"trough"`
	BowedCrest  Line `json:"bowed_crest,omitempty"`
	BowedTrough Line `json:"bowed_trough,omitempty"`

	// Seen end on, along the neckline: the outer edge of a set with its neighbours, from the
	// middle of the strip; and that of its first three panels, from the opening.
	Set Line `json:"set"`
	End Line `json:"end"`
}

// Line is a line of an Outline.
type Line [][2]float64

// NewOutline draws the lines of a ruff; bowed is its shape as the wearer bows, nil where
// that is not known. Places are rounded to 0.1 mm.
func NewOutline(plan pleat.Plan, shape pleat.Shape, bowed *pleat.Shape) (o Outline, err error) {
	if err := checkShape(plan, shape); err != nil {
		return o, err
	}
	if bowed != nil && len(bowed.Panels) != len(shape.Panels) {
		bowed = nil
	}
	o.Band_mm = tenth(plan.Scheme.Band.Height)
	m := len(shape.Panels) / 2
	if bowed != nil {
		m = farthest(shape, *bowed)
	}
	rest := newSection(plan, shape, m, nil)
	o.Crest, o.Trough = rest.outward(rest)
	if bowed != nil {
		o.BowedCrest, o.BowedTrough = newSection(plan, *bowed, m, nil).outward(rest)
	}
	s := &sheet{plan: plan, shape: shape}
	_, set, err := s.shownSet()
	if err != nil {
		return o, err
	}
	o.Set = set.outer()
	n := min(3, len(shape.Panels))
	end := unroll(plan, shape, nil, 0, n, min(1, n))
	o.End = end.outer()
	return o, nil
}

// farthest is the panel whose outer edge moves most from one shape to the other.
func farthest(rest, bowed pleat.Shape) (panel int) {
	most := -1.0
	for k, p := range rest.Panels {
		for _, at := range []int{rest.NV, len(p.V) - 1} { // the outer edge at its two folds
			if far := p.V[at].Sub(bowed.Panels[k].V[at]).Norm(); far > most+1e-9 {
				most, panel = far, k
			}
		}
	}
	return panel
}

// outward are the lines of the top and the bottom fold from the neck outward, as of
// another section's place on the neckline.
func (c *section) outward(of *section) (crest, trough Line) {
	line := func(places []geom.Vec3) (l Line) {
		for _, v := range places {
			l = append(l, [2]float64{tenth(v.Sub(of.zero).Dot(of.eye.Right)), tenth(v.Z)})
		}
		return l
	}
	return line(c.crest), line(c.trough)
}

// outer is the line of the outer edge, from the first of its places at 0.
func (u *unrolled) outer() (l Line) {
	row := u.c.rows - 1
	step := max(1, u.c.per/24)
	from := u.c.at(0, row).X
	for col := 0; col < u.c.cols; col += step {
		v := u.c.at(col, row)
		l = append(l, [2]float64{tenth(v.X - from), tenth(v.Z)})
	}
	return l
}

func tenth(mm float64) float64 { return math.Round(mm*10) / 10 }

// Check is the error of an outline that cannot be drawn.
func (o *Outline) Check() error {
	for _, l := range []Line{o.Crest, o.Trough, o.BowedCrest, o.BowedTrough, o.Set, o.End} {
		if len(l) > mostPlaces {
			return fmt.Errorf("a line of %d places; allowed are %d", len(l), mostPlaces)
		}
		for _, p := range l {
			if !(math.Abs(p[0]) < farOff_mm && math.Abs(p[1]) < farOff_mm) {
				return fmt.Errorf("a place at %v; allowed is up to %d mm", p, farOff_mm)
			}
		}
	}
	if !(o.Band_mm >= 0 && o.Band_mm < farOff_mm) {
		return fmt.Errorf("a band of %g mm", o.Band_mm)
	}
	return nil
}

const (
	mostPlaces = 1000
	farOff_mm  = 10000
)
