package pattern

import (
	"cmp"
	"slices"

	"ruffwright/geom/scheme"
)

// Order is what a production buys for several ruffs and cuffs together.
type Order struct {
	Lines     []Line // one for each cloth, by name, then the width of the bolt, then where it first comes
	Thread_mm float64
}

// Line is one cloth of an order: the same kind, washed the same, on the same bolt.
type Line struct {
	Cloth        scheme.Cloth // as filled
	Bolt_mm      float64
	Of           []int   // which of the patterns are cut from it, ascending
	Together     Buy     // bought in one length: Need_mm is the sum of theirs, rounded up once
	Apart_mm     float64 // bought for each by itself, in 10 cm
	ApartEighths int     // the same in 1/8 yd
	Left         int     // how many pieces the bolt is too narrow for
}

// NewOrder sums patterns. Each is cut from its own length, squared at both ends, so
// that lengths bought together are never short: the sum of what each needs is
// rounded up once (TestOrder). A pattern with nothing to cut adds nothing.
func NewOrder(of []Pattern) Order {
	type bolt struct {
		cloth                      scheme.Cloth
		bolt, selvedge, warp, weft float64
	}
	var o Order
	lines := map[bolt]int{}
	for i, p := range of {
		s := p.Plan.Scheme
		o.Thread_mm += p.Work().Thread_mm
		if !(p.Cut.Buy.Need_mm > 0) {
			continue
		}
		key := bolt{s.Cloth, s.Strip.Bolt, s.Strip.Selvedge, s.Strip.ShrinkWarp, s.Strip.ShrinkWeft}
		at, ok := lines[key]
		if !ok {
			at = len(o.Lines)
			lines[key] = at
			o.Lines = append(o.Lines, Line{Cloth: s.Cloth, Bolt_mm: s.Strip.Bolt})
		}
		l := &o.Lines[at]
		l.Of = append(l.Of, i)
		l.Together.Need_mm += p.Cut.Buy.Need_mm
		l.Apart_mm += p.Cut.Buy.Metric_mm
		l.ApartEighths += p.Cut.Buy.Eighths
		for _, w := range p.Cut.Layout.Left {
			l.Left += w.Count
		}
	}
	for i := range o.Lines {
		l := &o.Lines[i]
		l.Together = buy(l.Together.Need_mm)
	}
	slices.SortStableFunc(o.Lines, func(a, b Line) int {
		return cmp.Or(cmp.Compare(a.Cloth.Name, b.Cloth.Name), cmp.Compare(a.Bolt_mm, b.Bolt_mm))
	})
	return o
}
