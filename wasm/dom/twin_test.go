//go:build !js

package dom

import (
	"encoding/json"
	"slices"
	"strings"

	"ruffwright/wasm/doc"
)

// Document is the twin of the browser's: it keeps what the patches made of it.
type Document struct {
	Text     map[string]string            // by id
	Control  map[string]string            // value of a control, by id
	Attr     map[string]map[string]string // by id
	Children map[string][]doc.Node        // by id
	Focus    string                       // id
	Shown    string                       // id of what was last scrolled into view
	Timers   []doc.Patch
	Fragment string
	Clip     string
	Marks    []string
	Failure  string
	Solver   []doc.Patch     // what was asked of the solver's worker
	Press    []doc.Patch     // and of the press's
	Painter  []doc.Patch     // and of the painter's
	Easel    []doc.Patch     // what was asked of the easel, its view and lens among it
	Due      bool            // a frame is to be asked for
	Pixels   []byte          // of the next frame
	Frames   []Frame         // that were shown
	Files    map[string]File // by the id of the link
	Rescue   doc.Patch       // what is kept for when the program dies
	Saved    []doc.Patch     // files that the reader was given
	Picked   []doc.Patch     // files that the reader was asked for
	Storage  *Storage        // of the device; nil: denied

	waiting []doc.Event // of the storage, after the patches that asked

	handle func(doc.Event) []doc.Patch
	now_ms float64
	body   []byte // of the event that is being handled
}

// Frame is what stood on the stage.
type Frame struct{ Bytes, Pixels []byte }

// File is what can be saved from a link.
type File struct {
	Name, Type string
	Bytes      []byte
}

// Open gives an empty document.
func Open() *Document {
	return &Document{
		Text: map[string]string{}, Control: map[string]string{},
		Attr: map[string]map[string]string{}, Children: map[string][]doc.Node{}, Files: map[string]File{},
	}
}

// Listen sets what Send calls.
func (d *Document) Listen(handle func(doc.Event) []doc.Patch) { d.handle = handle }

// Send lets one thing happen, wait_ms after the last.
func (d *Document) Send(wait_ms float64, kind doc.Kind, name, value string) {
	d.now_ms += wait_ms
	d.tell(doc.Event{Kind: kind, Name: name, Value: value, At_ms: d.now_ms})
}

// Hear lets a message of worker n of the solver, "" the first, come in, wait_ms after the
// last thing.
func (d *Document) Hear(wait_ms float64, n, head string, body []byte) {
	d.now_ms += wait_ms
	d.tell(doc.Event{Kind: doc.Solver, Name: strings.TrimSpace("said " + n), Value: head, Body: body, At_ms: d.now_ms})
}

// HearPress lets a message of the press's worker come in.
func (d *Document) HearPress(wait_ms float64, head string, body []byte) {
	d.now_ms += wait_ms
	d.tell(doc.Event{Kind: doc.Press, Name: "said", Value: head, Body: body, At_ms: d.now_ms})
}

func (d *Document) tell(e doc.Event) {
	d.body = e.Body
	patches, err := guarded(d.handle, e)
	if err != nil {
		d.Fail(err.Error())
		return
	}
	var back []sent // through the wire, as in the browser
	text, bodies := encode(patches)
	if err := json.Unmarshal([]byte(text), &back); err != nil {
		d.Fail(err.Error())
		return
	}
	for _, p := range back {
		if p.Body > 0 {
			p.Patch.Body = slices.Clone(bodies[p.Body-1])
		}
		d.apply(p.Patch)
	}
	for len(d.waiting) > 0 {
		next := d.waiting[0]
		d.waiting = d.waiting[1:]
		next.At_ms = d.now_ms
		d.tell(next)
	}
}

func (d *Document) apply(p doc.Patch) {
	switch p.Op {
	case doc.OpText:
		d.Text[p.ID] = p.Value
	case doc.OpValue:
		d.Control[p.ID] = p.Value
	case doc.OpAttr:
		if d.Attr[p.ID] == nil {
			d.Attr[p.ID] = map[string]string{}
		}
		if p.Gone {
			delete(d.Attr[p.ID], p.Name)
		} else {
			d.Attr[p.ID][p.Name] = p.Value
		}
	case doc.OpNodes:
		d.Children[p.ID] = p.Nodes
	case doc.OpShow:
		d.Shown = p.ID
	case doc.OpFocus:
		d.Focus = p.ID
	case doc.OpTimer:
		d.Timers = append(d.Timers, p)
	case doc.OpAddress:
		d.Fragment = p.Value
	case doc.OpCopy:
		d.Clip = p.Value
	case doc.OpMark:
		d.Marks = append(d.Marks, p.Name)
	case doc.OpSolver:
		d.Solver = append(d.Solver, p)
	case doc.OpPress:
		d.Press = append(d.Press, p)
	case doc.OpPainter:
		d.Painter = append(d.Painter, p)
	case doc.OpEasel:
		d.Easel = append(d.Easel, p)
	case doc.OpDraw:
		d.Due = true
	case doc.OpPixels:
		d.Pixels = p.Body
		if p.Body == nil {
			d.Pixels = slices.Clone(d.body[p.From : p.From+p.Size])
		}
	case doc.OpFrame:
		d.Frames = append(d.Frames, Frame{p.Body, d.Pixels})
	case doc.OpFile:
		d.Files[p.ID] = File{p.Name, p.Value, slices.Clone(d.body[p.From : p.From+p.Size])}
	case doc.OpKeep:
		d.waiting = append(d.waiting, d.Storage.keep(d, p))
	case doc.OpRescue:
		d.Rescue = p
	case doc.OpSave:
		d.Saved = append(d.Saved, p)
	case doc.OpPick:
		d.Picked = append(d.Picked, p)
	}
}

// Words is the text of the nodes in the element id, and of what is in them.
func (d *Document) Words(id string) string {
	var b strings.Builder
	var walk func([]doc.Node)
	walk = func(nodes []doc.Node) {
		for _, n := range nodes {
			b.WriteString(n.Text + " ")
			walk(n.Nodes)
		}
	}
	walk(d.Children[id])
	return b.String()
}

// Fail notes why the program cannot go on.
func (d *Document) Fail(why string) { d.Failure = why }
