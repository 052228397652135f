package page

import (
	"bytes"
	"image/jpeg"
	"strconv"

	"ruffwright/geom/figure"
)

// Started is what the site holds before any program loads: the page of the
// default scheme.
type Started struct {
	HTML     map[string]string // what fills each mark of index.html
	Pictures []Picture
}

// Picture is a drawing: of the default scheme, or of one in the gallery.
type Picture struct {
	Name string // light or dark, behind a demo's name and a '-'; start-NAME.jpg in the page
	JPEG []byte
}

// The plain start's picture: 704 × 480 pixels, a tenth of the bytes of an
// exact one, shown for the moments until the stage draws.
const (
	startWidth_mm, startHeight_mm = 176, 120
	startPixelsPerMM              = 4
)

// Start builds what index.html is filled with.
func Start() (Started, error) {
	p, err := New()
	if err != nil {
		return Started{}, err
	}
	kept, _ := p.keptWords()
	out := Started{HTML: map[string]string{
		"kept":        HTML(text(kept)),
		"asides":      HTML(text(p.asideLabel())),
		"form":        HTML(p.form()...),
		"course":      HTML(text(p.courseWords())),
		"lessons":     HTML(p.courseNodes()...),
		"views":       HTML(p.viewNodes()...),
		"verdict":     HTML(text(p.verdict())),
		"findings":    HTML(p.findingNodes()...),
		"numbers":     HTML(p.numberNodes()...),
		"description": HTML(text(p.Description())),
		"viewhelp":    HTML(text(p.viewHelp())),
		"poses":       HTML(p.poseNodes()...),
		"colours":     HTML(p.colourNodes()...),
		"solving":     HTML(text(p.solvingWords())),
		"compare":     HTML(p.pairActs()...),
		"limits":      HTML(p.limitNodes()...),
		"sheets":      HTML(p.sheetsNodes()...),
	}}
	for _, name := range []string{"light", "dark"} {
		p.light = name
		d, err := paint(p.view, p, figure.Options{
			Width_mm: startWidth_mm, Height_mm: startHeight_mm, Palette: p.palette(),
			Turn_deg: home.Turn_deg, Tilt_deg: home.Tilt_deg, Zoom: home.Zoom,
		})
		if err != nil {
			return Started{}, err
		}
		var file bytes.Buffer
		if err := jpeg.Encode(&file, d.Image(startPixelsPerMM), &jpeg.Options{Quality: 82}); err != nil {
			return Started{}, err
		}
		out.Pictures = append(out.Pictures, Picture{name, file.Bytes()})
	}
	gallery, pictures, err := gallery(Demos())
	if err != nil {
		return Started{}, err
	}
	out.HTML["demos"] = HTML(gallery...)
	out.Pictures = append(out.Pictures, pictures...)
	return out, nil
}

// poseNodes are the buttons of the poses.
func (p *Page) poseNodes() []Node {
	var out []Node
	for _, pose := range poses {
		out = append(out, el("button", "type=button data-do=pose id=pose-"+string(pose)).
			with("data-with", string(pose)).with("aria-pressed", strconv.FormatBool(pose == p.pose)).
			with("aria-disabled", strconv.FormatBool(!p.has(pose))).
			with("aria-label", word("poselong."+string(pose))).with("title", word("poselong."+string(pose))).say(word("pose."+string(pose))))
	}
	return out
}

// viewNodes are the buttons of the views.
func (p *Page) viewNodes() []Node {
	var out []Node
	for _, v := range views {
		pressed := "false"
		if v == p.view {
			pressed = "true"
		}
		out = append(out, el("button", "type=button data-do=view id=view-"+string(v)).
			with("data-with", string(v)).with("aria-pressed", pressed).say(word("view."+string(v))))
	}
	return out
}
