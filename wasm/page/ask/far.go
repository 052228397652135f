package ask

import (
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// haltWords are what the solver's button says, and whether it has nothing to do.
func (s *Ask) haltWords() (label string, idle bool) {
	if s.hands[0].stand == gone || s.halted {
		return say.Text("Solve again"), false
	}
	return say.Text("Stop solving"), !s.Busy()
}

// awaited says what is solved and what is next, by what wire.Result.Awaits names first.
var awaited = map[string]string{
	"fine":  "Solved: the shape, coarsely. Now finer%s.",
	"bow":   "Solved: the shape. Now letting the wearer bow%s.",
	"other": "Solved: the shape and how it holds. Now the other way in which it may lie%s.",
}

// Words say how far the solver is; solvingState is the same for the
// stylesheet.
func (s *Ask) Words() string {
	switch {
	case s.hands[0].stand == gone:
		if s.Want.Solved != nil {
			return say.Text("The solver of the cloth does not run (%s). What was solved until then is shown.", s.died)
		}
		return say.Text("The solver of the cloth does not run (%s). Shape and findings are geometry’s alone.", s.died)
	case s.halted && s.Want.Solved != nil:
		return say.Text("Solving was stopped; what was solved until then is shown.")
	case s.halted:
		return say.Text("Solving was stopped. Shape and findings are geometry’s alone.")
	case s.none:
		return say.Text("How the cloth hangs cannot be solved for these sets. %s", say.Sentence(say.In(s.why)))
	case s.hands[0].stand != ready:
		return say.Text("Soon to be solved: how the cloth hangs.")
	case s.done && s.with(forRuff) == nil:
		return s.solvedWords()
	case len(s.awaits) > 0:
		return say.Text(awaited[s.awaits[0]], s.farWords(forRuff))
	}
	return say.Text("Solving how the cloth hangs%s.", s.farWords(forRuff))
}

func (s *Ask) farWords(of purpose) string {
	e := s.with(of)
	if e == nil || e.far.Cells < 2 {
		return ""
	}
	return say.Text(": half set %d of %d", e.far.Cell+1, e.far.Cells)
}

// solvedWords say what was solved, and what more is being done.
func (s *Ask) solvedWords() string {
	words := say.Text("Solved: how the cloth hangs.")
	if r := s.Want.Solved; r != nil && !r.Converged() {
		words = say.Text("The cloth did not come to rest in the solver: believe its shape only roughly, and no finding about firmness.")
	}
	switch {
	case s.with(forRival) != nil:
		words = say.Text("%s Now B, which it is compared with%s.", words, s.farWords(forRival))
	case s.with(forTries) != nil:
		words = say.Text("%s Now trying the changes offered.", words)
	case s.with(forMend) != nil:
		words = say.Text("%s Now looking for what to do.", words)
	case s.with(forHold) != nil:
		words = say.Text("%s Now looking for what would hold.", words)
	case s.with(forGauge) != nil:
		words = say.Text("%s Now reckoning your trial.", words)
	case s.with(forMatter) != nil:
		words = say.Text("%s Now looking for what matters most.", words)
	case s.with(forProof) != nil:
		words = say.Text("%s Now trying the solver on known answers.", words)
	}
	return words
}

func (s *Ask) solvingState() string {
	switch {
	case s.hands[0].stand == gone:
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
	out.Bool("hold-go", "aria-disabled", s.hold.wanted)
	out.Text("hold-stands", s.holdWords())
	out.Nodes("hold-ways", s.holdNodes())
	s.gaugePatches(&out)
	out.Bool("matter-go", "aria-disabled", s.matter.wanted)
	out.Text("matter-stands", s.matterWords())
	out.Bool("proof-go", "aria-disabled", s.proof.wanted)
	out.Text("proof-stands", s.proofWords())
	out.Attr("proof-stands", "data-state", s.proofState())
	out.Nodes("proof-rows", s.proofNodes())
	return out
}
