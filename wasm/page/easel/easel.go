// Package easel is the page's easel: a portrait that the reader opened, the points placed on
// it, and what they tell of its ruff in the wearer's millimetres. Of the pictures it knows
// the sizes alone: their pixels go from the worker that opens them to the document.
package easel

import (
	"ruffwright/geom/portrait"
	"ruffwright/geom/scheme"
	"ruffwright/wasm/page/say"
)

// Now is what the easel is told of the ruff at hand.
type Now struct {
	Units  scheme.Units
	Scheme scheme.Scheme
}

// Easel is what is known of the pictures and of the points on them. New makes one.
type Easel struct {
	Now   Now
	voice *say.Voice

	open   bool
	on     side     // the picture that is looked at
	boards [2]board // of the two
	pad    spot     // the size at which it is looked at, CSS pixels
	ratio  float64  // device pixels for one of these
	bring  bringing

	tool   kind
	marks  []mark
	newest int        // number of the newest mark
	past   []([]mark) // what was placed before, to go back to
	future []([]mark)

	hand  hand
	typed map[string]string // what stands in the controls of the easel, by key
	wrong map[string]string // and why it cannot be used

	got   *portrait.Answer // what the points tell; nil: nothing so far
	lacks []string         // what is to be placed before they tell anything
	why   string           // they tell nothing, because of this
	took  map[string]taken // what was taken into the scheme, by the field's key
}

// side is one of the two pictures.
type side int

const (
	source side = iota // of the ruff that is wanted
	wearer             // of the wearer, with a ruler
)

// spot is a place on the pad, CSS pixels from its upper left corner.
type spot struct{ x, y float64 }

// bringing is a picture on its way.
type bringing struct {
	busy     bool
	name     string
	heard_ms float64
	why      string // the last one was not opened, because of this
}

// taken is a number that was taken into the scheme, and what stood there before: as the
// scheme writes them.
type taken struct{ measured, before string }

// New makes an easel that is closed.
func New(voice *say.Voice) *Easel {
	e := &Easel{voice: voice}
	e.clear()
	return e
}

// clear forgets pictures and points. What was taken into the scheme stays known.
func (e *Easel) clear() {
	*e = Easel{Now: e.Now, voice: e.voice, took: e.took, pad: e.pad, ratio: e.ratio, tool: faceHeight, typed: map[string]string{}, wrong: map[string]string{}}
	if e.took == nil {
		e.took = map[string]taken{}
	}
	e.hand.let()
}

// See takes what the ruff at hand has become.
func (e *Easel) See(now Now) {
	was := e.Now
	e.Now = now
	if was.Units != now.Units || was.Scheme.Wearer.Face != now.Scheme.Wearer.Face {
		e.measure()
	}
}
