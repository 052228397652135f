package teach

import (
	"slices"
	"strconv"
	"strings"
	"sync"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// Link is what a lesson's link begins with, after the '#'.
const Link = "lesson="

// Course is the lessons, and whether the reader was told that the open one is
// solved. New makes one.
type Course struct {
	lessons func() []Lesson // read when first asked for: the start does not wait
	told    bool
	tries   map[string][]string // what was said to be wrong, by lesson
}

// New is the course.
func New() *Course { return &Course{lessons: sync.OnceValue(Lessons), tries: map[string][]string{}} }

// Lesson is the lesson of that name; nil if there is none.
func (c *Course) Lesson(name string) *Lesson {
	lessons := c.lessons()
	for i := range lessons {
		if lessons[i].Name == name {
			return &lessons[i]
		}
	}
	return nil
}

// After is the name of the lesson after one; "" where that is none.
func (c *Course) After(name string) string {
	lessons := c.lessons()
	for i, l := range lessons {
		if l.Name == name {
			return lessons[(i+1)%len(lessons)].Name
		}
	}
	return ""
}

// Open begins a lesson: what was told of another counts no more, nor what was said of
// this one before.
func (c *Course) Open(name string) {
	c.told = false
	delete(c.tries, name)
}

// Pupil is what a lesson is judged from.
type Pupil struct {
	Scheme   scheme.Scheme
	Ruff     sim.Ruff
	Findings []check.Finding
	Settled  bool   // nothing more will be known of the ruff
	Instead  string // what is said in place of a judgement: what is typed is not shown; "" it is
	Units    scheme.Units
}

// Patches show the open lesson of that name beside the stage, and give what is to be
// said once, when it is solved.
func (c *Course) Patches(name string, p Pupil) (out []doc.Patch, said string) {
	l := c.Lesson(name)
	if l == nil {
		return []doc.Patch{{Op: doc.OpAttr, ID: "lesson", Name: "hidden", Value: ""}, {Op: doc.OpText, ID: "lesson-short"}}, ""
	}
	how, words := l.judge(p.Scheme, p.Ruff, p.Findings, p.Settled, func(mm float64) string { return say.In(scheme.Length(mm, p.Units)) })
	switch how {
	case solved:
		words = say.Text("Solved. %s", l.Answer)
	case waiting:
		words = say.Text("How the cloth hangs is being solved; then you are told how the lesson stands.")
	}
	if !c.Said(name) {
		how, words = unsolved, say.Text("First say what is wrong; then mend it.")
	}
	if p.Instead != "" { // the last good ruff is not what is typed
		how, words = waiting, p.Instead
	}
	if how == solved && !c.told {
		said = words
	}
	c.told = how == solved
	state := map[standing]string{waiting: "waiting", unsolved: "open", solved: "solved"}[how]
	short := say.Text("Lesson: not solved yet.")
	if how == solved {
		short = say.Text("Lesson: solved.")
	}
	var list doc.List
	list.Flag("lesson", "hidden", false)
	list.Text("lesson-short", short)
	list.Attr("lesson-short", "data-state", state)
	list.Text("lesson-title", say.Text("Lesson: %s", l.Title))
	list.Nodes("lesson-text", l.story())
	tasks := c.claimNodes(l, p.Units)
	if c.Said(name) {
		tasks = append(tasks, l.task()...)
	}
	list.Nodes("lesson-claim", tasks)
	list.Text("lesson-stands", words)
	list.Attr("lesson-stands", "data-state", state)
	return list, said
}

// story is what happened.
func (l *Lesson) story() (out []doc.Node) {
	for _, t := range l.Text {
		out = append(out, doc.El("p", "").Say(t))
	}
	return out
}

// task is what is to be found out and mended, with a hint.
func (l *Lesson) task() []doc.Node {
	return []doc.Node{
		doc.El("p", "class=question").Say(l.Question),
		doc.El("details", "", doc.El("summary", "").Say(say.Text("A hint")), doc.El("p", "").Say(l.Hint)),
	}
}

// Nodes are all lessons to be read before any program loads: each with a
// plain link that opens it once the program runs. The link's place in the page
// is the lesson's own text.
func (c *Course) Nodes() []doc.Node {
	var out []doc.Node
	for _, l := range c.lessons() {
		body := doc.El("div", "tabindex=-1").With("id", Link+l.Name).WithNodes(l.story()...).WithNodes(l.task()...).WithNodes(
			doc.El("details", "", doc.El("summary", "").Say(say.Text("What shows it, and what mends it")), doc.El("p", "").Say(l.Answer)),
			doc.El("p", "", doc.El("a", "data-do=lesson").With("href", "#"+Link+l.Name).With("data-with", l.Name).
				With("aria-label", say.Text("Open this lesson: %s", l.Title)).Say(say.Text("Open this lesson"))))
		out = append(out, doc.El("li", "", doc.El("details", "class=lesson", doc.El("summary", "").Say(l.Title), body)))
	}
	return out
}

// Words is what the fold of the lessons is called.
func (c *Course) Words() string {
	return say.Text("Lessons: %s ruffs with something wrong", say.Number(len(c.lessons())))
}

// Named gives the lesson that a fragment names.
func Named(fragment string) (string, bool) {
	return strings.CutPrefix(strings.TrimPrefix(fragment, "#"), Link)
}

// Claims takes what the reader says is wrong with the ruff of the open lesson, and
// gives what is said to it.
func (c *Course) Claims(name, is string, units scheme.Units) string {
	l := c.Lesson(name)
	if l == nil || c.Said(name) {
		return ""
	}
	for _, x := range l.Claim.Choices {
		if x.Is != is {
			continue
		}
		c.tries[name] = append(c.tries[name], is)
		return l.reply(x, units)
	}
	return ""
}

// Said reports whether the reader has said what is wrong with a lesson's ruff, or there
// is no such lesson.
func (c *Course) Said(name string) bool {
	l := c.Lesson(name)
	return l == nil || slices.Contains(c.tries[name], l.Claim.Right)
}

// claimNodes are the question and its choices: those that were tried are marked, and
// none can be pressed any more once the right one is said.
func (c *Course) claimNodes(l *Lesson, units scheme.Units) []doc.Node {
	tried, done := c.tries[l.Name], c.Said(l.Name)
	acts := doc.El("p", "class=acts role=group aria-labelledby=claim-asks")
	for i, x := range l.Claim.Choices {
		b := doc.El("button", "type=button class=claim data-do=lesson-claim id=claim-"+strconv.Itoa(i)).With("data-with", x.Is).
			With("aria-disabled", strconv.FormatBool(done || slices.Contains(tried, x.Is)))
		sign := ""
		if slices.Contains(tried, x.Is) {
			sign = "✕ "
			if x.Is == l.Claim.Right {
				sign = "✓ "
			}
		}
		acts = acts.WithNodes(b.Say(sign + l.words(x, units)))
	}
	out := []doc.Node{doc.El("p", "class=question id=claim-asks").Say(l.Claim.Question), acts}
	if len(tried) > 0 {
		last := tried[len(tried)-1]
		for _, x := range l.Claim.Choices {
			if x.Is == last {
				out = append(out, doc.El("p", "class=reply id=claim-reply").Say(l.reply(x, units)))
			}
		}
	}
	return out
}
