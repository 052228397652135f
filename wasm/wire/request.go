package wire

import (
	"fmt"
	"slices"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
)

// Task is what a request asks for.
type Task string

// The tasks. The newest request cancels whatever is still being worked on.
const (
	Solve  Task = "solve"  // the whole ruff: Result replies, part by part
	Try    Task = "try"    // changes: one Tried reply for each of Tries
	Mend   Task = "mend"   // the fewest changes that leave nothing wrong, of Tries first: a Mended reply
	Verify Task = "verify" // the problems with known answers: one Checked reply each
	Hold   Task = "hold"   // ways to sew that hold: a Held reply
	Gauge  Task = "gauge"  // what the readings of a trial set tell: a Told reply
	Matter Task = "matter" // which fields move the ruff most: a Matter reply each
	Print  Task = "print"  // the sheets, marks and pieces: a Printed reply, of a program that prints
	Cancel Task = "cancel" // stop working on the request ID, 0 for any
)

// Request is what the page asks of the solver.
type Request struct {
	ID     int    `json:"id"` // each larger than the last, from 1
	Task   Task   `json:"task"`
	Scheme string `json:"scheme,omitempty"` // a document, see Written

	// Of a solve: Coarse takes the grid of a control that moves; Skip leaves
	// parts out. Of a try the same.
	Coarse bool `json:"coarse,omitempty"`
	Skip   Skip `json:"skip,omitzero"`

	Tries []Trial   `json:"tries,omitempty"`
	Base  *Result   `json:"-"`               // of a try, of mend: the scheme's own ruff, all that is known of it, where the bench has not been given it
	Units string    `json:"units,omitempty"` // of mend: in which its sentences are, as scheme.ParseUnits reads it
	Slow  bool      `json:"slow,omitempty"`  // of verify: the slow problems as well
	Print *Printing `json:"print,omitempty"` // of print: how
	Read  *Readings `json:"read,omitempty"`  // of gauge: what was read
}

// Skip leaves parts of a solve out.
type Skip struct {
	Bow      bool `json:"bow,omitempty"`
	Tangents bool `json:"tangents,omitempty"` // bob and lean
	Other    bool `json:"other,omitempty"`    // the other equilibrium
}

// Trial is one change to try: what becomes of all that is found?
type Trial struct {
	Changes []check.Change `json:"changes"` // fields that differ, in the order of the fields
}

// Written is a scheme as a request carries it, which scheme.Parse reads.
func Written(s scheme.Scheme) string { return string(s.JSON()) }

// requestHead is the JSON of a request.
type requestHead struct {
	Request
	Base *result `json:"base,omitempty"`
}

// Encode gives the head and the body of the request; an error says what is wrong with it.
func (r Request) Encode() (text string, body []byte, err error) {
	if err := r.validate(); err != nil {
		return "", nil, err
	}
	h := requestHead{Request: r}
	if r.Base != nil {
		if h.Base, body, err = r.Base.encode(); err != nil {
			return "", nil, err
		}
	}
	text, err = encode(h)
	return text, body, err
}

// ReadRequest reads a request. The scheme in it is not yet read.
func ReadRequest(text string, body []byte) (Request, error) {
	var h requestHead
	if err := decode(text, &h); err != nil {
		return Request{}, err
	}
	r := h.Request
	if h.Base != nil {
		var err error
		if r.Base, err = h.Base.decode(body); err != nil {
			return Request{}, err
		}
	} else if len(body) > 0 {
		return Request{}, fmt.Errorf("wire: %d bytes of surfaces with no ruff", len(body))
	}
	if err := r.validate(); err != nil {
		return Request{}, err
	}
	return r, nil
}

func (r *Request) validate() error {
	least := 1
	switch r.Task {
	case Solve, Try, Mend, Hold, Gauge, Matter, Print:
		if r.Scheme == "" {
			return fmt.Errorf("wire: %s without a scheme", r.Task)
		}
	case Verify:
	case Cancel:
		least = 0
	default:
		return fmt.Errorf("wire: task %q; known are solve, try, mend, hold, verify, print, cancel", r.Task)
	}
	if r.ID < least {
		return fmt.Errorf("wire: %s with id %d; allowed from %d", r.Task, r.ID, least)
	}
	if len(r.Scheme) > mostText {
		return fmt.Errorf("wire: a scheme of %d bytes; allowed are %d", len(r.Scheme), mostText)
	}
	if len(r.Tries) > mostTries {
		return fmt.Errorf("wire: %d tries; allowed are %d", len(r.Tries), mostTries)
	}
	if (r.Task == Try || r.Task == Mend) != (len(r.Tries) > 0) {
		return fmt.Errorf("wire: %s with %d tries", r.Task, len(r.Tries))
	}
	if r.Task != Try && r.Task != Mend && r.Base != nil {
		return fmt.Errorf("wire: %s with a ruff to begin with", r.Task)
	}
	if (r.Task == Gauge) != (r.Read != nil) {
		return fmt.Errorf("wire: %s, and readings: %t", r.Task, r.Read != nil)
	}
	if r.Read != nil {
		if err := r.Read.validate(); err != nil {
			return err
		}
	}
	if (r.Task == Print) != (r.Print != nil) {
		return fmt.Errorf("wire: %s, and how to print: %t", r.Task, r.Print != nil)
	}
	if r.Print != nil {
		if err := r.Print.validate(); err != nil {
			return err
		}
	}
	if slices.ContainsFunc(r.Tries, func(t Trial) bool { return len(t.Changes) == 0 }) {
		return fmt.Errorf("wire: a try without changes")
	}
	return nil
}
