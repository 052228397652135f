package easel

import (
	"math"
	"strconv"
	"strings"

	"ruffwright/geom/portrait"
)

// hand is what the reader's hand does on the pad.
type hand struct {
	mark, end int // the point that is held, mark 0: none
	down      map[int]spot
	first     int  // the finger that came first
	drags     bool // it drags the point that is held,
	pans      bool // or the picture
	moved     bool // it has moved since it came
	off       spot // from the finger to the point that it drags
	noted     bool // how it lay before is remembered
	cross     portrait.Point
	keyed     bool // the keys are used: the cross is shown
}

// hold takes hold of a point; noted: how all lay before it moves is remembered.
func (h *hand) hold(mark, end int, noted bool) { h.mark, h.end, h.noted = mark, end, noted }

// let lets go of everything.
func (h *hand) let() { *h = hand{cross: h.cross, keyed: h.keyed} }

// How near to a point a finger must come to take hold of it, CSS pixels.
const (
	nearMouse  = 9
	nearFinger = 22
)

// numbers reads n numbers, which a document may send anything for.
func numbers(value string, n int) ([]float64, bool) {
	fields := strings.Fields(value)
	if len(fields) < n {
		return nil, false
	}
	out := make([]float64, n)
	for i := range out {
		x, err := strconv.ParseFloat(fields[i], 64)
		if err != nil || !(math.Abs(x) < 1e15) {
			return nil, false
		}
		out[i] = x
	}
	return out, true
}

// Size takes the pad's size: "width height ratio", CSS pixels and device pixels for one.
func (e *Easel) Size(value string) {
	v, ok := numbers(value, 3)
	if !ok || v[0] < 1 || v[1] < 1 || v[0] > 1e5 || v[1] > 1e5 || !(v[2] >= 0.1 && v[2] <= 10) {
		return
	}
	was := e.pad
	e.ratio = v[2]
	e.pad = spot{v[0], v[1]}
	for i := range e.boards {
		b := &e.boards[i]
		if b.wide == 0 {
			continue
		}
		if b.scale == 0 || was.x == 0 || b.scale <= b.least(was)*1.001 {
			b.fit(e.pad)
			continue
		}
		middle := b.under(spot{was.x / 2, was.y / 2})
		b.scale = max(b.scale, b.least(e.pad))
		b.corner = portrait.Point{middle[0] - e.pad.x/2/b.scale, middle[1] - e.pad.y/2/b.scale}
		b.settle(e.pad)
	}
}

// Point takes one event of a pointer on the pad, "id x y", and "touch" after it for a
// finger. It tells whether the points have changed for good.
func (e *Easel) Point(phase, value string) (settled bool) {
	v, ok := numbers(value, 3)
	b := &e.boards[e.on]
	if !ok || b.wide == 0 || b.scale == 0 {
		return false
	}
	h, id, at := &e.hand, int(v[0]), spot{v[1], v[2]}
	if h.down == nil {
		h.down = map[int]spot{}
	}
	was, held := h.down[id]
	switch phase {
	case "down":
		h.keyed = false
		e.comes(id, at, strings.HasSuffix(value, "touch"))
	case "move":
		if !held || was == at {
			return false
		}
		h.down[id] = at
		switch {
		case len(h.down) == 2:
			e.pinches(id, was, at)
		case h.drags:
			h.moved = true
			e.drag(b.under(spot{at.x + h.off.x, at.y + h.off.y}))
		case h.pans:
			b.shift(at.x-was.x, at.y-was.y, e.pad)
		}
	default: // up, or taken away
		delete(h.down, id)
		if id != h.first || !held {
			return false
		}
		dragged := h.drags
		h.drags, h.pans, h.noted, h.off = false, false, false, spot{}
		if dragged {
			e.measure()
		}
		return dragged
	}
	return false
}

// comes takes a finger that comes down: it takes hold of the point under it, places the
// next one, or moves the picture. A second finger ends that; two enlarge.
func (e *Easel) comes(id int, at spot, touch bool) {
	h, b := &e.hand, &e.boards[e.on]
	if len(h.down) >= 2 {
		return
	}
	h.down[id] = at
	if len(h.down) == 2 {
		if h.drags && !h.moved { // the first finger meant to enlarge, not to place
			e.back()
		}
		h.drags, h.pans = false, false
		return
	}
	h.first, h.moved = id, false
	reach := float64(nearMouse)
	if touch {
		reach = nearFinger
	}
	if mark, end, ok := e.near(at, reach); ok {
		e.remember()
		h.hold(mark, end, true)
		there := b.seen(e.find(mark).at[end])
		h.drags, h.off = true, spot{there.x - at.x, there.y - at.y}
		return
	}
	h.mark = 0
	before := len(e.past)
	e.place(b.under(at))
	h.drags = len(e.past) > before || h.mark > 0
	h.pans = !h.drags
}

// back takes back what was placed last, without a step forward.
func (e *Easel) back() {
	if n := len(e.past); n > 0 {
		e.marks, e.past = e.past[n-1], e.past[:n-1]
	}
	e.hand.mark = 0
}

// pinches enlarges by two fingers of which one has moved.
func (e *Easel) pinches(id int, was, at spot) {
	for other, there := range e.hand.down {
		if other == id {
			continue
		}
		before, after := math.Hypot(was.x-there.x, was.y-there.y), math.Hypot(at.x-there.x, at.y-there.y)
		if before < 8 || after < 8 {
			return
		}
		b := &e.boards[e.on]
		b.zoom(after/before, spot{(at.x + there.x) / 2, (at.y + there.y) / 2}, e.pad)
		b.shift((at.x-was.x)/2, (at.y-was.y)/2, e.pad)
	}
}

