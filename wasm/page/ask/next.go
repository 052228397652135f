package ask

import (
	"ruffwright/geom/word"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/wire"
)

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
	if s.stand != ready || s.halted || s.pulled {
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
		s.none, s.why = true, word.Of(err)
		return nil
	}
	s.out, s.heard_ms, s.suspect, s.far = &e, now_ms, false, wire.Progress{}
	return append([]doc.Patch{{Op: doc.OpSolver, Name: "ask", Value: head}}, s.watch()...)
}

// choose gives the next request, without a task if there is none.
func (s *Ask) choose() (r wire.Request, e errand) {
	if s.asked != s.wanted() { // what is under way gives way
		s.asked, s.done, s.none, s.why, s.awaits = s.wanted(), false, false, word.Text{}, nil
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
			s.again, s.mend.asked = true, false // the changes wait
		}
		return wire.Request{Task: wire.Solve, Scheme: s.Want.B}, errand{purpose: forRival, of: s.Want.B}
	}
	if s.out != nil {
		return r, e
	}
	if tries := s.untried(); len(tries) > 0 && !s.none {
		return wire.Request{Task: wire.Try, Scheme: s.Want.A, Tries: tries}, errand{purpose: forTries, of: s.Want.A}
	}
	if begins := s.begins(); len(begins) > 0 && !s.none {
		s.mend.asked = true
		return wire.Request{Task: wire.Mend, Scheme: s.Want.A, Tries: begins, Units: s.Want.Units.Symbol()}, errand{purpose: forMend, of: s.Want.A}
	}
	if s.hold.wanted {
		return wire.Request{Task: wire.Hold, Scheme: s.Want.A}, errand{purpose: forHold, of: s.Want.A}
	}
	if s.proof.wanted {
		s.proof = proof{wanted: true}
		return wire.Request{Task: wire.Verify}, errand{purpose: forProof}
	}
	s.deaths = 0 // all is done: whatever it died of is over
	return r, e
}
