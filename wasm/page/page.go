// Package page is the logic of the page: what the reader does comes in as
// events, what the document shall show goes out as patches. It knows no
// browser, no clock and no file, so that all of it runs under plain go test;
// package dom carries events and patches, package stage draws.
package page

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// inHand is the view that the page begins with: the one that is turned.
var inHand = figure.Named("hand")

// Page is the state of the page. A Page is made by New and is for one
// goroutine at a time.
type Page struct {
	lessons func() []Lesson // read when first asked for: the start does not wait

	scheme   scheme.Scheme // the last good one
	ruff     sim.Ruff
	misfit   error // why it has no mechanics; nil: it has
	findings []check.Finding
	wrong    map[string]wrong // entries that cannot be used, by key
	draft    *wrong           // what is being typed, where it cannot be used so far
	asks     string           // what the page asks about before it does it; "" nothing
	past     []step
	future   []step
	ruled    []scheme.Overruled // what counts no longer since the last entry,
	ruledBy  string             // in this field
	editing  string             // key whose step grows while it is typed
	under    string             // key of the field under the reader's hands: its text is theirs

	units  scheme.Units
	view   *figure.View
	hand   string // id of the finding in hand, "" none
	camera Camera
	gesture
	size  size
	light string // light, dark or contrast

	sent  map[string]string     // what the document has, by patch
	built map[string][]doc.Node // and of nodes
	voice voice
	dirty bool // the picture
	motion
	learning string // the lesson that is open; "" none
	learned  bool   // and it was told that it is solved
	flat     bool   // the stage cannot draw
	told     bool   // the first numbers were marked

	whose // the ruff at hand is
	keep  keeping

	rescued  string  // what the document holds for when the program dies
	now_ms   float64 // of the last event
	written  string  // the scheme as the solver is asked for it
	solver   solver
	tried    map[string]wire.Tried // what became of remedies, by "id number"; nil: not asked
	again    bool                  // remedies were put off and are to be tried still
	rival    rival                 // B
	former   rival                 // what was A, solved
	compared compared
	pose     Pose
	settling settling
	sheets   sheets
	calm     bool // no motion
	dye      dyeing
	drawing  draw.Drawing    // the last, for its memory
	pair     [2]draw.Drawing // A and B as last drawn
	fold     fold
	proof    proof
}

// step is one state to go back to.
type step struct {
	before scheme.Scheme
	what   string         // in words
	lesson string         // that was open; "" none
	rival  *scheme.Scheme // B; nil: nothing was compared
	whose  whose          // the ruff was before
}

// wrong is an entry that cannot be used, and why.
type wrong struct{ text, why string }

// mostSteps is how many steps undo remembers.
const mostSteps = 200

// New makes the page of the default scheme.
func New() (*Page, error) {
	p := &Page{
		lessons: sync.OnceValue(Lessons), wrong: map[string]wrong{}, sent: map[string]string{}, built: map[string][]doc.Node{},
		view: inHand, camera: home, size: size{800, 560, 1}, dirty: true, pose: AtRest, sheets: sheets{paper: papers[0]},
		dye: dyeing{by: AsCloth}, fold: fold{at: wholeFold, said: len(foldSteps) - 1},
	}
	if err := p.take(scheme.Default()); err != nil {
		return nil, fmt.Errorf("the default scheme: %w", err)
	}
	p.show() // the site was built with all this in it
	return p, nil
}

// take makes s the scheme, if the whole pipeline accepts it; else the page is
// as it was.
func (p *Page) take(s scheme.Scheme) error {
	if err := s.Validate(); err != nil {
		return err
	}
	r, err := sim.Draw(s)
	if err != nil {
		return err
	}
	written := wire.Written(s)
	again := written == p.written
	if again {
		r.Solved = p.ruff.Solved // the solver is not asked twice for the same
	}
	p.parts()
	p.scheme, p.ruff, p.findings, p.written = s, r, say.Finds(r, p.units), written
	_, p.misfit = sim.Design(r)
	if again {
		p.marked()
	} else {
		p.forget()
		p.adopts(&p.rival)
	}
	if !slices.ContainsFunc(p.findings, func(f check.Finding) bool { return f.ID == p.hand }) {
		p.hand = ""
	}
	p.dirty = true
	return nil
}

// Scheme is the scheme that the page shows: the last good one.
func (p *Page) Scheme() scheme.Scheme { return p.scheme }

// Findings are the findings that the page shows.
func (p *Page) Findings() []check.Finding { return p.findings }

// Changed reports whether the picture must be drawn anew, once for each change.
func (p *Page) Changed() bool {
	was := p.dirty
	p.dirty = false
	return was
}

// IsFlat reports whether a picture stands in for the stage.
func (p *Page) IsFlat() bool { return p.flat }

