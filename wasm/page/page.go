// Package page is the logic of the page: what the reader does comes in as
// events, what the document shall show goes out as patches. It knows no
// browser, no clock and no file, so that all of it runs under plain go test;
// package dom carries events and patches, package stage draws.
//
// Data go one way: an event changes the work or how it is looked at, the solver is
// asked for what is not known, and patches show what is another. Each of these is a
// room of its own; here events are handed out and patches put together.
package page

import (
	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/ask"
	"ruffwright/wasm/page/brush"
	"ruffwright/wasm/page/easel"
	"ruffwright/wasm/page/grip"
	"ruffwright/wasm/page/keep"
	"ruffwright/wasm/page/look"
	"ruffwright/wasm/page/over"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/sheets"
	"ruffwright/wasm/page/teach"
	"ruffwright/wasm/page/tell"
	"ruffwright/wasm/page/work"
)

// Page is the state of the page. A Page is made by New and is for one
// goroutine at a time.
type Page struct {
	Look *look.Look // the stage

	work   *work.Work
	ask    *ask.Ask
	keep   *keep.Keep
	course *teach.Course
	sheets *sheets.Sheets
	easel  *easel.Easel
	over   over.Over
	brush  brush.Brush
	grips  grip.Grips
	voice  *say.Voice

	shown   shown
	held    work.Held // what was at hand when the rooms were last told
	rescued string    // what the document holds for when the program dies
	marked  bool      // the first numbers were marked
	large   bool      // a class looks on
	shade   string    // the colours of the page: day, candle, or "" the system's
	done    string    // what was done at the last press, while it is seen
	told_ms float64   // when all was last told in words
}

// New makes the page of the first scheme.
func New() (*Page, error) {
	w, err := work.New(scheme.First())
	if err != nil {
		return nil, err
	}
	voice := &say.Voice{}
	p := &Page{
		Look: look.New(voice), work: w, ask: &ask.Ask{Voice: voice}, keep: &keep.Keep{Voice: voice},
		course: teach.New(), sheets: sheets.New(voice), easel: easel.New(voice), voice: voice, shown: shown{map[string]string{}, map[string][]doc.Node{}},
	}
	p.show() // the site was built with all this in it
	return p, nil
}

// Scheme is the scheme that the page shows: the last good one.
func (p *Page) Scheme() scheme.Scheme { return p.work.Scheme }

// Findings are the findings that the page shows.
func (p *Page) Findings() []check.Finding { return p.work.Findings }

// extent is how much of the page an event may change, beside what it answers.
type extent uint8

const (
	all     extent = iota // anything
	pulling               // anything, under a hand that pulls: picture and handles are told at once, the rest now and then
	unseen                // anything, but nothing is shown yet
	saved                 // what is saved of the ruff
	nothing               // nothing more
)

// words_ms is how often at most words, form and what is saved follow a handle that is
// pulled; they do at last when it is let go or has been still for a while (ask.Rest).
const words_ms = 150

// Handle takes an event and returns what the document shall change.
func (p *Page) Handle(e doc.Event) []doc.Patch {
	out := p.handle(e)
	if p.Look.Changed() {
		out = append(out, p.brush.Change(e.At_ms)...)
	}
	out = append(out, p.brush.Rest(p.Look.Held())...)
	var painting doc.List
	painting.Flag("stage", "data-painting", p.brush.Unfinished())
	return append(out, p.shown.lacks(painting)...)
}

func (p *Page) handle(e doc.Event) []doc.Patch {
	p.Look.At_ms = e.At_ms
	out, more := p.takes(e)
	switch more {
	case nothing:
		return out
	case saved:
		out = append(out, p.shown.lacks(p.keep.Patches(p.work, p.tell().State()))...)
		return append(out, p.speak(e.At_ms)...)
	case unseen:
		p.follow()
		return append(out, p.keep.Save(p.held)...)
	case pulling:
		if e.At_ms-p.told_ms < words_ms {
			p.follow()
			return append(append(out, p.ask.Next(e.At_ms)...), p.shown.lacks(p.grips.Patches(&p.work.Ruff.Plan, p.work.Units))...)
		}
	}
	p.told_ms = e.At_ms
	p.follow()
	out = append(out, p.ask.Next(e.At_ms)...)
	out = append(out, p.keep.Save(p.held)...)
	out = append(out, p.rescues()...)
	out = append(append(out, p.show()...), p.speak(e.At_ms)...)
	return focusLast(out)
}

// focusLast puts what takes the focus at the end: it may only be made by the patches
// before.
func focusLast(patches []doc.Patch) []doc.Patch {
	for i, patch := range patches {
		if patch.Op == doc.OpFocus {
			return append(append(patches[:i:i], patches[i+1:]...), patch)
		}
	}
	return patches
}

