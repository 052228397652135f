package page

import (
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
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
func (p *Page) teaches(name, with string) []doc.Patch {
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
			return []doc.Patch{{Op: doc.OpAddress, Value: link}, {Op: doc.OpCopy, Value: link}}
		}
	case "lesson-away":
		if p.learning != "" {
			p.learning = ""
			p.saySoon(say.Word("lesson.closed"))
			return []doc.Patch{{Op: doc.OpFocus, ID: "to-lessons"}}
		}
	}
	return nil
}

// learn opens a lesson: its scheme is taken as one step, which undo takes back
// together with the lesson.
func (p *Page) learn(name string) []doc.Patch {
	l := p.lesson(name)
	if l == nil {
		p.notice(say.Word("lesson.broken"))
		return nil
	}
	before := p.atHand()
	if err := p.replace(l.scheme, say.Word("lesson.step", "title", l.Title)); err != nil {
		p.notice(say.Sentence(say.Told(err.Error())))
		return nil
	}
	p.visits(before)
	p.learning, p.learned = l.Name, false
	p.notice("")
	p.saySoon(say.Word("lesson.opened", "title", l.Title, "question", l.Question))
	return []doc.Patch{
		{Op: doc.OpAttr, ID: "course", Name: "open", Gone: true}, {Op: doc.OpAttr, ID: "from", Name: "open", Gone: true},
		{Op: doc.OpAttr, ID: "lesson", Name: "hidden", Gone: true}, {Op: doc.OpFocus, ID: "lesson"},
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
		words = say.Word("lesson.solved", "answer", l.Answer)
	case waiting:
		words = say.Word("lesson.waits")
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
func (p *Page) lessonPatches() []doc.Patch {
	l := p.lesson(p.learning)
	if l == nil {
		return []doc.Patch{{Op: doc.OpAttr, ID: "lesson", Name: "hidden", Value: ""}, {Op: doc.OpText, ID: "lesson-short"}}
	}
	how, words := p.judged()
	state := map[standing]string{waiting: "waiting", unsolved: "open", solved: "solved"}[how]
	short := say.Word("lesson.short")
	if how == solved {
		short = say.Word("lesson.done")
	}
	return []doc.Patch{
		{Op: doc.OpAttr, ID: "lesson", Name: "hidden", Gone: true},
		{Op: doc.OpText, ID: "lesson-short", Value: short},
		{Op: doc.OpAttr, ID: "lesson-short", Name: "data-state", Value: state},
		{Op: doc.OpText, ID: "lesson-title", Value: say.Word("lesson.title", "title", l.Title)},
		{Op: doc.OpNodes, ID: "lesson-text", Nodes: p.lessonNodes(l)},
		{Op: doc.OpText, ID: "lesson-stands", Value: words},
		{Op: doc.OpAttr, ID: "lesson-stands", Name: "data-state", Value: state},
	}
}

// lessonNodes are a lesson's text, question and hint.
func (p *Page) lessonNodes(l *Lesson) []doc.Node {
	var out []doc.Node
	for _, t := range l.Text {
		out = append(out, doc.El("p", "").Say(t))
	}
	return append(out,
		doc.El("p", "class=question").Say(l.Question),
		doc.El("details", "", doc.El("summary", "").Say(say.Word("lesson.hint")), doc.El("p", "").Say(l.Hint)))
}

// courseNodes are all lessons to be read before any program loads: each with a
// plain link that opens it once the program runs. The link's place in the page
// is the lesson's own text.
func (p *Page) courseNodes() []doc.Node {
	var out []doc.Node
	for _, l := range p.lessons() {
		body := doc.El("div", "tabindex=-1").With("id", lessonLink+l.Name).WithNodes(p.lessonNodes(&l)...).WithNodes(
			doc.El("details", "", doc.El("summary", "").Say(say.Word("lesson.shows")), doc.El("p", "").Say(l.Answer)),
			doc.El("p", "", doc.El("a", "data-do=lesson").With("href", "#"+lessonLink+l.Name).With("data-with", l.Name).
				With("aria-label", say.Word("lesson.openthis", "title", l.Title)).Say(say.Word("lesson.open"))))
		out = append(out, doc.El("li", "", doc.El("details", "class=lesson", doc.El("summary", "").Say(l.Title), body)))
	}
	return out
}

// course is what the fold of the lessons is called.
func (p *Page) courseWords() string {
	return say.Word("lessons", "n", say.Number(len(p.lessons())))
}

// lessonIn gives the lesson that a fragment names.
func lessonIn(fragment string) (string, bool) {
	return strings.CutPrefix(strings.TrimPrefix(fragment, "#"), lessonLink)
}
