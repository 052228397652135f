// Package pack writes and reads what crosses between the page's programs as bytes: words
// of four, little-endian. A colour is one word (red in its lowest byte), a list its
// length and its members, bytes are filled up to whole words.
package pack

import (
	"encoding/binary"
	"image/color"
	"math"
)

// Writer writes words behind B.
type Writer struct{ B []byte }

// Word writes a whole number.
func (w *Writer) Word(v uint32) { w.B = binary.LittleEndian.AppendUint32(w.B, v) }

// Number writes a number.
func (w *Writer) Number(v float32) { w.Word(math.Float32bits(v)) }

// Color writes a colour.
func (w *Writer) Color(c color.NRGBA) { w.B = append(w.B, c.R, c.G, c.B, c.A) }

// Bool writes yes or no.
func (w *Writer) Bool(v bool) {
	if v {
		w.Word(1)
	} else {
		w.Word(0)
	}
}

// Numbers writes a list of numbers.
func (w *Writer) Numbers(list []float32) {
	w.Word(uint32(len(list)))
	for _, v := range list {
		w.Number(v)
	}
}

// Bytes writes bytes without their length.
func (w *Writer) Bytes(b []byte) {
	w.B = append(w.B, b...)
	for i := len(b); i%4 != 0; i++ {
		w.B = append(w.B, 0)
	}
}

// Reader takes words off its bytes. Bad once they do not fit: all that it gives from
// then on is 0.
type Reader struct {
	B   []byte
	Bad bool
}

// Word reads a whole number.
func (r *Reader) Word() uint32 {
	if r.Bad || len(r.B) < 4 {
		r.Bad = true
		return 0
	}
	v := binary.LittleEndian.Uint32(r.B)
	r.B = r.B[4:]
	return v
}

// Number reads a number, which must be finite and below 1e7.
func (r *Reader) Number() float32 {
	v := math.Float32frombits(r.Word())
	if !(v > -1e7 && v < 1e7) {
		r.Bad = true
		return 0
	}
	return v
}

// Color reads a colour.
func (r *Reader) Color() color.NRGBA {
	v := r.Word()
	return color.NRGBA{R: uint8(v), G: uint8(v >> 8), B: uint8(v >> 16), A: uint8(v >> 24)}
}

// Bool reads yes or no.
func (r *Reader) Bool() bool { return r.Word() == 1 }

// Count reads the length of a list of at most most members, of at least least bytes
// each: a list that the bytes cannot hold is bad.
func (r *Reader) Count(most, least int) int {
	n := int64(r.Word())
	if r.Bad || n > int64(most) || n*int64(least) > int64(len(r.B)) {
		r.Bad = true
		return 0
	}
	return int(n)
}

// Numbers reads a list of numbers; an empty one is nil.
func (r *Reader) Numbers() []float32 {
	n := r.Count(math.MaxInt32, 4)
	if n == 0 {
		return nil
	}
	list := make([]float32, n)
	for i := range list {
		list[i] = r.Number()
	}
	return list
}

// Bytes reads n bytes, which it does not copy.
func (r *Reader) Bytes(n int) []byte {
	whole := (n + 3) / 4 * 4
	if r.Bad || n < 0 || whole > len(r.B) {
		r.Bad = true
		return nil
	}
	b := r.B[:n:n]
	r.B = r.B[whole:]
	return b
}
