package page

import (
	"slices"
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/ask"
	"ruffwright/wasm/page/brush"
	"ruffwright/wasm/page/easel"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/teach"
	"ruffwright/wasm/page/work"
)

// first_ms is after the first numbers: the solver's worker starts.
const first_ms = 1

// events are what the page does at each kind of event.
var events = []struct {
	kind  doc.Kind
	takes func(p *Page, e doc.Event) ([]doc.Patch, extent)
}{
	{doc.Begin, (*Page).begins},
	{doc.Typing, (*Page).enters},
	{doc.Set, (*Page).enters},
	{doc.Do, (*Page).does},
	{doc.Address, func(p *Page, e doc.Event) ([]doc.Patch, extent) { return p.opensLink(e), p.early() }},
	{doc.Sized, func(p *Page, e doc.Event) ([]doc.Patch, extent) { p.Look.Resize(e.Value); return nil, p.early() }},
	{doc.Candle, func(p *Page, e doc.Event) ([]doc.Patch, extent) { p.Look.Shine(e.Name); return nil, p.early() }},
	{doc.Pointer, (*Page).moves},
	{doc.Wheel, (*Page).moves},
	{doc.Key, (*Page).presses},
	{doc.Handle, (*Page).pulls},
	{doc.Timer, (*Page).rings},
	{doc.Copied, (*Page).copied},
	{doc.Draw, (*Page).draws},
	{doc.Calm, func(p *Page, e doc.Event) ([]doc.Patch, extent) {
		p.Look.KeepCalm(e.Name == "yes")
		return nil, p.early()
	}},
	{doc.Place, func(p *Page, e doc.Event) ([]doc.Patch, extent) { p.sheets.Reach(e.Value); return nil, p.early() }},
	{doc.Solver, (*Page).hears},
	{doc.Cores, func(p *Page, e doc.Event) ([]doc.Patch, extent) {
		if n, err := strconv.Atoi(e.Value); err == nil {
			p.ask.Cores(n)
		}
		return nil, nothing
	}},
	{doc.Press, (*Page).hearsPress},
	{doc.Easel, (*Page).hearsEasel},
	{doc.Painter, (*Page).hearsPainter},
	{doc.File, (*Page).opensFile},

	{doc.Tab, func(p *Page, e doc.Event) ([]doc.Patch, extent) { p.work.By = e.Name; return nil, nothing }},
	{doc.Recalled, func(p *Page, e doc.Event) ([]doc.Patch, extent) { return p.recalls(e), p.early() }},
	{doc.Elsewhere, (*Page).elsewhere},
	{doc.Kept, func(p *Page, e doc.Event) ([]doc.Patch, extent) {
		p.sheets.Stands(e.Name, e.Value)
		return p.keep.Kept(e.Name, e.Value, p.work.Held()), saved
	}},
	{doc.Unkept, func(p *Page, e doc.Event) ([]doc.Patch, extent) { p.keep.Unkept(e.Name, e.Value); return nil, saved }},
}

// takes gives an event to who takes it.
func (p *Page) takes(e doc.Event) ([]doc.Patch, extent) {
	for _, of := range events {
		if of.kind == e.Kind {
			return of.takes(p, e)
		}
	}
	return nil, all
}

// rings does what is due when a timer is.
func (p *Page) rings(e doc.Event) ([]doc.Patch, extent) {
	switch e.Name {
	case "voice":
		p.voice.Rings()
	case "settle":
		return p.Look.Frame(e.At_ms), nothing
	case "fold":
		return p.folds(e.At_ms), nothing
	case "still":
		return p.ask.Still(e.At_ms), pulling
	case "rest":
		return p.ask.Rest(e.At_ms), all
	case "watch":
		return p.ask.Check(e.At_ms), all
	case "solver":
		return p.ask.Wake(e.At_ms), all
	case "spare":
		return p.ask.Spare(e.At_ms), nothing
	case "press":
		return p.sheets.Check(e.At_ms), all
	case easel.Timer:
		return p.easel.Check(e.At_ms), all
	case brush.Timer:
		return p.brush.Rings(p.Look.Held(), e.At_ms), nothing
	case "png":
		return p.savesPicture("png"), all
	case "done":
		p.done = ""
	}
	return nil, all
}

// early is how much an event changes that may come before the page begins: then everything
// is shown at once.
func (p *Page) early() extent {
	if p.marked {
		return all
	}
	return unseen
}

