package work

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// New begins with the scheme s.
func New(s scheme.Scheme) (*Work, error) {
	w := &Work{Wrong: map[string]Wrong{}}
	if err := w.Take(s); err != nil {
		return nil, fmt.Errorf("the default scheme: %w", err)
	}
	return w, nil
}

// Held is what is at hand.
func (w *Work) Held() Held {
	return Held{w.Scheme, w.B.Scheme, w.Units, w.Whose, w.By, w.Lesson, w.AskedBoth()}
}

// AskedBoth are the ruff at hand and what it is compared with.
func (w *Work) AskedBoth() string { return w.Asked + " " + w.B.Asked }

// Changes is what changed since it was last asked.
func (w *Work) Changes() Changes {
	was := w.changes
	w.changes = Changes{}
	return was
}

// Take makes s the scheme, if the whole pipeline accepts it; else all is as it was.
func (w *Work) Take(s scheme.Scheme) error {
	if err := s.Validate(); err != nil {
		return err
	}
	r, err := sim.Draw(s)
	if err != nil {
		return err
	}
	asked := wire.Written(s)
	again := asked == w.Asked
	if again {
		r.Solved = w.Ruff.Solved // the solver is not asked twice for the same
	}
	if w.Compares() && w.Whole { // as B it may come back
		w.former = Rival{Asked: w.Asked, Side: w.sideA()}
	}
	w.Scheme, w.Ruff, w.Asked = s, r, asked
	_, w.Misfit = sim.Design(r)
	if !again {
		w.Whole = false
		if b := &w.B; b.Scheme != nil && b.Done && !b.None && b.Asked == asked && b.Side.Ruff.Solved != nil {
			w.Ruff.Solved, w.Whole = b.Side.Ruff.Solved, true // what is solved of the very same
		}
	}
	w.Findings = check.Find(w.Ruff, w.Units)
	w.changes.Shown, w.changes.Taken, w.changes.Turned = true, true, w.changes.Turned || !again
	return nil
}

// Solve takes A as far as it is solved.
func (w *Work) Solve(solved *sim.Solved, whole bool) {
	w.Ruff.Solved, w.Whole = solved, whole
	w.Findings = check.Find(w.Ruff, w.Units)
	w.changes.Shown = true
}

// Measure writes all lengths in other units.
func (w *Work) Measure(units scheme.Units) {
	w.Units = units
	w.Findings = check.Find(w.Ruff, units)
	w.changes.Shown = true
}

// Swap takes a whole scheme as one step.
func (w *Work) Swap(s scheme.Scheme, what string) error {
	before := w.Scheme
	if err := w.Take(s); err != nil {
		return err
	}
	w.remember(step{before: before, what: what})
	w.clears()
	w.editing = ""
	return nil
}

// Replace takes a whole scheme as one step: another ruff, of no lesson.
func (w *Work) Replace(s scheme.Scheme, what string) error {
	err := w.Swap(s, what)
	if err == nil {
		w.Lesson = "" // a lesson is about its own ruff
		w.Begin()
	}
	return err
}

// Begin names the ruff at hand as a new one.
func (w *Work) Begin() {
	w.lines++
	w.Whose = Whose{Line: w.By + "-" + strconv.Itoa(w.lines)}
}

// Visit notes that the ruff at hand came by a link: it is nobody's yet.
func (w *Work) Visit() { w.Guest, w.Restored = true, false }

// Arrive takes what a link holds as one step: b nil leaves B as it is.
func (w *Work) Arrive(a scheme.Scheme, b *scheme.Scheme, what string) error {
	if b == nil {
		return w.Replace(a, what)
	}
	was := w.B
	if err := w.SetB(b); err != nil {
		return err
	}
	now := w.B
	w.B = was
	if err := w.Replace(a, what); err != nil {
		return err
	}
	w.B = now
	return nil
}

// Apply makes the changes of remedy n of a finding as one step. It tells whether
// there is such a remedy.
func (w *Work) Apply(id string, n int) (bool, error) {
	i := slices.IndexFunc(w.Findings, func(f check.Finding) bool { return f.ID == id })
	if i < 0 || n < 0 || n >= len(w.Findings[i].Remedies) {
		return false, nil
	}
	remedy := w.Findings[i].Remedies[n]
	return true, w.Make(remedy.Changes, say.Text("“%s”", remedy.Sentence))
}

// Make makes some changes as one step, called what.
func (w *Work) Make(changes []check.Change, what string) error {
	s, err := check.Apply(w.Scheme, check.Remedy{Changes: changes})
	if err != nil {
		return err
	}
	return w.inOneStep(s, what)
}

// inOneStep takes a scheme as one step, called what.
func (w *Work) inOneStep(s scheme.Scheme, what string) error {
	before := w.Scheme
	if err := w.Take(s); err != nil {
		return err
	}
	w.remember(step{before: before, what: what})
	w.clears()
	return nil
}

// Decide makes some changes as if they were typed one after the other, as one step called
// what: decisions that they overrule count no longer.
func (w *Work) Decide(changes []check.Change, what string) error {
	s, ruled, err := w.decided(changes)
	if err != nil {
		return err
	}
	if err := w.inOneStep(s, what); err != nil {
		return err
	}
	w.ruled = ruled
	return nil
}

// decided is the scheme with some changes as if they were typed, and what they overrule.
func (w *Work) decided(changes []check.Change) (s scheme.Scheme, ruled []scheme.Overruled, err error) {
	s = w.Scheme
	for _, c := range changes {
		f, ok := scheme.Lookup(c.Key)
		if !ok {
			continue
		}
		more, err := f.For(s).Decide(&s, c.Value, scheme.Millimetres)
		if err != nil {
			return s, nil, err
		}
		ruled = append(ruled, more...)
	}
	return s, ruled, s.Validate()
}

// Beside makes the ruff at hand with some changes B, as one step called what.
func (w *Work) Beside(changes []check.Change, what string) error {
	other, _, err := w.decided(changes)
	if err != nil {
		return err
	}
	was := w.B
	if err := w.SetB(&other); err != nil {
		return err
	}
	now := w.B
	w.B = was
	w.remember(step{before: w.Scheme, what: what})
	w.B = now
	return nil
}

// Settle ends what was being entered: the reader does something else.
func (w *Work) Settle() { w.editing, w.Under, w.draft, w.Doubt = "", "", nil, "" }

// clears forgets the entries that cannot be used: the ruff at hand is another.
func (w *Work) clears() {
	w.Wrong, w.draft, w.Doubt, w.ruled, w.ruledBy = map[string]Wrong{}, nil, "", nil, ""
}

// Same reports whether two schemes are the same document.
func Same(a, b scheme.Scheme) bool { return bytes.Equal(a.JSON(), b.JSON()) }
