package ask

import (
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// Check is the watchdog: a hand that should speak and does not is ended.
func (s *Ask) Check(now_ms float64) (out []doc.Patch) {
	s.watched = false
	for n := range s.hands {
		h := &s.hands[n]
		patience := float64(silent_ms)
		switch {
		case h.stand == waking:
			patience = wire.Waking_ms
		case h.stand != ready || h.out == nil:
			continue
		case h.out.purpose == forProof: // it tells of itself between two problems
			patience = wire.Waking_ms
		}
		switch {
		case now_ms-h.heard_ms < patience:
			h.suspect = false
		case h.suspect:
			out = append(out, s.Die(n, say.Text("it fell silent"), now_ms)...)
			continue
		default:
			h.suspect = true
		}
		out = append(out, s.watch()...)
	}
	return out
}

// Die takes note that hand n is dead. The first is started again once, then it is left
// alone until the reader asks for it. Without a helper the others do its work.
func (s *Ask) Die(n int, why string, now_ms float64) []doc.Patch {
	if n < 0 || n >= len(s.hands) || s.hands[n].stand == gone || s.hands[n].stand == asleep {
		return nil
	}
	out := []doc.Patch{{Op: doc.OpSolver, Name: called("end", n)}}
	s.hands[n] = hand{}
	if n > 0 {
		s.helpers = 0
		return out
	}
	s.deaths++
	s.asked, s.done, s.awaits = "", false, nil
	if s.deaths == 1 {
		return append(out, s.starts(0, now_ms)...)
	}
	s.hands[0].stand, s.died = gone, why
	s.proof, s.hold, s.gauge.wanted = proof{}, hold{}, false
	s.Voice.Soon(s.Words())
	return append(out, s.stop(s.drop(everything, now_ms))...)
}
