package page

import (
	"bytes"
	"image/jpeg"

	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/tell"
)

// Started is what the site holds before any program loads: the page of the
// default scheme.
type Started struct {
	HTML     map[string]string // what fills each mark of index.html
	Pictures []Picture
}

// The plain start's picture: 704 × 480 pixels, a tenth of the bytes of an
// exact one, shown for the moments until the stage draws.
const (
	startWidth_mm, startHeight_mm = 176, 120
	startPixelsPerMM              = 4
)

// Marks fill the marks of index.html, all but the gallery's.
func (p *Page) Marks() map[string]string {
	t := p.tell()
	kept, _ := p.keep.Words(p.work, t.State())
	tools, known := p.easel.Nodes()
	return map[string]string{
		"kept":        doc.HTML(doc.Text(kept)),
		"asides":      doc.HTML(doc.Text(p.keep.AsideLabel())),
		"form":        doc.HTML(t.Form()...),
		"course":      doc.HTML(doc.Text(p.course.Words())),
		"lessons":     doc.HTML(p.course.Nodes()...),
		"views":       doc.HTML(p.Look.ViewNodes()...),
		"verdict":     doc.HTML(doc.Text(t.Verdict())),
		"findings":    doc.HTML(t.FindingNodes()...),
		"numbers":     doc.HTML(t.NumberNodes()...),
		"description": doc.HTML(doc.Text(p.Look.Description())),
		"viewhelp":    doc.HTML(doc.Text(p.Look.ViewHelp())),
		"handles":     doc.HTML(p.grips.Nodes(&p.work.Ruff.Plan, p.work.Units)...),
		"poses":       doc.HTML(p.Look.PoseNodes()...),
		"lights":      doc.HTML(p.Look.LightNodes()...),
		"colours":     doc.HTML(p.Look.ColourNodes()...),
		"solving":     doc.HTML(doc.Text(p.ask.Words())),
		"compare":     doc.HTML(t.PairActs()...),
		"shades":      doc.HTML(shadeNodes()...),
		"limits":      doc.HTML(t.LimitNodes()...),
		"sheets":      doc.HTML(p.sheets.Nodes()...),
		"easeltools":  doc.HTML(tools...),
		"easelknown":  doc.HTML(known...),
	}
}

// Start builds what index.html is filled with.
func Start() (Started, error) {
	p, err := New()
	if err != nil {
		return Started{}, err
	}
	out := Started{HTML: p.Marks()}
	for _, name := range []string{"light", "dark"} {
		d, err := p.Look.Sketch(name, startWidth_mm, startHeight_mm)
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
	words, err := tell.Glossary()
	if err != nil {
		return Started{}, err
	}
	out.HTML["words"] = doc.HTML(words...)
	out.HTML["demos"] = doc.HTML(gallery...)
	out.Pictures = append(out.Pictures, pictures...)
	return out, nil
}
