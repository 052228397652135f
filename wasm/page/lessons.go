package page

import (
	"strings"

	"ruffwright/geom/scheme"
)

// lessonLink is what a lesson's link begins with, after the '#'.
const lessonLink = "lesson="

// lesson is the lesson of that name; nil if there is none.
func (p *Page) lesson(name string) *Lesson {
	lessons := p.lessons()
	for i := range lessons {
		if lessons[i].Name == name {
			return &lessons[i]
		}
	}
	return nil
}

// teaches carries out a command of the lessons: open one, begin it again, go to
// the next, put it away, copy its link.
func (p *Page) teaches(name, with string) []Patch {
	switch name {
	case "lesson":
		return p.learn(with)
	case "lesson-again":
		return p.learn(p.learning)
	case "lesson-next":
		lessons := p.lessons()
		for i, l := range lessons {
			if l.Name == p.learning {
				return p.learn(lessons[(i+1)%len(lessons)].Name)
			}
		}
	case "lesson-link":
		if p.learning != "" {
			link := "#" + lessonLink + p.learning
			return []Patch{{Op: OpAddress, Value: link}, {Op: OpCopy, Value: link}}
		}
	case "lesson-away":
		if p.learning != "" {
			p.learning = ""
			p.saySoon(word("lesson.closed"))
			return []Patch{{Op: OpFocus, ID: "to-lessons"}}
		}
	}
	return nil
}

// learn opens a lesson: its scheme is taken as one step, which undo takes back
// together with the lesson.
func (p *Page) learn(name string) []Patch {
	l := p.lesson(name)
	if l == nil {
		p.notice(word("lesson.broken"))
		return nil
	}
	before := p.atHand()
	if err := p.replace(l.scheme, word("lesson.step", "title", l.Title)); err != nil {
		p.notice(sentence(told(err.Error())))
		return nil
	}
	p.visits(before)
	p.learning, p.learned = l.Name, false
	p.notice("")
	p.saySoon(word("lesson.opened", "title", l.Title, "question", l.Question))
	return []Patch{
		{Op: OpAttr, ID: "course", Name: "open", Gone: true}, {Op: OpAttr, ID: "from", Name: "open", Gone: true},
		{Op: OpAttr, ID: "lesson", Name: "hidden", Gone: true}, {Op: OpFocus, ID: "lesson"},
	}
}

// judged is how the open lesson stands, in words; it tells once when it is
// solved.
func (p *Page) judged() (standing, string) {
	l := p.lesson(p.learning)
	if l == nil {
		return waiting, ""
	}
	s := &p.solver
	settled := !s.moving && (s.done || s.none || s.halted || s.stand == gone)
	how, words := l.judge(p.scheme, p.ruff, p.findings, settled, func(mm float64) string { return scheme.FormatLength(mm, p.units) })
	switch how {
	case solved:
		words = word("lesson.solved", "answer", l.Answer)
	case waiting:
		words = word("lesson.waits")
	}
	if len(p.wrong) > 0 { // the last good ruff is not what is typed
		how, words = waiting, p.news()
	}
	if how == solved && !p.learned {
		p.saySoon(words)
	}
	p.learned = how == solved
	return how, words
}

// lessonPatches show the open lesson beside the stage.
func (p *Page) lessonPatches() []Patch {
	l := p.lesson(p.learning)
	if l == nil {
		return []Patch{{Op: OpAttr, ID: "lesson", Name: "hidden", Value: ""}, {Op: OpText, ID: "lesson-short"}}
	}
	how, words := p.judged()
	state := map[standing]string{waiting: "waiting", unsolved: "open", solved: "solved"}[how]
	short := word("lesson.short")
	if how == solved {
		short = word("lesson.done")
	}
	return []Patch{
		{Op: OpAttr, ID: "lesson", Name: "hidden", Gone: true},
		{Op: OpText, ID: "lesson-short", Value: short},
		{Op: OpAttr, ID: "lesson-short", Name: "data-state", Value: state},
		{Op: OpText, ID: "lesson-title", Value: word("lesson.title", "title", l.Title)},
		{Op: OpNodes, ID: "lesson-text", Nodes: p.lessonNodes(l)},
		{Op: OpText, ID: "lesson-stands", Value: words},
		{Op: OpAttr, ID: "lesson-stands", Name: "data-state", Value: state},
	}
}

// lessonNodes are a lesson's text, question and hint.
func (p *Page) lessonNodes(l *Lesson) []Node {
	var out []Node
	for _, t := range l.Text {
		out = append(out, el("p", "").say(t))
	}
	return append(out,
		el("p", "class=question").say(l.Question),
		el("details", "", el("summary", "").say(word("lesson.hint")), el("p", "").say(l.Hint)))
}

// courseNodes are all lessons to be read before any program loads: each with a
// plain link that opens it once the program runs. The link's place in the page
// is the lesson's own text.
func (p *Page) courseNodes() []Node {
	var out []Node
	for _, l := range p.lessons() {
		body := el("div", "tabindex=-1").with("id", lessonLink+l.Name).withNodes(p.lessonNodes(&l)...).withNodes(
			el("details", "", el("summary", "").say(word("lesson.shows")), el("p", "").say(l.Answer)),
			el("p", "", el("a", "data-do=lesson").with("href", "#"+lessonLink+l.Name).with("data-with", l.Name).
				with("aria-label", word("lesson.openthis", "title", l.Title)).say(word("lesson.open"))))
		out = append(out, el("li", "", el("details", "class=lesson", el("summary", "").say(l.Title), body)))
	}
	return out
}

// course is what the fold of the lessons is called.
func (p *Page) courseWords() string {
	return word("lessons", "n", number(len(p.lessons())))
}

// lessonIn gives the lesson that a fragment names.
func lessonIn(fragment string) (string, bool) {
	return strings.CutPrefix(strings.TrimPrefix(fragment, "#"), lessonLink)
}
