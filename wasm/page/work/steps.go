package work

import "slices"

// mostSteps is how many steps undo remembers.
const mostSteps = 200

// remember keeps a step to go back to. What the reader changes is theirs from
// then on.
func (w *Work) remember(s step) {
	s.lesson = w.Lesson
	s.rival, s.whose = w.B.Scheme, w.Whose
	w.Own, w.Guest, w.Restored = true, false, false
	w.past = append(w.past, s)
	if len(w.past) > mostSteps {
		w.past = slices.Delete(w.past, 0, len(w.past)-mostSteps)
	}
	w.future = nil
}