// begins shows everything; the solver starts after it.
func (p *Page) begins(e doc.Event) ([]doc.Patch, extent) {
	p.shown.forgets()
	out := append(append(p.rescues(), p.show()...), p.speak(e.At_ms)...)
	if !p.marked {
		p.marked = true
		out = append(out, p.brush.Start()...)
		out = append(out, doc.Patch{Op: doc.OpMark, Name: "ruffwright-findings"}, doc.Patch{Op: doc.OpTimer, Name: "solver", MS: first_ms})
	}
	return out, nothing
}

// enters takes what is entered in a control: of the fold-through, of the search, of the
// sheets, or of a field.
func (p *Page) enters(e doc.Event) ([]doc.Patch, extent) {
	live := e.Kind == doc.Typing
	if e.Name == "fold" {
		return p.slides(e.Value, e.At_ms), nothing
	}
	if e.Name == "find" {
		return p.tell().Find(e.Value), nothing
	}
	if n, ok := strings.CutPrefix(e.Name, "what-if-"); ok {
		return p.tries(n, e, live)
	}
	if !live {
		p.work.Under = ""
	}
	if id, holds, ok := p.sheets.Enter(e.Name, e.Value, live); ok {
		if id != "" {
			p.shown.holds(id, holds)
		}
		return p.sheets.Keep(), all
	}
	if e.Name == "easel.faint" {
		return p.fades(e.Value), nothing
	}
	if p.easel.Enter(e.Name, e.Value, live) {
		p.shown.holds(doc.Control(e.Name), e.Value)
		if live {
			return nil, nothing
		}
		return nil, all
	}
	if id, ok := p.ask.EnterTrial(e.Name, e.Value, live); ok {
		p.shown.holds(id, e.Value)
		return nil, all
	}
	if live {
		p.work.Under = e.Name
	} else {
		p.ask.Move(false, e.At_ms)
	}
	p.shown.holds(doc.Control(e.Name), e.Value)
	was := p.work.Asked
	if !p.work.Enter(e.Name, e.Value, live) {
		return nil, all
	}
	p.follow()
	var out []doc.Patch
	if live && p.work.Asked != was {
		out = p.ask.Move(true, e.At_ms)
	}
	p.voice.Soon(p.news())
	return out, all
}

// slides takes the slider of the fold-through.
func (p *Page) slides(value string, now_ms float64) []doc.Patch {
	was := p.Look.View
	if !p.Look.Slide(value) {
		return nil
	}
	var out []doc.Patch
	p.shown.holds("fold", value)
	if p.Look.View != was {
		out = append(out, p.show()...)
	} else {
		out = append(out, p.shown.lacks(p.Look.FoldPatches())...)
	}
	return append(out, p.speak(now_ms)...)
}

// draws makes the frame of the picture as it is now.
func (p *Page) draws(e doc.Event) ([]doc.Patch, extent) {
	if p.brush.Busy(e.At_ms) {
		return nil, nothing
	}
	d, place, err := p.Look.Seen(!p.brush.Full())
	if err != nil {
		return nil, nothing // the last picture stays; the page says what is wrong
	}
	p.grips.See(d.Handles, place, p.Look.Ratio())
	return p.framed(p.brush.Draw(d, place, e.At_ms)), nothing
}

// framed adds to a frame the handles of its measures.
func (p *Page) framed(out []doc.Patch) []doc.Patch {
	if slices.ContainsFunc(out, func(patch doc.Patch) bool { return patch.Op == doc.OpFrame }) {
		p.grips.Show()
		out = append(out, p.shown.lacks(p.grips.Patches(&p.work.Ruff.Plan, p.work.Units))...)
	}
	return out
}

// hearsPainter takes a picture of the painter, or that it died.
func (p *Page) hearsPainter(e doc.Event) ([]doc.Patch, extent) {
	if e.Name == "died" {
		return p.brush.Die(), nothing
	}
	return p.framed(p.brush.Hear(e.Value, e.Body)), nothing
}

// folds is due while the fold-through plays.
func (p *Page) folds(now_ms float64) []doc.Patch {
	next, was := p.Look.FoldFrame(now_ms)
	switch {
	case !was:
		return nil
	case len(next) == 0:
		return append(p.show(), p.speak(now_ms)...)
	}
	out := append(p.shown.lacks(p.Look.FoldPatches()), p.speak(now_ms)...)
	return append(out, next...)
}

// moves takes a pointer or a wheel on the stage: it touches nothing but the picture.
func (p *Page) moves(e doc.Event) ([]doc.Patch, extent) {
	p.Look.Move(e.Kind, e.Name, e.Value)
	return nil, nothing
}

// presses takes a key on the stage.
func (p *Page) presses(e doc.Event) ([]doc.Patch, extent) {
	if e.Name == "Escape" {
		return focus("view-" + p.Look.View.Name), nothing
	}
	p.Look.Key(e.Name, e.Value == "shift")
	return nil, all
}

