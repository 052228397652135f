package tell

import (
	"math"
	"slices"
	"strings"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// looks says on which lines a finding is seen: cut from the neck outward, a set end on, or
// the strip's end.
var looks = map[string]string{
	"bow": "cut", "sinks": "cut", "bobs": "cut", "depth": "cut", "flaps": "cut", "flaps-solved": "cut",
	"height": "set", "gaping": "set", "loops-solved": "set", "loops-crowded": "set", "outer-short": "set", "dented": "set", "stick": "set",
	"ends": "end",
}

// seen_mm is how far two lines lie apart somewhere, or a picture shows no difference.
const seen_mm = 1.5

// pictured is a ruff as one finding looks at it.
type pictured struct {
	cloth, bowed []figure.Line // each closed where it is a cut
	cut          bool
	band         float64
}

// picture takes the lines out of an outline.
func picture(o figure.Outline, look string) pictured {
	p := pictured{cut: look == "cut", band: o.Band_mm}
	around := func(crest, trough figure.Line) []figure.Line {
		if len(crest) == 0 {
			return nil
		}
		back := slices.Clone(trough)
		slices.Reverse(back)
		return []figure.Line{append(slices.Clone(crest), back...)}
	}
	switch look {
	case "cut":
		p.cloth, p.bowed = around(o.Crest, o.Trough), around(o.BowedCrest, o.BowedTrough)
	case "set":
		p.cloth = []figure.Line{o.Set}
	case "end":
		p.cloth = []figure.Line{o.End}
	}
	if len(p.bowed) > 0 && apart(p.cloth, p.bowed) < seen_mm {
		p.bowed = nil
	}
	return p
}

// apart is how far the places of lines lie from those of others at most, mm.
func apart(a, b []figure.Line) float64 {
	if len(a) != len(b) {
		return math.Inf(1)
	}
	most := 0.0
	for i := range a {
		if len(a[i]) != len(b[i]) {
			return math.Inf(1)
		}
		for k := range a[i] {
			most = max(most, math.Hypot(a[i][k][0]-b[i][k][0], a[i][k][1]-b[i][k][1]))
		}
	}
	return most
}

// glimpse is a small picture of a finding before and after a change, both from their
// solved shapes and in one scale; false where they show no difference.
func glimpse(id string, now, then figure.Outline, after string) (doc.Node, bool) {
	look := looks[id]
	a, b := picture(now, look), picture(then, look)
	if look == "" || len(a.cloth) == 0 || len(b.cloth) == 0 || apart(a.cloth, b.cloth) < seen_mm && len(a.bowed) == len(b.bowed) && (len(a.bowed) == 0 || apart(a.bowed, b.bowed) < seen_mm) {
		return doc.Node{}, false
	}
	room := draw.Rect{Min: draw.Pt(math.Inf(1), math.Inf(1)), Max: draw.Pt(math.Inf(-1), math.Inf(-1))}
	take := func(x, y float64) {
		room.Min.X, room.Min.Y = min(room.Min.X, x), min(room.Min.Y, y)
		room.Max.X, room.Max.Y = max(room.Max.X, x), max(room.Max.Y, y)
	}
	for _, p := range []pictured{a, b} {
		for _, l := range slices.Concat(p.cloth, p.bowed) {
			for _, at := range l {
				take(at[0], at[1])
			}
		}
		take(0, 0)
		take(0, p.band)
		if p.cut {
			take(-blockIn_mm, 0)
		}
	}
	legend := ""
	if len(a.bowed)+len(b.bowed) > 0 {
		legend = say.Text("Dashed: when the wearer bows.")
	}
	out := doc.El("div", "class=glimpse",
		doc.El("span", "class=side", a.svg(room), doc.El("span", "").Say(say.Text("now"))),
		doc.El("span", "class=side", b.svg(room), doc.El("span", "").Say(after)))
	if legend != "" {
		out = out.WithNodes(doc.El("span", "class=legend").Say(legend))
	}
	return out, true
}

const (
	blockIn_mm = 8 // how far the neck is shown inward of the neckline
	around_mm  = 3
)

// svg draws the lines into a room that both pictures share.
func (p pictured) svg(room draw.Rect) doc.Node {
	width, height := room.Max.X-room.Min.X+2*around_mm, room.Max.Y-room.Min.Y+2*around_mm
	at := func(x, y float64) string {
		return draw.Number(math.Round(10*(x-room.Min.X+around_mm))/10) + " " + draw.Number(math.Round(10*(room.Max.Y-y+around_mm))/10)
	}
	path := func(class string, closed bool, l figure.Line) doc.Node {
		steps := make([]string, len(l))
		for i, q := range l {
			steps[i] = at(q[0], q[1])
		}
		way := "M" + strings.Join(steps, "L")
		if closed {
			way += "Z"
		}
		return doc.El("path", "class="+class).With("d", way)
	}
	left, right := room.Min.X-around_mm, room.Max.X+around_mm
	if p.cut {
		left, right = room.Min.X-around_mm, 0
	}
	svg := doc.El("svg", "aria-hidden=true").With("viewBox", "0 0 "+draw.Number(width)+" "+draw.Number(height)).
		WithNodes(path("band", true, figure.Line{{left, 0}, {left, p.band}, {right, p.band}, {right, 0}}))
	for _, l := range p.bowed {
		svg = svg.WithNodes(path("bowed", true, l))
	}
	for _, l := range p.cloth {
		svg = svg.WithNodes(path("cloth", p.cut, l))
	}
	return svg
}