// Handle takes an event and returns what the document shall change.
func (p *Page) Handle(e doc.Event) []doc.Patch {
	var out []doc.Patch
	p.now_ms = e.At_ms
	switch e.Kind {
	case doc.Begin:
		for key := range p.sent {
			if strings.HasPrefix(key, "value ") { // a browser may have kept what was typed on an earlier visit
				delete(p.sent, key)
			}
		}
		out = p.show()
		if !p.told {
			p.told = true
			out = append(out, doc.Patch{Op: doc.OpMark, Name: "ruffwright-findings"}, doc.Patch{Op: doc.OpTimer, Name: "solver", MS: first_ms})
		}
		return out
	case doc.Typing:
		if strings.HasPrefix(e.Name, sheetsKeys) {
			p.enterSheets(e.Name, e.Value, true)
			break
		}
		if e.Name == "fold" {
			return p.foldSlides(e.Value, e.At_ms)
		}
		p.under = e.Name
		p.sent["value "+doc.Control(e.Name)] = e.Value
		if was := p.written; p.enter(e.Name, e.Value, true) {
			if p.written != was {
				out = p.controlMoves(true, e.At_ms)
			}
			p.saySoon(p.news())
		}
	case doc.Set:
		if e.Name == "fold" {
			return p.foldSlides(e.Value, e.At_ms)
		}
		p.under = ""
		if strings.HasPrefix(e.Name, sheetsKeys) {
			p.enterSheets(e.Name, e.Value, false)
			break
		}
		p.sent["value "+doc.Control(e.Name)] = e.Value
		p.controlMoves(false, e.At_ms)
		if p.enter(e.Name, e.Value, false) {
			p.saySoon(p.news())
		}
	case doc.Do:
		p.controlMoves(false, e.At_ms)
		out = p.do(e.Name, e.Value, e.At_ms)
	case doc.Address:
		out = p.open(e.Value)
	case doc.Sized:
		p.resize(e.Value)
	case doc.Candle:
		p.dirty = p.dirty || p.light != e.Name
		p.light = e.Name
	case doc.Pointer:
		if p.pointer(e.Name, e.Value) {
			return p.moves(e.At_ms)
		}
		return nil // a drag touches nothing but the picture
	case doc.Wheel:
		if p.wheel(e.Value) {
			return p.moves(e.At_ms)
		}
		return nil
	case doc.Key:
		if e.Name == "Escape" {
			return []doc.Patch{{Op: doc.OpFocus, ID: "view-" + p.view.Name}}
		}
		if p.key(e.Name) {
			p.dirty = true
			p.saySoon(p.held())
		}
	case doc.Timer:
		switch e.Name {
		case "voice":
			p.voice.waits = false
		case "still":
			return p.stills(e.At_ms)
		case "settle":
			return p.frame(e.At_ms)
		case "fold":
			return p.foldFrame(e.At_ms)
		case "rest":
			out = p.rests(e.At_ms)
		case "watch":
			out = p.looks(e.At_ms)
		case "solver":
			out = p.wake(e.At_ms)
		case "press":
			out = p.looksAtPress(e.At_ms)
		case "png":
			out = p.savesPicture("png")
		}
	case doc.Copied:
		out = p.copied(e.Name == "yes", e.Value)
	case doc.Tab:
		p.keep.me = e.Name
		return nil
	case doc.Recalled:
		p.recalls(e.Name, e.Value)
	case doc.Elsewhere:
		p.elsewhere(e.Name, e.Value)
	case doc.Kept, doc.Unkept:
		if e.Kind == doc.Kept {
			out = p.kept(e.Name, e.Value)
		} else {
			p.unkept(e.Name, e.Value)
		}
		return append(append(out, p.changes(p.keepPatches())...), p.speak(e.At_ms)...)
	case doc.File:
		p.opens(e.Name, e.Value, e.Body)
	case doc.Flat:
		p.flat, p.dirty, p.settling.going, p.fold.playing = true, true, false, false
	case doc.Calm:
		p.calm = e.Name == "yes"
		p.fold.playing = p.fold.playing && !p.calm
	case doc.Place:
		p.sheets.address = reachable(e.Value)
	case doc.Press:
		switch e.Name {
		case "said":
			out = p.hearsPress(e.Value, e.Body, e.At_ms)
		case "died":
			out = p.pressFails(e.Value)
		}
	case doc.Solver:
		switch e.Name {
		case "said":
			out = p.hears(e.Value, e.Body, e.At_ms)
		case "died":
			out = p.dies(e.Value, e.At_ms)
		}
	}
	out = append(append(append(out, p.work(e.At_ms)...), p.keeps()...), p.rescues()...)
	out = append(append(out, p.show()...), p.speak(e.At_ms)...)
	// What takes the focus may only be made by the patches before.
	for i, patch := range out {
		if patch.Op == doc.OpFocus {
			return append(append(slices.Clone(out[:i]), out[i+1:]...), patch)
		}
	}
	return out
}

