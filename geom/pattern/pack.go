package pattern

import (
	"math"
	"slices"
	"sort"

	"ruffwright/geom/scheme"
)

// squareEnd is what is bought at each end to straighten the shop's cut along a
// drawn thread, in mm (common practice, no source).
const squareEnd = 20

// layOut places everything on the cloth. Pieces of the strip lie in rows: along the
// weft one above another, along the warp side by side. Band and swatches then go, one
// by one, where they lengthen the cloth least, there lowest and leftmost. All keep
// their grain; only a band too long for its grain is turned.
func (p Pattern) layOut(c Cut) Layout {
	s := p.Plan.Scheme.Strip
	l := Layout{
		Bolt_mm: s.Bolt, Selvedge_mm: s.Selvedge, Square_mm: squareEnd,
		ShrinkWarp: s.ShrinkWarp / 100, ShrinkWeft: s.ShrinkWeft / 100,
	}
	x, y := l.Selvedge_mm, l.Square_mm
	top := y
	row := x
	for made := range p.Made {
		// Along the warp the second of a pair lies beside the first, or above it.
		if c.Along == scheme.Warp && x+(x-row) > l.Bolt_mm-l.Selvedge_mm+tiny {
			x, y = row, top
		}
		for _, piece := range c.Pieces {
			if piece.AtHand {
				continue
			}
			q := l.bought(piece.Length_mm, piece.Width_mm, c.Along)
			q.Kind, q.Number, q.Sleeve, q.X_mm, q.Y_mm = KindStrip, piece.Number, p.sleeve(made), x, y
			l.Placed = append(l.Placed, q)
			if c.Along == scheme.Weft {
				y += q.Long_mm
			} else {
				x += q.Wide_mm
			}
			top = math.Max(top, q.Y_mm+q.Long_mm)
		}
	}
	// The rest goes in three orders, as one alone leaves gaps that another fills:
	// what is tallest along the warp first, what is widest first, as listed.
	rest := p.rest(c, &l)
	tallest := slices.Clone(rest)
	sort.SliceStable(tallest, func(i, j int) bool { return l.size(tallest[i]).Long_mm > l.size(tallest[j]).Long_mm })
	widest := slices.Clone(rest)
	sort.SliceStable(widest, func(i, j int) bool { return l.size(widest[i]).Wide_mm > l.size(widest[j]).Wide_mm })
	strips, best := l.Placed, math.Inf(1)
	for _, order := range [][]Swatch{tallest, widest, rest} {
		try, up := l, top
		try.Placed = slices.Clone(strips)
		for _, w := range order {
			up = try.place(w, up)
		}
		if up < best-tiny {
			best, l.Placed = up, try.Placed
		}
	}
	top = best
	l.Length_mm = top + l.Square_mm
	var area float64
	for _, q := range l.Placed {
		area += q.Wide_mm * q.Long_mm
	}
	l.Used = area / (l.Bolt_mm * l.Length_mm)
	return l
}

// sleeve is whose the next of those that are made is, counted from 0.
func (p Pattern) sleeve(made int) Sleeve {
	if p.Made < 2 {
		return NoSleeve
	}
	return LeftSleeve + Sleeve(made)
}

// rest lists what is cut beside the strip, one by one. What is wider than the cloth
// between the selvedges goes into l.Left.
func (p Pattern) rest(c Cut, l *Layout) []Swatch {
	var out []Swatch
	if !p.Band.AtHand {
		band := Swatch{Kind: KindBand, Count: 1, Long_mm: p.Band.CutLong_mm, Wide_mm: p.Band.CutWide_mm, Along: scheme.Warp}
		turned := band
		turned.Along = scheme.Weft
		for made := range p.Made {
			band.Sleeve, turned.Sleeve = p.sleeve(made), p.sleeve(made)
			switch {
			case l.fits(band):
				out = append(out, band)
			case l.fits(turned):
				out = append(out, turned)
			default:
				l.Left = append(l.Left, band)
			}
		}
	}
	for _, w := range p.swatches(c.Along) {
		if !l.fits(w) {
			l.Left = append(l.Left, w)
			continue
		}
		one := w
		one.Count = 1
		for i := range w.Count {
			if w.Count > 1 {
				one.Number = i + 1
			}
			out = append(out, one)
		}
	}
	return out
}

// bought is the size on the cloth as bought of a piece long by wide when washed.
func (l Layout) bought(long, wide float64, along scheme.Along) Placed {
	if along == scheme.Warp {
		long, wide = wide, long
	}
	return Placed{Along: along, Wide_mm: long / (1 - l.ShrinkWeft), Long_mm: wide / (1 - l.ShrinkWarp)}
}

func (l Layout) fits(w Swatch) bool {
	return l.size(w).Wide_mm <= l.Bolt_mm-2*l.Selvedge_mm+tiny
}

func (l Layout) size(w Swatch) Placed { return l.bought(w.Long_mm, w.Wide_mm, w.Along) }

// place puts one piece down and gives the new top of everything placed.
//
// The places tried begin at the left selvedge, at the right edge of something
// placed, or end at the right selvedge. In each, the column as wide as the piece
// is gone up for the first gap that is long enough.
func (l *Layout) place(w Swatch, top float64) float64 {
	q := l.size(w)
	q.Kind, q.Number, q.Sleeve = w.Kind, w.Number, w.Sleeve
	right := l.Bolt_mm - l.Selvedge_mm
	xs := []float64{l.Selvedge_mm, math.Max(l.Selvedge_mm, right-q.Wide_mm)}
	for _, r := range l.Placed {
		xs = append(xs, r.X_mm+r.Wide_mm)
	}
	sort.Float64s(xs)
	xs = slices.CompactFunc(xs, func(a, b float64) bool { return math.Abs(b-a) < tiny })
	byY := slices.Clone(l.Placed)
	sort.SliceStable(byY, func(i, j int) bool { return byY[i].Y_mm < byY[j].Y_mm })
	best := math.Inf(1)
	for _, x := range xs {
		if x+q.Wide_mm > right+tiny {
			continue
		}
		y := l.Square_mm
		for _, r := range byY {
			if r.X_mm >= x+q.Wide_mm-tiny || r.X_mm+r.Wide_mm <= x+tiny {
				continue
			}
			if r.Y_mm-y >= q.Long_mm {
				break
			}
			y = math.Max(y, r.Y_mm+r.Long_mm)
		}
		reach := math.Max(top, y+q.Long_mm)
		if reach < best-tiny || reach < best+tiny && y < q.Y_mm-tiny {
			best, q.X_mm, q.Y_mm = reach, x, y
		}
	}
	l.Placed = append(l.Placed, q)
	return math.Max(top, q.Y_mm+q.Long_mm)
}

// Washed gives the layout on the cloth after its first wash, when it is cut.
// Selvedges and the straightening shrink with it.
func (l Layout) Washed() Layout {
	kx, ky := 1-l.ShrinkWeft, 1-l.ShrinkWarp
	l.Bolt_mm *= kx
	l.Selvedge_mm *= kx
	l.Square_mm *= ky
	l.Length_mm *= ky
	l.ShrinkWarp, l.ShrinkWeft = 0, 0
	l.Placed = slices.Clone(l.Placed)
	for i := range l.Placed {
		q := &l.Placed[i]
		q.X_mm *= kx
		q.Wide_mm *= kx
		q.Y_mm *= ky
		q.Long_mm *= ky
	}
	return l
}
