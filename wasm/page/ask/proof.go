package ask

import (
	"math"
	"strconv"

	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// Prove begins the trial, from the first problem.
func (s *Ask) Prove(now_ms float64) []doc.Patch {
	if s.proof.wanted {
		return nil
	}
	s.proof = proof{wanted: true}
	if s.hands[0].stand == gone || s.halted {
		return s.Halt(now_ms) // the reader asks for it: that sets it to work again
	}
	return nil
}

// proved takes the answer to one problem.
func (s *Ask) proved(c wire.Checked, last bool) {
	t := &s.proof
	t.rows = append(t.rows, c)
	if last {
		t.wanted, t.done, t.of = false, true, len(t.rows)
		s.Voice.Soon(s.proofWords())
	}
}

// missed is how many answers are off by more than is allowed.
func (t *proof) missed() (n int) {
	for _, c := range t.rows {
		if !c.Held {
			n++
		}
	}
	return n
}

// proofWords say how the trial stands.
func (s *Ask) proofWords() string {
	t := &s.proof
	switch {
	case !t.wanted && !t.done:
		return ""
	case t.missed() > 0:
		return say.Text("%d of %d known answers are missed: do not sew by what this browser solves.", t.missed(), max(t.of, len(t.rows)))
	case t.done:
		return say.Text("All %d known answers are met within what is allowed.", len(t.rows))
	case t.of == 0:
		return say.Text("It begins when the ruff is done.")
	}
	return say.Text("%d of %d tried, all within what is allowed.", len(t.rows), t.of)
}

func (s *Ask) proofState() string {
	switch t := &s.proof; {
	case t.missed() > 0:
		return "missed"
	case t.done:
		return "held"
	}
	return "waiting"
}

// proofNodes list the problems, those that are missed first.
func (s *Ask) proofNodes() []doc.Node {
	if len(s.proof.rows) == 0 {
		return nil
	}
	list := doc.El("ul", "")
	for _, held := range []bool{false, true} {
		for _, c := range s.proof.rows {
			if c.Held == held {
				list.Nodes = append(list.Nodes, doc.El("li", "").With("data-held", strconv.FormatBool(held)).Say(proofRow(c)))
			}
		}
	}
	return []doc.Node{list}
}

// proofRow is one problem in words.
func proofRow(c wire.Checked) string {
	known := say.Amount(c.Reference, c.Unit, 4)
	if !c.Why.Empty() {
		return say.Text("%s: no answer. Known: %s (%s). %s", say.Text(c.Name), known, say.Text(c.Source), c.Why.Text)
	}
	off, most := say.Amount(math.Abs(c.Deviation), c.Unit, 2), say.Amount(c.Allowed, c.Unit, 2)
	if c.Relative {
		off, most = say.Amount(100*math.Abs(c.Deviation), "%", 2), say.Amount(100*c.Allowed, "%", 2)
	}
	return say.Text("%s: %s. Known: %s (%s). Off by %s; %s allowed.", say.Text(c.Name), say.Amount(c.Value, c.Unit, 4), known, say.Text(c.Source), off, most)
}