// do carries out a command of a button or link.
func (p *Page) do(name, with string, now_ms float64) []doc.Patch {
	p.editing, p.under, p.draft, p.asks = "", "", nil, ""
	switch name {
	case "view":
		if v := figure.Named(with); v != nil && v != p.view {
			p.view, p.dirty = v, true
			p.unfolds()
			p.camera.Lens = home.Lens
			p.saySoon(say.Word("view.said", "view", p.viewLabel()))
		}
	case "units":
		if u, err := scheme.ParseUnits(with); err == nil && u != p.units {
			p.units, p.dirty = u, true
			p.findings = say.Finds(p.ruff, u)
			p.marked()
			p.saySoon(say.Word("units.said", "unit", say.Theirs(u.Symbol())))
		}
	case "camera":
		if p.key(with) {
			p.dirty = true
			p.saySoon(p.held())
		}
	case "hand":
		if p.hand == with {
			with = ""
		}
		p.hand, p.dirty = with, true
		if with != "" {
			p.turnsTo(with)
			return []doc.Patch{{Op: doc.OpShow, ID: "stage"}}
		}
	case "apply":
		p.apply(with)
	case "undo":
		p.undo()
	case "redo":
		p.redo()
	case "demo":
		if d, ok := demo(with); ok {
			p.replace(d.Scheme, say.Word("step.demo", "title", d.Title))
			p.saySoon(say.Word("said.demo", "title", d.Title, "news", p.news()))
			return closing
		}
	case "fresh":
		p.replace(scheme.Default(), say.Word("step.fresh"))
		p.saySoon(say.Word("said.fresh", "news", p.news()))
		return closing
	case "colour":
		p.dyes(Colour(with))
	case "fold":
		return p.foldPlays(now_ms)
	case "pose":
		p.unfolds()
		return p.poses(Pose(with), now_ms)
	case "solver":
		return p.halts(now_ms)
	case "proof":
		return p.proves(now_ms)
	case "lesson", "lesson-again", "lesson-next", "lesson-away", "lesson-link":
		return p.teaches(name, with)
	case "sheets":
		if with == "stop" {
			return p.stopsPress()
		}
		return p.prints(now_ms)
	case "twin", "compare-keep", "compare-back", "compare-swap", "compare-stop":
		p.pairs(name)
	case "goto":
		return []doc.Patch{{Op: doc.OpFocus, ID: doc.Control(with)}}
	case "share", "save":
		if p.doubts(name) {
			return []doc.Patch{{Op: doc.OpFocus, ID: name + "-last"}}
		}
		if name == "share" {
			return p.links()
		}
		return p.savesScheme()
	case "share-last":
		return p.links()
	case "save-last":
		return p.savesScheme()
	case "pick", "dropped":
		return picks(name)
	case "picture":
		return p.pictures(with)
	case "copy":
		return p.copies()
	default:
		return p.keepsAs(name, with)
	}
	return nil
}

// apply makes the changes of a remedy, named "id number", as one step.
func (p *Page) apply(with string) {
	id, number, _ := strings.Cut(with, " ")
	n, err := strconv.Atoi(number)
	for _, f := range p.findings {
		if f.ID != id || err != nil || n < 0 || n >= len(f.Remedies) {
			continue
		}
		s, err := check.Apply(p.scheme, f.Remedies[n])
		if err == nil {
			before := p.scheme
			if err = p.take(s); err == nil {
				p.remember(step{before: before, what: say.Word("step.remedy", "change", f.Remedies[n].Sentence)})
				p.clears()
				p.saySoon(say.Word("said.apply", "news", p.news()))
				return
			}
		}
		p.saySoon(say.Word("misfit", "why", say.Told(err.Error())))
		return
	}
}

// open reads a share code from the address's fragment. A bad one changes
// nothing and says so.
func (p *Page) open(fragment string) []doc.Patch {
	code := strings.TrimPrefix(fragment, "#")
	if code == "" || strings.HasPrefix(code, "to-") {
		return nil // a place in the page
	}
	if name, ok := lessonIn(fragment); ok {
		return p.learn(name)
	}
	s, b, err := scheme.FromPair(code)
	if err == nil && p.atHandAlready(s, b) {
		p.notice("")
		return nil
	}
	if err == nil {
		before := p.atHand()
		if err = p.arrives(s, b, say.Word("step.link")); err == nil {
			p.visits(before)
		}
	}
	if err != nil {
		p.notice(say.Word("link.bad", "why", say.Sentence(say.Told(err.Error()))))
		return nil
	}
	p.notice("")
	p.saySoon(say.Word("said.link", "news", p.news()))
	return nil
}

// replace takes a whole scheme as one step, and looks at it as at first.
func (p *Page) replace(s scheme.Scheme, what string) error {
	err := p.swap(s, what)
	if err == nil {
		p.camera, p.learning = home, "" // a lesson is about its own ruff
		p.whose = whose{line: p.keep.begins()}
	}
	return err
}

// swap takes a whole scheme as one step.
func (p *Page) swap(s scheme.Scheme, what string) error {
	before := p.scheme
	if err := p.take(s); err != nil {
		return err
	}
	p.remember(step{before: before, what: what})
	p.clears()
	p.editing = ""
	return nil
}

// palette is what the picture is drawn in.
func (p *Page) palette() draw.Palette {
	switch p.light {
	case "dark":
		return draw.Dark()
	case "contrast":
		return draw.Contrast()
	}
	return draw.Light()
}
