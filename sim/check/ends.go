package check

import (
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

var endsLaw = law{Rule: Rule{"ends", "An end flap is against the wish", Stop, 0, "ends", "no end may lie against ruff.ends", asked, WhereOpening, FromGeometry},
	find: (*view).ends}

// ends: an end on a trough lies low and its flap falls; on a crest it stands.
func (v *view) ends() (seen, bool) {
	wish := scheme.Trough
	against := "The strip %s on a top fold, so its flap turns up at the opening; you want it to fall."
	end := "Begin and end the strip on a bottom fold: then the end flap falls."
	cut := "Cut the strip at the next mark, so that it begins and ends on a bottom fold. There is then half a set less for each end cut."
	if v.s.Ruff.Ends == scheme.Stand {
		wish = scheme.Crest
		against = "The strip %s on a bottom fold, so its flap falls at the opening; you want it to stand."
		end = "Begin and end the strip on a top fold: then the end flap stands."
		cut = "Cut the strip at the next mark, so that it begins and ends on a top fold. There is then half a set less for each end cut."
	}
	last := len(v.p.Row) - 1
	var s seen
	var changes []Change
	var at word.Text
	if v.p.Row[0].Fold != wish {
		s.value++
		s.atMarks(1)
		at = word.Say("begins")
		changes = append(changes, to("pleat.first", string(wish)))
	}
	if v.p.Row[last].Fold != wish {
		s.value++
		s.atMarks(last + 1)
		if at = word.Say("ends"); s.value == 2 {
			at = word.Say("begins and ends")
		}
		changes = append(changes, to("pleat.last", string(wish)))
	}
	if s.value == 0 {
		return s, false
	}
	s.says(against, at)
	if v.p.MarksOwn {
		changes = []Change{asIn(v.s.EndsOn(wish), "pleat.marks")[0]}
		s.offer(changes, cut)
	} else {
		s.offer(changes, end)
	}
	return s, true
}
