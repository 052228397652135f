package ask

import (
	"ruffwright/geom/figure"
	"ruffwright/geom/pleat"
	"ruffwright/geom/word"
	"ruffwright/sim/check"
	"ruffwright/wasm/wire"
)

// mends is what Mend is asked about: its sentences hold lengths.
func (s *Ask) mends() string { return s.Want.A + s.Want.Units.Symbol() }

// begins are the changes that Mend is to look at first; none where it need not look.
func (s *Ask) begins() (out []wire.Trial) {
	if s.mend.done || s.with(forTries) != nil || s.with(forMend) != nil || !Heavy(s.Want.Findings) {
		return nil
	}
	for _, c := range s.Changes() {
		if c.Effect != nil && !c.Spoils() && len(c.Effect.Gone)+len(c.Effect.Eased) > 0 {
			out = append(out, wire.Trial{Changes: c.Changes})
		}
	}
	if len(out) == 0 {
		s.mend.done = true
	}
	return out
}

// Heavy reports that something stops or is to mend.
func Heavy(findings []check.Finding) bool {
	for _, f := range findings {
		if !f.Pending && (f.Severity == check.Stop || f.Severity == check.Mend) {
			return true
		}
	}
	return false
}

// mended takes the answer.
func (s *Ask) mended(m wire.Mended) {
	s.mend = mend{done: true, ways: m.Ways}
}

// Way is something to do, of one change or more.
type Way struct {
	Sentences []word.Text
	Changes   []check.Change
	Effect    *wire.Effect
}

// Ways are what to do, best first, and whether they have been looked for.
func (s *Ask) Ways() (all []Way, done bool) {
	for _, w := range s.mend.ways {
		way := Way{Changes: w.Changes, Effect: &w.Effect}
		for _, said := range w.Sentences {
			way.Sentences = append(way.Sentences, said.Text)
		}
		all = append(all, way)
	}
	return all, s.mend.done
}

// Is reports that a change makes the same of the ruff as the way.
func (w Way) Is(c Change) bool { return key(w.Changes) == key(c.Changes) }

// Far says how many of the changes have been tried.
func (s *Ask) Far() (tried, of int) { return len(s.tried), len(s.offers) }

// Now is what the ruff at hand takes, and how it hangs; nil where nothing was tried.
func (s *Ask) Now() *wire.Price {
	for _, t := range s.tried {
		return &t.Now
	}
	return nil
}

// Drawn is the ruff at hand in a few lines; without lines where they cannot be drawn.
func (s *Ask) Drawn() figure.Outline {
	r := s.Want.Ruff
	if r == nil {
		return figure.Outline{}
	}
	if s.drawn.of != r.Solved || s.drawn.asked != s.Want.A {
		s.drawn.of, s.drawn.asked = r.Solved, s.Want.A
		shape, bowed := r.Folded.Shape, (*pleat.Shape)(nil)
		if r.Solved != nil {
			shape, bowed = r.Solved.Shape, r.Solved.Bowed
		}
		s.drawn.lines, _ = figure.NewOutline(r.Plan, shape, bowed) // none: then there is no picture
	}
	return s.drawn.lines
}
