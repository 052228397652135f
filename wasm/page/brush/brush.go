// Package brush has the pictures of the stage made: frame after frame, never more than
// one at a time. What is solid in a drawing is painted by the painter, in a worker,
// plainly at once and in full when nothing has changed for a moment; until the painter
// is there, and where it cannot be had, the page's own thread paints.
package brush

import (
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/frame"
	"ruffwright/wasm/page/screen"
	"ruffwright/wasm/painting"
)

const (
	rest_ms  = 80    // without a change: the full picture is asked for
	mostWait = 20000 // ms that the painter may be silent over one picture
)

// Brush has one picture made after the other. The zero Brush is ready.
type Brush struct {
	screen screen.Screen
	hand   hand
	scenes map[*light.Scene]int // what the painter knows
	last   int                  // key

	way      *way // the picture under way
	late     int  // answers still to come for full pictures that were given up
	changed  float64
	stale    bool // what is shown, or under way, is not the picture as it is now
	plain    bool // what is shown is the plain picture of something solid
	full     bool // the next picture is to be in full
	waits    bool // the timer is set
	asked_ms float64
}

// hand is who paints.
type hand int

const (
	own   hand = iota // the page's thread: the painter is not there yet
	other             // the painter
	alone             // the page's thread: there is no painter
)

// way is a picture on its way from the painter: all but what is solid.
type way struct {
	frame frame.Frame
	plain bool
}

// Timer is the name of the brush's timer.
const Timer = "rest-picture"

// Start starts the painter.
func (b *Brush) Start() []doc.Patch {
	return []doc.Patch{{Op: doc.OpPainter, Name: "start"}}
}

// Change notes that the picture has become another. A full picture of what it was is not
// waited for.
func (b *Brush) Change(now_ms float64) []doc.Patch {
	b.changed, b.stale, b.full = now_ms, true, false
	if b.way != nil && b.way.plain {
		return nil // it is drawn when this one is there
	}
	if b.way != nil { // the painter leaves a full one for the next
		b.way = nil
		b.late++
	}
	return []doc.Patch{{Op: doc.OpDraw}}
}

// Full reports whether the next picture is drawn in full, and not plainly.
func (b *Brush) Full() bool { return b.full }

// Busy reports whether a picture is under way: the newest wish waits. A painter that
// has been silent for too long is given up.
func (b *Brush) Busy(now_ms float64) bool {
	if b.way != nil && now_ms-b.asked_ms > mostWait {
		b.hand, b.way = alone, nil
	}
	return b.way != nil
}

// Unfinished reports whether a better picture will follow by itself.
func (b *Brush) Unfinished() bool { return b.stale || b.plain || b.way != nil }

// Draw makes the frame of a drawing.
func (b *Brush) Draw(d draw.Drawing, place screen.Place, now_ms float64) []doc.Patch {
	f := b.screen.Lay(d, place)
	var solids []draw.Solid
	for _, it := range d.Items {
		if s, ok := it.(draw.Solid); ok {
			s.Plain = !b.full
			solids = append(solids, s)
		}
	}
	b.stale = false
	plain := len(solids) > 0 && !b.full
	if len(solids) == 0 || b.hand != other {
		var painted [][]frame.Item
		pixels := []byte{} // none, where nothing is solid
		for _, s := range solids {
			items, more := screen.Solid(s, d.Width_mm, d.Height_mm, place)
			painted, pixels = append(painted, items), append(pixels, more...)
		}
		f.Items = fill(f.Items, func(i int) []frame.Item { return painted[i] })
		return b.shown(plain, doc.Patch{Op: doc.OpPixels, Body: pixels}, f)
	}
	head, body, err := b.wish(solids, d, place).Encode()
	if err != nil {
		return nil // numbers alone: it cannot
	}
	b.way, b.asked_ms = &way{f, plain}, now_ms
	return []doc.Patch{{Op: doc.OpPainter, Name: "ask", Value: head, Body: body}}
}

