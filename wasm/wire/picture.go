package wire

import (
	"fmt"

	"ruffwright/geom/word"
)

// Opened is a picture that was opened for the page, or why it was not. Its pixels, red,
// green, blue and alpha of each, row after row, go past the page's program to the document.
type Opened struct {
	Alive  bool        `json:"alive,omitempty"` // the opener is ready; nothing else
	Format string      `json:"format,omitempty"`
	Wide   int         `json:"wide,omitempty"` // the picture's own size, upright, px
	High   int         `json:"high,omitempty"`
	Width  int         `json:"width,omitempty"` // the size that is shown, px
	Height int         `json:"height,omitempty"`
	Why    word.Packed `json:"why,omitzero"` // it was not opened, because of this
}

// LongestShown is how long a picture that is shown may be at either side, px.
const LongestShown = 2000

// Encode writes it.
func (o Opened) Encode() (string, error) { return encode(o) }

// ReadOpened reads what the opener says: that it is ready, a picture of a size, or why there
// is none.
func ReadOpened(head string) (o Opened, err error) {
	if err := decode(head, &o); err != nil {
		return Opened{}, err
	}
	if o.Alive || !o.Why.Empty() {
		return o, nil
	}
	if o.Width < 1 || o.Height < 1 || o.Width > LongestShown || o.Height > LongestShown || o.Wide < o.Width || o.High < o.Height {
		return Opened{}, fmt.Errorf("wire: a picture of %d × %d px, shown as %d × %d", o.Wide, o.High, o.Width, o.Height)
	}
	return o, nil
}
