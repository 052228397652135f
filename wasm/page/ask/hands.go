package ask

import (
	"fmt"
	"slices"

	"ruffwright/geom/word"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/wire"
)

const (
	watch_ms  = 1500  // between two looks at the hands
	silent_ms = 6000  // a hand at work tells of itself four times a second
	spare_ms  = 30000 // a helper without work is ended
)

// Cores tells how many programs the device can run at once.
func (s *Ask) Cores(n int) { s.helpers = min(max(n, 1), mostHands) - 1 }

// called is what a document calls something of hand n.
func called(what string, n int) string {
	if n == 0 {
		return what
	}
	return fmt.Sprint(what, " ", n)
}

// Wake starts the first hand if it has not been started.
func (s *Ask) Wake(now_ms float64) []doc.Patch {
	if s.hands[0].stand != asleep {
		return nil
	}
	return s.starts(0, now_ms)
}

func (s *Ask) starts(n int, now_ms float64) []doc.Patch {
	s.hands[n] = hand{stand: waking, heard_ms: now_ms}
	return append([]doc.Patch{{Op: doc.OpSolver, Name: called("start", n)}}, s.watch()...)
}

// watch sets the timer that looks at the hands, if it is not set.
func (s *Ask) watch() []doc.Patch {
	if s.watched {
		return nil
	}
	s.watched = true
	return []doc.Patch{{Op: doc.OpTimer, Name: "watch", MS: watch_ms}}
}

// working reports that a hand has something to do.
func (s *Ask) working() bool {
	return slices.ContainsFunc(s.hands[:], func(h hand) bool { return h.out != nil })
}

// with is the errand of a purpose that a hand has, nil if none has.
func (s *Ask) with(p purpose) *errand {
	for _, h := range s.hands {
		if h.out != nil && h.out.purpose == p {
			return h.out
		}
	}
	return nil
}

// drop takes such errands from the hands, and tells from which: they work on until they are
// told to stop, or given another.
func (s *Ask) drop(such func(*errand) bool, now_ms float64) (from []int) {
	for n := range s.hands {
		if h := &s.hands[n]; h.out != nil && such(h.out) {
			h.out, h.free_ms = nil, now_ms
			from = append(from, n)
		}
	}
	return from
}

// stop tells hands to stop that were given nothing else.
func (s *Ask) stop(hands []int) (out []doc.Patch) {
	for _, n := range hands {
		head, _, err := wire.Request{Task: wire.Cancel}.Encode()
		if s.hands[n].out == nil && err == nil {
			out = append(out, doc.Patch{Op: doc.OpSolver, Name: called("ask", n), Value: head})
		}
	}
	return out
}

// everything is such an errand.
func everything(*errand) bool { return true }

// gives gives an errand to hand n, whatever that does.
func (s *Ask) gives(n int, r wire.Request, e errand, now_ms float64) (out []doc.Patch, ok bool) {
	h := &s.hands[n]
	if (r.Task == wire.Try || r.Task == wire.Mend) && h.knows != s.Want.A && s.Want.Solved != nil {
		bare := *s.Want.Solved // without what no finding reads
		bare.Bowed, bare.Other, bare.Droop = nil, nil, nil
		r.Base = &wire.Result{Solved: &bare}
	}
	s.id++
	r.ID, e.id = s.id, s.id
	head, body, err := r.Encode()
	if err != nil {
		s.none, s.why = true, word.Of(err)
		return nil, false
	}
	h.out, h.heard_ms, h.suspect = &e, now_ms, false
	return append([]doc.Patch{{Op: doc.OpSolver, Name: called("ask", n), Value: head, Body: body}}, s.watch()...), true
}

// free is a hand with nothing to do, -1 if there is none. The first comes last, and only
// where the ruff at hand does not need it.
func (s *Ask) free(first bool) int {
	for n := mostHands - 1; n >= 0; n-- {
		if s.hands[n].stand == ready && s.hands[n].out == nil && (n > 0 || first) {
			return n
		}
	}
	return -1
}

// calls starts a helper, if there may be one more and none is on its way.
func (s *Ask) calls(now_ms float64) []doc.Patch {
	for n := 1; n <= s.helpers; n++ {
		switch s.hands[n].stand {
		case waking:
			return nil
		case asleep:
			return s.starts(n, now_ms)
		}
	}
	return nil
}

// Spare ends the helpers that have had nothing to do for long.
func (s *Ask) Spare(now_ms float64) (out []doc.Patch) {
	s.spared = false
	for n := 1; n < mostHands; n++ {
		if h := &s.hands[n]; h.stand == ready && h.out == nil && now_ms-h.free_ms > spare_ms-1 {
			*h = hand{}
			out = append(out, doc.Patch{Op: doc.OpSolver, Name: called("end", n)})
		}
	}
	return append(out, s.spares()...)
}

// spares sets the timer that looks for helpers without work, if it is not set.
func (s *Ask) spares() []doc.Patch {
	there := slices.ContainsFunc(s.hands[1:], func(h hand) bool { return h.stand == waking || h.stand == ready })
	if s.spared || !there {
		return nil
	}
	s.spared = true
	return []doc.Patch{{Op: doc.OpTimer, Name: "spare", MS: spare_ms}}
}
