package look

import (
	"ruffwright/geom/draw"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// lights in the order of their buttons.
var lights = []Lit{ByDay, ByCandle, Against}

// litWords are a light's button, its title, and what is said when it is chosen.
var litWords = map[Lit]struct{ short, long, said string }{
	ByDay:    {"Day", "By day, a window over your shoulder", "Seen by day."},
	ByCandle: {"Candle", "By candle, in a dark room", "Seen by candle."},
	Against:  {"Against the light", "Against the light: a window behind the ruff", "Seen against the light: where cloth lies in layers it is darker."},
}

// lit is the light now: the reader's choice, else what goes with the reader's colours.
// Black on white there is no candle.
func (l *Look) lit() Lit {
	switch {
	case l.choice == Against, l.choice != "" && l.Light != "contrast":
		return l.choice
	case l.Light == "dark":
		return ByCandle
	}
	return ByDay
}

// canLight reports whether the reader's colours leave the choice of a light.
func (l *Look) canLight(by Lit) bool { return by != ByCandle || l.Light != "contrast" }

// lights chooses a light. What the reader's colours bring by themselves goes on with them.
func (l *Look) lights(by Lit) {
	if _, ok := litWords[by]; !ok || by == l.lit() || !l.canLight(by) {
		return
	}
	l.choice, l.dirty = "", true
	if by != l.lit() {
		l.choice = by
	}
	l.voice.Soon(say.Text(litWords[by].said))
}

// palette is what the picture is drawn in by a light: the reader's colours, unless
// another light is chosen.
func (l *Look) palette() draw.Palette {
	switch l.lit() {
	case ByCandle:
		return draw.Dark()
	case ByDay:
		if l.Light == "dark" {
			return draw.Light()
		}
	}
	return palette(l.Light)
}

// lightPatches are what those buttons show.
func (l *Look) lightPatches() []doc.Patch {
	var out doc.List
	for _, by := range lights {
		out.Bool("light-"+string(by), "aria-pressed", by == l.lit())
		out.Bool("light-"+string(by), "aria-disabled", !l.canLight(by))
	}
	return out
}

// palette is a picture's in the reader's colours.
func palette(light string) draw.Palette {
	switch light {
	case "dark":
		return draw.Dark()
	case "contrast":
		return draw.Contrast()
	}
	return draw.Light()
}
