package page

import (
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/teach"
)

// commands of the buttons and links, each with what it goes with; those of the stage
// and of what is saved are look's and keep's.
var commands = map[string]func(p *Page, with string, now_ms float64) []doc.Patch{
	"units": func(p *Page, with string, _ float64) []doc.Patch { p.measures(with); return nil },
	"apply": func(p *Page, with string, _ float64) []doc.Patch { p.applies(with); return nil },
	"undo":  func(p *Page, _ string, _ float64) []doc.Patch { p.goes("undo.done", p.work.Undo()); return nil },
	"redo":  func(p *Page, _ string, _ float64) []doc.Patch { p.goes("redo.done", p.work.Redo()); return nil },
	"demo":  func(p *Page, with string, _ float64) []doc.Patch { return p.startsFrom(with) },
	"fresh": func(p *Page, _ string, _ float64) []doc.Patch { return p.startsAfresh() },
	"goto": func(_ *Page, with string, _ float64) []doc.Patch {
		return []doc.Patch{{Op: doc.OpFocus, ID: doc.Control(with)}}
	},

	"solver": func(p *Page, _ string, now_ms float64) []doc.Patch { return p.ask.Halt(now_ms) },
	"proof":  func(p *Page, _ string, now_ms float64) []doc.Patch { return p.ask.Prove(now_ms) },
	"sheets": func(p *Page, with string, now_ms float64) []doc.Patch {
		if with == "stop" {
			return p.sheets.Stop()
		}
		return p.sheets.Make(now_ms)
	},

	"twin":         func(p *Page, _ string, _ float64) []doc.Patch { p.pairs("twin"); return nil },
	"compare-keep": func(p *Page, _ string, _ float64) []doc.Patch { p.pairs("compare-keep"); return nil },
	"compare-back": func(p *Page, _ string, _ float64) []doc.Patch { p.pairs("compare-back"); return nil },
	"compare-swap": func(p *Page, _ string, _ float64) []doc.Patch { p.pairs("compare-swap"); return nil },
	"compare-stop": func(p *Page, _ string, _ float64) []doc.Patch { p.pairs("compare-stop"); return nil },

	"lesson":       func(p *Page, with string, _ float64) []doc.Patch { return p.learns(with) },
	"lesson-again": func(p *Page, _ string, _ float64) []doc.Patch { return p.learns(p.work.Lesson) },
	"lesson-next": func(p *Page, _ string, _ float64) []doc.Patch {
		if next := p.course.After(p.work.Lesson); next != "" {
			return p.learns(next)
		}
		return nil
	},
	"lesson-away": func(p *Page, _ string, _ float64) []doc.Patch { return p.endsLesson() },
	"lesson-link": func(p *Page, _ string, _ float64) []doc.Patch { return p.linksLesson() },

	"share":      func(p *Page, _ string, _ float64) []doc.Patch { return p.givesAway("share", p.links) },
	"save":       func(p *Page, _ string, _ float64) []doc.Patch { return p.givesAway("save", p.savesScheme) },
	"share-last": func(p *Page, _ string, _ float64) []doc.Patch { return p.links() },
	"save-last":  func(p *Page, _ string, _ float64) []doc.Patch { return p.savesScheme() },
	"pick":       func(*Page, string, float64) []doc.Patch { return picks("pick") },
	"dropped":    func(*Page, string, float64) []doc.Patch { return picks("dropped") },
	"picture":    func(p *Page, with string, _ float64) []doc.Patch { return p.pictures(with) },
	"copy":       func(p *Page, _ string, _ float64) []doc.Patch { return p.copies() },

	"other-take": func(p *Page, with string, _ float64) []doc.Patch {
		if p.takesUp("other-take", with, say.Word("step.other")) {
			p.keep.Took(p.work.Held())
		}
		return nil
	},
	"own-back": func(p *Page, with string, _ float64) []doc.Patch {
		p.takesUp("own-back", with, say.Word("step.own"))
		return nil
	},
	"aside-take": func(p *Page, with string, _ float64) []doc.Patch {
		p.takesUp("aside-take", with, say.Word("step.aside"))
		return nil
	},
	"aside-save": func(p *Page, with string, _ float64) []doc.Patch { return p.savesAside(with) },
}

