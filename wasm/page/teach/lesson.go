// Package teach holds the lessons: exercises for a class, read from assets/lessons,
// and what proves that one is solved.
package teach

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"

	"ruffwright/assets"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/measure"
	"ruffwright/wasm/page/say"
)

// Lesson is an exercise for a class: a scheme with something wrong, a question,
// and what proves that it was mended. It is data (assets/lessons), one file
// each; a test solves every one of them.
type Lesson struct {
	Name     string   `json:"name"` // in its link, #lesson=name
	Title    string   `json:"title"`
	Text     []string `json:"text"` // what happened, a paragraph each
	Question string   `json:"question"`
	Hint     string   `json:"hint"`
	Claim    Claim    `json:"claim"` // what is said first

	From string         `json:"from"` // the demo whose scheme it changes
	Set  []check.Change `json:"set"`  // to what

	Shows    Shown          `json:"shows"`    // what is wrong with it
	Solved   Proof          `json:"solved"`   // what must be so in the end
	Solution []check.Change `json:"solution"` // one way there
	Answer   string         `json:"answer"`   // said then
	Figures  []Figure       `json:"figures"`  // every measure that the texts quote

	Scheme scheme.Scheme `json:"-"` // From with Set
}

// Shown is the finding that a lesson is about.
type Shown struct {
	Finding  string         `json:"finding"`
	Severity check.Severity `json:"severity"`
}

// Proof is what solves a lesson. It is judged from the findings and the measures
// of whatever ruff the reader has made, never from a scheme expected; and
// nothing may stop that ruff.
type Proof struct {
	Gone   []string `json:"gone"`             // findings that may not be there, not even as notes
	Within []Range  `json:"within,omitempty"` // measures
	Keep   []string `json:"keep"`             // fields that stay as the lesson set them: a wish given up solves nothing
}

// Range is where a measure must lie, both ends allowed.
type Range struct {
	Measure string  `json:"measure"` // as measured takes it
	Least   float64 `json:"least"`
	Most    float64 `json:"most"`
}

// Figure is a measure as a lesson's text quotes it.
type Figure struct {
	Measure string  `json:"measure"` // as measured takes it, or "finding" and its id: that finding's value
	At      string  `json:"at"`      // start, or solved: as the solution leaves it
	Quoted  float64 `json:"quoted"`
	Within  float64 `json:"within"` // the rounding: how far the solver's may be from it
}

// planned are the figures of the plan that a lesson can ask for.
var planned = map[string]func(sim.Ruff) (float64, bool){
	"panel_mm":  func(r sim.Ruff) (float64, bool) { return r.Plan.Panel_mm, true },
	"panels":    func(r sim.Ruff) (float64, bool) { return float64(r.Plan.Panels), true },
	"slack":     func(r sim.Ruff) (float64, bool) { return r.Plan.Slack, r.Plan.Slack > 0 },
	"sets_have": func(r sim.Ruff) (float64, bool) { return r.Plan.SetsHave, r.Plan.Scheme.Strip.Have > 0 },
}

// measured gives what a lesson asks for: a figure of the plan, or a measure of the
// solved ruff by its key. The function tells the number and whether it is known; it is
// nil where there is no such number.
func measured(name string) func(sim.Ruff) (float64, bool) {
	q := measure.Named(name)
	if planned[name] != nil || q == nil || q.Kind() != "number" {
		return planned[name]
	}
	return func(r sim.Ruff) (float64, bool) {
		if r.Solved == nil {
			return 0, false
		}
		return q.Number(&r.Solved.Ruff)
	}
}

// Lessons are the course. A lesson that cannot be read is left out: a test keeps
// them readable.
func Lessons() []Lesson {
	var out []Lesson
	for _, name := range assets.Lessons() {
		if text, ok := assets.Lesson(name); ok {
			if l, err := readLesson(text); err == nil && l.Name == name {
				for _, text := range []*string{&l.Title, &l.Question, &l.Hint, &l.Answer, &l.Claim.Question} {
					*text = say.Text(*text)
				}
				for i, c := range l.Claim.Choices {
					if c.Reply != "" {
						l.Claim.Choices[i].Reply = say.Text(c.Reply)
					}
				}
				for i := range l.Text {
					l.Text[i] = say.Text(l.Text[i])
				}
				out = append(out, l)
			}
		}
	}
	return out
}

