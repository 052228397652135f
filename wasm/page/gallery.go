package page

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/jpeg"

	"ruffwright/assets"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/look"
	"ruffwright/wasm/page/say"
)

// Picture is a drawing: of the first scheme, or of one in the gallery.
type Picture struct {
	Name string // light or dark, behind a demo's name and a '-'; start-NAME.jpg in the page
	JPEG []byte
}

// Demo is one scheme to start from.
type Demo struct {
	Name   string // as the command knows it
	Title  string
	Shows  string // one line: what there is to see
	Scheme scheme.Scheme
}

// shows is what there is to see of each demo.
var shows = map[string]string{
	"sound":    "Top and bottom folds sewn, tucked and starched. It stands level and keeps its shape.",
	"floppy":   "A fault: only the top folds are sewn, and nothing holds the lower edge.",
	"ends-up":  "A fault: the strip begins and ends on top folds, so flaps turn up at the chin.",
	"flaps-up": "A fault: the bottom folds are sewn where the top folds should be. It sinks like a skirt.",
	"short":    "A fault: the strip runs out before the band is full.",
	"uneven":   "A fault: a strip as it was marked by eye, one fold not sewn.",
	"early":    "Small and early: 25 mm deep, 68 little sets, no tucks and no starch.",
	"wide":     "Wide, of many small sets: 130 mm deep, 120 of them.",
	"tall":     "Tall loops, 68 mm, with deep tucks on a high band.",
	"untucked": "Without tucks: the band is as high as the cloth between the folds needs.",
	"portrait": "Taken from a picture: its proportions times the wearer’s own face.",
	"cuff":     "A cuff for the wrist, to go with the first ruff.",
}

// Demos are the schemes to start from. A demo that cannot be read is left out:
// a test keeps them readable.
func Demos() []Demo {
	var out []Demo
	for _, name := range assets.Demos() {
		if d, ok := demo(name); ok {
			out = append(out, d)
		}
	}
	return out
}

// demo is the demo of that name, if it can be read.
func demo(name string) (Demo, bool) {
	text, ok := assets.Demo(name)
	if !ok {
		return Demo{}, false
	}
	s, err := scheme.Parse(text)
	if err != nil {
		return Demo{}, false
	}
	title := s.Name
	if title == "" {
		title = name
	}
	return Demo{name, say.Text(title), say.Text(shows[name]), s}, true
}

// closing folds the gallery away when something was taken from it, and goes back
// to its summary: the link that had the focus is gone.
var closing = []doc.Patch{{Op: doc.OpAttr, ID: "from", Name: "open", Gone: true}, {Op: doc.OpFocus, ID: "to-start"}}

// A picture of the gallery, 276 × 183 pixels: a sheet that the ruff fills, its
// title and the margin at its foot cut off.
const (
	cardWidth_mm, cardHeight_mm = 92, 82
	cardTitle_mm, cardFoot_mm   = 16, 5
	cardPixelsPerMM             = 3
	cardQuality                 = 74
)

// gallery is the list of schemes to start from: plain share links that the
// program, once it runs, takes as one step that can be undone; each with its
// ruff as the cloth hangs, drawn by day and by candle, and in words.
func gallery(demos []Demo) ([]doc.Node, []Picture, error) {
	var nodes []doc.Node
	var pictures []Picture
	for _, d := range demos {
		r, err := hung(d.Scheme)
		if err != nil {
			return nil, nil, fmt.Errorf("the demo %s: %w", d.Name, err)
		}
		l := look.New(&say.Voice{})
		l.A = &r
		for _, light := range []string{"light", "dark"} {
			file, err := card(l, light)
			if err != nil {
				return nil, nil, fmt.Errorf("the demo %s: %w", d.Name, err)
			}
			pictures = append(pictures, Picture{d.Name + "-" + light, file})
		}
		at := "start-" + d.Name
		nodes = append(nodes, doc.El("li", "",
			doc.El("picture", "",
				doc.El("source", "").With("media", "(prefers-color-scheme: dark)").With("srcset", at+"-dark.jpg"),
				doc.El("img", "loading=lazy width=276 height=183 src="+at+"-light.jpg").With("alt", l.Description())),
			doc.El("a", "data-do=demo").With("href", "#"+d.Scheme.Code()).With("data-with", d.Name).Say(d.Title),
			doc.El("span", "class=shows").Say(d.Shows)))
	}
	return nodes, pictures, nil
}

// hung is the ruff of a scheme as its cloth hangs, or, where its sets cannot be
// solved, as it is folded.
func hung(s scheme.Scheme) (sim.Ruff, error) {
	if r, err := sim.Solve(context.Background(), s, sim.Options{SkipBow: true, SkipOther: true, SkipTangents: true}); err == nil {
		return r, nil
	}
	return sim.Draw(s)
}

// card draws the ruff in the hand, small.
func card(l *look.Look, light string) ([]byte, error) {
	d, err := l.Sketch(light, cardWidth_mm, cardHeight_mm)
	if err != nil {
		return nil, err
	}
	whole := d.Image(cardPixelsPerMM)
	title, foot := cardTitle_mm*cardPixelsPerMM, cardFoot_mm*cardPixelsPerMM
	var file bytes.Buffer
	err = jpeg.Encode(&file, whole.SubImage(image.Rect(0, title, whole.Rect.Dx(), whole.Rect.Dy()-foot)), &jpeg.Options{Quality: cardQuality})
	return file.Bytes(), err
}