// does carries out a command of a button or link.
func (p *Page) does(e doc.Event) ([]doc.Patch, extent) {
	p.ask.Move(false, e.At_ms)
	p.work.Settle()
	if do := commands[e.Name]; do != nil {
		return do(p, e.Value, e.At_ms), all
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
func (p *Page) measures(units string) {
	if u, err := scheme.ParseUnits(units); err == nil && u != p.work.Units {
		p.work.Measure(u)
		p.voice.Soon(say.Word("units.said", "unit", say.Theirs(u.Symbol())))
	}
}

// applies makes the changes of a remedy, named "id number", as one step.
func (p *Page) applies(with string) {
	id, number, _ := strings.Cut(with, " ")
	n, err := strconv.Atoi(number)
	if err != nil {
		return
	}
	is, err := p.work.Apply(id, n)
	switch {
	case err != nil:
		p.misfits(err)
	case is:
		p.voice.Soon(say.Word("said.apply", "news", p.news()))
	}
}

func (p *Page) misfits(err error) {
	p.voice.Soon(say.Word("misfit", "why", say.Told(err.Error())))
}

// goes says what was undone or done again, if anything was.
func (p *Page) goes(key, what string) {
	if what != "" {
		p.voice.Soon(say.Word(key, "what", what, "news", p.news()))
	}
}

// replaces takes a whole scheme as one step, and looks at it as at first.
func (p *Page) replaces(s scheme.Scheme, what string) error {
	err := p.work.Replace(s, what)
	if err == nil {
		p.Look.Reset()
	}
	return err
}

// startsFrom takes a demo.
func (p *Page) startsFrom(name string) []doc.Patch {
	d, ok := demo(name)
	if !ok {
		return nil
	}
	p.replaces(d.Scheme, say.Word("step.demo", "title", d.Title))
	p.voice.Soon(say.Word("said.demo", "title", d.Title, "news", p.news()))
	return closing
}

// startsAfresh takes the default scheme.
func (p *Page) startsAfresh() []doc.Patch {
	p.replaces(scheme.Default(), say.Word("step.fresh"))
	p.voice.Soon(say.Word("said.fresh", "news", p.news()))
	return closing
}

// pairs carries out a command of the comparison.
func (p *Page) pairs(name string) {
	said, err := p.work.Pair(name)
	switch {
	case err != nil:
		p.misfits(err)
	case said == "twin":
		p.voice.Soon(say.Theirs(p.work.Comparison().Sentence))
	case said != "":
		p.voice.Soon(say.Word("said."+said, "news", p.news()))
	}
}

// takesUp takes what a command of keep's names in the place of the ruff at hand, as
// one step.
func (p *Page) takesUp(command, with, what string) bool {
	h := p.keep.Other(command, with)
	if h == nil {
		return false
	}
	held := *h
	if err := p.replaces(held.Scheme, what); err != nil { // it was good when it was stored
		p.voice.Notice(say.Sentence(say.Told(err.Error())))
		return false
	}
	if p.work.SetB(held.Beside) != nil {
		return false
	}
	p.becomes(held)
	p.voice.Notice("")
	p.voice.Soon(say.Word("said.took", "what", say.Capital(what), "news", p.news()))
	return true
}

// learns opens a lesson: its scheme is taken as one step, which undo takes back
// together with the lesson.
func (p *Page) learns(name string) []doc.Patch {
	l := p.course.Lesson(name)
	if l == nil {
		p.voice.Notice(say.Word("lesson.broken"))
		return nil
	}
	if err := p.replaces(l.Scheme, say.Word("lesson.step", "title", l.Title)); err != nil {
		p.voice.Notice(say.Sentence(say.Told(err.Error())))
		return nil
	}
	p.work.Lesson = l.Name
	p.course.Open()
	p.visits()
	p.voice.Notice("")
	p.voice.Soon(say.Word("lesson.opened", "title", l.Title, "question", l.Question))
	return []doc.Patch{
		{Op: doc.OpAttr, ID: "course", Name: "open", Gone: true}, {Op: doc.OpAttr, ID: "from", Name: "open", Gone: true},
		{Op: doc.OpAttr, ID: "lesson", Name: "hidden", Gone: true}, {Op: doc.OpFocus, ID: "lesson"},
	}
}

// endsLesson puts the open lesson away.
func (p *Page) endsLesson() []doc.Patch {
	if p.work.Lesson == "" {
		return nil
	}
	p.work.Lesson = ""
	p.voice.Soon(say.Word("lesson.closed"))
	return []doc.Patch{{Op: doc.OpFocus, ID: "to-lessons"}}
}

// linksLesson copies the link of the open lesson.
func (p *Page) linksLesson() []doc.Patch {
	if p.work.Lesson == "" {
		return nil
	}
	link := "#" + teach.Link + p.work.Lesson
	return []doc.Patch{{Op: doc.OpAddress, Value: link}, {Op: doc.OpCopy, Value: link}}
}

// givesAway does what gives the ruff at hand away, save or share; where something
// else is typed, it asks before.
func (p *Page) givesAway(what string, gives func() []doc.Patch) []doc.Patch {
	if !p.tell().State().Old() {
		return gives()
	}
	p.work.Doubt = what
	return []doc.Patch{{Op: doc.OpFocus, ID: what + "-last"}}
}
