package page

import (
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/teach"
	"ruffwright/wasm/page/tell"
	"ruffwright/wasm/page/work"
)

// commands of the buttons and links: e.Name is the command, e.Value what it goes with.
// Those of the stage and of what is saved are look's and keep's.
var commands = []struct {
	name string
	do   func(p *Page, e doc.Event) []doc.Patch
}{
	{"units", (*Page).measures},
	{"step", (*Page).steps},
	{"apply", (*Page).applies},
	{"undo", (*Page).travels},
	{"redo", (*Page).travels},
	{"demo", (*Page).startsFrom},
	{"fresh", (*Page).startsAfresh},
	{"goto", func(_ *Page, e doc.Event) []doc.Patch { return focus(doc.Control(e.Value)) }},

	{"solver", func(p *Page, e doc.Event) []doc.Patch { return p.ask.Halt(e.At_ms) }},
	{"hold", (*Page).asksWhatHolds},
	{"hold-take", (*Page).takesHolding},
	{"mend-take", (*Page).takesWay},
	{"trial", func(p *Page, e doc.Event) []doc.Patch { return p.ask.Gauge(e.At_ms) }},
	{"trial-take", (*Page).takesTrial},
	{"matter", (*Page).asksWhatMatters},
	{"proof", func(p *Page, e doc.Event) []doc.Patch { return p.ask.Prove(e.At_ms) }},
	{"sheets", (*Page).prints},
	{"easel", (*Page).atEasel},

	{"twin", (*Page).pairs},
	{"compare-keep", (*Page).pairs},
	{"compare-back", (*Page).pairs},
	{"compare-swap", (*Page).pairs},
	{"compare-stop", (*Page).pairs},

	{"lesson", func(p *Page, e doc.Event) []doc.Patch { return p.learns(e.Value) }},
	{"lesson-again", func(p *Page, _ doc.Event) []doc.Patch { return p.learns(p.work.Lesson) }},
	{"lesson-next", func(p *Page, _ doc.Event) []doc.Patch { return p.learns(p.course.After(p.work.Lesson)) }},
	{"lesson-claim", (*Page).claims},
	{"lesson-away", (*Page).endsLesson},
	{"lesson-link", (*Page).linksLesson},

	{"class", (*Page).teaches},
	{"word", (*Page).explains},
	{"shade", (*Page).shadesTo},

	{"share", (*Page).givesAway},
	{"save", (*Page).givesAway},
	{"share-last", func(p *Page, _ doc.Event) []doc.Patch { return p.links() }},
	{"save-last", func(p *Page, _ doc.Event) []doc.Patch { return p.savesScheme() }},
	{"pick", (*Page).picks},
	{"dropped", (*Page).picks},
	{"picture", (*Page).pictures},
	{"copy", (*Page).copies},

	{"other-take", (*Page).takesUp},
	{"own-back", (*Page).takesUp},
	{"aside-take", (*Page).takesUp},
	{"aside-save", (*Page).savesAside},
}

// does carries out a command of a button or link.
func (p *Page) does(e doc.Event) ([]doc.Patch, extent) {
	p.ask.Move(false, e.At_ms)
	p.work.Settle()
	p.done = ""
	for _, c := range commands {
		if c.name == e.Name {
			return c.do(p, e), all
		}
	}
	if out, ok := p.Look.Do(e.Name, e.Value, e.At_ms); ok {
		return out, all
	}
	if e.Name == "link-take" {
		p.work.Guest = false
	}
	p.keep.Do(e.Name, e.Value)
	return nil, all
}

// measures writes all lengths in other units.
func (p *Page) measures(e doc.Event) []doc.Patch {
	if u, err := scheme.ParseUnits(e.Value); err == nil && u != p.work.Units {
		p.work.Measure(u)
		p.voice.Soon(say.Text("Lengths in %s.", say.Text(u.Symbol())))
	}
	return nil
}

// applies makes the changes of a remedy, named "id number", as one step.
func (p *Page) applies(e doc.Event) []doc.Patch {
	id, number, _ := strings.Cut(e.Value, " ")
	n, err := strconv.Atoi(number)
	if err != nil {
		return nil
	}
	is, err := p.work.Apply(id, n)
	switch {
	case err != nil:
		p.misfits(err)
	case is:
		p.voice.Soon(say.Text("Applied. %s", p.news()))
	}
	return nil
}

