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

// Hear takes a message of hand n; the answer is nil where it is no ruff.
func (s *Ask) Hear(n int, head string, body []byte, now_ms float64) ([]doc.Patch, *Answer) {
	if n < 0 || n >= len(s.hands) {
		return nil, nil
	}
	h := &s.hands[n]
	if h.stand != waking && h.stand != ready {
		return nil, nil // from one that is ended
	}
	r, err := wire.ReadReply(head, body)
	if err != nil {
		return s.Die(n, say.Text("it spoke in riddles: %s", word.Of(err)), now_ms), nil
	}
	h.heard_ms, h.suspect = now_ms, false
	if r.Alive {
		h.stand, h.free_ms = ready, now_ms
		return nil, nil
	}
	if h.out == nil || r.ID != h.out.id {
		return nil, nil // of a request that is over
	}
	e := h.out
	if e.purpose == forTries || e.purpose == forMend {
		h.knows = e.of
	}
	if r.Last {
		h.out, h.free_ms = nil, now_ms
	}
	if r.Error != nil {
		h.knows = ""
		return nil, s.fails(e, *r.Error)
	}
	return nil, s.takes(e, r)
}

// takes takes what a hand says of an errand.
func (s *Ask) takes(e *errand, r wire.Reply) *Answer {
	switch {
	case r.Progress != nil:
		e.far = *r.Progress
		if e.purpose == forProof {
			s.proof.of = r.Progress.Cells
		}
	case r.Checked != nil:
		s.proved(*r.Checked, r.Last)
	case r.Held != nil:
		s.held(*r.Held)
	case r.Mended != nil:
		s.mended(*r.Mended)
	case r.Told != nil:
		s.gauged(*r.Told)
	case r.Matter != nil || e.purpose == forMatter && r.Error == nil:
		s.mattered(r.Matter, r.Last)
	case r.Tried != nil:
		s.marks(*r.Tried)
	case e.purpose == forRival && e.of != s.Want.B: // another stands beside it by now
	case r.Result != nil && e.purpose == forRival:
		return &Answer{OfB: true, Solved: r.Result.Solved, Last: r.Last}
	case r.Result != nil:
		a := &Answer{Solved: r.Result.Solved, First: s.awaits == nil, Last: r.Last, Whole: r.Last && !s.moving && s.asked == s.Want.A}
		s.awaits, s.done = r.Result.Awaits, r.Last
		return a
	}
	return nil
}

// fails takes an answer that there is no answer.
func (s *Ask) fails(e *errand, why wire.Error) *Answer {
	switch e.purpose {
	case forRuff:
		s.none, s.why, s.awaits = true, why.Why.Text, nil
	case forRival:
		if e.of == s.Want.B { // else another stands beside it by now
			return &Answer{OfB: true, Last: true}
		}
	case forTries:
		for _, t := range e.tries {
			if _, told := s.tried[key(t.Changes)]; !told {
				s.marks(wire.Tried{Changes: t.Changes, Why: why.Why})
			}
		}
	case forMend:
		s.mend.done = true
	case forHold:
		s.hold = hold{why: why.Why.Text}
	case forGauge:
		s.gauge.wanted, s.gauge.why = false, why.Why.Text
		s.Voice.Soon(s.gaugeWords())
	case forMatter:
		s.matter = matters{none: why.Why.Text}
	case forProof:
		s.proof = proof{}
		s.Voice.Soon(say.Sentence(say.In(why.Why.Text)))
	}
	return nil
}
