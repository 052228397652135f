package ask

import (
	"ruffwright/geom/word"
	"ruffwright/wasm/doc"
)

// Halt stops the solver or sets it to work again.
func (s *Ask) Halt(now_ms float64) []doc.Patch {
	switch {
	case s.hands[0].stand == gone:
		s.deaths, s.halted = 0, false
		return s.starts(0, now_ms)
	case s.halted:
		s.halted = false
	case s.Busy():
		s.halted = true
		s.asked, s.done, s.awaits = "", false, nil
		s.proof, s.hold, s.gauge.wanted = proof{}, hold{}, false
		if s.matter.wanted {
			s.matter = matters{}
		}
		return s.stop(s.drop(everything, now_ms))
	}
	return nil
}

// Busy reports whether the solver works or is about to.
func (s *Ask) Busy() bool {
	first := s.hands[0].stand
	return !s.halted && first != gone && !s.none && (first != ready || s.working() || s.moving || s.asked != s.wanted())
}

// wanted is what is to be known of the ruff at hand, as asked.
func (s *Ask) wanted() string {
	if s.moving {
		return coarsely + s.Want.A
	}
	return s.Want.A
}

// coarsely is before what is asked for while a control moves.
const coarsely = "coarse "

// None is why there is no answer for the ruff at hand; empty where there is or may be.
func (s *Ask) None() (why word.Text) {
	if s.none {
		return s.why
	}
	return word.Text{}
}

// Settled reports that nothing more will be known of the ruff at hand.
func (s *Ask) Settled() bool {
	return !s.moving && (s.done || s.none || s.halted || s.hands[0].stand == gone)
}
