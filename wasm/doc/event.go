// Package doc is what the page's program and the document in the browser say to
// each other: what happened comes in as events, what the document shall change
// goes out as patches, and what is built there is made of nodes. Package dom
// carries them.
package doc

// Event is one thing that happened in the document.
type Event struct {
	Kind  Kind
	Name  string  // a field's key, a command, a key of the keyboard, a phase
	Value string  // what was typed, what the command goes with, places in CSS pixels
	At_ms float64 // since the document opened
	Body  []byte  // of a message of the solver or the press
}

// Kind of an event.
type Kind string

// The events that a document sends.
const (
	Begin   Kind = "begin"   // the program runs; everything may be drawn
	Typing  Kind = "typing"  // a field's text changed under the reader's hands: Name its key
	Set     Kind = "set"     // a field was left or Enter pressed: Name its key
	Do      Kind = "do"      // a button or link: Name the command, Value what it goes with
	Address Kind = "address" // the address's fragment: Value with its '#'
	Sized   Kind = "sized"   // the stage: Value "width height ratio", CSS pixels and device pixels per CSS pixel
	Candle  Kind = "candle"  // the reader's colours: Name "light", "dark" or "contrast"
	Pointer Kind = "pointer" // on the stage: Name down, move or up, Value "id x y"
	Wheel   Kind = "wheel"   // on the stage: Value "delta x y", delta > 0 away from the drawing
	Key     Kind = "key"     // on the stage: Name as KeyboardEvent.key
	Handle  Kind = "handle"  // of a measure on the stage: Name its field's key, Value what happens to it (package grip)
	Timer   Kind = "timer"   // a Timer patch is due: Name its name
	Copied  Kind = "copied"  // a Copy patch was done: Name yes or no, Value the patch's name
	Draw    Kind = "draw"    // the screen takes a new frame
	Calm    Kind = "calm"    // the reader wants no motion: Name yes or no
	Press   Kind = "press"   // the press's worker, likewise
	Painter Kind = "painter" // and the painter's
	Place   Kind = "place"   // Value is the page's own address, without its fragment
	Solver  Kind = "solver"  // the solver's first worker: Name said (Value the head, Body the body) or died (Value why); said 1 of the next
	Easel   Kind = "easel"   // on the easel: Name chosen (Value bytes and name of a file), said or died of its opener, size, down, move, up, wheel, key
	Cores   Kind = "cores"   // Value is how many programs the device can run at once

	Tab       Kind = "tab"       // before all others: Name names this open page among the device's
	Recalled  Kind = "recalled"  // what the storage holds at the start: Value an object of texts by key, or Name the error's name
	Kept      Kind = "kept"      // a Keep patch was done: Name the key, Value what stands there, read back
	Unkept    Kind = "unkept"    // it was not: Name the key, Value the error's name
	Elsewhere Kind = "elsewhere" // another tab stored Value under the key Name (or it was found there); no Name: all was taken away
	File      Kind = "file"      // a file was chosen: Name its name, Value its size in bytes, Body as much as was asked for
)

// Patch is one change to the document.
type Patch struct {
	Op    Op      `json:"op"`
	ID    string  `json:"id,omitempty"` // of the element
	Name  string  `json:"name,omitempty"`
	Value string  `json:"value"`
	Was   string  `json:"was,omitempty"`  // of Keep: what must stand there now
	Gone  bool    `json:"gone,omitempty"` // of an attribute, of what is kept: take it away
	Nodes []Node  `json:"nodes,omitempty"`
	Body  []byte  `json:"-"` // crosses beside the others, as bytes
	MS    float64 `json:"ms,omitempty"`
	From  int     `json:"from,omitempty"` // of a file, of pixels: where they begin in the body of the event,
	Size  int     `json:"size,omitempty"` // and its bytes
}

// Op is the kind of a patch.
type Op string

// The patches that a document knows.
const (
	OpText    Op = "text"    // Value becomes the text of ID, never read as HTML
	OpAttr    Op = "attr"    // attribute Name of ID
	OpValue   Op = "value"   // of the control ID
	OpNodes   Op = "nodes"   // Nodes replace what is in ID; the focus is kept
	OpFocus   Op = "focus"   // on ID
	OpShow    Op = "show"    // scroll ID into view
	OpPlace   Op = "place"   // ID comes to a place on the stage, CSS pixels: Value "x y" of its middle, or "x y width height"
	OpTimer   Op = "timer"   // send Timer Name after MS
	OpAddress Op = "address" // the fragment becomes Value, without a step in the history
	OpCopy    Op = "copy"    // Value to the clipboard: after the page's address, or alone where Name is text
	OpKeep    Op = "keep"    // Value in the device's storage under Name, if Was stands there
	OpSave    Op = "save"    // a file Name of the data: address Value
	OpPick    Op = "pick"    // a file, Value bytes of it at most; Name dropped: the one that was dropped
	OpMark    Op = "mark"    // a mark Name in the performance timeline
	OpRescue  Op = "rescue"  // for when the program dies: Value is the ruff's document, Name its file's name, Was its code in the address ("": it has none)
	OpPress   Op = "press"   // likewise the press, which makes the sheets
	OpPainter Op = "painter" // likewise the painter; what it is asked has a Body
	OpDraw    Op = "draw"    // the picture is another: send Draw when the screen takes one
	OpPixels  Op = "pixels"  // those of the pictures of the frame that follows: Body or, without one, a part of the event's body
	OpFrame   Op = "frame"   // Body is shown
	OpFile    Op = "file"    // a part of the event's body becomes the file Name, of type Value, behind the link ID
	OpEasel   Op = "easel"   // of the easel, by Name: pick a file, open it for the picture Value, end its opener, forget the picture Value, view and lens (package easel)
	OpSolver  Op = "solver"  // Name: start the first worker, ask it (Value the head of a request, Body its body), or end it; start 1 the next
)

// Document is what the page's program needs of the browser. Package dom has
// the real one and a twin for tests.
type Document interface {
	// Listen calls handle for each event and applies what it returns, until
	// the document closes.
	Listen(handle func(Event) []Patch)
	// Fail shows that the program cannot go on, and why.
	Fail(why string)
}
