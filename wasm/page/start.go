package page

import (
	"bytes"
	"image/jpeg"
	"strconv"

	"ruffwright/geom/figure"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
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
		"kept":        doc.HTML(doc.Text(kept)),
		"asides":      doc.HTML(doc.Text(p.asideLabel())),
		"form":        doc.HTML(p.form()...),
		"course":      doc.HTML(doc.Text(p.courseWords())),
		"lessons":     doc.HTML(p.courseNodes()...),
		"views":       doc.HTML(p.viewNodes()...),
		"verdict":     doc.HTML(doc.Text(p.verdict())),
		"findings":    doc.HTML(p.findingNodes()...),
		"numbers":     doc.HTML(p.numberNodes()...),
		"description": doc.HTML(doc.Text(p.Description())),
		"viewhelp":    doc.HTML(doc.Text(p.viewHelp())),
		"poses":       doc.HTML(p.poseNodes()...),
		"colours":     doc.HTML(p.colourNodes()...),
		"solving":     doc.HTML(doc.Text(p.solvingWords())),
		"compare":     doc.HTML(p.pairActs()...),
		"limits":      doc.HTML(p.limitNodes()...),
		"sheets":      doc.HTML(p.sheetsNodes()...),
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
	out.HTML["demos"] = doc.HTML(gallery...)
	out.Pictures = append(out.Pictures, pictures...)
	return out, nil
}

// poseNodes are the buttons of the poses.
func (p *Page) poseNodes() []doc.Node {
	var out []doc.Node
	for _, pose := range poses {
		out = append(out, doc.El("button", "type=button data-do=pose id=pose-"+string(pose)).
			With("data-with", string(pose)).With("aria-pressed", strconv.FormatBool(pose == p.pose)).
			With("aria-disabled", strconv.FormatBool(!p.has(pose))).
			With("aria-label", say.Word("poselong."+string(pose))).With("title", say.Word("poselong."+string(pose))).Say(say.Word("pose."+string(pose))))
	}
	return out
}

// viewNodes are the buttons of the views.
func (p *Page) viewNodes() []doc.Node {
	var out []doc.Node
	for _, v := range figure.Views {
		pressed := "false"
		if v == p.view {
			pressed = "true"
		}
		out = append(out, doc.El("button", "type=button data-do=view id=view-"+v.Name).
			With("data-with", v.Name).With("aria-pressed", pressed).Say(say.Theirs(v.Label)))
	}
	return out
}
