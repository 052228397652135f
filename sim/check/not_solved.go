package check

var notSolvedLaw = law{Rule: Rule{"not-solved", "Not solved yet", Note, 0, "findings", "what only the mechanics of the cloth can tell", geometry, WhereWhole, FromMechanics},
	find: (*view).notSolved}

// notSolved names in one line what only the mechanics can tell and has not told
// yet.
func (v *view) notSolved() (seen, bool) {
	var s seen
	for _, l := range rules {
		if l.parts != 0 && l.applies(v) && v.awaits(l.parts) {
			s.awaits = append(s.awaits, l.ID)
		}
	}
	s.value = float64(len(s.awaits))
	if v.r.Solved == nil {
		s.says("Not solved yet: how it hangs and how firmly it holds, what the cloth's weight and starch do to it, and what stick and thread it takes. The shape shown is folded by geometry alone.")
	} else {
		s.says("The shape is solved; still to come: how firmly it holds when the wearer moves, and whether it may rest in another shape.")
	}
	return s, len(s.awaits) > 0
}

var notAtRestLaw = law{Rule: Rule{"not-at-rest", "The cloth did not come to rest", Note, 0, "half sets", "none may be restless", solved, WhereWhole, FromMechanics},
	find: (*view).notAtRest}

// notAtRest: a solve that ended early.
func (v *view) notAtRest() (seen, bool) {
	var s seen
	if v.r.Solved == nil || v.r.Solved.Ruff.Converged {
		return s, false
	}
	for _, m := range v.r.Solved.Sets {
		if !m.Converged {
			s.value++
		}
	}
	s.says("In the solver the cloth did not come to rest (%s of %d kinds of half set): the shape shown is a rough one, and nothing is said here of how it hangs or holds.",
		Number(s.value, 0), len(v.r.Solved.Sets))
	return s, true
}
