package pleat

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// takeOwnMarks lays out the maker's own marks: places from the first of them,
// strictly increasing, crests and troughs in turn (Scheme.Validate sees to both).
func (p *Plan) takeOwnMarks() error {
	own := p.Scheme.Pleat.Marks
	if len(own) < 2 {
		return scheme.Error{
			Field: "pleat.marks", Value: word.Count(len(own), "%d mark", "%d marks", len(own)),
			Allowed: word.Say("none (planned marks) or at least 2"),
			Why:     word.Say("a panel needs a mark at either side"),
		}
	}
	p.Marks = make([]Mark, len(own))
	for i, m := range own {
		p.Marks[i] = Mark{Place_mm: m.Place - own[0].Place, Fold: m.Fold, Edge: m.Sewn}
		p.Marks[i].Tuck_mm = p.tuck(m.Fold, m.Sewn)
	}
	p.Panels = len(own) - 1
	p.Sets = len(own) / 2
	p.Marked_mm = p.Marks[p.Panels].Place_mm
	p.Panel_mm = p.Marked_mm / float64(p.Panels)
	return nil
}

// planMarks places the planned marks: mark k at k × panel from one end, never
// step by step, so that rounding cannot accumulate.
func (p *Plan) planMarks() error {
	s := p.Scheme
	p.Panels = 2 * p.Sets
	if s.Pleat.First != s.Pleat.Last {
		p.Panels--
	}
	p.Panel_mm = s.Pleat.Panel
	if p.Panel_mm == 0 {
		if err := p.fitPanel(); err != nil {
			return err
		}
	}
	p.Marks = make([]Mark, p.Panels+1)
	fold := s.Pleat.First
	for k := range p.Marks {
		edge := p.sewnTo(fold)
		p.Marks[k] = Mark{
			Place_mm: float64(k) * p.Panel_mm,
			Fold:     fold, Edge: edge, Tuck_mm: p.tuck(fold, edge),
		}
		fold = other(fold)
	}
	p.Marked_mm = p.Marks[p.Panels].Place_mm
	return nil
}

// sewnTo is the edge that a planned fold is sewn to: with both edges crests to
// the top and troughs to the bottom; with one edge the folds of pleat.sewn.
func (p Plan) sewnTo(f scheme.Fold) scheme.Edge {
	s := p.Scheme.Pleat
	if s.Anchor == scheme.AnchorBoth {
		if f == scheme.Crest {
			return scheme.EdgeTop
		}
		return scheme.EdgeBottom
	}
	if (s.Sewn == scheme.Crests) != (f == scheme.Crest) {
		return scheme.EdgeNone
	}
	if s.Anchor == scheme.AnchorTop {
		return scheme.EdgeTop
	}
	return scheme.EdgeBottom
}

// tuck is the tuck depth in mm at a fold sewn to e; none where it is not sewn.
func (p Plan) tuck(f scheme.Fold, e scheme.Edge) float64 {
	switch {
	case e == scheme.EdgeNone:
		return 0
	case f == scheme.Crest:
		return p.Scheme.Pleat.TuckTop
	}
	return p.Scheme.Pleat.TuckBottom
}

// other is the fold that follows f.
func other(f scheme.Fold) scheme.Fold {
	if f == scheme.Crest {
		return scheme.Trough
	}
	return scheme.Crest
}

// stationOf is where fold k sits along the neckline in mm, the row centred on the
// neckline so that what is left open, or laps over, lies half at either side of
// the opening.
func (p Plan) stationOf(k int) float64 {
	half := p.Pitch_mm / 2
	first := (p.Neckline_mm - float64(p.Panels)*half) / 2
	return math.FMA(float64(k), half, first)
}
