package look

import (
	"strconv"

	"ruffwright/geom/figure"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// button is one of the buttons that choose what the stage shows.
func button(command, with string, pressed bool) doc.Node {
	return doc.El("button", "type=button data-do="+command+" id="+command+"-"+with).
		With("data-with", with).With("aria-pressed", strconv.FormatBool(pressed))
}

// PoseNodes are the buttons of the poses.
func (l *Look) PoseNodes() []doc.Node {
	var out []doc.Node
	for _, pose := range poses {
		words := poseWords[pose]
		long := say.Text(words.long)
		out = append(out, button("pose", string(pose), pose == l.Pose).With("aria-disabled", strconv.FormatBool(!l.has(pose))).
			With("aria-label", long).With("title", long).Say(say.Text(words.short)))
	}
	return out
}

// ViewNodes are the buttons of the views.
func (l *Look) ViewNodes() []doc.Node {
	var out []doc.Node
	for _, v := range figure.Views {
		out = append(out, button("view", v.Name, v == l.View).Say(say.In(v.Label)))
	}
	return out
}

// ColourNodes are the buttons of the colours.
func (l *Look) ColourNodes() []doc.Node {
	var out []doc.Node
	for _, c := range colours {
		out = append(out, button("colour", string(c), c == l.dye.by).With("aria-disabled", strconv.FormatBool(!l.canDye(c))).
			With("title", say.Text(colourWords[c].long)).Say(say.Text(colourWords[c].short)))
	}
	return out
}

// LightNodes are the buttons of the lights.
func (l *Look) LightNodes() []doc.Node {
	var out []doc.Node
	for _, by := range lights {
		out = append(out, button("light", string(by), by == l.lit()).With("aria-disabled", strconv.FormatBool(!l.canLight(by))).
			With("title", say.Text(litWords[by].long)).Say(say.Text(litWords[by].short)))
	}
	return out
}
