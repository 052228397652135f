// Package sheets has the sheets made by a program of their own, the press, in a
// worker that is started when the reader asks for them and ended when they are
// there: nobody else pays for it. It solves the ruff by itself, as the command
// does, so that both print the same.
package sheets

import (
	"slices"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// Keys of the controls that say how to print. They are no fields of the scheme.
const (
	keys      = "sheets."
	paperKey  = "sheets.paper"
	acrossKey = "sheets.across"
	upKey     = "sheets.up"
)

// papers that the press knows.
var papers = []string{"A4", "Letter"}

var paperWords = map[string]string{"A4": "A4", "Letter": "US Letter"}

// What the square of 100 mm may measure for the press to mend it.
const (
	squareLeast_mm = 95
	squareMost_mm  = 105
)

// Now is what the sheets would be of, if they were made now.
type Now struct {
	Asked   string // the ruff at hand, as it is asked for
	Units   scheme.Units
	Entries string // what cannot be used of what is entered; "" nothing
	Old     bool   // what is shown is not what is typed
}

// Sheets is what is known of the sheets. New makes one.
type Sheets struct {
	Now   Now
	voice *say.Voice

	paper   string
	stands  string    // the paper that the device keeps; "" none
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

// New has made none yet.
func New(voice *say.Voice) *Sheets { return &Sheets{paper: papers[0], voice: voice} }

// Enter takes what is entered in a control that says how to print, and tells what
// the control then holds; ok is whether it is such a control.
func (t *Sheets) Enter(key, text string, live bool) (id, holds string, ok bool) {
	at := 0
	switch key {
	case paperKey:
		if slices.Contains(papers, text) {
			t.paper = text
			return doc.Control(key), text, true
		}
		return "", "", true
	case acrossKey:
	case upKey:
		at = 1
	default:
		return "", "", strings.HasPrefix(key, keys)
	}
	t.square[at] = text
	if _, why := readSquare(text); !live || why == "" { // while it is typed nothing is complained of
		t.wrong[at] = why
	}
	return doc.Control(key), text, true
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
		return 0, say.Why(err)
	}
	if mm < squareLeast_mm || mm > squareMost_mm {
		return 0, say.Text("%s is too far off for a printer’s stretch; %d to %d mm can be mended. Most likely “fit to page” is set in the print dialogue, or the paper is of another size.", text, squareLeast_mm, squareMost_mm)
	}
	return mm, ""
}

// Reach notes the page's own address, without its fragment.
func (t *Sheets) Reach(address string) { t.address = reachable(address) }

// reachable is the page's address with a # at its end, for the square to scan, where
// another device can reach it; else "".
func reachable(address string) string {
	if !strings.HasPrefix(address, "https://") || len(address) > 200 {
		return ""
	}
	return address + "#"
}

// printing is how to print just now; ok tells whether all entries can be used.
func (t *Sheets) printing() (how wire.Printing, ok bool) {
	how = wire.Printing{Paper: t.paper, Units: t.Now.Units.Symbol(), Address: t.address, Language: say.Language().Tag}
	var why [2]string
	how.Wide_mm, why[0] = readSquare(t.square[0])
	how.High_mm, why[1] = readSquare(t.square[1])
	t.wrong = why
	return how, why == [2]string{}
}

// now is what sheets made now would be of.
func (t *Sheets) now() string {
	return strings.Join([]string{t.Now.Asked, t.paper, t.Now.Units.Symbol(), t.square[0], t.square[1]}, "\n")
}

// Make begins to make the sheets.
func (t *Sheets) Make(now_ms float64) []doc.Patch {
	if t.busy {
		return nil
	}
	t.stopped, t.why = false, ""
	if t.Now.Entries != "" {
		t.why = say.Text("No sheets were made: they would leave out what is typed, which cannot be used. %s", t.Now.Entries)
		t.voice.Soon(t.words())
		return nil
	}
	if _, ok := t.printing(); !ok {
		t.why = say.Text("No sheets were made: what the square measures cannot be used.")
		t.voice.Soon(t.words())
		return nil
	}
	t.busy, t.runs, t.asked, t.far = true, false, t.now(), wire.Progress{}
	t.heard_ms, t.suspect = now_ms, false
	t.voice.Soon(t.words())
	return append([]doc.Patch{{Op: doc.OpPress, Name: "start"}}, t.watch()...)
}

// Stop ends the press: its worker is ended at once, whatever it does.
func (t *Sheets) Stop() []doc.Patch {
	if !t.busy {
		return nil
	}
	t.busy, t.stopped = false, true
	t.voice.Soon(t.words())
	return []doc.Patch{{Op: doc.OpPress, Name: "end"}}
}

// Fail takes note that there are no sheets.
func (t *Sheets) Fail(why string) []doc.Patch {
	if !t.busy {
		return nil
	}
	t.busy, t.why = false, say.Text("The sheets could not be made. %s The rest of the page works on; you may try again. Without a browser: go run ./cmd/ruffwright sheets.", say.Sentence(why))
	t.voice.Soon(t.why)
	return []doc.Patch{{Op: doc.OpPress, Name: "end"}}
}

// watch sets the timer that looks at the press, if it is not set.
func (t *Sheets) watch() []doc.Patch {
	if t.watched {
		return nil
	}
	t.watched = true
	return []doc.Patch{{Op: doc.OpTimer, Name: "press", MS: pressWatch_ms}}
}

// Check is the watchdog: a press that should speak and does not is ended.
func (t *Sheets) Check(now_ms float64) []doc.Patch {
	t.watched = false
	patience := float64(pressSilent_ms)
	if !t.runs {
		patience = wire.Waking_ms
	}
	switch {
	case !t.busy:
		return nil
	case now_ms-t.heard_ms < patience:
		t.suspect = false
	case t.suspect:
		return t.Fail(say.Text("it fell silent"))
	default:
		t.suspect = true
	}
	return t.watch()
}

// Hear takes a message of the press.
func (t *Sheets) Hear(head string, body []byte, now_ms float64) []doc.Patch {
	if !t.busy {
		return nil // from one that is ended
	}
	r, err := wire.ReadReply(head, body)
	if err != nil {
		return t.Fail(err.Error())
	}
	t.heard_ms, t.suspect = now_ms, false
	switch {
	case r.Alive:
		t.runs = true
		t.id++
		how, _ := t.printing()
		request := wire.Request{ID: t.id, Task: wire.Print, Scheme: t.Now.Asked, Print: &how}
		t.asked = t.now() // what was changed while the program came counts
		head, _, err := request.Encode()
		if err != nil {
			return t.Fail(err.Error())
		}
		return []doc.Patch{{Op: doc.OpPress, Name: "ask", Value: head}}
	case r.ID != t.id:
	case r.Progress != nil:
		t.far = *r.Progress
	case r.Printed != nil:
		return t.takes(r.Printed)
	case r.Error != nil:
		return t.Fail(say.In(r.Error.Why.Text))
	}
	return nil
}

// takes puts the files behind their links.
func (t *Sheets) takes(printed *wire.Printed) []doc.Patch {
	t.busy, t.printed, t.of = false, printed, t.asked
	out := []doc.Patch{{Op: doc.OpPress, Name: "end"}}
	printed.Each(func(f wire.File, from int) {
		out = append(out, doc.Patch{Op: doc.OpFile, ID: saveID(f.Kind), Name: f.Name, Value: f.Type, From: from, Size: f.Bytes})
	})
	t.printed.Body = nil
	t.voice.Soon(t.words())
	return out
}

func saveID(k wire.Kind) string { return "save-" + string(k) }
