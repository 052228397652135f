package figure

import (
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// sets says how many there are.
func sets(plan pleat.Plan) word.Text { return word.Count(plan.Sets, "%d set", "%d sets", plan.Sets) }

// setPanels gives the panels lo to hi (hi excluded) of set n, counted from 1 in
// the order of crests: the panels on either side of its crest.
func setPanels(plan pleat.Plan, n int) (lo, hi int, ok bool) {
	if n < 1 {
		return 0, 0, false
	}
	seen := 0
	for m, mark := range plan.Row {
		if mark.Fold != scheme.Crest {
			continue
		}
		if seen++; seen == n {
			return max(0, m-1), min(plan.Panels, m+1), true
		}
	}
	return 0, 0, false
}

// setCrest is the mark of set n's crest.
func setCrest(plan pleat.Plan, n int) int {
	seen := 0
	for m, mark := range plan.Row {
		if mark.Fold == scheme.Crest {
			if seen++; seen == n {
				return m
			}
		}
	}
	return 0
}

// setAt is the set to show: the one selected, else that of the first mark of the
// note that has marks, where there is just one note; 0 = the view chooses.
func (o Options) setAt(plan pleat.Plan) int {
	if o.Set > 0 || len(o.Notes) != 1 || len(o.Notes[0].At) == 0 {
		return o.Set
	}
	n := 0
	for m, mark := range plan.Row {
		if mark.Fold == scheme.Crest {
			n++
		}
		if m >= o.Notes[0].At[0]-1 && n > 0 {
			break
		}
	}
	return n
}

// shownSet is the number of the set that the whole sheet is about, laid out; it then
// needs no sign.
func (s *sheet) shownSet() (n int, u unrolled, err error) {
	n = s.opt.setAt(s.plan)
	if n == 0 {
		n = (s.plan.Sets + 1) / 2
	}
	lo, hi, ok := setPanels(s.plan, n)
	if !ok {
		return n, u, bad("Set", s.opt.Set, "0 to %d", s.plan.Crests)
	}
	s.opt.Set = 0
	return n, unroll(s.plan, s.shape, s.tone, lo, hi, setCrest(s.plan, n)), nil
}
