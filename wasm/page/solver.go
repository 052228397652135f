package page

import (
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// The solver works in a Web Worker. The page asks it for one thing at a time:
// the ruff at hand first, then the one that it is compared with, then the
// remedies, then its own trial. A change of the scheme puts an end to all of it.

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
}

// solver is what the page knows of its solver.
type solver struct {
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
}

const (
	rest_ms    = 400   // without typing: the control is still
	watch_ms   = 1500  // between two looks at the worker
	silent_ms  = 6000  // the worker tells of itself four times a second
	sleeper_ms = 60000 // to load and compile, on a slow line
	first_ms   = 1     // after the first numbers the solver starts
)

// wake starts the worker if it has not been started.
func (p *Page) wake(now_ms float64) []doc.Patch {
	if p.solver.stand != asleep {
		return nil
	}
	return p.starts(now_ms)
}

func (p *Page) starts(now_ms float64) []doc.Patch {
	s := &p.solver
	s.stand, s.heard_ms, s.suspect = waking, now_ms, false
	return append([]doc.Patch{{Op: doc.OpSolver, Name: "start"}}, p.watch()...)
}

// watch sets the timer that looks at the worker, if it is not set.
func (p *Page) watch() []doc.Patch {
	if p.solver.watched {
		return nil
	}
	p.solver.watched = true
	return []doc.Patch{{Op: doc.OpTimer, Name: "watch", MS: watch_ms}}
}

// looks is the watchdog: a worker that should speak and does not is ended.
func (p *Page) looks(now_ms float64) []doc.Patch {
	s := &p.solver
	s.watched = false
	patience := float64(silent_ms)
	switch {
	case s.stand == waking:
		patience = sleeper_ms
	case s.stand != ready || s.out == nil:
		return nil
	case s.out.purpose == forProof: // it tells of itself between two problems
		patience = sleeper_ms
	}
	if now_ms-s.heard_ms < patience {
		s.suspect = false
		return p.watch()
	}
	if !s.suspect {
		s.suspect = true
		return p.watch()
	}
	return p.dies(say.Word("solve.silent"), now_ms)
}

// dies takes note that the worker is dead: once it is started again, then it is
// left alone until the reader asks for it.
func (p *Page) dies(why string, now_ms float64) []doc.Patch {
	s := &p.solver
	if s.stand == gone || s.stand == asleep {
		return nil
	}
	s.deaths++
	s.out, s.asked, s.done, s.awaits = nil, "", false, nil
	p.rival.asked = p.rival.done
	out := []doc.Patch{{Op: doc.OpSolver, Name: "end"}}
	if s.deaths > 1 {
		s.stand, s.died = gone, why
		p.proof = proof{}
		p.saySoon(p.solvingWords())
		return out
	}
	return append(out, p.starts(now_ms)...)
}

// want is what is to be known of the ruff, as asked.
func (p *Page) want() string {
	if p.solver.moving {
		return "coarse " + p.written
	}
	return p.written
}

// work sends the worker what comes next.
func (p *Page) work(now_ms float64) []doc.Patch {
	s := &p.solver
	if s.stand != ready || s.halted {
		return nil
	}
	var r wire.Request
	var e errand
	switch {
	case s.asked != p.want():
		p.rival.asked = p.rival.done // what is under way gives way
		s.asked, s.done, s.none, s.why, s.awaits = p.want(), false, false, "", nil
		r = wire.Request{Task: wire.Solve, Scheme: p.written, Coarse: s.moving}
		if s.moving {
			r.Skip = wire.Skip{Bow: true, Tangents: true, Other: true}
		}
	case !s.done && !s.none || s.moving || s.out != nil && s.out.purpose < forTries:
		return nil
	case p.compares() && !p.rival.asked:
		p.rival.asked = true
		if s.out != nil {
			p.again = true // the remedies wait
		}
		e.purpose = forRival
		r = wire.Request{Task: wire.Solve, Scheme: p.rival.written}
	case s.out != nil:
		return nil
	default:
		tries := p.untried()
		switch {
		case len(tries) > 0 && !s.none:
			e.purpose = forTries
			r = wire.Request{Task: wire.Try, Scheme: p.written, Tries: tries}
		case p.proof.wanted:
			p.proof = proof{wanted: true}
			e.purpose = forProof
			r = wire.Request{Task: wire.Verify}
		default: // all is done: whatever it died of is over
			s.deaths = 0
			return nil
		}
	}
	s.id++
	r.ID, e.id = s.id, s.id
	head, err := r.Encode()
	if err != nil {
		s.none, s.why = true, err.Error()
		return nil
	}
	s.out, s.heard_ms, s.suspect, s.far = &e, now_ms, false, wire.Progress{}
	return append([]doc.Patch{{Op: doc.OpSolver, Name: "ask", Value: head}}, p.watch()...)
}

// hears takes a message of the worker.
func (p *Page) hears(head string, body []byte, now_ms float64) []doc.Patch {
	s := &p.solver
	if s.stand != waking && s.stand != ready {
		return nil // from one that is ended
	}
	r, err := wire.ReadReply(head, body)
	if err != nil {
		return p.dies(say.Word("solve.riddles", "why", say.Told(err.Error())), now_ms)
	}
	s.heard_ms, s.suspect = now_ms, false
	if r.Alive {
		s.stand = ready
		return nil
	}
	if s.out == nil || r.ID != s.out.id {
		return nil // of a request that is over
	}
	e := *s.out
	if r.Last {
		s.out = nil
	}
	switch {
	case r.Progress != nil:
		s.far = *r.Progress
		if e.purpose == forProof {
			p.proof.of = s.far.Cells
		}
	case r.Checked != nil:
		p.proved(*r.Checked, r.Last)
	case r.Tried != nil:
		p.marks(*r.Tried)
	case r.Result != nil && e.purpose == forRival:
		p.solvedRival(r.Result, r.Last)
	case r.Result != nil:
		return p.solved(r.Result, r.Last, now_ms)
	case r.Error != nil:
		p.fails(e.purpose, *r.Error)
	}
	return nil
}