// asksWhatHolds looks for ways to sew the look that hold; in a lesson not before the
// student has said what is wrong.
func (p *Page) asksWhatHolds(e doc.Event) []doc.Patch {
	if !p.course.Said(p.work.Lesson) {
		p.voice.Soon(say.Text("First say in the lesson what is wrong."))
		return nil
	}
	return p.ask.Hold(e.At_ms)
}

// asksWhatMatters looks for the fields that move the ruff most; in a lesson as above.
func (p *Page) asksWhatMatters(e doc.Event) []doc.Patch {
	if !p.course.Said(p.work.Lesson) {
		p.voice.Soon(say.Text("First say in the lesson what is wrong."))
		return nil
	}
	return p.ask.Matter(e.At_ms)
}

// takesHolding makes the changes of a way that holds, as one step.
func (p *Page) takesHolding(e doc.Event) []doc.Patch {
	n, err := strconv.Atoi(e.Value)
	if err != nil {
		return nil
	}
	changes, kind, ok := p.ask.Holding(n)
	if !ok {
		return nil
	}
	if err := p.work.Make(changes, say.Text("sew to %s", kind)); err != nil {
		p.misfits(err)
		return nil
	}
	p.voice.Soon(say.Text("Applied. %s", p.news()))
	return nil
}

// takesWay makes the changes of what to do, as one step.
func (p *Page) takesWay(e doc.Event) []doc.Patch {
	ways, _ := p.ask.Ways()
	n, err := strconv.Atoi(e.Value)
	if err != nil || n < 0 || n >= len(ways) {
		return nil
	}
	if err := p.work.Make(ways[n].Changes, say.Text("“%s”", ways[n].Sentences[0])); err != nil {
		p.misfits(err)
		return nil
	}
	p.voice.Soon(say.Text("Applied. %s", p.news()))
	return nil
}

// takesTrial carries what a trial set told into the scheme, as one step.
func (p *Page) takesTrial(doc.Event) []doc.Patch {
	changes, ok := p.ask.Gauged()
	if !ok {
		return nil
	}
	if err := p.work.Make(changes, say.Text("what the trial told")); err != nil {
		p.misfits(err)
		return nil
	}
	p.voice.Soon(say.Text("Carried into the scheme. %s", p.news()))
	return nil
}

func (p *Page) misfits(err error) {
	p.voice.Soon(say.Text("This change does not fit the rest of the scheme: %s", word.Of(err)))
}

// travels goes a step back, or forward again.
func (p *Page) travels(e doc.Event) []doc.Patch {
	done, travel := "Undone: %s. %s", p.work.Undo
	if e.Name == "redo" {
		done, travel = "Done again: %s. %s", p.work.Redo
	}
	if what := travel(); what != "" {
		p.voice.Soon(say.Text(done, what, p.news()))
	}
	return nil
}

// prints has the sheets made, or stops that.
func (p *Page) prints(e doc.Event) []doc.Patch {
	if e.Value == "stop" {
		return p.sheets.Stop()
	}
	return p.sheets.Make(e.At_ms)
}

// startsFrom takes a demo.
func (p *Page) startsFrom(e doc.Event) []doc.Patch {
	d, ok := demo(e.Value)
	if !ok {
		return nil
	}
	p.replaces(d.Scheme, say.Text("start from %s", d.Title))
	p.voice.Soon(say.Text("%s. %s", d.Title, p.news()))
	return closing
}

// startsAfresh takes the first scheme.
func (p *Page) startsAfresh(doc.Event) []doc.Patch {
	p.replaces(scheme.First(), say.Text("start afresh"))
	p.voice.Soon(say.Text("Back at the start. %s", p.news()))
	return closing
}

// pairs carries out a command of the comparison.
func (p *Page) pairs(e doc.Event) []doc.Patch {
	said, err := p.work.Pair(e.Name)
	switch {
	case err != nil:
		p.misfits(err)
	case said == work.Twinned:
		p.voice.Soon(say.In(p.work.Comparison().Sentence))
	case said != "":
		p.voice.Soon(say.Text(said, p.news()))
	}
	return nil
}

