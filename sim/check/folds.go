package check

import (
	"fmt"
	"math"

	"ruffwright/geom/scheme"
)

// ends: an end on a trough lies low and its flap falls; on a crest it stands.
func (v *view) ends() (seen, bool) {
	wish, against := scheme.Trough, "top fold, so its flap turns up"
	name, word := "bottom fold", "falls"
	if v.s.Ruff.Ends == scheme.Stand {
		wish, against = scheme.Crest, "bottom fold, so its flap falls"
		name, word = "top fold", "stands"
	}
	last := len(v.p.Row) - 1
	var s seen
	var changes []Change
	at := ""
	if v.p.Row[0].Fold != wish {
		s.value++
		s.atMarks(1)
		at = "begins"
		changes = append(changes, to("pleat.first", string(wish)))
	}
	if v.p.Row[last].Fold != wish {
		s.value++
		s.atMarks(last + 1)
		if at != "" {
			at += " and "
		}
		at += "ends"
		changes = append(changes, to("pleat.last", string(wish)))
	}
	if s.value == 0 {
		return s, false
	}
	s.says("The strip %s on a %s at the opening; you want it to %s.", at, against, map[string]string{"falls": "fall", "stands": "stand"}[word])
	if v.p.MarksOwn {
		changes = []Change{asIn(v.s.EndsOn(wish), "pleat.marks")[0]}
		s.offer(changes, "Cut the strip at the next mark, so that it begins and ends on a %s; there is then half a set less for each end cut.", name)
	} else {
		s.offer(changes, "Begin and end the strip on a %s: then the end flap %s.", name, word)
	}
	return s, true
}

// flaps: where one kind of fold is sewn, crests let the loops hang and troughs
// let them stand above the sewn row. With both kinds sewn they are held.
func (v *view) flaps() (seen, bool) {
	var crests, troughs int
	edge := scheme.EdgeNone
	for _, m := range v.p.Row {
		if m.Edge == scheme.EdgeNone {
			continue
		}
		edge = m.Edge
		if m.Fold == scheme.Crest {
			crests++
		} else {
			troughs++
		}
	}
	var s seen
	var name, other, goes, wish string
	switch {
	case crests > 0 && troughs > 0:
		return s, false
	case v.s.Ruff.Flaps == scheme.Fall && troughs > 0:
		s.value, name, other, goes, wish = float64(troughs), "bottom folds", "top folds", "stand above the sewn row", "to fall"
	case v.s.Ruff.Flaps == scheme.Stand && crests > 0:
		s.value, name, other, goes, wish = float64(crests), "top folds", "bottom folds", "hang below the sewn row", "to stand"
	default:
		return s, false
	}
	s.says("The %s are sewn to the %s edge of the band, so the loops %s; you want them %s.", name, edge, goes, wish)
	if v.measures() != nil && name == "bottom folds" && v.sunk() && v.beyondLevel(v.worstTilted()) < 0 {
		s.says("The %s are sewn to the %s edge of the band, so the loops point up, and nothing holds them there: the whole ruff sinks about the neck like a skirt. You want the flaps %s.", name, edge, wish)
	}
	if v.p.MarksOwn {
		s.offer([]Change{v.marksTo(func(_ int, m scheme.Mark) scheme.Mark {
			if m.Sewn != scheme.EdgeNone {
				m.Sewn = scheme.EdgeNone
			} else {
				m.Sewn = edge
			}
			return m
		})}, "Sew the %s instead.", other)
		return s, true
	}
	sewn := scheme.Crests
	if name == "top folds" {
		sewn = scheme.Troughs
	}
	s.offer([]Change{to("pleat.sewn", string(sewn))}, "Sew the %s instead.", other)
	// Both edges, with tucks that leave the inner edge the slack it needs.
	t := tenth((v.p.Panel_mm - slackGood*v.straight()) / 2)
	if t >= 0 && v.allowed("pleat.tuck_top", t) {
		s.offer([]Change{to("pleat.anchor", string(scheme.AnchorBoth)), toMM("pleat.tuck_top", t), toMM("pleat.tuck_bottom", t)},
			"Sew top folds to the top edge and bottom folds to the bottom edge, with tucks %s deep: then both are held.", v.len(t))
	}
	return s, true
}

// marksStep: a top mark belongs midway between its bottom marks, and so on.
func (v *view) marksStep() (seen, bool) {
	var s seen
	if !v.p.MarksOwn {
		return s, false
	}
	worst := 0
	for k := 1; k < v.p.Panels; k++ {
		off := math.Abs(v.p.Row.Panel(k-1)-v.p.Row.Panel(k)) / 2
		if off > s.value {
			s.value, worst = off, k
		}
	}
	s.limit = viewerSees / 100. * v.r.Folded.Mean.HeightOuter_mm / neighbourMoves
	if !(s.value > s.limit) {
		return s, false
	}
	s.atMarks(worst + 1)
	s.says("Mark %d, a %s, lies %s from the middle of its neighbours: the folds beside it will stand about %s too high and too low, and the sets look out of step.",
		worst+1, fold(v.p.Row[worst].Fold), v.len(s.value), v.len(neighbourMoves*s.value))
	step := v.p.Panel_mm
	s.offer([]Change{v.marksTo(func(i int, m scheme.Mark) scheme.Mark {
		m.Place = float64(i) * step
		return m
	})}, "Mark the same strip again from one end, every %s.", v.len(step))
	return s, true
}

// marksSewn: own marks of one kind sewn in different ways.
func (v *view) marksSewn() (seen, bool) {
	var s seen
	if !v.p.MarksOwn {
		return s, false
	}
	first := -1
	for k, m := range v.p.Row {
		if m.Edge != v.p.Row.Sewn(m.Fold) {
			s.value++
			s.atMarks(k + 1)
			if first < 0 {
				first = k
			}
		}
	}
	if s.value == 0 {
		return s, false
	}
	m := v.p.Row[first]
	kind := "top"
	if m.Fold == scheme.Trough {
		kind = "bottom"
	}
	others := ""
	if s.value > 1 {
		others = fmt.Sprintf(" (and %s more)", count(int(s.value)-1, "mark", "marks"))
	}
	s.says("Mark %d%s, a %s, is %s, while most %s folds are %s: that set hangs or stands unlike its neighbours.",
		first+1, others, fold(m.Fold), sewnTo(m.Edge), kind, sewnTo(v.p.Row.Sewn(m.Fold)))
	s.offer([]Change{v.marksTo(func(_ int, m scheme.Mark) scheme.Mark {
		m.Sewn = v.p.Row.Sewn(m.Fold)
		return m
	})}, "Sew every fold like most of its kind.")
	return s, true
}

// fold is the page's word for f.
func fold(f scheme.Fold) string {
	if f == scheme.Crest {
		return "top fold"
	}
	return "bottom fold"
}

// sewnTo says in words what a fold is sewn to.
func sewnTo(e scheme.Edge) string {
	if e == scheme.EdgeNone {
		return "not sewn"
	}
	return "sewn to the " + string(e) + " edge"
}
