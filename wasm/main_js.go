// Command wasm is the page's program.
package main

import (
	"bytes"
	"encoding/base64"
	"fmt"

	"ruffwright/wasm/doc"
	"ruffwright/wasm/dom"
	"ruffwright/wasm/page"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/stage"
)

func main() {
	document := dom.Open()
	defer func() {
		if why := recover(); why != nil {
			document.Fail(fmt.Sprint(why))
		}
		select {} // its callbacks live on
	}()
	say.Speak(document.Language())
	state, err := page.New()
	if err != nil {
		document.Fail(err.Error())
		return
	}
	ruff := stage.New(state.Look.Picture, document.Drew)
	drawing := false // the stage runs
	document.Listen(func(e doc.Event) []doc.Patch {
		patches := state.Handle(e)
		if state.Look.Changed() {
			switch {
			case state.Look.Flat:
				flat(document, state)
			case drawing:
				ruff.Redraw()
			}
		}
		return patches
	})
	// The form and the first numbers are on the screen before the stage costs
	// anything.
	document.Paint()
	drawing = true
	if err := ruff.Run(); err != nil {
		drawing = false
		state.Handle(doc.Event{Kind: doc.Flat, Value: err.Error()})
		flat(document, state)
	}
}

// flat shows a picture made without WebGL.
func flat(document *dom.Document, state *page.Page) {
	d, _, pixelPerMM, err := state.Look.Picture()
	if err != nil {
		return // the last picture stays
	}
	var png bytes.Buffer
	if d.PNG(&png, pixelPerMM*state.Look.Ratio()) != nil {
		return
	}
	document.Flat("data:image/png;base64," + base64.StdEncoding.EncodeToString(png.Bytes()))
}
