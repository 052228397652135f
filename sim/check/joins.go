package check

import (
	"math"

	"ruffwright/geom/pattern"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

var joinsLaw = law{Rule: Rule{"joins", "A join shows", Mend, 0, "joins", "no join but in a bottom fold", practice, WhereJoins, FromGeometry},
	find: (*view).joins}

// joins: the pattern moves every join back to a bottom fold, which hides it; one
// shows where no bottom fold is in a piece's reach.
func (v *view) joins() (seen, bool) {
	var s seen
	if !v.joinsMayShow(v.p) {
		return s, false
	}
	n, all, places := showingJoins(v.p)
	if s.value = float64(n); n == 0 {
		return s, false
	}
	for _, mm := range places {
		s.atMarks(v.nearestMark(mm))
	}
	s.sentence = word.Count(n, "Of the %s of the strip, %d falls where no bottom fold hides it: a set takes %s, more than the piece before it reaches.",
		"Of the %s of the strip, %d fall where no bottom fold hides it: a set takes %s, more than the piece before it reaches.",
		word.Count(all, "%d join", "%d joins", all), n, v.len(2*v.p.Panel_mm))
	offer := func(changes []Change, english string, with ...any) {
		if p, ok := v.planWith(changes); ok {
			if n, _, _ := showingJoins(&p); n == 0 {
				s.offer(changes, english, with...)
			}
		}
	}
	if v.s.Strip.Along == scheme.Weft {
		offer([]Change{to("strip.along", string(scheme.Warp))}, "Cut the strip along the warp, in pieces as long as it needs.")
	}
	if v.s.Strip.Have > 0 {
		offer([]Change{to("strip.have", "0")}, "Leave the short piece at hand and cut the strip anew.")
	}
	// A piece as wide as the cloth must hold its two joins, the end hem and a set.
	trim := v.s.Strip
	need := v.widestSet(v.p) + 4*trim.Join + 2*trim.Hem*float64(trim.HemTurns)
	if bolt := math.Ceil((need/(1-trim.ShrinkWeft/100)+2*trim.Selvedge)/50) * 50; bolt > trim.Bolt {
		offer([]Change{toMM("strip.bolt", bolt)}, "Take a cloth %s wide.", v.len(bolt))
	}
	return s, true
}

// widestSet is the longest way along the strip from one bottom fold to the next,
// or from an end, mm.
func (v *view) widestSet(p *pleat.Plan) float64 {
	last, widest := 0., 0.
	for _, m := range p.Row {
		if m.Fold == scheme.Trough {
			widest = math.Max(widest, m.Place_mm-last)
			last = m.Place_mm
		}
	}
	return math.Max(widest, p.Marked_mm-last)
}

// joinsMayShow spares the pattern where a piece of any way of cutting reaches a
// bottom fold from whatever bottom fold it begins at: across the cloth a piece is
// as long as the washed bolt is wide, along it pieces are as long as they need be,
// and a strip at hand as long as it is.
func (v *view) joinsMayShow(p *pleat.Plan) bool {
	s := p.Scheme.Strip
	need := v.widestSet(p) + 2*s.Join + 2*s.Hem*float64(s.HemTurns)
	if s.Have > 0 && s.Have < need {
		return true
	}
	return s.Along == scheme.Weft && (s.Bolt-2*s.Selvedge)*(1-s.ShrinkWeft/100) < need
}

// showingJoins counts the joins that the pattern cannot hide, and all of them, and gives
// the places of the former along the strip, mm. A plan that gives no pattern has
// none.
func showingJoins(p *pleat.Plan) (show, all int, places []float64) {
	pat, err := pattern.New(*p)
	if err != nil {
		return 0, 0, nil
	}
	for _, j := range pat.Cut.Joins {
		if !j.Hidden {
			show++
			places = append(places, j.Place_mm)
		}
	}
	return show, len(pat.Cut.Joins), places
}
