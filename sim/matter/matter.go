// Package matter finds which fields of a scheme move the height, the droop and the swing
// of its ruff most, and by how much.
package matter

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"
	"strconv"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/measure"
	"ruffwright/sim/window"
)

// Moved are the figures that are asked after.
var Moved = [...]measure.Figure{measure.Height, measure.Droop, measure.Bow}

// Figures is one length for each figure of Moved, mm.
type Figures [len(Moved)]float64

// Point is what the ruff comes to with another value of a field.
type Point struct {
	Value float64 `json:"value"` // of the field, in its unit
	At    Figures `json:"at"`
}

// Field is a field that matters, and how.
type Field struct {
	Key   string  `json:"key"`
	Now   float64 `json:"now"`   // its value, filled in where the scheme leaves it open
	Step  float64 `json:"step"`  // a tenth more, or less where more cannot be
	Moves Figures `json:"moves"` // what that step changes
	// Points go from the least value that was tried to the most, Now among them. Values
	// that cannot be sewn or solved are left out.
	Points []Point `json:"points"`
}

// candidates are the keys of the fields of numbers that decide how a ruff hangs.
var candidates = []string{
	"ruff.sets", "ruff.depth", "pleat.panel", "pleat.tuck_top", "pleat.tuck_bottom", "band.height", "wearer.girth",
	"cloth.mass", "cloth.bend_warp", "cloth.bend_weft", "starch.bend", "starch.quality", "starch.stick", "support.drop",
}

const (
	// Most is how many fields are told.
	Most = 3
	// tenth is the step by which fields are compared.
	tenth = 0.1
	// far and steps are how far a field that matters is followed to both sides, as a part
	// of its value, and in how many steps to each.
	far, steps = 0.3, 4
)

// quick leaves out of a solve what is not asked after, on the coarse grid: how the
// figures change is seen there too.
var quick = sim.Options{Grid: window.Coarse, SkipOther: true, SkipTangents: true, SkipFiner: true}

// Find gives the fields that matter most, the most first, each by its largest move against
// the limit of that figure. told, which may be nil, is given each as soon as it is known.
// solve nil means sim.Solve.
//
// An error means bad input, a ruff that cannot be solved or a cancelled context.
func Find(ctx context.Context, s scheme.Scheme, solve check.Solver, told func(Field)) ([]Field, error) {
	if solve == nil {
		solve = sim.Solve
	}
	r, err := sim.Draw(s)
	if err != nil {
		return nil, err
	}
	if _, err := sim.Design(r); err != nil {
		return nil, err
	}
	f := finding{ctx: ctx, s: s, full: r.Plan.Scheme, solve: solve}
	f.full.Pleat.Panel = r.Plan.Panel_mm
	now, ok, err := f.at(s)
	if err != nil || !ok {
		return nil, cmp.Or(err, errNone)
	}
	var all []Field
	for _, key := range candidates {
		q, ok, err := f.step(key, now)
		if err != nil {
			return nil, err
		}
		if ok {
			all = append(all, q)
		}
	}
	want := s.Looked().Ruff.Height
	slices.SortStableFunc(all, func(a, b Field) int { return cmp.Compare(weight(b.Moves, want), weight(a.Moves, want)) })
	all = all[:min(Most, len(all))]
	for i := range all {
		if err := f.follow(&all[i], now); err != nil {
			return nil, err
		}
		if told != nil {
			told(all[i])
		}
	}
	return all, nil
}

var errNone = errors.New("the cloth did not come to rest")

// weight is how much a move is, against the limits of the three figures.
func weight(m Figures, height_mm float64) (most float64) {
	for k, x := range m {
		most = math.Max(most, math.Abs(x)/Limits(height_mm)[k])
	}
	return most
}

// Limits are how far the figures may be off: the height from the wanted one, either way;
// droop and swing at most.
func Limits(height_mm float64) Figures {
	l := check.Limits()
	return Figures{check.HeightSeen * height_mm, l.Droop_mm, l.Bow_mm}
}

// finding is a Find under way.
type finding struct {
	ctx     context.Context
	s, full scheme.Scheme // as given, and filled in
	solve   check.Solver
}

// at solves a scheme, on a round neck, where all half sets are alike. ok is false where it
// did not come to rest or has no mechanics.
func (f *finding) at(s scheme.Scheme) (at Figures, ok bool, err error) {
	s.Wearer.Ratio = 1
	r, err := f.solve(f.ctx, s, quick)
	if f.ctx.Err() != nil {
		return at, false, f.ctx.Err()
	}
	m := r.Measured()
	if err != nil || m == nil || !m.BowDone {
		return at, false, nil
	}
	all := m.Figures()
	for k, figure := range Moved {
		at[k] = all[figure]
	}
	return at, true, nil
}

// with solves the scheme with another value of a field.
func (f *finding) with(field scheme.Field, value float64) (Point, bool, error) {
	if field.Kind == scheme.KindCount {
		value = math.Round(value)
	}
	value = min(max(math.Round(100*value)/100, field.Min), field.Max)
	s := f.s
	if s.Set(field.Key, strconv.FormatFloat(value, 'f', -1, 64)) != nil {
		return Point{}, false, nil
	}
	at, ok, err := f.at(s)
	return Point{value, at}, ok, err
}

// step gives what a tenth of a field moves, ok false where it cannot be told or moves
// nothing.
func (f *finding) step(key string, now Figures) (q Field, ok bool, err error) {
	field, ok := scheme.Lookup(key)
	value := field.Number(f.full)
	if !ok || value == 0 {
		return q, false, nil
	}
	field = field.For(f.s)
	for _, part := range []float64{tenth, -tenth} {
		p, ok, err := f.with(field, value*(1+part))
		if err != nil {
			return q, false, err
		}
		if !ok || p.Value == value {
			continue
		}
		q = Field{Key: key, Now: value, Step: p.Value - value, Points: []Point{p, {value, now}}}
		for k, x := range p.At {
			q.Moves[k] = x - now[k]
		}
		return q, q.Moves != Figures{}, nil
	}
	return q, false, nil
}

// follow solves a field from far below its value to far above it.
func (f *finding) follow(q *Field, now Figures) error {
	field, _ := scheme.Lookup(q.Key)
	field = field.For(f.s)
	for k := -steps; k <= steps; k++ {
		value := q.Now * (1 + far*float64(k)/steps)
		if k == 0 {
			continue
		}
		p, ok, err := f.with(field, value)
		if err != nil {
			return err
		}
		if ok && !slices.ContainsFunc(q.Points, func(o Point) bool { return o.Value == p.Value }) {
			q.Points = append(q.Points, p)
		}
	}
	slices.SortFunc(q.Points, func(a, b Point) int { return cmp.Compare(a.Value, b.Value) })
	return nil
}