// ways are what a step is called that takes another ruff up.
var ways = map[string]string{"other-take": "the other tab’s ruff", "own-back": "back to your own work", "aside-take": "the ruff that was set aside"}

// takesUp takes another tab's ruff, the reader's own, or one that stands aside in
// the place of the ruff at hand, as one step.
func (p *Page) takesUp(e doc.Event) []doc.Patch {
	other := p.keep.Other(e.Name, e.Value)
	if other == nil {
		return nil
	}
	held, what := *other, say.Text(ways[e.Name])
	if err := p.replaces(held.Scheme, what); err != nil { // it was good when it was stored
		p.voice.Notice(say.Why(err))
		return nil
	}
	if p.work.SetB(held.Beside) != nil {
		return nil
	}
	p.becomes(held)
	if e.Name == "other-take" {
		p.keep.Took(p.work.Held())
	}
	p.voice.Notice("")
	p.voice.Soon(say.Text("%s. %s", say.Capital(what), p.news()))
	return nil
}

// learns opens a lesson: its scheme is taken as one step, which undo takes back
// together with the lesson.
func (p *Page) learns(name string) []doc.Patch {
	l := p.course.Lesson(name)
	if l == nil {
		p.voice.Notice(say.Text("There is no lesson of this name, so nothing was changed. Lessons are listed at the top of the page."))
		return nil
	}
	if err := p.replaces(l.Scheme, say.Text("“%s”", l.Title)); err != nil {
		p.voice.Notice(say.Why(err))
		return nil
	}
	p.work.Lesson = l.Name
	p.course.Open(l.Name)
	p.visits()
	p.voice.Notice("")
	p.voice.Soon(say.Text("Lesson opened: %s. %s", l.Title, l.Claim.Question))
	return []doc.Patch{
		{Op: doc.OpAttr, ID: "course", Name: "open", Gone: true}, {Op: doc.OpAttr, ID: "from", Name: "open", Gone: true},
		{Op: doc.OpAttr, ID: "lesson", Name: "hidden", Gone: true}, {Op: doc.OpFocus, ID: "lesson"},
	}
}

// claims takes what the reader says is wrong with the lesson's ruff.
func (p *Page) claims(e doc.Event) []doc.Patch {
	p.voice.Soon(p.course.Claims(p.work.Lesson, e.Value, p.work.Units))
	if !p.course.Said(p.work.Lesson) {
		return nil
	}
	p.Look.Redraw()
	return focus("to-findings")
}

// explains leads to what a trade word means.
func (p *Page) explains(e doc.Event) []doc.Patch {
	words, id := tell.Explained(e.Value)
	if id == "" {
		return nil
	}
	p.voice.Soon(words)
	return focus(id)
}

// endsLesson puts the open lesson away.
func (p *Page) endsLesson(doc.Event) []doc.Patch {
	if p.work.Lesson == "" {
		return nil
	}
	p.work.Lesson = ""
	p.voice.Soon(say.Text("The lesson is put away; your ruff stays."))
	return focus("to-lessons")
}

// linksLesson copies the link of the open lesson.
func (p *Page) linksLesson(doc.Event) []doc.Patch {
	if p.work.Lesson == "" {
		return nil
	}
	link := "#" + teach.Link + p.work.Lesson
	return []doc.Patch{{Op: doc.OpAddress, Value: link}, {Op: doc.OpCopy, Value: link}}
}

// givesAway shares or saves the ruff at hand; where something else is typed, it asks
// before.
func (p *Page) givesAway(e doc.Event) []doc.Patch {
	switch {
	case p.tell().State().Old():
		p.work.Doubt = e.Name
		return focus(e.Name + "-last")
	case e.Name == "share":
		return p.links()
	}
	return p.savesScheme()
}

// becomes makes the ruff at hand, which was taken from h, the very one of h.
func (p *Page) becomes(h work.Held) {
	p.work.Whose = h.Whose
	if p.course.Lesson(h.Lesson) != nil {
		p.work.Lesson = h.Lesson
	}
}

// visits notes that the ruff at hand came by a link: the reader's own work is not
// touched by it.
func (p *Page) visits() {
	p.work.Visit()
	p.keep.Linked(p.work.Held())
	p.follow()
}