// readLesson reads a lesson's file. What it does not know of, what is missing and
// what fits no field, no finding and no measure is an error.
func readLesson(text []byte) (Lesson, error) {
	var l Lesson
	in := json.NewDecoder(bytes.NewReader(text))
	in.DisallowUnknownFields()
	if err := in.Decode(&l); err != nil {
		return l, err
	}
	for what, words := range map[string]string{"name": l.Name, "title": l.Title, "question": l.Question, "hint": l.Hint, "answer": l.Answer} {
		if words == "" {
			return l, fmt.Errorf("no %s", what)
		}
	}
	document, ok := assets.Demo(l.From)
	if !ok {
		return l, fmt.Errorf("from: there is no demo %q", l.From)
	}
	s, err := scheme.Parse(document)
	if err != nil {
		return l, err
	}
	if l.Scheme, err = check.Apply(s, check.Remedy{Changes: l.Set}); err != nil {
		return l, fmt.Errorf("set: %w", err)
	}
	known := map[string]bool{}
	for _, r := range check.Table() {
		known[r.ID] = true
	}
	switch {
	case len(l.Text) == 0:
		return l, errors.New("no text")
	case len(l.Solution) == 0 || len(l.Solved.Gone) == 0:
		return l, errors.New("nothing solves it")
	}
	for _, id := range append([]string{l.Shows.Finding}, l.Solved.Gone...) {
		if !known[id] {
			return l, fmt.Errorf("there is no finding %q", id)
		}
	}
	for _, key := range l.Solved.Keep {
		if _, ok := scheme.Lookup(key); !ok {
			return l, fmt.Errorf("keep: there is no field %q", key)
		}
	}
	for _, r := range l.Solved.Within {
		if measured(r.Measure) == nil || !(r.Least <= r.Most) {
			return l, fmt.Errorf("within: %q from %g to %g", r.Measure, r.Least, r.Most)
		}
	}
	return l, l.validateClaim()
}

// standing is how a lesson stands.
type standing uint8

const (
	waiting  standing = iota // it is not known yet
	unsolved                 // and why
	solved
)

// judge holds the ruff r of the scheme s, with its findings, against the proof:
// solved, where nothing is left to stop or mend either; or the first thing that is
// missing, in words that do not say what the lesson asks. settled says that nothing more
// will be known of r.
func (l *Lesson) judge(s scheme.Scheme, r sim.Ruff, findings []check.Finding, settled bool, length func(mm float64) string) (standing, string) {
	for _, key := range l.Solved.Keep {
		if f, ok := scheme.Lookup(key); ok && f.Get(l.Scheme) != f.Get(s) {
			return unsolved, say.Text("%s must stay as it was: %s. The lesson asks for another way.", say.Text(f.Label), kept(f, l.Scheme, length))
		}
	}
	if !settled {
		return waiting, ""
	}
	same, other := false, 0
	for _, f := range findings {
		switch {
		case f.Pending && len(f.Awaits) > 0, f.ID == "not-at-rest":
			return unsolved, say.Text("Not yet: how the cloth of this ruff hangs is not known.")
		case f.Pending:
		case slices.Contains(l.Solved.Gone, f.ID):
			same = true
		case f.Severity == check.Stop || f.Severity == check.Mend:
			other++
		}
	}
	switch {
	case same:
		return unsolved, say.Text("Not yet: what you found is still there.")
	case other > 0:
		return unsolved, say.Count(other, "Not yet: what you found is gone, but one other thing is left to mend.", "Not yet: what you found is gone, but %s other things are left to mend.", say.Number(other))
	}
	for _, in := range l.Solved.Within {
		v, ok := measured(in.Measure)(r)
		switch {
		case !ok || math.IsNaN(v):
			return unsolved, say.Text("Not yet: how the cloth of this ruff hangs is not known.")
		case v < in.Least || v > in.Most:
			return unsolved, say.Text("Not yet: a measure that the lesson asks for is still off.")
		}
	}
	return solved, ""
}

// kept is what a field must stay at, in words.
func kept(f scheme.Field, s scheme.Scheme, length func(mm float64) string) string {
	switch f.Kind {
	case scheme.KindLength:
		return length(f.Number(s))
	case scheme.KindChoice:
		for _, c := range f.Choices {
			if c.Value == f.Get(s) {
				return say.Text(c.Label)
			}
		}
	}
	return f.Get(s)
}
