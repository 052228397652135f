// Package over lays the ruff at hand over the portrait on the easel: painted as the fitted
// outer edge lies, by a painter of its own that lives while it is wanted. A plain picture
// comes first; one in full follows when nothing has changed meanwhile.
package over

import (
	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/light"
	"ruffwright/geom/pleat"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/frame"
	"ruffwright/wasm/page/screen"
	"ruffwright/wasm/painting"
)

// Want is what is to be seen: how the outer edge lies on the pad, CSS pixels, and the pad,
// with device pixels for one of these.
type Want struct {
	Lies                 figure.Lying // in CSS pixels
	Width, Height, Ratio float64
}

// perCSS is how many mm of the sheet a CSS pixel is: lines are as wide as on the stage.
const perCSS = 25.4 / 96

// Over is what is known of the painter and of the picture. The zero Over wants nothing.
type Over struct {
	on    bool
	ready bool // the painter has spoken
	dead  bool // there is none

	want  Want
	first *geom.Vec3 // of the ruff that is wanted
	scene *light.Scene
	eye   draw.Eye
	key   int // of the scene; the painter knows it where known is set
	known bool

	owed  int  // answers to come
	stale bool // none of these is of what is wanted now
	plain bool // the newest asked is plain
}

// On reports whether the ruff is laid over the portrait.
func (o *Over) On() bool { return o.on }

// Dead reports that it cannot be painted.
func (o *Over) Dead() bool { return o.dead }

// Turn lays it over the portrait, or takes it away.
func (o *Over) Turn(on bool) []doc.Patch {
	*o = Over{on: on}
	if on {
		return []doc.Patch{easel("paint start", "")}
	}
	return []doc.Patch{easel("paint end", "")}
}

func easel(name, value string) doc.Patch {
	return doc.Patch{Op: doc.OpEasel, ID: "easel-over", Name: name, Value: value}
}

// See takes what is to be seen, of which ruff, and asks for it where it is another.
func (o *Over) See(plan pleat.Plan, shape pleat.Shape, want Want) []doc.Patch {
	if !o.on || o.dead || !(want.Width >= 1 && want.Height >= 1 && want.Ratio > 0) {
		return nil
	}
	first := &shape.Panels[0].V[0]
	if first == o.first && want == o.want {
		return nil
	}
	if first != o.first {
		o.scene, o.first, o.known = figure.Bare(plan, shape), first, false
		o.key++
	}
	o.want, o.stale = want, true
	at := want.Lies
	at.Middle = draw.Pt(at.Middle.X*perCSS, at.Middle.Y*perCSS)
	at.Radius_mm, at.Far_mm = at.Radius_mm*perCSS, at.Far_mm*perCSS
	o.eye = figure.Over(shape, at)
	return o.next()
}

// next asks for the newest wish, where the painter has none: plainly at first.
func (o *Over) next() []doc.Patch {
	if !o.ready || o.owed > 0 || !o.stale && !o.plain {
		return nil
	}
	o.plain = o.stale
	return o.ask()
}

func (o *Over) ask() []doc.Patch {
	w, h := o.want.Width*perCSS, o.want.Height*perCSS
	place := screen.Place{PxPerMM: o.want.Ratio / perCSS, Middle: draw.Pt(w/2, h/2), Width: int(o.want.Width*o.want.Ratio + 0.5), Height: int(o.want.Height*o.want.Ratio + 0.5)}
	wish := painting.Wish{Width_mm: w, Height_mm: h, Place: place,
		Solids: []painting.Solid{{Scene: o.key, Camera: o.eye.Camera, Mood: light.Daylight, Plain: o.plain}}}
	if !o.known {
		wish.New, wish.Keys = []*light.Scene{o.scene}, []int{o.key}
		if o.key > 1 {
			wish.Drop = []int{o.key - 1}
		}
	}
	head, body, err := wish.Encode()
	if err != nil { // numbers alone: it can be
		return o.Die()
	}
	o.known, o.stale = true, false
	o.owed++
	p := easel("paint ask", head)
	p.Body = body
	return []doc.Patch{p}
}

// Hear takes an answer of the painter and gives the picture out.
func (o *Over) Hear(head string, body []byte) []doc.Patch {
	if !o.on {
		return nil // from one that is ended
	}
	p, err := painting.ReadPainted(head, body)
	if err != nil || p.Why != "" {
		return o.Die()
	}
	if p.Alive {
		o.ready = true
		return o.next()
	}
	o.owed = max(o.owed-1, 0)
	if p.Late {
		return o.next()
	}
	f := frame.Frame{}
	for i := range p.Items {
		f.Items = append(f.Items, frame.Ready{Count: p.Counts[i], Bytes: p.Items[i]})
	}
	shown := easel("paint show", "")
	shown.Body, shown.From, shown.Size = f.Append(nil), len(body)-p.Pixels, p.Pixels
	full := !o.plain && !o.stale
	out := []doc.Patch{shown}
	if full {
		return out
	}
	return append(out, o.next()...)
}

// Die notes that there is no painter.
func (o *Over) Die() []doc.Patch {
	*o = Over{on: o.on, dead: true}
	return []doc.Patch{easel("paint end", "")}
}
