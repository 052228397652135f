// Package ask is what the page asks its solver, and what it hears. The solver works
// in Web Workers, the hands (hands.go): the first solves the ruff at hand, and nothing
// else ever keeps it from that. Then come the ruff that it is compared with, the
// remedies, what would hold, and the solver's own trial, by whichever hand is free. A
// change of the scheme puts an end to what was asked of the old one. The answers are
// given on to the page: here is kept only how far they are.
package ask

import (
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// Want is what is to be known.
type Want struct {
	A        string          // the ruff at hand, as it is asked for
	Whole    bool            // of which everything is known
	Solved   *sim.Solved     // as far as it is solved
	B        string          // the ruff beside it; "" none
	BDone    bool            // of which there is nothing more to be known
	Scheme   scheme.Scheme   // of A
	Ruff     *sim.Ruff       // of A
	Findings []check.Finding // of A: the changes that they offer are to be tried
	Units    scheme.Units    // in which lengths are said
}

// purpose of an errand, the most urgent first.
type purpose uint8

const (
	forRuff purpose = iota
	forRival
	forTries
	forMend
	forHold
	forGauge
	forMatter
	forProof
)

// errand is one request that a hand has.
type errand struct {
	id      int
	purpose purpose
	of      string        // the ruff, as it was asked for
	tries   []wire.Trial  // the changes that it tries
	far     wire.Progress // how far it is
}

// Ask is what is known of the solver. Its zero value has not asked for anything.
type Ask struct {
	Want  Want
	Voice *say.Voice

	hands   [mostHands]hand
	helpers int    // hands that may be there beside the first
	died    string // why the first did
	deaths  int    // of the first, since all that was wanted was last done
	watched bool   // a timer to look at the hands is set,
	spared  bool   // and one to end those that have nothing to do

	id     int       // of the newest request
	asked  string    // what was last asked for the ruff; "" nothing
	done   bool      // and the whole answer is here
	none   bool      // or there is none,
	why    word.Text // because of this
	awaits []string  // parts of the ruff that are on their way

	halted   bool // the reader stopped it
	moving   bool // a control moves: coarse answers do
	moved_ms float64
	pulled   bool // what moves is a handle: it is asked for when that stops

	offers []Change              // what the findings offer
	tried  map[string]wire.Tried // what became of it, by key
	mend   mend
	drawn  drawn
	proof  proof
	hold   hold
	gauge  gauge
	matter matters
}

const (
	rest_ms  = 400 // without typing: the control is still
	still_ms = 32  // without a move of a handle: two frames, the hand has stopped
)

// Move notes whether a control is being moved.
func (s *Ask) Move(moves bool, now_ms float64) []doc.Patch {
	was := s.moving
	s.moving, s.pulled = moves, false
	if !moves {
		return nil
	}
	s.moved_ms = now_ms
	if was {
		return nil
	}
	return []doc.Patch{{Op: doc.OpTimer, Name: "rest", MS: rest_ms}}
}

// Pull is Move for a handle that is pulled: while the hand moves nothing is asked, so that
// the picture has the device.
func (s *Ask) Pull(now_ms float64) []doc.Patch {
	was := s.pulled
	out := s.Move(true, now_ms)
	s.pulled = true
	if !was {
		out = append(out, doc.Patch{Op: doc.OpTimer, Name: "still", MS: still_ms})
	}
	return out
}

// Still is due when the hand may have stopped: then what is wanted is asked for.
func (s *Ask) Still(now_ms float64) []doc.Patch {
	if wait := s.moved_ms + still_ms - now_ms; s.pulled && wait > 1 {
		return []doc.Patch{{Op: doc.OpTimer, Name: "still", MS: wait}}
	}
	s.pulled = false
	return nil
}

// Rest ends a control's move when it has been still for a while.
func (s *Ask) Rest(now_ms float64) []doc.Patch {
	if !s.moving {
		return nil
	}
	if wait := s.moved_ms + rest_ms - now_ms; wait > 1 {
		return []doc.Patch{{Op: doc.OpTimer, Name: "rest", MS: wait}}
	}
	s.moving = false
	return nil
}

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

// Moving reports that a control moves: what comes is coarse.
func (s *Ask) Moving() bool { return s.moving }
