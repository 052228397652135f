package ask

import (
	"ruffwright/geom/word"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/wire"
)

// Next sends the hands what comes next.
func (s *Ask) Next(now_ms float64) (out []doc.Patch) {
	if s.hands[0].stand != ready || s.halted {
		return nil
	}
	if s.asked != s.wanted() && !s.pulled { // what the first hand does gives way
		s.asked, s.done, s.none, s.why, s.awaits = s.wanted(), false, false, word.Text{}, nil
		r := wire.Request{Task: wire.Solve, Scheme: s.Want.A, Coarse: s.moving}
		if s.moving {
			r.Skip = wire.Skip{Bow: true, Tangents: true, Other: true}
		}
		out, _ = s.gives(0, r, errand{purpose: forRuff, of: s.asked}, now_ms)
	}
	left := s.drop(s.stale, now_ms)
	if !s.pulled && !s.moving {
		out = append(out, s.more(now_ms)...)
	}
	return append(out, s.stop(left)...)
}

// more gives the hands that are free what is wanted beside the ruff at hand.
func (s *Ask) more(now_ms float64) (out []doc.Patch) {
	over := s.done || s.none
	for shaped := over || len(s.awaits) > 0 && s.awaits[0] != "fine"; shaped; {
		r, e := s.choose()
		if r.Task == "" {
			break
		}
		n := s.free(over)
		if n < 0 && over {
			n = s.givesWay(e.purpose)
		}
		if n < 0 {
			out = append(append(out, s.calls(now_ms)...), s.spares()...)
			break
		}
		given, ok := s.gives(n, r, e, now_ms)
		if !ok {
			break
		}
		out = append(out, given...)
	}
	if over && !s.working() {
		s.deaths = 0 // all is done: whatever it died of is over
	}
	return out
}

// stale reports that nobody wants to know any more what an errand was for.
func (s *Ask) stale(e *errand) bool {
	switch e.purpose {
	case forRuff:
		return e.of != s.wanted()
	case forRival:
		return e.of != s.Want.B || s.Want.BDone
	case forMend:
		return e.of != s.mends() || s.mend.done
	case forHold:
		return e.of != s.Want.A || !s.hold.wanted
	case forGauge:
		return e.of != s.Want.A || !s.gauge.wanted
	case forMatter:
		return e.of != s.Want.A || !s.matter.wanted
	case forProof:
		return !s.proof.wanted
	}
	return e.of != s.Want.A
}

// givesWay is a hand whose errand is less urgent than the ruff beside, -1 if there is
// none: changes to try and what comes after them wait for that.
func (s *Ask) givesWay(to purpose) int {
	for n, h := range s.hands {
		if to == forRival && h.out != nil && h.out.purpose > forRival {
			return n
		}
	}
	return -1
}

// choose gives the next request beside that for the ruff at hand, without a task if there
// is none.
func (s *Ask) choose() (r wire.Request, e errand) {
	if s.Want.B != "" && !s.Want.BDone && s.with(forRival) == nil {
		return wire.Request{Task: wire.Solve, Scheme: s.Want.B}, errand{purpose: forRival, of: s.Want.B}
	}
	if r, e = s.chooseChange(); r.Task != "" {
		return r, e
	}
	if s.gauge.wanted && s.with(forGauge) == nil {
		read := s.gauge.read
		return wire.Request{Task: wire.Gauge, Scheme: s.Want.A, Read: &read}, errand{purpose: forGauge, of: s.Want.A}
	}
	if s.hold.wanted && s.with(forHold) == nil {
		return wire.Request{Task: wire.Hold, Scheme: s.Want.A}, errand{purpose: forHold, of: s.Want.A}
	}
	if s.matter.wanted && s.with(forMatter) == nil {
		s.matter = matters{wanted: true, of: s.Want.A}
		return wire.Request{Task: wire.Matter, Scheme: s.Want.A}, errand{purpose: forMatter, of: s.Want.A}
	}
	if s.proof.wanted && s.with(forProof) == nil {
		s.proof = proof{wanted: true}
		return wire.Request{Task: wire.Verify}, errand{purpose: forProof}
	}
	return r, e
}

// chooseChange gives the next request about what to change, once all is known of the ruff: the
// changes that are offered, then what to do.
func (s *Ask) chooseChange() (r wire.Request, e errand) {
	if !s.done {
		return r, e
	}
	if tries := s.untried(); len(tries) > 0 {
		return wire.Request{Task: wire.Try, Scheme: s.Want.A, Tries: tries}, errand{purpose: forTries, of: s.Want.A, tries: tries}
	}
	if begins := s.begins(); len(begins) > 0 {
		return wire.Request{Task: wire.Mend, Scheme: s.Want.A, Tries: begins, Units: s.Want.Units.Symbol()}, errand{purpose: forMend, of: s.mends()}
	}
	return r, e
}
