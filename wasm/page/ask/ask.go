// Package ask is what the page asks its solver, and what it hears. The solver works
// in a Web Worker. It is asked for one thing at a time: the ruff at hand first,
// then the one that it is compared with, then the remedies, then its own trial. A
// change of the scheme puts an end to all of it. The answers are given on to the
// page: here is kept only how far they are.
package ask

import (
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
	Findings []check.Finding // of A: their remedies are to be tried
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

	id     int     // of the newest request
	out    *errand // being worked on; nil: nothing
	asked  string  // what was last asked for the ruff; "" nothing
	done   bool    // and the whole answer is here
	none   bool    // or there is none,
	why    string  // because of this
	far    wire.Progress
	awaits []string // parts of the ruff that are on their way

	halted   bool // the reader stopped it
	moving   bool // a control moves: coarse answers do
	moved_ms float64
	heard_ms float64
	watched  bool // a timer is set
	suspect  bool // it was silent too long once; what waits in the browser's line is heard first

	tried map[string]wire.Tried // what became of remedies, by "id number"; nil: not asked
	again bool                  // remedies were put off and are to be tried still
	proof proof
}

const (
	rest_ms   = 400  // without typing: the control is still
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
	return s.Die(say.Word("solve.silent"), now_ms)
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
		s.proof = proof{}
		s.Voice.Soon(s.Words())
		return out
	}
	return append(out, s.starts(now_ms)...)
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

// Next sends the worker what comes next.
func (s *Ask) Next(now_ms float64) []doc.Patch {
	if s.stand != ready || s.halted {
		return nil
	}
	r, e := s.choose()
	if r.Task == "" {
		return nil
	}
	s.id++
	r.ID, e.id = s.id, s.id
	head, err := r.Encode()
	if err != nil {
		s.none, s.why = true, err.Error()
		return nil
	}
	s.out, s.heard_ms, s.suspect, s.far = &e, now_ms, false, wire.Progress{}
	return append([]doc.Patch{{Op: doc.OpSolver, Name: "ask", Value: head}}, s.watch()...)
}

// choose gives the next request, without a task if there is none.
func (s *Ask) choose() (r wire.Request, e errand) {
	if s.asked != s.wanted() { // what is under way gives way
		s.asked, s.done, s.none, s.why, s.awaits = s.wanted(), false, false, "", nil
		r = wire.Request{Task: wire.Solve, Scheme: s.Want.A, Coarse: s.moving}
		if s.moving {
			r.Skip = wire.Skip{Bow: true, Tangents: true, Other: true}
		}
		return r, errand{purpose: forRuff, of: s.Want.A}
	}
	if !s.done && !s.none || s.moving {
		return r, e
	}
	if s.out != nil && s.out.purpose == forRival && s.out.of == s.Want.B {
		return r, e
	}
	if s.Want.B != "" && !s.Want.BDone {
		if s.out != nil {
			s.again = true // the remedies wait
		}
		return wire.Request{Task: wire.Solve, Scheme: s.Want.B}, errand{purpose: forRival, of: s.Want.B}
	}
	if s.out != nil {
		return r, e
	}
	if tries := s.untried(); len(tries) > 0 && !s.none {
		return wire.Request{Task: wire.Try, Scheme: s.Want.A, Tries: tries}, errand{purpose: forTries, of: s.Want.A}
	}
	if s.proof.wanted {
		s.proof = proof{wanted: true}
		return wire.Request{Task: wire.Verify}, errand{purpose: forProof}
	}
	s.deaths = 0 // all is done: whatever it died of is over
	return r, e
}

// Answer is what came of one of the two ruffs.
type Answer struct {
	OfB    bool
	Solved *sim.Solved // nil: there is no answer, and will be none
	First  bool        // of this ruff
	Last   bool        // all is here
	Whole  bool        // and it is what the ruff is, finely
}

