package page

import (
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// shades are the colours of the page that the reader may choose, by their names; "" is
// the system's choice.
var shades = []struct{ name, label string }{{"", "As the system"}, {"day", "By day"}, {"candle", "By candle"}}

// teaches shows the ruff to a class, large, or goes back to the page.
func (p *Page) teaches(e doc.Event) []doc.Patch {
	if p.large == (e.Value == "on") {
		return nil
	}
	p.large = !p.large
	if p.large {
		p.voice.Soon(say.Text("Picture, verdict and figures, large. Escape leaves."))
		return focus("class-leave")
	}
	return focus("class-show")
}

// shadesTo notes whether the page is seen by day or by candle; the document colours it.
func (p *Page) shadesTo(e doc.Event) []doc.Patch {
	p.shade = e.Value
	return nil
}

// classPatches are what a class sees.
func (p *Page) classPatches() []doc.Patch {
	var out doc.List
	out.Flag("page", "data-class", p.large)
	out.Flag("class", "hidden", !p.large)
	if p.large {
		out.Nodes("class-table", p.tell().ClassNodes())
	}
	for _, l := range shades {
		out.Bool("shade-"+l.name, "aria-pressed", l.name == p.shade)
	}
	return out
}

// shadeNodes are the buttons of the page's colours.
func shadeNodes() (out []doc.Node) {
	for _, l := range shades {
		out = append(out, doc.El("button", "type=button data-do=shade id=shade-"+l.name).With("data-with", l.name).
			With("aria-pressed", map[bool]string{true: "true", false: "false"}[l.name == ""]).Say(say.Text(l.label)))
	}
	return out
}