// fails takes an answer that there is no answer.
func (p *Page) fails(of purpose, e wire.Error) {
	switch of {
	case forRuff:
		p.solver.none, p.solver.why, p.solver.awaits = true, e.Why, nil
	case forRival:
		p.rival.done, p.rival.none = true, true
	case forProof:
		p.proof = proof{}
		p.saySoon(say.Sentence(say.Told(e.Why)))
	}
}

// solved takes the ruff as far as it is solved.
func (p *Page) solved(r *wire.Result, last bool, now_ms float64) []doc.Patch {
	s := &p.solver
	was := p.verdict()
	out := p.settles(r.Solved, now_ms)
	p.findings = say.Finds(p.ruff, p.units)
	p.marked()
	p.lets()
	if s.awaits == nil {
		out = append(out, doc.Patch{Op: doc.OpMark, Name: "ruffwright-shape"})
	}
	s.awaits, s.done = r.Awaits, last
	if last {
		out = append(out, doc.Patch{Op: doc.OpMark, Name: "ruffwright-solved"})
	}
	if now := p.verdict(); last && now != was && !s.moving {
		p.saySoon(p.news())
	}
	if last && p.compares() && !s.moving {
		p.saySoon(say.Theirs(p.comparison().Sentence))
	}
	return out
}

// controlMoves notes whether a control is being moved.
func (p *Page) controlMoves(moves bool, now_ms float64) []doc.Patch {
	s := &p.solver
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

// rests ends a control's move when it has been still for a while.
func (p *Page) rests(now_ms float64) []doc.Patch {
	s := &p.solver
	if !s.moving {
		return nil
	}
	if wait := s.moved_ms + rest_ms - now_ms; wait > 1 {
		return []doc.Patch{{Op: doc.OpTimer, Name: "rest", MS: wait}}
	}
	s.moving = false
	return nil
}

// halts stops the solver or sets it to work again.
func (p *Page) halts(now_ms float64) []doc.Patch {
	s := &p.solver
	switch {
	case s.stand == gone:
		s.deaths, s.halted = 0, false
		return p.starts(now_ms)
	case s.halted:
		s.halted = false
	case p.busy():
		s.halted = true
		s.asked, s.done, s.awaits = "", false, nil
		p.rival.asked = p.rival.done
		p.proof = proof{}
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

// busy reports whether the solver works or is about to.
func (p *Page) busy() bool {
	s := &p.solver
	return !s.halted && s.stand != gone && !s.none && (s.stand != ready || s.out != nil || s.moving || s.asked != p.want())
}

// forget drops what was known of the scheme before.
func (p *Page) forget() {
	s := &p.solver
	s.done, s.none, s.why, s.halted, s.awaits = false, false, "", false, nil
	p.settling.going = false
	p.tried, p.again = nil, false
}

// haltWords are what the solver's button says, and whether it has nothing to do.
func (p *Page) haltWords() (label string, idle bool) {
	if p.solver.stand == gone || p.solver.halted {
		return say.Word("halt.again"), false
	}
	return say.Word("halt.stop"), !p.busy()
}

// solvingWords say how far the solver is; solvingState is the same for the
// stylesheet.
func (p *Page) solvingWords() string {
	s := &p.solver
	switch {
	case s.stand == gone:
		if p.ruff.Solved != nil {
			return say.Word("solve.gonelast", "why", s.died)
		}
		return say.Word("solve.gone", "why", s.died)
	case s.halted && p.ruff.Solved != nil:
		return say.Word("solve.partly")
	case s.halted:
		return say.Word("solve.stopped")
	case s.none:
		return say.Word("solve.none", "why", say.Sentence(say.Told(s.why)))
	case s.stand == asleep || s.stand == waking:
		return say.Word("solve.soon")
	case s.out == nil && s.done, s.out != nil && s.out.purpose != forRuff:
		return p.solvedWords()
	case len(s.awaits) > 0:
		return say.Word("solve."+s.awaits[0], "far", p.farWords()) // fine, bow or other
	}
	return say.Word("solve.busy", "far", p.farWords())
}

func (p *Page) farWords() string {
	f := p.solver.far
	if f.Cells < 2 {
		return ""
	}
	return say.Word("solve.far", "n", f.Cell+1, "of", f.Cells)
}

// solvedWords say what was solved, and what more is being done.
func (p *Page) solvedWords() string {
	s := &p.solver
	words := say.Word("solved")
	if r := p.ruff.Solved; r != nil && !r.Converged() {
		words = say.Word("solved.roughly")
	}
	if s.out == nil {
		return words
	}
	switch s.out.purpose {
	case forRival:
		words = say.Word("solved.rival", "solved", words, "far", p.farWords())
	case forTries:
		words = say.Word("solved.tries", "solved", words)
	case forProof:
		words = say.Word("solved.proof", "solved", words)
	}
	return words
}

func (p *Page) solvingState() string {
	s := &p.solver
	switch {
	case s.stand == gone:
		return "gone"
	case s.halted:
		return "halted"
	case s.none:
		return "none"
	case p.busy():
		return "busy"
	}
	return "done"
}
