package ask

import (
	"ruffwright/geom/scheme"
	"ruffwright/sim/matter"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// Matter asks which fields matter.
func (s *Ask) Matter(now_ms float64) []doc.Patch {
	if s.matter.wanted {
		return nil
	}
	s.matter = matters{wanted: true, of: s.Want.A}
	if s.hands[0].stand == gone || s.halted {
		return s.Halt(now_ms) // the reader asks for it: that sets it to work again
	}
	return nil
}

// mattered takes a field that matters, where it is one; after the last all are known.
func (s *Ask) mattered(f *matter.Field, last bool) {
	if f != nil {
		s.matter.got = append(s.matter.got, *f)
	}
	if last {
		s.matter.wanted = false
		s.Voice.Soon(s.matterWords())
	}
}

// Matters are the fields that are known to matter, and the ruff for which they do.
func (s *Ask) Matters() (fields []matter.Field, of string) { return s.matter.got, s.matter.of }

// outlives reports whether what matters is still of use for another ruff: one that
// differs in no more than one of the fields that it tells of.
func (m *matters) outlives(now string) bool {
	if m.wanted || len(m.got) == 0 {
		return false
	}
	a, err := scheme.Parse([]byte(m.of))
	b, wrong := scheme.Parse([]byte(now))
	if err != nil || wrong != nil {
		return false
	}
	differ := scheme.Differ(a, b)
	if len(differ) == 0 {
		return true
	}
	for _, f := range m.got {
		if len(differ) == 1 && differ[0].Key == f.Key {
			return true
		}
	}
	return false
}

// matterWords say how far the search is.
func (s *Ask) matterWords() string {
	switch m := &s.matter; {
	case !m.none.Empty():
		return say.Sentence(say.In(m.none))
	case m.wanted && s.with(forMatter) != nil:
		return say.Text("Looking: each decision is tried a little more and less.")
	case m.wanted:
		return say.Text("It begins when the ruff is solved.")
	case len(m.got) > 0:
		return say.Text("Move a slider to try a value. The lines were solved coarsely, and for the other decisions as they were.")
	}
	return ""
}
