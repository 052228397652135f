// Package ask is what the page asks its solver, and what it hears. The solver works
// in a Web Worker. It is asked for one thing at a time: the ruff at hand first,
// then the one that it is compared with, then the remedies, then its own trial. A
// change of the scheme puts an end to all of it. The answers are given on to the
// page: here is kept only how far they are.
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

// stand is how it stands with the solver's worker.
type stand uint8

const (
	asleep stand = iota // not started: the page's first numbers come before it
	waking              // started, has not spoken
	ready
	gone // it died twice, or there is none
)

// purpose of an errand.
type purpose uint8

const (
	forRuff purpose = iota
	forRival
	forTries
	forProof
	forHold
	forMend
)

// errand is one request that the solver has.
type errand struct {
	id      int
	purpose purpose
	of      string // the ruff, as it was asked for
}

// Ask is what is known of the solver. Its zero value has not asked for anything.
type Ask struct {
	Want  Want
	Voice *say.Voice

	stand  stand
	died   string // why
	deaths int    // since all that was wanted was last done

	id     int       // of the newest request
	out    *errand   // being worked on; nil: nothing
	asked  string    // what was last asked for the ruff; "" nothing
	done   bool      // and the whole answer is here
	none   bool      // or there is none,
	why    word.Text // because of this
	far    wire.Progress
	awaits []string // parts of the ruff that are on their way

	halted   bool // the reader stopped it
	moving   bool // a control moves: coarse answers do
	moved_ms float64
	pulled   bool // what moves is a handle: it is asked for when that stops
	heard_ms float64
	watched  bool // a timer is set
	suspect  bool // it was silent too long once; what waits in the browser's line is heard first

	offers []Change              // what the findings offer
	tried  map[string]wire.Tried // what became of it, by key; nil: not asked
	again  bool                  // changes were put off and are to be tried still
	mend   mend
	drawn  drawn
	proof  proof
	hold   hold
}

const (
	rest_ms   = 400  // without typing: the control is still
	still_ms  = 32   // without a move of a handle: two frames, the hand has stopped
	watch_ms  = 1500 // between two looks at the worker
	silent_ms = 6000 // the worker tells of itself four times a second
)

// Wake starts the worker if it has not been started.
func (s *Ask) Wake(now_ms float64) []doc.Patch {
	if s.stand != asleep {
		return nil
	}
	return s.starts(now_ms)
}

func (s *Ask) starts(now_ms float64) []doc.Patch {
	s.stand, s.heard_ms, s.suspect = waking, now_ms, false
	return append([]doc.Patch{{Op: doc.OpSolver, Name: "start"}}, s.watch()...)
}

// watch sets the timer that looks at the worker, if it is not set.
func (s *Ask) watch() []doc.Patch {
	if s.watched {
		return nil
	}
	s.watched = true
	return []doc.Patch{{Op: doc.OpTimer, Name: "watch", MS: watch_ms}}
}

// Check is the watchdog: a worker that should speak and does not is ended.
func (s *Ask) Check(now_ms float64) []doc.Patch {
	s.watched = false
	patience := float64(silent_ms)
	switch {
	case s.stand == waking:
		patience = wire.Waking_ms
	case s.stand != ready || s.out == nil:
		return nil
	case s.out.purpose == forProof: // it tells of itself between two problems
		patience = wire.Waking_ms
	}
	if now_ms-s.heard_ms < patience {
		s.suspect = false
		return s.watch()
	}
	if !s.suspect {
		s.suspect = true
		return s.watch()
	}
	return s.Die(say.Text("it fell silent"), now_ms)
}

// Die takes note that the worker is dead: once it is started again, then it is
// left alone until the reader asks for it.
func (s *Ask) Die(why string, now_ms float64) []doc.Patch {
	if s.stand == gone || s.stand == asleep {
		return nil
	}
	s.deaths++
	s.out, s.asked, s.done, s.awaits = nil, "", false, nil
	out := []doc.Patch{{Op: doc.OpSolver, Name: "end"}}
	if s.deaths > 1 {
		s.stand, s.died = gone, why
		s.proof, s.hold = proof{}, hold{}
		s.Voice.Soon(s.Words())
		return out
	}
	return append(out, s.starts(now_ms)...)
}

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
	case s.stand == gone:
		s.deaths, s.halted = 0, false
		return s.starts(now_ms)
	case s.halted:
		s.halted = false
	case s.Busy():
		s.halted = true
		s.asked, s.done, s.awaits = "", false, nil
		s.proof, s.hold = proof{}, hold{}
		if s.out == nil {
			return nil
		}
		s.out = nil
		head, err := wire.Request{Task: wire.Cancel}.Encode()
		if err != nil { // two numbers: it cannot
			return nil
		}
		return []doc.Patch{{Op: doc.OpSolver, Name: "ask", Value: head}}
	}
	return nil
}

// Busy reports whether the solver works or is about to.
func (s *Ask) Busy() bool {
	return !s.halted && s.stand != gone && !s.none && (s.stand != ready || s.out != nil || s.moving || s.asked != s.wanted())
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
		s.done, s.none, s.why, s.halted, s.awaits = false, false, word.Text{}, false, nil
		s.tried, s.again = nil, false
	}
	if turned && w.Whole {
		s.asked, s.done, s.out, s.moving, s.deaths = w.A, true, nil, false, 0
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
	return !s.moving && (s.done || s.none || s.halted || s.stand == gone)
}

// Moving reports that a control moves: what comes is coarse.
func (s *Ask) Moving() bool { return s.moving }

// Idle reports that the worker has nothing to do.
func (s *Ask) Idle() bool { return s.out == nil }
