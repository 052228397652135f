package figure

import (
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

func sets(plan pleat.Plan) word.Text { return word.Count(plan.Sets, "%d set", "%d sets", plan.Sets) }

// setCrest is the mark of the crest of set n, counted from 1.
func setCrest(plan pleat.Plan, n int) (mark int, ok bool) {
	seen := 0
	for m, mark := range plan.Row {
		if mark.Fold == scheme.Crest {
			if seen++; seen == n {
				return m, true
			}
		}
	}
	return 0, false
}

// setPanels gives the panels lo to hi (hi excluded) of set n: those on either side of
// its crest.
func setPanels(plan pleat.Plan, n int) (lo, hi int, ok bool) {
	m, ok := setCrest(plan, n)
	if !ok {
		return 0, 0, false
	}
	return max(0, m-1), min(plan.Panels, m+1), true
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
	crest, ok := setCrest(s.plan, n)
	if !ok {
		return n, u, bad("Set", s.opt.Set, "0 to %d", s.plan.Crests)
	}
	s.opt.Set = 0
	return n, unroll(s.plan, s.shape, s.tone, max(0, crest-1), min(s.plan.Panels, crest+1), crest), nil
}
