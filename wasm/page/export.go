package page

import (
	"ruffwright/geom/word"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// png_ms is how long a PNG waits, so that it is said first.
const png_ms = 16

// pictures saves the view as PNG or SVG. A PNG takes a while: it is said first.
func (p *Page) pictures(e doc.Event) []doc.Patch {
	switch e.Value {
	case "svg":
		return p.savesPicture("svg")
	case "png":
		p.voice.Soon(say.Text("Drawing the picture."))
		return []doc.Patch{{Op: doc.OpTimer, Name: "png", MS: png_ms}}
	}
	return nil
}

// pictureTypes are the types of the pictures that can be saved.
var pictureTypes = map[string]string{"svg": "image/svg+xml", "png": "image/png"}

// savesPicture saves the view as it is seen.
func (p *Page) savesPicture(kind string) []doc.Patch {
	bytes, err := p.Look.Export(kind)
	if err != nil {
		p.voice.Soon(say.Text("This view cannot be drawn: %s", word.Of(err)))
		return nil
	}
	return p.saves(fileName(p.work.Scheme, p.Look.Label(), kind), pictureTypes[kind], bytes)
}

// copies puts the numbers on the clipboard.
func (p *Page) copies(doc.Event) []doc.Patch {
	return []doc.Patch{{Op: doc.OpCopy, Name: "text", Value: p.tell().NumbersText()}}
}

// copied takes note of whether what was to be copied is on the clipboard, and shows
// it for a moment. Where the browser refuses, the reader can copy by hand.
func (p *Page) copied(e doc.Event) ([]doc.Patch, extent) {
	ok, text := e.Name == "yes", e.Value == "text"
	out := []doc.Patch{{Op: doc.OpTimer, Name: "done", MS: done_ms}}
	switch {
	case !text && ok:
		p.done = say.Text("Link copied.")
	case !text:
		p.done = say.Text("The link is in the address bar: copy it from there.")
	case ok:
		p.done = say.Text("Numbers copied.")
		out = append(out, doc.Patch{Op: doc.OpAttr, ID: "by-hand-row", Name: "hidden", Value: ""})
	default:
		p.done = say.Text("The browser does not let the page copy. The numbers stand below the table: copy them from there.")
		out = append(out, doc.Patch{Op: doc.OpAttr, ID: "by-hand-row", Name: "hidden", Gone: true},
			doc.Patch{Op: doc.OpValue, ID: "by-hand", Value: p.tell().NumbersText()}, doc.Patch{Op: doc.OpFocus, ID: "by-hand"})
	}
	p.voice.Soon(p.done)
	return out, all
}

// done_ms is how long it is seen what was done.
const done_ms = 6000
