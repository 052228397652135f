// Package painting is the painter: it makes the pictures of what is solid in a drawing,
// in a worker, and this is what the page and it say to each other. It knows no browser,
// so that both run together under plain go test.
//
// A message is a head, JSON text, and a body of bytes. The painter answers every wish,
// in order, and remembers the scenes that it was given until it is told to drop them.
package painting

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"sync"

	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/wasm/frame"
	"ruffwright/wasm/page/screen"
)

// Wish is a picture that the page wants: what is solid in a drawing, in its order.
type Wish struct {
	Width_mm, Height_mm float64 // of the sheet
	Place               screen.Place
	Solids              []Solid

	New  []*light.Scene `json:"-"` // scenes that the painter has not, in the order of Keys,
	Keys []int          // their keys,
	Size []int          // and how many bytes of the body each has
	Drop []int          // keys of scenes that are not needed any more
}

// Solid is a draw.Solid whose scene the painter knows by its key.
type Solid struct {
	Scene  int
	Camera light.Camera
	Mood   light.Mood
	Clip   draw.Rect
	Faint  float64
	Plain  bool
}

// Painted is the painter's answer: of each solid the items of a frame, then the pixels
// of all their pictures.
type Painted struct {
	Alive  bool     `json:",omitempty"` // it is ready; nothing else
	Why    string   `json:",omitempty"` // it cannot: the wish was none
	Late   bool     `json:",omitempty"` // another wish came meanwhile: it is left
	Counts []int    // of each solid's items
	Bytes  []int    // of each solid's items
	Pixels int      // bytes, the rest of the body
	Items  [][]byte `json:"-"` // parts of the body
}

// Encode writes the wish.
func (w Wish) Encode() (head string, body []byte, err error) {
	w.Size = nil
	for _, s := range w.New {
		from := len(body)
		body = appendScene(body, s)
		w.Size = append(w.Size, len(body)-from)
	}
	text, err := json.Marshal(w)
	return string(text), body, err
}

// ReadPainted reads an answer.
func ReadPainted(head string, body []byte) (p Painted, err error) {
	if err := json.Unmarshal([]byte(head), &p); err != nil {
		return p, err
	}
	if len(p.Counts) != len(p.Bytes) {
		return p, errBytes
	}
	at := 0
	for _, n := range p.Bytes {
		if n < 0 || at+n > len(body) {
			return p, errBytes
		}
		p.Items = append(p.Items, body[at:at+n])
		at += n
	}
	if p.Pixels != len(body)-at {
		return p, errBytes
	}
	return p, nil
}

// Painter answers wishes.
type Painter struct {
	post   func(head string, body []byte)
	scenes map[int]*light.Scene
	halt   light.Halt // of what is painted in full

	guard   sync.Mutex
	waiting []message
	comes   chan struct{}
}

type message struct {
	head string
	body []byte
}

// New makes a painter that speaks through post; it says at once that it is alive.
func New(post func(head string, body []byte)) *Painter {
	p := &Painter{post: post, scenes: map[int]*light.Scene{}, comes: make(chan struct{}, 1)}
	p.say(Painted{Alive: true}, nil)
	return p
}

func (p *Painter) say(of Painted, body []byte) {
	head, err := json.Marshal(of)
	if err != nil {
		return // numbers alone: it cannot
	}
	p.post(string(head), body)
}

// Hear keeps a wish for Serve; it returns at once.
func (p *Painter) Hear(head string, body []byte) {
	p.guard.Lock()
	p.waiting = append(p.waiting, message{head, body})
	p.guard.Unlock()
	select {
	case p.comes <- struct{}{}:
	default:
	}
}

// next is the first wish that waits, and whether there is one; take: it waits no longer.
func (p *Painter) next(take bool) (m message, ok bool) {
	p.guard.Lock()
	defer p.guard.Unlock()
	if ok = len(p.waiting) > 0; ok && take {
		m, p.waiting = p.waiting[0], p.waiting[1:]
	}
	return m, ok
}

// Serve answers wishes as they come until the context ends. yield lets new ones come in: a
// full picture is left for the next wish, a plain one is not.
func (p *Painter) Serve(ctx context.Context, yield func()) {
	p.halt = func() bool {
		yield()
		_, more := p.next(false)
		return more
	}
	for {
		for m, ok := p.next(true); ok; m, ok = p.next(true) {
			p.Take(m.head, m.body)
		}
		select {
		case <-p.comes:
		case <-ctx.Done():
			return
		}
	}
}

// Take answers a wish. One that cannot be read is answered, too.
func (p *Painter) Take(head string, body []byte) {
	out, bytes, err := p.paint(head, body)
	if err != nil {
		out, bytes = Painted{Why: err.Error()}, nil
	}
	p.say(out, bytes)
}

// fits reports that a stage can be as large as the wish has it.
func (w *Wish) fits() bool {
	side := func(mm float64) bool { return mm > 0 && mm < 1e5 }
	at := w.Place
	return side(w.Width_mm) && side(w.Height_mm) && at.PxPerMM > 0 && at.PxPerMM < 1e4 &&
		math.Abs(at.Middle.X) < 1e6 && math.Abs(at.Middle.Y) < 1e6 &&
		at.Width > 0 && at.Height > 0 && at.Width < 1<<14 && at.Height < 1<<14 && at.Width*at.Height <= mostPixels
}

// mostPixels of a stage: an 8K screen has 33 million.
const mostPixels = 40e6

func (p *Painter) paint(head string, body []byte) (out Painted, bytes []byte, err error) {
	var w Wish
	if err := json.Unmarshal([]byte(head), &w); err != nil {
		return out, nil, err
	}
	if len(w.Keys) != len(w.Size) || !w.fits() {
		return out, nil, errBytes
	}
	for i, n := range w.Size {
		if n < 0 || n > len(body) {
			return out, nil, errBytes
		}
		s, err := readScene(body[:n])
		if err != nil {
			return out, nil, err
		}
		p.scenes[w.Keys[i]], body = s, body[n:]
	}
	for _, key := range w.Drop {
		delete(p.scenes, key)
	}
	var pixels []byte
	for _, s := range w.Solids {
		scene := p.scenes[s.Scene]
		if scene == nil {
			return out, nil, fmt.Errorf("painting: there is no scene %d", s.Scene)
		}
		solid := draw.Solid{Scene: scene, Eye: draw.Eye{Camera: s.Camera}, Mood: s.Mood, Clip: s.Clip, Faint: s.Faint, Plain: s.Plain}
		late := false
		if !s.Plain && p.halt != nil {
			solid.Halt = func() bool { late = late || p.halt(); return late }
		}
		items, own := screen.Solid(solid, w.Width_mm, w.Height_mm, w.Place)
		if late {
			return Painted{Late: true}, nil, nil
		}
		from := len(bytes)
		bytes = frame.AppendItems(bytes, items)
		out.Counts, out.Bytes = append(out.Counts, len(items)), append(out.Bytes, len(bytes)-from)
		pixels = append(pixels, own...)
	}
	out.Pixels = len(pixels)
	return out, slices.Concat(bytes, pixels), nil
}