// Hear takes a message of the worker; the answer is nil where it is no ruff.
func (s *Ask) Hear(head string, body []byte, now_ms float64) ([]doc.Patch, *Answer) {
	if s.stand != waking && s.stand != ready {
		return nil, nil // from one that is ended
	}
	r, err := wire.ReadReply(head, body)
	if err != nil {
		return s.Die(say.Word("solve.riddles", "why", say.Told(err.Error())), now_ms), nil
	}
	s.heard_ms, s.suspect = now_ms, false
	if r.Alive {
		s.stand = ready
		return nil, nil
	}
	if s.out == nil || r.ID != s.out.id {
		return nil, nil // of a request that is over
	}
	e := *s.out
	if r.Last {
		s.out = nil
	}
	switch {
	case r.Progress != nil:
		s.far = *r.Progress
		if e.purpose == forProof {
			s.proof.of = s.far.Cells
		}
	case r.Checked != nil:
		s.proved(*r.Checked, r.Last)
	case r.Tried != nil:
		s.marks(*r.Tried)
	case e.purpose == forRival && e.of != s.Want.B: // another stands beside it by now
	case r.Result != nil && e.purpose == forRival:
		return nil, &Answer{OfB: true, Solved: r.Result.Solved, Last: r.Last}
	case r.Result != nil:
		a := &Answer{Solved: r.Result.Solved, First: s.awaits == nil, Last: r.Last, Whole: r.Last && !s.moving && s.asked == s.Want.A}
		s.awaits, s.done = r.Result.Awaits, r.Last
		return nil, a
	case r.Error != nil:
		return nil, s.fails(e.purpose, *r.Error)
	}
	return nil, nil
}

// fails takes an answer that there is no answer.
func (s *Ask) fails(of purpose, e wire.Error) *Answer {
	switch of {
	case forRuff:
		s.none, s.why, s.awaits = true, e.Why, nil
	case forRival:
		return &Answer{OfB: true, Last: true}
	case forProof:
		s.proof = proof{}
		s.Voice.Soon(say.Sentence(say.Told(e.Why)))
	}
	return nil
}

// Move notes whether a control is being moved.
func (s *Ask) Move(moves bool, now_ms float64) []doc.Patch {
	was := s.moving
	s.moving = moves
	if !moves {
		return nil
	}
	s.moved_ms = now_ms
	if was {
		return nil
	}
	return []doc.Patch{{Op: doc.OpTimer, Name: "rest", MS: rest_ms}}
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
		s.proof = proof{}
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

// See takes what is to be known now, and writes what was tried beside the remedies.
// turned: the ruff at hand is another, and what was known of it is forgotten.
func (s *Ask) See(w Want, turned bool) {
	s.Want = w
	if turned {
		s.done, s.none, s.why, s.halted, s.awaits = false, false, "", false, nil
		s.tried, s.again = nil, false
	}
	if turned && w.Whole {
		s.asked, s.done, s.out, s.moving, s.deaths = w.A, true, nil, false, 0
	}
	s.marked()
}

// None is why there is no answer for the ruff at hand; "" where there is or may be.
func (s *Ask) None() (why string) {
	if s.none {
		return s.why
	}
	return ""
}

// Settled reports that nothing more will be known of the ruff at hand.
func (s *Ask) Settled() bool {
	return !s.moving && (s.done || s.none || s.halted || s.stand == gone)
}

// Moving reports that a control moves: what comes is coarse.
func (s *Ask) Moving() bool { return s.moving }

// Idle reports that the worker has nothing to do.
func (s *Ask) Idle() bool { return s.out == nil }

// Patches show how far the solver is, and its trial.
func (s *Ask) Patches() []doc.Patch {
	halt, idle := s.haltWords()
	var out doc.List
	out.Text("solving", s.Words())
	out.Attr("solver", "data-state", s.solvingState())
	out.Text("halt", halt)
	out.Bool("halt", "aria-disabled", idle)
	out.Bool("proof-go", "aria-disabled", s.proof.wanted)
	out.Text("proof-stands", s.proofWords())
	out.Attr("proof-stands", "data-state", s.proofState())
	out.Nodes("proof-rows", s.proofNodes())
	return out
}
