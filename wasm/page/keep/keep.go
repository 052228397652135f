// Package keep saves the ruff at hand in the device's storage at every change:
// written, read back, compared. Three rules keep what is there.
//
// What the reader decided is never written over by another ruff, or by another
// tab's, unless it stands aside first. Nor is what cannot be read.
//
// Every writing names what it expects to write over; where something else
// stands there, nothing is written, and the reader is asked.
//
// A ruff that came by a link is not saved before the reader changes it or says
// so.
package keep

import (
	"encoding/json"
	"strconv"
	"strings"

	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/work"
)

// The keys of the storage.
const (
	keyPrefix    = "ruffwright."
	recordKey    = keyPrefix + "work"
	asidePrefix  = keyPrefix + "aside."
	unreadPrefix = asidePrefix + "unread."
)

// mostAside is how many ruffs stand aside; beyond it the oldest gives way.
// What could not be read never does.
const mostAside = 8

// storing is how it stands with the device's storage.
type storing uint8

const (
	unasked storing = iota
	storable
	denied
)

// Keep is what is known of the device's storage. Its zero value has not asked for it.
type Keep struct {
	Voice *say.Voice

	stand storing
	by    string // names this open page among the device's tabs
	n     int    // the highest number met

	stands  string      // the text of the record, as it stands in the storage
	taken   string      // the text that the ruff at hand comes from,
	line    string      // and its ruff
	content string      // what was last to be saved
	queue   []doc.Patch // what is to be done to the storage, the first being asked
	asking  bool
	why     string // why the ruff at hand is not saved
	filed   string // the content that was last saved as a file

	asides   map[string]aside // what stands aside, by key
	other    *Record          // another tab's, on which the reader has not decided
	otherWhy string           // or why it cannot be read
	mine     *work.Held       // the reader's own, while a link's ruff is at hand
	unread   string           // key of what could not be read at the start
	unwhy    string           // and why
	doubt    string           // key of what is to be thrown away, if the reader is sure
	told     string           // the news as said last
	address  string           // the code in the address, as the solver is asked for it
}

// aside is a text that stands aside, and what it says.
type aside struct {
	text string
	ruff Record
	why  string // why it cannot be read
}

// Recall takes what the storage holds when the page starts: why is the name of an
// error, value an object of texts by key, held the ruff at hand. It gives the ruff
// that is to be taken up, nil where there is none; then Took or Stays tells what
// became of it.
func (k *Keep) Recall(why, value string, held work.Held) (*work.Held, error) {
	k.by, k.asides = held.By, map[string]aside{}
	stored := map[string]string{}
	if why == "" && json.Unmarshal([]byte(value), &stored) != nil {
		why = "Error"
	}
	if why != "" {
		k.stand, k.why = denied, storageWords(why)
		return nil, nil
	}
	k.stand = storable
	for key, text := range stored {
		k.has(key, text)
	}
	k.content = content(held)
	if k.stands == "" {
		return nil, nil
	}
	r, err := readRecord(k.stands)
	k.n = max(k.n, r.N)
	return &r.Held, err
}

// Unread sets aside what was recalled and cannot be taken up.
func (k *Keep) Unread(err error) {
	k.unread, k.unwhy = unreadPrefix+sumOf(k.stands), say.Why(err)
	if k.asides[k.unread].text != k.stands {
		k.queue = []doc.Patch{k.put(k.unread, k.stands)}
	}
}

// Took takes note that what stands in the storage is at hand: held.
func (k *Keep) Took(held work.Held) {
	k.taken, k.line, k.content = k.stands, held.Line, content(held)
	k.other, k.why = nil, ""
}

// has notes what stands under a key now.
func (k *Keep) has(key, text string) {
	switch {
	case key == recordKey:
		k.stands = text
	case !strings.HasPrefix(key, asidePrefix):
		return
	case text == "":
		delete(k.asides, key)
	default:
		a := aside{text: text}
		r, err := readRecord(text)
		if a.ruff = r; err != nil {
			a.why = say.Why(err)
		}
		k.asides[key] = a
		k.n = max(k.n, r.N)
	}
}

// content is what is to be saved, but for who writes it and when.
func content(h work.Held) string {
	return strings.Join([]string{h.Asked, h.Units.Symbol(), h.Line, strconv.FormatBool(h.Own), h.Lesson}, " ")
}

// Save saves what is at hand, if it is to be saved and was not yet.
func (k *Keep) Save(held work.Held) []doc.Patch {
	if held.Own && !held.Guest {
		k.mine = nil // it is at hand
	}
	var out []doc.Patch
	if k.address != "" && k.address != held.Asked {
		// Loading the page again would bring back the link's ruff in place of it.
		k.address = ""
		out = append(out, doc.Patch{Op: doc.OpAddress})
	}
	if len(k.queue) > 0 {
		return append(out, k.next()...)
	}
	k.asking = false
	now := content(held)
	if k.stand != storable || held.Guest || now == k.content {
		return out
	}
	k.content = now
	k.n++
	text := Record{held, k.n}.text()
	switch {
	case k.other == nil && k.otherWhy == "":
		if key := k.displaced(held.Whose); key != "" {
			k.queue = append(k.queue, k.put(key, k.stands))
		}
		k.queue = append(k.queue, k.put(recordKey, text))
	case held.Own:
		k.queue = append(k.queue, k.put(k.asideKey(held), text))
	}
	return append(out, k.next()...)
}

