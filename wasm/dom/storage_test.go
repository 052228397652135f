//go:build !js

package dom

import (
	"encoding/json"
	"strconv"

	"ruffwright/wasm/doc"
)

// Storage is the twin of a device's storage, which several documents share.
type Storage struct {
	Texts  map[string]string
	Denied string // the name of the error of every access; "" none
	Most   int    // characters in all; more are refused; 0 = no limit
	Lies   bool   // what is read back is not what was written

	open []*Document
}

// Begin starts the page of the document as the loader does: name tells it from
// others, storage may be nil, fragment is the address's.
func (d *Document) Begin(name string, storage *Storage, fragment string) {
	d.Storage, d.Fragment = storage, fragment
	why, text := "SecurityError", ""
	if storage != nil {
		storage.open = append(storage.open, d)
		if storage.Texts == nil {
			storage.Texts = map[string]string{}
		}
		if why = storage.Denied; why == "" {
			found, err := json.Marshal(storage.Texts)
			if err != nil {
				why = "Error"
			}
			text = string(found)
		}
	}
	d.Send(0, doc.Tab, name, "")
	d.Send(0, doc.Recalled, why, text)
	d.Send(0, doc.Address, "", fragment)
	d.Send(0, doc.Begin, "", "")
}

// Close takes the document away: it hears of nothing any more.
func (d *Document) Close() {
	for i, o := range d.Storage.open {
		if o == d {
			d.Storage.open = append(d.Storage.open[:i], d.Storage.open[i+1:]...)
			return
		}
	}
}

// keep does what a Keep patch of d asks and gives the answer; the other
// documents are told.
func (s *Storage) keep(d *Document, p doc.Patch) doc.Event {
	unkept := func(why string) doc.Event { return doc.Event{Kind: doc.Unkept, Name: p.Name, Value: why} }
	switch {
	case s == nil:
		return unkept("SecurityError")
	case s.Denied != "":
		return unkept(s.Denied)
	case s.Texts[p.Name] != p.Was:
		return doc.Event{Kind: doc.Elsewhere, Name: p.Name, Value: s.Texts[p.Name]}
	}
	size := len(p.Value) - len(s.Texts[p.Name])
	for _, text := range s.Texts {
		size += len(text)
	}
	if s.Most > 0 && size > s.Most && !p.Gone {
		return unkept("QuotaExceededError")
	}
	s.Put(d, p.Name, p.Value)
	back := s.Texts[p.Name]
	if s.Lies && back != "" {
		back = back[:len(back)/2]
	}
	return doc.Event{Kind: doc.Kept, Name: p.Name, Value: back}
}

// Put stores a text, "" none, and tells all documents but by.
func (s *Storage) Put(by *Document, key, text string) {
	if text == "" {
		delete(s.Texts, key)
	} else {
		s.Texts[key] = text
	}
	for _, o := range s.open {
		if o != by {
			o.Send(0, doc.Elsewhere, key, text)
		}
	}
}

// Choose lets the reader choose a file, after the page asked for one.
func (d *Document) Choose(name string, text []byte) {
	most, err := strconv.Atoi(d.Picked[len(d.Picked)-1].Value)
	if err != nil {
		d.Fail(err.Error())
		return
	}
	d.now_ms++
	d.tell(doc.Event{Kind: doc.File, Name: name, Value: strconv.Itoa(len(text)), Body: text[:min(most, len(text))], At_ms: d.now_ms})
}
