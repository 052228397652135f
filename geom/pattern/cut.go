package pattern

import (
	"fmt"
	"math"
	"strconv"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// mostSide is the greatest number of pieces side by side that is tried along the
// warp: beyond it the strip is joined from scraps.
const mostSide = 40

// tiny is a length in mm far below a thread, for what is in the last bits of sums.
const tiny = 1e-6

func usable(s scheme.Strip) float64 { return s.Bolt - 2*s.Selvedge }

// keeps is the fraction of its length that the cloth keeps in the first wash,
// along the given thread.
func keeps(s scheme.Strip, along scheme.Along) float64 {
	if along == scheme.Warp {
		return 1 - s.ShrinkWarp/100
	}
	return 1 - s.ShrinkWeft/100
}

// cuts gives every way of cutting the strip: along the weft, then along the warp
// with 1, 2, 3, … pieces side by side.
func (p Pattern) cuts() []Cut {
	s := p.Plan.Scheme.Strip
	washed := usable(s) * keeps(s, scheme.Weft)
	cuts := []Cut{p.cut(scheme.Weft, 1, washed)}
	side := int((washed + tiny) / p.Strip.Width_mm)
	for n := 1; n <= min(side, mostSide); n++ {
		c := p.cut(scheme.Warp, n, p.evenReach(n))
		if n > 1 && c.ToCut() < n {
			continue // as few pieces as a way before it
		}
		cuts = append(cuts, c)
	}
	return cuts
}

// cut makes one way of cutting, with pieces no longer than reach.
func (p Pattern) cut(along scheme.Along, side int, reach float64) Cut {
	c := Cut{Along: along, Side: side}
	c.Pieces, c.Joins = p.pieces(reach)
	c.Layout = p.layOut(c)
	c.Buy = buy(c.Layout.Length_mm)
	return c
}

// ToCut is the number of pieces that are cut.
func (c Cut) ToCut() int {
	n := len(c.Pieces)
	if n > 0 && c.Pieces[0].AtHand {
		n--
	}
	return n
}

func (c Cut) way() Way {
	w := Way{Along: c.Along, Side: c.Side, Pieces: c.ToCut(), Joins: len(c.Joins), Buy: c.Buy}
	for _, j := range c.Joins {
		if !j.Hidden {
			w.Shown++
		}
	}
	return w
}

// joinWorth is the cloth in mm that a join is weighed against.
const joinWorth = 100

// before orders ways: those whose joins are hidden, then the least of cloth and joins.
func (w Way) before(v Way) bool {
	if w.Shown != v.Shown {
		return w.Shown < v.Shown
	}
	a, b := w.Buy.Metric_mm+joinWorth*float64(w.Joins), v.Buy.Metric_mm+joinWorth*float64(v.Joins)
	if a != b {
		return a < b
	}
	return w.Joins < v.Joins
}

// buy rounds a length up as cloth is sold.
func buy(need float64) Buy {
	return Buy{Need_mm: need, Metric_mm: 100 * math.Ceil(need/100), Eighths: int(math.Ceil(need / eighthYard))}
}

func checkPlan(p pleat.Plan) error {
	bad := func(value, why, allowed string) error {
		return scheme.Error{Field: "plan", Value: word.Name(value), Why: word.Say(why), Allowed: word.Say(allowed)}
	}
	if p.Panels < 1 || len(p.Row) != p.Panels+1 {
		return bad(fmt.Sprintf("%d marks and %d panels", len(p.Row), p.Panels), "is no plan that can be cut", "what pleat.NewPlan made")
	}
	last := math.Inf(-1)
	for _, m := range p.Row {
		if !(m.Place_mm > last) || math.IsInf(m.Place_mm, 0) {
			return bad(text(m.Place_mm)+" mm", "is a mark out of order", "what pleat.NewPlan made")
		}
		last = m.Place_mm
	}
	s := p.Scheme.Strip
	for _, v := range []float64{p.Scheme.Ruff.Depth, usable(s), keeps(s, scheme.Warp), keeps(s, scheme.Weft), p.Panel_mm} {
		if !(v > 0) || math.IsInf(v, 0) {
			return bad(text(v), "is a size that no cloth has", "a plan of a valid scheme")
		}
	}
	for _, v := range []float64{s.Hem, s.Takeup, s.Join, s.Have, p.Neckline_mm, p.Band_mm, p.Pitch_mm, p.Scheme.Band.Height, p.Scheme.Band.Seam, p.Scheme.Band.Overlap} {
		if !(v >= 0) || math.IsInf(v, 0) {
			return bad(text(v), "is a size that no cloth has", "a plan of a valid scheme")
		}
	}
	if reach := usable(s) * keeps(s, scheme.Weft); reach <= 2*s.Join+1 {
		return scheme.Error{Field: "strip.bolt", Value: word.Say("%s mm", text(s.Bolt)), Why: word.Say("less selvedges and shrinkage leaves %s mm, which two joins use up", text(reach)), Allowed: word.Say("a wider cloth")}
	}
	return nil
}

func tooWide(p Pattern) error {
	s := p.Plan.Scheme.Strip
	return scheme.Error{
		Field: "strip.bolt", Value: word.Say("%s mm", text(s.Bolt)),
		Why:     word.Say("less selvedges and shrinkage leaves %s mm, but a strip along the warp is %s mm wide", text(usable(s)*keeps(s, scheme.Weft)), text(p.Strip.Width_mm)),
		Allowed: word.Say("a wider cloth, or %s %s", word.Key("strip.along"), scheme.Weft),
	}
}

func text(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
}