// hears takes a message of one of the solver's workers, or that it died.
func (p *Page) hears(e doc.Event) ([]doc.Patch, extent) {
	what, which, _ := strings.Cut(e.Name, " ")
	n, _ := strconv.Atoi(which) // the first has no number
	switch what {
	case "died":
		return p.ask.Die(n, e.Value, e.At_ms), all
	case "said":
		out, answer := p.ask.Hear(n, e.Value, e.Body, e.At_ms)
		if answer != nil {
			out = p.learnsOf(*answer, e.At_ms)
		}
		if p.grips.Held() != "" {
			return out, pulling
		}
		return out, all
	}
	return nil, all
}

// learnsOf takes what the solver found of one of the two ruffs.
func (p *Page) learnsOf(a ask.Answer, now_ms float64) []doc.Patch {
	if a.OfB {
		p.work.SolveB(a.Solved, a.Last, a.Solved == nil)
		p.follow()
		if a.Last && a.Solved != nil && p.ask.Settled() {
			p.voice.Soon(say.In(p.work.Comparison().Sentence))
		}
		return nil
	}
	was, first := p.tell().Verdict(), p.work.Ruff.Solved == nil
	p.work.Solve(a.Solved, a.Whole)
	p.follow()
	out := p.Look.Settle(first, now_ms)
	if a.Last {
		p.Look.LetGo()
	}
	if a.First {
		out = append(out, doc.Patch{Op: doc.OpMark, Name: "ruffwright-shape"})
	}
	if !a.Last {
		return out
	}
	out = append(out, doc.Patch{Op: doc.OpMark, Name: "ruffwright-solved"})
	if p.ask.Moving() {
		return out
	}
	if p.tell().Verdict() != was {
		p.voice.Soon(p.news())
	}
	if p.work.Compares() {
		p.voice.Soon(say.In(p.work.Comparison().Sentence))
	}
	return out
}

// hearsPress takes a message of the press's worker, or that it died.
func (p *Page) hearsPress(e doc.Event) ([]doc.Patch, extent) {
	switch e.Name {
	case "said":
		return p.sheets.Hear(e.Value, e.Body, e.At_ms), all
	case "died":
		return p.sheets.Fail(e.Value), all
	}
	return nil, all
}

// recalls takes up the last visit's ruff.
func (p *Page) recalls(e doc.Event) []doc.Patch {
	w := p.work
	if w.By == "" {
		w.By = "page"
	}
	w.Begin()
	p.sheets.Recall(e.Value)
	stored, err := p.keep.Recall(e.Name, e.Value, w.Held())
	if stored == nil {
		return nil
	}
	units := w.Units
	if err == nil {
		w.Units = stored.Units
		if err = w.Take(stored.Scheme); err == nil {
			err = w.SetB(stored.Beside)
		}
	}
	if err != nil {
		w.Units = units
		if w.Take(scheme.First()) == nil { // New took it: it cannot be refused
			p.keep.Unread(err)
		}
		return nil
	}
	p.becomes(*stored)
	p.keep.Took(w.Held())
	w.Restored = !work.Same(stored.Scheme, scheme.First())
	return nil
}

// elsewhere takes what another tab made of the storage.
func (p *Page) elsewhere(e doc.Event) ([]doc.Patch, extent) {
	whose, another := p.keep.Elsewhere(e.Name, e.Value, p.work.Held())
	p.work.Whose = whose
	p.sheets.Stands(e.Name, e.Value)
	if another {
		p.work.Restored = false
	}
	return nil, all
}

// opensLink reads a share code from the address's fragment. A bad one changes
// nothing and says so.
func (p *Page) opensLink(e doc.Event) []doc.Patch {
	code := strings.TrimPrefix(e.Value, "#")
	if code == "" || strings.HasPrefix(code, "to-") {
		return nil // a place in the page
	}
	if name, ok := teach.Named(e.Value); ok {
		return p.learns(name)
	}
	a, b, err := scheme.FromPair(code)
	if err == nil && p.work.Holds(a, b) {
		p.voice.Notice("")
		return nil
	}
	if err == nil {
		err = p.work.Arrive(a, b, say.Text("the link"))
	}
	if err != nil {
		p.voice.Notice(say.Text("This link holds no scheme that can be read, so nothing was changed. %s", say.Faults(err, "code")))
		return nil
	}
	p.Look.Reset()
	p.visits()
	p.voice.Notice("")
	p.voice.Soon(say.Text("Opened the link. %s", p.news()))
	return nil
}