// asideKey is where the ruff at hand stands aside.
func (k *Keep) asideKey(held work.Held) string { return asidePrefix + held.Line + "." + k.by }

// displaced is the key under which what stands in the storage must stand before
// the ruff of whose is written over it; "" if it need not, or does.
func (k *Keep) displaced(by work.Whose) string {
	if k.stands == "" {
		return ""
	}
	if k.taken == k.stands && k.line == by.Line {
		return "" // an earlier state of the same
	}
	key := unreadPrefix + sumOf(k.stands)
	if w, err := readRecord(k.stands); err == nil {
		if !w.Own {
			return ""
		}
		key = asidePrefix + w.Line + "." + w.By
	}
	if k.asides[key].text == k.stands {
		return ""
	}
	return key
}

// put writes text under a key, if what stands there is what the page knows of.
func (k *Keep) put(key, text string) doc.Patch {
	was := k.asides[key].text
	if key == recordKey {
		was = k.stands
	}
	return doc.Patch{Op: doc.OpKeep, Name: key, Value: text, Was: was, Gone: text == ""}
}

// next is the next thing to ask of the storage: one at a time, since each
// hangs on the one before.
func (k *Keep) next() []doc.Patch {
	if len(k.queue) == 0 || k.asking {
		return nil
	}
	k.asking = true
	return k.queue[:1:1]
}

// Kept takes the storage's answer: what stands under key after it was written.
func (k *Keep) Kept(key, text string, held work.Held) []doc.Patch {
	if len(k.queue) == 0 || k.queue[0].Name != key {
		return nil
	}
	ask := k.queue[0]
	k.queue, k.asking = k.queue[1:], false
	k.has(key, text)
	if text != ask.Value {
		k.queue, k.why = nil, say.Text("what the browser stored is not what was written. Save the ruff as a file.")
		return nil
	}
	if key == recordKey {
		k.taken, k.line, k.why = text, held.Line, ""
		k.queue = append(k.queue, k.tidies(held)...)
	} else if key == k.asideKey(held) {
		k.why = ""
	}
	return k.Save(held)
}

// Unkept takes the storage's refusal; why is the name of an error.
func (k *Keep) Unkept(key, why string) {
	if len(k.queue) > 0 && k.queue[0].Name == key {
		tidying := k.queue[0].Gone
		k.queue, k.asking = nil, false
		if !tidying {
			k.why = storageWords(why)
		}
	}
}

// tidies takes away what stands aside needlessly: the very ruff that was just
// saved, and the oldest beyond mostAside.
func (k *Keep) tidies(saved work.Held) []doc.Patch {
	var out []doc.Patch
	oldest, least, n := "", 0, 0
	for key, a := range k.asides {
		w := a.ruff
		switch {
		case a.why != "":
		case w.Line == saved.Line && work.Same(w.Scheme, saved.Scheme):
			out = append(out, k.put(key, ""))
		default:
			if n++; oldest == "" || w.N < least {
				oldest, least = key, w.N
			}
		}
	}
	if n > mostAside {
		out = append(out, k.put(oldest, ""))
	}
	return out
}

// Elsewhere takes what another tab made of the storage, or what was found there in
// place of what was expected, while held is at hand. No key: everything was taken
// away. It gives whose the ruff at hand is from now on, and whether another text
// stands in the storage.
func (k *Keep) Elsewhere(key, text string, held work.Held) (work.Whose, bool) {
	if k.stand != storable {
		return held.Whose, false
	}
	if len(k.queue) > 0 && k.queue[0].Name == key { // it was not written
		k.queue, k.asking, k.content = nil, false, ""
	}
	if key == "" {
		k.asides = map[string]aside{}
		key = recordKey
	}
	known := k.stands
	k.has(key, text)
	if key != recordKey || text == known {
		return held.Whose, false
	}
	k.other, k.otherWhy = nil, ""
	if text == "" {
		k.why, k.content = say.Text("what was stored here was taken away. The next change is saved again."), content(held)
		return held.Whose, true
	}
	r, err := readRecord(text)
	k.n = max(k.n, r.N)
	switch {
	case err != nil:
		k.otherWhy = say.Why(err)
	case r.By == k.by: // this page's own, which it did not know to be written
		k.taken, k.line = text, r.Line
	case held.Guest:
		if r.Own {
			k.mine = &r.Held
		}
		return held.Whose, true
	case work.Same(r.Scheme, held.Scheme) && (r.Beside == nil) == (held.Beside == nil) && (r.Beside == nil || work.Same(*r.Beside, *held.Beside)):
		held.Line, held.Own = r.Line, held.Own || r.Own
		k.taken, k.line, k.why = text, r.Line, ""
		k.content = content(held)
		return held.Whose, true
	default:
		k.other = &r
	}
	k.content = "" // what is at hand must stand aside
	return held.Whose, true
}

// Left notes that the ruff at hand is another than before. The reader's own that is
// left for a link's is offered.
func (k *Keep) Left(before, held work.Held) {
	if before.Own && !before.Guest && held.Guest {
		k.mine = &before
	}
}

// Linked notes that the ruff at hand stands in the address.
func (k *Keep) Linked(held work.Held) { k.address = held.Asked }

// Filed notes that the ruff at hand was saved as a file.
func (k *Keep) Filed(held work.Held) { k.filed = content(held) }
