package ask

import (
	"ruffwright/geom/word"
	"ruffwright/sim/check"
)

// See takes what is to be known now.
// turned: the ruff at hand is another, and what was known of it is forgotten.
func (s *Ask) See(w Want, turned bool) {
	if turned || !same(w.Findings, s.Want.Findings) {
		s.offers = offered(w)
	}
	if turned || w.Units != s.Want.Units { // its sentences hold lengths
		s.mend = mend{}
	}
	s.Want = w
	if turned {
		s.hold = hold{}
		s.gauge.wanted, s.gauge.got, s.gauge.why = false, nil, word.Text{}
		if !s.matter.outlives(w.A) {
			s.matter = matters{}
		}
		s.done, s.none, s.why, s.halted, s.awaits = false, false, word.Text{}, false, nil
		s.tried = nil
	}
	if turned && w.Whole {
		s.asked, s.done, s.moving, s.deaths = w.A, true, false, 0
	}
}

// same reports that two lists of findings are one.
func same(a, b []check.Finding) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}
