package check

import "ruffwright/geom/scheme"

var endsLaw = law{Rule: Rule{"ends", "An end flap is against the wish", Stop, 0, "ends", "no end may lie against ruff.ends", asked, WhereOpening, FromGeometry},
	find: (*view).ends}

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
