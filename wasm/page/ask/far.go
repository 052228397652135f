package ask

import (
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// haltWords are what the solver's button says, and whether it has nothing to do.
func (s *Ask) haltWords() (label string, idle bool) {
	if s.stand == gone || s.halted {
		return say.Word("halt.again"), false
	}
	return say.Word("halt.stop"), !s.Busy()
}

// Words say how far the solver is; solvingState is the same for the
// stylesheet.
func (s *Ask) Words() string {
	switch {
	case s.stand == gone:
		if s.Want.Solved != nil {
			return say.Word("solve.gonelast", "why", s.died)
		}
		return say.Word("solve.gone", "why", s.died)
	case s.halted && s.Want.Solved != nil:
		return say.Word("solve.partly")
	case s.halted:
		return say.Word("solve.stopped")
	case s.none:
		return say.Word("solve.none", "why", say.Sentence(say.Told(s.why)))
	case s.stand == asleep || s.stand == waking:
		return say.Word("solve.soon")
	case s.out == nil && s.done, s.out != nil && s.out.purpose != forRuff:
		return s.solvedWords()
	case len(s.awaits) > 0:
		return say.Word("solve."+s.awaits[0], "far", s.farWords()) // fine, bow or other
	}
	return say.Word("solve.busy", "far", s.farWords())
}

func (s *Ask) farWords() string {
	f := s.far
	if f.Cells < 2 {
		return ""
	}
	return say.Word("solve.far", "n", f.Cell+1, "of", f.Cells)
}

// solvedWords say what was solved, and what more is being done.
func (s *Ask) solvedWords() string {
	words := say.Word("solved")
	if r := s.Want.Solved; r != nil && !r.Converged() {
		words = say.Word("solved.roughly")
	}
	if s.out == nil {
		return words
	}
	switch s.out.purpose {
	case forRival:
		words = say.Word("solved.rival", "solved", words, "far", s.farWords())
	case forTries:
		words = say.Word("solved.tries", "solved", words)
	case forProof:
		words = say.Word("solved.proof", "solved", words)
	}
	return words
}

func (s *Ask) solvingState() string {
	switch {
	case s.stand == gone:
		return "gone"
	case s.halted:
		return "halted"
	case s.none:
		return "none"
	case s.Busy():
		return "busy"
	}
	return "done"
}

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
