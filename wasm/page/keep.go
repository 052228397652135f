package page

import (
	"encoding/json"
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// The page saves the ruff at hand in the device's storage at every change:
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

// The keys of the storage.
const (
	keyPrefix    = "ruffwright."
	workKey      = keyPrefix + "work"
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

// keeping is what the page knows of the device's storage.
type keeping struct {
	stand storing
	me    string // names this open page among the device's tabs
	lines int    // ruffs begun in it
	n     int    // the highest number met

	stands  string      // the text of the work, as it stands in the storage
	taken   string      // the text that the ruff at hand comes from,
	line    string      // and its ruff
	content string      // what was last to be saved
	queue   []doc.Patch // what is to be done to the storage, the first being asked
	asking  bool
	why     string // why the ruff at hand is not saved
	filed   string // the content that was last saved as a file

	asides   map[string]aside // what stands aside, by key
	other    *work            // another tab's, on which the reader has not decided
	otherWhy string           // or why it cannot be read
	mine     *work            // the reader's own, while a link's ruff is at hand
	unread   string           // key of what could not be read at the start
	unwhy    string           // and why
	restored bool             // the ruff at hand is the last visit's
	doubt    string           // key of what is to be thrown away, if the reader is sure
	told     string           // the news as said last
	address  string           // the code in the address
}

// aside is a text that stands aside, and what it says.
type aside struct {
	text string
	work work
	why  string // why it cannot be read
}

// begins names a new ruff.
func (k *keeping) begins() string {
	k.lines++
	return k.me + "-" + strconv.Itoa(k.lines)
}

// recalls takes what the storage holds when the page starts; why is the name of
// an error.
func (p *Page) recalls(why, value string) {
	k := &p.keep
	if k.me == "" {
		k.me = "page"
	}
	p.line, k.asides = k.begins(), map[string]aside{}
	stored := map[string]string{}
	if why == "" && json.Unmarshal([]byte(value), &stored) != nil {
		why = "Error"
	}
	if why != "" {
		k.stand, k.why = denied, storageWords(why)
		return
	}
	k.stand = storable
	for key, text := range stored {
		k.has(key, text)
	}
	k.content = p.content()
	if k.stands == "" {
		return
	}
	w, err := readWork(k.stands)
	k.n = max(k.n, w.n)
	units := p.units
	if err == nil {
		p.units = w.units
		if err = p.take(w.scheme); err == nil {
			err = p.rivals(w.beside)
		}
	}
	if err != nil {
		p.units = units
		if p.take(scheme.Default()) != nil {
			return // New took it: it cannot be refused
		}
		k.unread, k.unwhy = unreadPrefix+sumOf(k.stands), say.Sentence(say.Told(err.Error()))
		if k.asides[k.unread].text != k.stands {
			k.queue = []doc.Patch{k.put(k.unread, k.stands)}
		}
		return
	}
	p.whose, k.taken, k.line = w.whose, k.stands, w.line
	if p.lesson(w.lesson) != nil {
		p.learning = w.lesson
	}
	k.content = p.content()
	k.restored = !same(w.scheme, scheme.Default())
}

// has notes what stands under a key now.
func (k *keeping) has(key, text string) {
	switch {
	case key == workKey:
		k.stands = text
	case !strings.HasPrefix(key, asidePrefix):
		return
	case text == "":
		delete(k.asides, key)
	default:
		a := aside{text: text}
		w, err := readWork(text)
		if a.work = w; err != nil {
			a.why = say.Sentence(say.Told(err.Error()))
		}
		k.asides[key] = a
		k.n = max(k.n, w.n)
	}
}

// content is what is to be saved, but for who writes it and when.
func (p *Page) content() string {
	return strings.Join([]string{p.writtenBoth(), p.units.Symbol(), p.line, strconv.FormatBool(p.own), p.learning}, " ")
}

// writtenBoth are the ruff at hand and what it is compared with.
func (p *Page) writtenBoth() string { return p.written + " " + p.rival.written }

// atHand is the ruff at hand as a work.
func (p *Page) atHand() work {
	return work{p.scheme, p.rival.scheme, p.units, p.whose, p.keep.me, p.keep.n + 1, p.learning}
}

// keeps saves what is at hand, if it is to be saved and was not yet.
func (p *Page) keeps() []doc.Patch {
	k := &p.keep
	if p.own && !p.guest {
		k.mine = nil // it is at hand
	}
	out := p.unlinks()
	if len(k.queue) > 0 {
		return append(out, k.next()...)
	}
	k.asking = false
	if k.stand != storable || p.guest || p.content() == k.content {
		return out
	}
	k.content = p.content()
	text := p.atHand().text()
	k.n++
	switch {
	case k.other == nil && k.otherWhy == "":
		if key := k.displaced(p.whose); key != "" {
			k.queue = append(k.queue, k.put(key, k.stands))
		}
		k.queue = append(k.queue, k.put(workKey, text))
	case p.own:
		k.queue = append(k.queue, k.put(p.asideKey(), text))
	}
	return append(out, k.next()...)
}

// asideKey is where the ruff at hand stands aside.
func (p *Page) asideKey() string { return asidePrefix + p.line + "." + p.keep.me }

// displaced is the key under which what stands in the storage must stand before
// the ruff of whose is written over it; "" if it need not, or does.
func (k *keeping) displaced(by whose) string {
	if k.stands == "" {
		return ""
	}
	if k.taken == k.stands && k.line == by.line {
		return "" // an earlier state of the same
	}
	key := unreadPrefix + sumOf(k.stands)
	if w, err := readWork(k.stands); err == nil {
		if !w.own {
			return ""
		}
		key = asidePrefix + w.line + "." + w.by
	}
	if k.asides[key].text == k.stands {
		return ""
	}
	return key
}

// put writes text under a key, if what stands there is what the page knows of.
func (k *keeping) put(key, text string) doc.Patch {
	was := k.asides[key].text
	if key == workKey {
		was = k.stands
	}
	return doc.Patch{Op: doc.OpKeep, Name: key, Value: text, Was: was, Gone: text == ""}
}

// next is the next thing to ask of the storage: one at a time, since each
// hangs on the one before.
func (k *keeping) next() []doc.Patch {
	if len(k.queue) == 0 || k.asking {
		return nil
	}
	k.asking = true
	return k.queue[:1:1]
}

// kept takes the storage's answer: what stands under key after it was written.
func (p *Page) kept(key, text string) []doc.Patch {
	k := &p.keep
	if len(k.queue) == 0 || k.queue[0].Name != key {
		return nil
	}
	ask := k.queue[0]
	k.queue, k.asking = k.queue[1:], false
	k.has(key, text)
	if text != ask.Value {
		k.queue, k.why = nil, say.Word("keep.readback")
		return nil
	}
	if key == workKey {
		w := p.atHand()
		k.taken, k.line, k.why = text, w.line, ""
		k.queue = append(k.queue, k.tidies(w)...)
	} else if key == p.asideKey() {
		k.why = ""
	}
	return p.keeps()
}

// unkept takes the storage's refusal; why is the name of an error.
func (p *Page) unkept(key, why string) {
	k := &p.keep
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
func (k *keeping) tidies(saved work) []doc.Patch {
	var out []doc.Patch
	oldest, least, n := "", 0, 0
	for key, a := range k.asides {
		w := a.work
		switch {
		case a.why != "":
		case w.line == saved.line && same(w.scheme, saved.scheme):
			out = append(out, k.put(key, ""))
		default:
			if n++; oldest == "" || w.n < least {
				oldest, least = key, w.n
			}
		}
	}
	if n > mostAside {
		out = append(out, k.put(oldest, ""))
	}
	return out
}

// elsewhere takes what another tab made of the storage, or what was found there
// in place of what was expected. No key: everything was taken away.
func (p *Page) elsewhere(key, text string) {
	k := &p.keep
	if k.stand != storable {
		return
	}
	if len(k.queue) > 0 && k.queue[0].Name == key { // it was not written
		k.queue, k.asking, k.content = nil, false, ""
	}
	if key == "" {
		k.asides = map[string]aside{}
		key = workKey
	}
	known := k.stands
	k.has(key, text)
	if key != workKey || text == known {
		return
	}
	k.restored, k.other, k.otherWhy = false, nil, ""
	if text == "" {
		k.why, k.content = say.Word("keep.emptied"), p.content()
		return
	}
	w, err := readWork(text)
	k.n = max(k.n, w.n)
	switch {
	case err != nil:
		k.otherWhy = say.Sentence(say.Told(err.Error()))
	case w.by == k.me: // this page's own, which it did not know to be written
		k.taken, k.line = text, w.line
	case p.guest && w.own:
		k.mine = &w
		return
	case p.guest:
		return
	case same(w.scheme, p.scheme) && (w.beside == nil) == (p.rival.scheme == nil) && (w.beside == nil || same(*w.beside, *p.rival.scheme)):
		p.line, p.own = w.line, p.own || w.own
		k.taken, k.line, k.why = text, w.line, ""
		k.content = p.content()
		return
	default:
		k.other = &w
	}
	k.content = "" // what is at hand must stand aside
}

// keepsAs carries out a command about what is saved.
func (p *Page) keepsAs(name, with string) []doc.Patch {
	k := &p.keep
	if name != "aside-drop" {
		k.doubt = ""
	}
	switch name {
	case "other-take":
		if w := k.other; w != nil && p.turnTo(*w, say.Word("step.other")) {
			k.other, k.taken, k.line, k.why = nil, k.stands, w.line, ""
			k.content = p.content()
		}
	case "other-leave":
		k.other, k.otherWhy, k.content = nil, "", ""
	case "own-back":
		if w := k.mine; w != nil {
			p.turnTo(*w, say.Word("step.own"))
		}
	case "link-take":
		p.guest, k.mine = false, nil
	case "keep-again":
		k.content = ""
	case "unread-leave":
		k.unread = ""
	case "aside-take":
		if a, ok := k.asides[with]; ok && a.why == "" {
			p.turnTo(a.work, say.Word("step.aside"))
		}
	case "aside-save":
		if a, ok := k.asides[with]; ok {
			return p.savesAside(a)
		}
	case "aside-drop":
		if _, ok := k.asides[with]; !ok {
			return nil
		}
		if k.doubt != with {
			k.doubt = with
			return nil
		}
		k.doubt = ""
		if k.unread == with {
			k.unread = ""
		}
		k.queue = append(k.queue, k.put(with, ""))
	}
	return nil
}

// turnTo takes a work in the place of the ruff at hand, as one step.
func (p *Page) turnTo(w work, what string) bool {
	if err := p.replace(w.scheme, what); err != nil || p.rivals(w.beside) != nil {
		if err != nil { // it was good when it was stored
			p.notice(say.Sentence(say.Told(err.Error())))
		}
		return false
	}
	p.whose = w.whose
	if p.lesson(w.lesson) != nil {
		p.learning = w.lesson
	}
	p.notice("")
	p.saySoon(say.Word("said.took", "what", say.Capital(what), "news", p.news()))
	return true
}

// visits notes that the ruff at hand came by a link: the reader's own work is
// not touched by it.
func (p *Page) visits(before work) {
	k := &p.keep
	if before.own && !before.guest {
		k.mine = &before
	}
	p.guest, k.restored = true, false
	k.address = p.writtenBoth()
}

// unlinks takes a code out of the address that is no longer the ruff at hand's:
// loading the page again would bring back the link's in place of it.
func (p *Page) unlinks() []doc.Patch {
	if k := &p.keep; k.address != "" && k.address != p.writtenBoth() {
		k.address = ""
		return []doc.Patch{{Op: doc.OpAddress}}
	}
	return nil
}