// near is the point nearest to a place of the pad, within reach: of the kind that is being
// placed, since runs of sets begin and end beside points of the edge; or of all.
func (e *Easel) near(at spot, reach float64) (mark, end int, ok bool) {
	b := &e.boards[e.on]
	for i := range e.marks {
		m := &e.marks[i]
		if m.on != e.on || m.kind != e.tool && e.tool != move {
			continue
		}
		for k, p := range m.at {
			there := b.seen(p)
			if far := math.Hypot(there.x-at.x, there.y-at.y); far <= reach {
				reach, mark, end, ok = far, m.n, k, true
			}
		}
	}
	return mark, end, ok
}

// drag brings the point that is held to a place of the picture.
func (e *Easel) drag(to portrait.Point) {
	if m := e.find(e.hand.mark); m != nil && e.hand.end < len(m.at) {
		m.at[e.hand.end] = e.boards[e.on].inside(to)
	}
}

// Wheel takes one event of a wheel on the pad: "delta x y".
func (e *Easel) Wheel(value string) {
	if v, ok := numbers(value, 3); ok {
		e.boards[e.on].zoom(math.Exp(-min(max(v[0], -400), 400)*0.0015), spot{v[1], v[2]}, e.pad)
	}
}

// perKey is by how much a key or button enlarges.
const perKey = 1.25

// enlarge enlarges about the point that is held, or the middle.
func (e *Easel) enlarge(factor float64) {
	b := &e.boards[e.on]
	at := spot{e.pad.x / 2, e.pad.y / 2}
	if p, ok := e.heldAt(); ok {
		at = b.seen(p)
	}
	b.zoom(factor, at, e.pad)
}

// heldAt is where the point lies that is held, else the cross of the keys.
func (e *Easel) heldAt() (portrait.Point, bool) {
	if m := e.find(e.hand.mark); m != nil && e.hand.end < len(m.at) && m.on == e.on {
		return m.at[e.hand.end], true
	}
	return e.hand.cross, e.hand.keyed
}

// arrows are the ways of the arrow keys.
var arrows = map[string]spot{"ArrowLeft": {-1, 0}, "ArrowRight": {1, 0}, "ArrowUp": {0, -1}, "ArrowDown": {0, 1}}

// Key takes a key pressed on the pad, and tells whether the points have changed for good,
// and whether the pad is to be left.
func (e *Easel) Key(name string, shift bool) (settled, leave bool) {
	b, h := &e.boards[e.on], &e.hand
	if b.wide == 0 || b.scale == 0 {
		return false, name == "Escape"
	}
	if way, ok := arrows[name]; ok {
		by := 1.0
		if shift {
			by = 10
		}
		return e.nudge(spot{way.x * by, way.y * by}), false
	}
	switch name {
	case "+", "=":
		e.enlarge(perKey)
	case "-":
		e.enlarge(1 / perKey)
	case "Home", "0":
		b.fit(e.pad)
	case "Enter", " ":
		if h.mark != 0 { // set down
			h.cross, _ = e.heldAt()
			h.let()
			h.keyed = true
			return false, false
		}
		if !h.keyed {
			e.nudge(spot{})
		}
		e.place(h.cross)
		e.measure()
		return true, false
	case "PageDown", "PageUp":
		e.walks(map[string]int{"PageDown": 1, "PageUp": -1}[name])
	case "Delete", "Backspace":
		if h.mark != 0 {
			e.away(h.mark)
			return true, false
		}
	case "Escape":
		if h.mark == 0 {
			h.keyed = false
			return false, true
		}
		h.let()
	}
	return false, false
}

// nudge moves the point that is held, else the cross, by CSS pixels, and keeps it in sight.
// Nudges of one point in a row are one step.
func (e *Easel) nudge(by spot) (settled bool) {
	b, h := &e.boards[e.on], &e.hand
	if !h.keyed {
		h.keyed = true
		h.cross = b.inside(b.under(spot{e.pad.x / 2, e.pad.y / 2}))
	}
	if h.mark != 0 && !h.noted && by != (spot{}) {
		e.remember()
		h.noted = true
	}
	at, _ := e.heldAt()
	to := b.inside(portrait.Point{at[0] + by.x/b.scale, at[1] + by.y/b.scale})
	if h.mark != 0 {
		e.drag(to)
		e.measure()
	}
	h.cross = to
	const margin = 24
	there := b.seen(to)
	b.shift(max(margin-there.x, 0)-max(there.x-e.pad.x+margin, 0), max(margin-there.y, 0)-max(there.y-e.pad.y+margin, 0), e.pad)
	return h.mark != 0
}

// walks takes hold of the next point of the picture, or the one before, in the order in
// which they were placed.
func (e *Easel) walks(by int) {
	var all [][2]int
	at := -1
	for i := range e.marks {
		m := &e.marks[i]
		for k := range m.at {
			if m.on != e.on {
				continue
			}
			if m.n == e.hand.mark && k == e.hand.end {
				at = len(all)
			}
			all = append(all, [2]int{m.n, k})
		}
	}
	if len(all) == 0 {
		return
	}
	switch {
	case at >= 0:
		at = (at + by + len(all)) % len(all)
	case by > 0:
		at = 0
	default:
		at = len(all) - 1
	}
	e.hand.keyed = true
	e.hand.hold(all[at][0], all[at][1], false)
	e.nudge(spot{}) // into sight
}
