package frame

import (
	"errors"
	"math"

	"ruffwright/wasm/pack"
)

// A frame's bytes, as package pack has them: first the mark and the ground, then every
// item, its kind and what it is made of. A place is two numbers.
const mark = 0x31667772 // "rwf1"

const (
	isPath = iota + 1
	isStamp
	isPicture
)

// Append writes the frame behind b. Reading what was written gives the frame again.
func (f Frame) Append(b []byte) []byte {
	w := pack.Writer{B: b}
	w.Word(mark)
	w.Color(f.Ground)
	n := 0
	for _, it := range f.Items {
		if of, ok := it.(Ready); ok {
			n += of.Count
		} else {
			n++
		}
	}
	w.Word(uint32(n))
	return AppendItems(w.B, f.Items)
}

// AppendItems writes items alone behind b.
func AppendItems(b []byte, items []Item) []byte {
	w := writer{pack.Writer{B: b}}
	for _, it := range items {
		switch it := it.(type) {
		case Path:
			w.path(it)
		case Stamp:
			w.Word(isStamp)
			w.Word(it.ID)
			w.point(it.At)
			w.Word(uint32(it.Width))
			w.Word(uint32(it.Height))
			w.Color(it.Ink)
			w.Bytes(it.Cover)
		case Ready:
			w.B = append(w.B, it.Bytes...)
		case Picture:
			w.Word(isPicture)
			w.point(it.At)
			w.Word(uint32(it.Width))
			w.Word(uint32(it.Height))
		}
	}
	return w.B
}

type writer struct{ pack.Writer }

func (w *writer) point(p Point) { w.Number(p.X); w.Number(p.Y) }

func (w *writer) path(p Path) {
	w.Word(isPath)
	w.Bool(p.Closed)
	w.Color(p.Fill)
	w.Color(p.Stroke)
	w.Number(p.Width)
	w.Numbers(p.Dash)
	w.Word(uint32(len(p.Lines)))
	for _, line := range p.Lines {
		w.Word(uint32(len(line)))
		for _, at := range line {
			w.point(at)
		}
	}
}

// ErrBytes is what Read says of bytes that are no frame.
var ErrBytes = errors.New("frame: these bytes are no frame")

// Read reads a frame, all of the bytes. What it gives is finite, every stamp has
// its ink; all else is ErrBytes. Stamps keep the bytes.
func Read(b []byte) (Frame, error) {
	r := reader{pack.Reader{B: b}}
	if r.Word() != mark {
		return Frame{}, ErrBytes
	}
	f := Frame{Ground: r.Color()}
	n := r.Count(mostItems, 4)
	f.Items = make([]Item, 0, n)
	for range n {
		switch r.Word() {
		case isPath:
			f.Items = append(f.Items, r.path())
		case isStamp:
			f.Items = append(f.Items, r.stamp())
		case isPicture:
			at := r.point()
			f.Items = append(f.Items, Picture{at, r.side(), r.side()})
		default:
			r.Bad = true
		}
		if r.Bad {
			return Frame{}, ErrBytes
		}
	}
	if r.Bad || len(r.B) > 0 {
		return Frame{}, ErrBytes
	}
	return f, nil
}

type reader struct{ pack.Reader }

func (r *reader) point() Point {
	x := r.Number()
	return Point{x, r.Number()}
}

// side is the length of a side in pixels.
func (r *reader) side() int {
	v := r.Word()
	if v == 0 || v > mostSide {
		r.Bad = true
		return 0
	}
	return int(v)
}

func (r *reader) path() Path {
	p := Path{Closed: r.Bool(), Fill: r.Color(), Stroke: r.Color(), Width: r.Number(), Dash: r.Numbers()}
	p.Lines = make([][]Point, r.Count(mostItems, 4))
	for i := range p.Lines {
		p.Lines[i] = make([]Point, r.Count(math.MaxInt32, 8))
		for j := range p.Lines[i] {
			p.Lines[i][j] = r.point()
		}
	}
	return p
}

func (r *reader) stamp() Stamp {
	s := Stamp{ID: r.Word(), At: r.point(), Width: r.side(), Height: r.side(), Ink: r.Color()}
	s.Cover = r.Bytes(s.Width * s.Height)
	r.Bad = r.Bad || s.ID == 0
	return s
}
