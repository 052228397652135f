package pleat

import (
	"math"
	"slices"

	"ruffwright/geom"
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
	p.Row = make(Row, len(own))
	for i, m := range own {
		p.Row[i] = Mark{Place_mm: m.Place - own[0].Place, Fold: m.Fold, Edge: m.Sewn}
	}
	p.Panels = len(own) - 1
	p.sewEvenly()
	p.Marked_mm = p.Row[p.Panels].Place_mm
	p.Panel_mm = p.Marked_mm / float64(p.Panels)
	p.Row.tuck(p.Scheme.Pleat)
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
	p.Row = make(Row, p.Panels+1)
	fold := s.Pleat.First
	for k := range p.Row {
		p.Row[k] = Mark{Fold: fold, Edge: sewnTo(s.Pleat, fold)}
		fold = other(fold)
	}
	p.sewEvenly()
	p.Row.tuck(s.Pleat)
	p.Panel_mm = s.Pleat.Panel
	if p.Panel_mm == 0 {
		if err := p.fitPanel(); err != nil {
			return err
		}
	}
	for k := range p.Row {
		p.Row[k].Place_mm = float64(k) * p.Panel_mm
	}
	p.Marked_mm = p.Row[p.Panels].Place_mm
	return nil
}

// sewnTo is the edge that a planned fold is sewn to: with both edges crests to
// the top and troughs to the bottom; with one edge the folds of pleat.sewn.
func sewnTo(s scheme.Pleat, f scheme.Fold) scheme.Edge {
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

// tuck gives every sewn fold the tuck of its kind; a fold that is not sewn has none.
func (r Row) tuck(s scheme.Pleat) {
	for k := range r {
		m := &r[k]
		switch {
		case m.Edge == scheme.EdgeNone:
			m.Tuck_mm = 0
		case m.Fold == scheme.Crest:
			m.Tuck_mm = s.TuckTop
		default:
			m.Tuck_mm = s.TuckBottom
		}
	}
}

// AsGiven is the row with tucks as deep as the scheme gave them, which a fitted
// panel may have made shallower.
func (p Plan) AsGiven() Row {
	r := slices.Clone(p.Row)
	r.tuck(p.Given.Pleat)
	return r
}

// other is the fold that follows f.
func other(f scheme.Fold) scheme.Fold {
	if f == scheme.Crest {
		return scheme.Trough
	}
	return scheme.Crest
}

// sewEvenly gives every panel the same room along the neckline, the row centred on it
// so that what is left open, or laps over, lies half at either side of the opening.
func (p *Plan) sewEvenly() {
	half := p.Pitch_mm / 2
	first := (p.Neckline_mm - float64(p.Panels)*half) / 2
	for k := range p.Row {
		p.Row[k].Station_mm, p.Row[k].Pitch_mm = math.FMA(float64(k), half, first), half
	}
	p.Row[p.Panels].Pitch_mm = 0
}

// station is the neckline where fold k is sewn.
func (p Plan) station(k int) geom.Station { return p.Neckline.At(p.Row[k].Station_mm) }

// Edge_mm is the height of an edge of the band over its bottom edge.
func (p Plan) Edge_mm(e scheme.Edge) float64 {
	if e == scheme.EdgeTop {
		return p.Scheme.Band.Height
	}
	return 0
}

// pinQuarters finds the marks that are pinned at the quarters of the sewn row: the
// folds that sit exactly there. A fold that hangs free cannot be pinned to the band:
// the next sewn one is, at the row's end the one before.
func (p *Plan) pinQuarters() {
	sewn := func(k int) bool { return k <= p.Panels && p.Row[k].Edge != scheme.EdgeNone }
	for k := range p.Row {
		quarters := 4 * p.Row.Along(k) / p.Row.Along(p.Panels)
		if math.Abs(quarters-math.Round(quarters)) > 1e-9 { // far below one fold of the most there can be
			continue
		}
		at := k
		for at <= p.Panels && !sewn(at) {
			at++
		}
		for at > p.Panels || at > 0 && !sewn(at) {
			at--
		}
		p.Row[at].Quarter = sewn(at)
	}
}
