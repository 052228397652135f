package work

// Undo goes back a step, and tells what it was; "" where there is none.
func (w *Work) Undo() (what string) { return w.travel(&w.past, &w.future) }

// Redo goes forward again.
func (w *Work) Redo() (what string) { return w.travel(&w.future, &w.past) }

// Ways are what Undo and Redo would go over; "" nothing.
func (w *Work) Ways() (back, forth string) {
	last := func(steps []step) string {
		if n := len(steps); n > 0 {
			return steps[n-1].what
		}
		return ""
	}
	return last(w.past), last(w.future)
}

func (w *Work) travel(from, to *[]step) (what string) {
	if len(*from) == 0 {
		return ""
	}
	last := (*from)[len(*from)-1]
	here := step{before: w.Scheme, what: last.what, lesson: w.Lesson, rival: w.B.Scheme, whose: w.Whose}
	if w.Take(last.before) != nil || w.SetB(last.rival) != nil {
		return "" // they were good before; without them the page stays as it is
	}
	*from = (*from)[:len(*from)-1]
	*to = append(*to, here)
	w.Lesson = last.lesson
	w.Whose, w.Restored = last.whose, false
	w.clears()
	w.editing = ""
	return last.what
}
