package page

import (
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// The sheets are made by a program of their own, the press, in a worker that is
// started when the reader asks for them and ended when they are there: nobody
// else pays for it. It solves the ruff by itself, as the command does, so that
// both print the same.

// Keys of the controls that say how to print. They are no fields of the scheme.
const (
	sheetsKeys   = "sheets."
	sheetsPaper  = "sheets.paper"
	sheetsAcross = "sheets.across"
	sheetsUp     = "sheets.up"
)

// papers that the press knows.
var papers = []string{"A4", "Letter"}

// What the square of 100 mm may measure for the press to mend it.
const (
	squareLeast_mm = 95
	squareMost_mm  = 105
)

// sheets is what the page knows of the sheets.
type sheets struct {
	paper   string
	square  [2]string // as entered, across and up; "" = 100 mm
	wrong   [2]string // why an entry cannot be used
	address string    // of the page, where others can reach it

	busy     bool
	runs     bool // the press has spoken
	id       int
	asked    string // what the sheets being made are of
	far      wire.Progress
	heard_ms float64
	watched  bool // a timer is set
	suspect  bool // silent too long once

	printed *wire.Printed // the files at hand, without their bytes
	of      string        // what they are of
	stopped bool
	why     string // the last ones could not be made because of this
}

const (
	pressWatch_ms  = 2000
	pressSilent_ms = 45000 // the slowest single picture takes a few seconds on a slow telephone
)

// enterSheets takes what is entered in a control that says how to print.
func (p *Page) enterSheets(key, text string, live bool) {
	t := &p.sheets
	switch key {
	case sheetsPaper:
		for _, known := range papers {
			if known == text {
				t.paper = text
				p.sent["value "+doc.Control(key)] = text
			}
		}
	case sheetsAcross, sheetsUp:
		i := 0
		if key == sheetsUp {
			i = 1
		}
		t.square[i] = text
		p.sent["value "+doc.Control(key)] = text
		_, why := readSquare(t.square[i])
		if !live || why == "" { // while it is typed nothing is complained of
			t.wrong[i] = why
		}
	}
}

// readSquare reads what the square measures, and says why it cannot be used. An
// empty text is 0: the square is right.
func readSquare(text string) (mm float64, why string) {
	text = strings.TrimSpace(text)
	if text == "" {
		return 0, ""
	}
	mm, err := scheme.ParseLength(text, scheme.Millimetres)
	if err != nil {
		return 0, say.Sentence(say.Told(err.Error()))
	}
	if mm < squareLeast_mm || mm > squareMost_mm {
		return 0, say.Word("square.far", "text", text, "least", squareLeast_mm, "most", squareMost_mm)
	}
	return mm, ""
}

// reachable is the page's address with a # at its end, for the square to scan, where
// another device can reach it; else "".
func reachable(address string) string {
	if !strings.HasPrefix(address, "https://") || len(address) > 200 {
		return ""
	}
	return address + "#"
}

// printing is how to print just now; ok tells whether all entries can be used.
func (p *Page) printing() (how wire.Printing, ok bool) {
	t := &p.sheets
	how = wire.Printing{Paper: t.paper, Units: p.units.Symbol(), Address: t.address}
	var why [2]string
	how.Wide_mm, why[0] = readSquare(t.square[0])
	how.High_mm, why[1] = readSquare(t.square[1])
	t.wrong = why
	return how, why == [2]string{}
}

// sheetsNow is what sheets made now would be of.
func (p *Page) sheetsNow() string {
	return strings.Join([]string{p.written, p.sheets.paper, p.units.Symbol(), p.sheets.square[0], p.sheets.square[1]}, "\n")
}

// prints begins to make the sheets.
func (p *Page) prints(now_ms float64) []doc.Patch {
	t := &p.sheets
	if t.busy {
		return nil
	}
	t.stopped, t.why = false, ""
	if len(p.wrong) > 0 {
		t.why = say.Word("sheets.entries", "entries", p.state().entries())
		p.saySoon(p.sheetsWords())
		return nil
	}
	if _, ok := p.printing(); !ok {
		t.why = say.Word("sheets.nosquare")
		p.saySoon(p.sheetsWords())
		return nil
	}
	t.busy, t.runs, t.asked, t.far = true, false, p.sheetsNow(), wire.Progress{}
	t.heard_ms, t.suspect = now_ms, false
	p.saySoon(p.sheetsWords())
	return append([]doc.Patch{{Op: doc.OpPress, Name: "start"}}, p.watchPress()...)
}

// stopsPress ends the press: its worker is ended at once, whatever it does.
func (p *Page) stopsPress() []doc.Patch {
	t := &p.sheets
	if !t.busy {
		return nil
	}
	t.busy, t.stopped = false, true
	p.saySoon(p.sheetsWords())
	return []doc.Patch{{Op: doc.OpPress, Name: "end"}}
}

// pressFails takes note that there are no sheets.
func (p *Page) pressFails(why string) []doc.Patch {
	t := &p.sheets
	if !t.busy {
		return nil
	}
	t.busy, t.why = false, say.Word("sheets.failed", "why", say.Sentence(say.Told(why)))
	p.saySoon(t.why)
	return []doc.Patch{{Op: doc.OpPress, Name: "end"}}
}

// watchPress sets the timer that looks at the press, if it is not set.
func (p *Page) watchPress() []doc.Patch {
	if p.sheets.watched {
		return nil
	}
	p.sheets.watched = true
	return []doc.Patch{{Op: doc.OpTimer, Name: "press", MS: pressWatch_ms}}
}

// looksAtPress is the watchdog: a press that should speak and does not is ended.
func (p *Page) looksAtPress(now_ms float64) []doc.Patch {
	t := &p.sheets
	t.watched = false
	patience := float64(pressSilent_ms)
	if !t.runs {
		patience = sleeper_ms
	}
	switch {
	case !t.busy:
		return nil
	case now_ms-t.heard_ms < patience:
		t.suspect = false
	case t.suspect:
		return p.pressFails(say.Word("solve.silent"))
	default:
		t.suspect = true
	}
	return p.watchPress()
}

// hearsPress takes a message of the press.
func (p *Page) hearsPress(head string, body []byte, now_ms float64) []doc.Patch {
	t := &p.sheets
	if !t.busy {
		return nil // from one that is ended
	}
	r, err := wire.ReadReply(head, body)
	if err != nil {
		return p.pressFails(err.Error())
	}
	t.heard_ms, t.suspect = now_ms, false
	switch {
	case r.Alive:
		t.runs = true
		t.id++
		how, _ := p.printing()
		request := wire.Request{ID: t.id, Task: wire.Print, Scheme: p.written, Print: &how}
		t.asked = p.sheetsNow() // what was changed while the program came counts
		head, err := request.Encode()
		if err != nil {
			return p.pressFails(err.Error())
		}
		return []doc.Patch{{Op: doc.OpPress, Name: "ask", Value: head}}
	case r.ID != t.id:
	case r.Progress != nil:
		t.far = *r.Progress
	case r.Printed != nil:
		return p.takes(r.Printed)
	case r.Error != nil:
		return p.pressFails(r.Error.Why)
	}
	return nil
}

// takes puts the files behind their links.
func (p *Page) takes(printed *wire.Printed) []doc.Patch {
	t := &p.sheets
	t.busy, t.printed, t.of = false, printed, t.asked
	out := []doc.Patch{{Op: doc.OpPress, Name: "end"}}
	printed.Each(func(f wire.File, from int) {
		out = append(out, doc.Patch{Op: doc.OpFile, ID: saveID(f.Kind), Name: f.Name, Value: f.Type, From: from, Size: f.Bytes})
	})
	t.printed.Body = nil
	p.saySoon(p.sheetsWords())
	return out
}

func saveID(k wire.Kind) string { return "save-" + string(k) }

// sheetsState is for the looks of the line that tells of the press.
func (p *Page) sheetsState() string {
	switch t := &p.sheets; {
	case t.busy:
		return "busy"
	case t.why != "":
		return "gone"
	case t.printed != nil:
		return "done"
	}
	return ""
}

// sheetsWords tells how it stands with the sheets.
func (p *Page) sheetsWords() string {
	t := &p.sheets
	var words []string
	switch {
	case t.busy:
		return p.pressWords()
	case t.why != "":
		words = append(words, t.why)
	case t.stopped:
		words = append(words, say.Word("sheets.stopped"))
	case t.printed == nil:
		return say.Word("sheets.idle")
	}
	if t.printed != nil {
		ready := say.Word("sheets.ready", "n", t.printed.Sheets)
		switch {
		case t.of != p.sheetsNow():
			ready = say.Word("sheets.old")
		case p.state().old():
			ready = say.Word("sheets.last", "n", t.printed.Sheets)
		}
		words = append(words, ready)
		if t.of == p.sheetsNow() && t.printed.Stops > 0 {
			words = append(words, say.Word("sheets.stops"))
		}
		if t.printed.Unsolved {
			words = append(words, say.Word("sheets.drawn"))
		}
	}
	return strings.Join(words, " ")
}

// pressWords is how far the press is.
func (p *Page) pressWords() string {
	t := &p.sheets
	far := t.far
	switch {
	case !t.runs:
		return say.Word("press.comes")
	case far.Phase == "sheets" && far.Cells > 0:
		return say.Word("press.sheets", "n", far.Cell+1, "of", far.Cells)
	case far.Phase == "pieces":
		return say.Word("press.pieces")
	case far.Phase == "starch":
		return say.Word("press.starch", "n", far.Factorisation)
	case far.Cells > 1:
		return say.Word("press.solvesof", "n", far.Cell+1, "of", far.Cells)
	}
	return say.Word("press.solves")
}

// fileWords is what the link to a file says.
func (p *Page) fileWords(k wire.Kind) string {
	words := say.Word("save." + string(k))
	if t := p.sheets.printed; t != nil {
		for _, f := range t.Files {
			if f.Kind == k {
				return sized(words, f.Bytes)
			}
		}
	}
	return words
}

// sized is a file with its size.
func sized(file string, bytes int) string {
	if bytes < 100_000 {
		return say.Word("sheets.kB", "file", file, "n", max(1, bytes/1000))
	}
	return say.Word("sheets.MB", "file", file, "n", strconv.FormatFloat(float64(bytes)/1e6, 'f', 1, 64))
}

// savesOrder is the order of the links.
var savesOrder = []wire.Kind{wire.SheetsFile, wire.MarksFile, wire.PiecesFile}

// sheetsNodes is the room 'Sheets to print', as it stands before anybody asks.
func (p *Page) sheetsNodes() []doc.Node {
	paper := doc.El("select", "id=f-sheets-paper").With("data-key", sheetsPaper)
	for _, name := range papers {
		paper = paper.WithNodes(doc.El("option", "").With("value", name).Say(say.Word("sheets." + name)))
	}
	paper.Nodes[0] = paper.Nodes[0].With("selected", "")
	square := doc.El("fieldset", "class=square", doc.El("legend", "").Say(say.Word("square")), doc.El("p", "class=aside").Say(say.Word("square.help")))
	for _, key := range []string{sheetsAcross, sheetsUp} {
		id := doc.Control(key)
		square = square.WithNodes(doc.El("div", "class=field",
			doc.El("label", "for="+id).Say(say.Word("square."+strings.TrimPrefix(key, sheetsKeys))),
			doc.El("span", "class=entry",
				doc.El("input", "type=text inputmode=decimal autocomplete=off spellcheck=false placeholder=100 id="+id).
					With("data-key", key).With("aria-describedby", id+"-wrong"),
				doc.El("span", "class=unit").Say(scheme.Millimetres.Symbol())),
			doc.El("p", "class=wrong id="+id+"-wrong")))
	}
	saves := doc.El("ul", "class=saves")
	for _, k := range savesOrder {
		saves = saves.WithNodes(doc.El("li", "", doc.El("a", "hidden= id="+saveID(k)).Say(say.Word("save."+string(k)))))
	}
	return []doc.Node{
		doc.El("p", "class=aside").Say(say.Word("sheets.hold")),
		doc.El("div", "class=field", doc.El("label", "for=f-sheets-paper").Say(say.Word("sheets.paper")), doc.El("span", "class=entry", paper)),
		doc.El("details", "", doc.El("summary", "").Say(say.Word("square.off")), square),
		doc.El("p", "class=hundred").Say(say.Word("sheets.hundred")),
		doc.El("div", "class=solver id=press data-state=", doc.El("p", "id=pressing").Say(p.sheetsWords()),
			doc.El("span", "class=acts",
				doc.El("button", "type=button id=make-sheets class=apply data-do=sheets data-with=make aria-disabled=false").Say(say.Word("sheets.make")),
				doc.El("button", "type=button id=stop-sheets class=quiet data-do=sheets data-with=stop aria-disabled=true").Say(say.Word("sheets.stop")))),
		saves,
	}
}

// sheetsShow is what the room 'Sheets to print' shows just now.
func (p *Page) sheetsShow(add func(op doc.Op, id, name, value string), flag func(id, name string, on bool)) {
	t := &p.sheets
	add(doc.OpText, "pressing", "", p.sheetsWords())
	add(doc.OpAttr, "press", "data-state", p.sheetsState())
	add(doc.OpAttr, "make-sheets", "aria-disabled", strconv.FormatBool(t.busy))
	add(doc.OpAttr, "stop-sheets", "aria-disabled", strconv.FormatBool(!t.busy))
	add(doc.OpValue, doc.Control(sheetsPaper), "", t.paper)
	for i, id := range []string{doc.Control(sheetsAcross), doc.Control(sheetsUp)} {
		add(doc.OpValue, id, "", t.square[i])
		flag(id, "aria-invalid", t.wrong[i] != "")
		add(doc.OpText, id+"-wrong", "", t.wrong[i])
	}
	for _, k := range savesOrder {
		add(doc.OpText, saveID(k), "", p.fileWords(k))
	}
}
