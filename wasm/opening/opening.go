// Package opening is the logic of the page's opener: it opens a picture in a worker that
// ends afterwards, so that nothing stays of what decoding took. It knows no browser, so that
// all of it runs under plain go test.
package opening

import (
	"ruffwright/geom/picture"
	"ruffwright/geom/word"
	"ruffwright/wasm/wire"
)

// Open opens a file and gives the head and the body of the answer: a wire.Opened, and the
// pixels of the picture as it is shown; no body where it cannot be used.
func Open(file []byte) (head string, body []byte) {
	m, own, name, err := picture.Small(file, wire.LongestShown)
	o := wire.Opened{Format: name}
	if err != nil {
		o.Why = word.Packed{Text: word.Of(err)}
	} else {
		o.Wide, o.High, o.Width, o.Height = own.X, own.Y, m.Rect.Dx(), m.Rect.Dy()
		body = m.Pix
	}
	if head, err = o.Encode(); err != nil { // words and numbers: it can be
		return "", nil
	}
	return head, body
}

// Ready is what the opener says first.
func Ready() string {
	head, err := wire.Opened{Alive: true}.Encode()
	if err != nil { // a word: it can be
		return ""
	}
	return head
}
