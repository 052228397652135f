package ask

import (
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

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
		return s.Die(say.Text("it spoke in riddles: %s", word.Of(err)), now_ms), nil
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
		s.goes(*r.Progress, e.purpose)
	case r.Checked != nil:
		s.proved(*r.Checked, r.Last)
	case r.Held != nil:
		s.held(*r.Held)
	case r.Mended != nil:
		s.mended(*r.Mended)
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

// goes notes how far an errand is.
func (s *Ask) goes(p wire.Progress, on purpose) {
	s.far = p
	if on == forProof {
		s.proof.of = p.Cells
	}
}

// fails takes an answer that there is no answer.
func (s *Ask) fails(of purpose, e wire.Error) *Answer {
	switch of {
	case forRuff:
		s.none, s.why, s.awaits = true, e.Why.Text, nil
	case forRival:
		return &Answer{OfB: true, Last: true}
	case forMend:
		s.mend.done = true
	case forHold:
		s.hold = hold{why: e.Why.Text}
	case forProof:
		s.proof = proof{}
		s.Voice.Soon(say.Sentence(say.In(e.Why.Text)))
	}
	return nil
}