// wish is what the painter is asked: the scenes that it has not are new, those that it
// has and that are not drawn any more it may drop.
func (b *Brush) wish(solids []draw.Solid, d draw.Drawing, place screen.Place) painting.Wish {
	w := painting.Wish{Width_mm: d.Width_mm, Height_mm: d.Height_mm, Place: place}
	now := map[*light.Scene]int{}
	for _, s := range solids {
		key, known := b.scenes[s.Scene]
		if again, twice := now[s.Scene]; twice {
			key, known = again, true
		}
		if !known {
			b.last++
			key = b.last
			w.New, w.Keys = append(w.New, s.Scene), append(w.Keys, key)
		}
		now[s.Scene] = key
		w.Solids = append(w.Solids, painting.Solid{Scene: key, Camera: s.Eye.Camera, Mood: s.Mood, Clip: s.Clip, Faint: s.Faint, Plain: s.Plain})
	}
	for scene, key := range b.scenes {
		if _, still := now[scene]; !still {
			w.Drop = append(w.Drop, key)
		}
	}
	b.scenes = now
	return w
}

// fill puts the i-th of what was painted in the place of the i-th solid.
func fill(items []frame.Item, painted func(i int) []frame.Item) []frame.Item {
	var out []frame.Item
	n := 0
	for _, it := range items {
		if it != nil {
			out = append(out, it)
			continue
		}
		out = append(out, painted(n)...)
		n++
	}
	return out
}

// shown gives a frame out.
func (b *Brush) shown(plain bool, pixels doc.Patch, f frame.Frame) []doc.Patch {
	b.plain = plain
	out := []doc.Patch{pixels, {Op: doc.OpFrame, Body: f.Append(nil)}}
	if b.stale {
		out = append(out, doc.Patch{Op: doc.OpDraw})
	}
	return out
}

// rests reports whether the plain picture is shown as it is now, and nothing better is
// under way. While the painter is still to come, the full picture is left to it.
func (b *Brush) rests() bool {
	return b.plain && !b.full && !b.stale && b.way == nil && b.hand != own
}

// Rest sets the timer for the full picture where the plain one is shown, unless the
// reader holds the ruff: it may move on at any time.
func (b *Brush) Rest(held bool) []doc.Patch {
	if b.waits || held || !b.rests() {
		return nil
	}
	b.waits = true
	return []doc.Patch{{Op: doc.OpTimer, Name: Timer, MS: rest_ms}}
}

// Rings is due when nothing may have changed for a moment.
func (b *Brush) Rings(held bool, now_ms float64) []doc.Patch {
	b.waits = false
	if held || !b.rests() || b.changed+rest_ms > now_ms+1 {
		return nil // it is set again
	}
	b.full = true
	return []doc.Patch{{Op: doc.OpDraw}}
}

// Hear takes an answer of the painter.
func (b *Brush) Hear(head string, body []byte) []doc.Patch {
	p, err := painting.ReadPainted(head, body)
	if err != nil || p.Why != "" {
		return b.Die()
	}
	if p.Alive {
		if b.hand == own {
			b.hand = other
		}
		return nil
	}
	if b.late > 0 {
		b.late--
		return nil
	}
	way := b.way
	if way == nil || b.hand != other {
		return nil
	}
	b.way = nil
	f, n := way.frame, 0
	f.Items = fill(f.Items, func(i int) []frame.Item {
		n++
		if i >= len(p.Items) {
			return nil
		}
		return []frame.Item{frame.Ready{Count: p.Counts[i], Bytes: p.Items[i]}}
	})
	if n != len(p.Items) {
		return b.Die()
	}
	pixels := doc.Patch{Op: doc.OpPixels, From: len(body) - p.Pixels, Size: p.Pixels}
	return b.shown(way.plain, pixels, f)
}

// Die notes that there is no painter: the page's own thread paints.
func (b *Brush) Die() []doc.Patch {
	b.hand, b.way, b.late, b.scenes = alone, nil, 0, nil
	b.stale = true
	return []doc.Patch{{Op: doc.OpPainter, Name: "end"}, {Op: doc.OpDraw}}
}