// follow tells the rooms what the work has become. Whoever words what the work has
// become calls it first.
func (p *Page) follow() {
	w, changes := p.work, p.work.Changes()
	scene := look.Scene{A: &w.Ruff, Units: w.Units}
	want := ask.Want{A: w.Asked, Whole: w.Whole, Solved: w.Ruff.Solved, Scheme: w.Scheme, Ruff: &w.Ruff, Findings: w.Findings, Units: w.Units}
	if w.Compares() {
		w.Comparison() // B's findings come with it
		scene.B = &w.B.Side.Ruff
		want.B, want.BDone = w.B.Asked, w.B.Done
	}
	scene.Findings[0], scene.Findings[1] = w.Findings, w.B.Findings
	scene.Veiled = !p.course.Said(w.Lesson)
	p.ask.See(want, changes.Turned)
	scene.Solving = p.ask.Busy() && w.Misfit == nil
	guessed := p.Look.A != nil && p.Look.Guessing()
	p.Look.Scene = scene
	if p.Look.Guessing() != guessed {
		p.Look.Redraw()
	}
	if changes.Taken {
		p.Look.Take(changes.Turned)
	}
	if changes.Shown {
		p.Look.Redraw()
	}
	p.easel.See(easel.Now{Units: w.Units, Scheme: w.Scheme})
	held := w.Held()
	p.keep.Left(p.held, held)
	p.held = held
	s := p.tell().State()
	p.sheets.Now = sheets.Now{Asked: w.Asked, Units: w.Units, Old: s.Old()}
	if s.Kind == work.LastOne {
		p.sheets.Now.Entries = s.Entries()
	}
}

// tell is what puts the ruff into words.
func (p *Page) tell() tell.Tell {
	return tell.Tell{Work: p.work, Ask: p.ask, Hand: p.Look.Hand, Veiled: !p.course.Said(p.work.Lesson)}
}

// news says what the work has become.
func (p *Page) news() string {
	p.follow()
	return p.tell().News()
}

// show is what the document lacks of the page's state.
func (p *Page) show() []doc.Patch {
	p.follow()
	t := p.tell()
	pupil := teach.Pupil{Scheme: p.work.Scheme, Ruff: p.work.Ruff, Findings: p.work.Findings, Settled: p.ask.Settled(), Units: p.work.Units}
	if len(p.work.Wrong) > 0 {
		pupil.Instead = t.News()
	}
	lesson, solved := p.course.Patches(p.work.Lesson, pupil)
	p.voice.Soon(solved)
	shown := p.shown.lacks(t.Patches(), p.Look.Patches(), p.grips.Patches(&p.work.Ruff.Plan, p.work.Units), p.ask.Patches(), lesson, p.sheets.Patches(), p.easel.Patches(), p.lays(), p.head(), p.classPatches(), p.keep.Patches(p.work, t.State()))
	return append(shown, p.laid()...)
}

// head are the notice and the buttons at the head of the page.
func (p *Page) head() (out doc.List) {
	out.Text("notice", p.voice.Line())
	out.Text("done", p.done)
	for _, u := range []scheme.Units{scheme.Millimetres, scheme.Centimetres, scheme.Inches} {
		out.Bool("units-"+u.Symbol(), "aria-pressed", u == p.work.Units)
	}
	back, forth := p.work.Ways()
	for _, way := range []struct{ id, what, step string }{{"undo", "Undo", back}, {"redo", "Redo", forth}} {
		label := say.Text(way.what)
		if way.step != "" {
			label = say.Text("%s: %s", label, way.step)
		}
		out.Bool(way.id, "aria-disabled", way.step == "")
		out.Attr(way.id, "aria-label", label)
		out.Attr(way.id, "title", label)
	}
	return out
}

// speak says what is next, and sets a timer for what must wait.
func (p *Page) speak(now_ms float64) []doc.Patch {
	var out []doc.Patch
	words, again_ms := p.voice.Speak(now_ms)
	if words != "" {
		out = p.shown.lacks([]doc.Patch{{Op: doc.OpText, ID: "said", Value: words}})
	}
	if again_ms > 0 {
		out = append(out, doc.Patch{Op: doc.OpTimer, Name: "voice", MS: again_ms})
	}
	return out
}

// replaces takes a whole scheme as one step, and looks at it as at first.
func (p *Page) replaces(s scheme.Scheme, what string) error {
	err := p.work.Replace(s, what)
	if err == nil {
		p.Look.Reset()
		p.easel.Forget()
	}
	return err
}
