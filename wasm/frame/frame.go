// Package frame is one picture of the stage as one buffer: what the page's program
// made of a drawing, for whoever puts it on the screen. The stage's program links this
// package and nothing of the drawing; the loader's plain canvas reads the same bytes.
// All is laid out already: places are device pixels from the stage's middle, y down,
// and words are pictures.
package frame

import "image/color"

// Frame is painted in the order of its items, later ones over earlier ones.
type Frame struct {
	Ground color.NRGBA // behind all, over the whole stage
	Items  []Item
}

// Item is one of Path, Stamp, Picture and Ready.
type Item interface{ item() }

// Point is a place in device pixels from the middle of the stage: x to the right, y
// down.
type Point struct{ X, Y float32 }

// Path is one or more polylines with one dress, as draw.Path has it.
type Path struct {
	Lines        [][]Point
	Closed       bool
	Fill, Stroke color.NRGBA
	Width        float32   // device pixels
	Dash         []float32 // on, off, on ...; nil: unbroken
}

// Stamp is a line of words: how much ink lies on each pixel of a small picture, which
// is one and the same wherever the ID is.
type Stamp struct {
	ID            uint32 // not 0
	At            Point  // of the picture's corner; it lies on whole pixels of the stage
	Width, Height int
	Ink           color.NRGBA
	Cover         []byte // Width × Height: 0 none to 255 all of the ink
}

// Picture is a picture whose pixels come beside the frame: four bytes each, red, green,
// blue and alpha, premultiplied; those of all the frame's pictures in their order.
type Picture struct {
	At            Point // of its corner; it lies on whole pixels of the stage
	Width, Height int
}

// Ready are items that were written elsewhere by AppendItems: a frame that is written
// holds them as its own, and none that is read holds a Ready.
type Ready struct {
	Count int
	Bytes []byte
}

func (Ready) item()   {}
func (Path) item()    {}
func (Stamp) item()   {}
func (Picture) item() {}

// Most of what a frame may hold, far above what is drawn. A picture may be as large as
// the largest stage.
const (
	mostItems = 1 << 20
	mostSide  = 1 << 14 // pixels of a stamp or a picture, either way
)

// Pixels is how many bytes of pixels belong to the frame's pictures.
func (f Frame) Pixels() int {
	n := 0
	for _, it := range f.Items {
		if p, ok := it.(Picture); ok {
			n += 4 * p.Width * p.Height
		}
	}
	return n
}
