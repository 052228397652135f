package tell

import (
	"fmt"
	"image/color"
	"strconv"
	"strings"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// Glossary is every trade word with what it means and a small drawing of it, made from
// the plain start's ruff.
func Glossary() ([]doc.Node, error) {
	tucked := scheme.First()
	plain := tucked // its slack can be seen
	for _, key := range []string{"pleat.tuck_top", "pleat.tuck_bottom"} {
		f, _ := scheme.Lookup(key)
		if err := f.Set(&plain, "0", scheme.Millimetres); err != nil {
			return nil, err
		}
	}
	var out []doc.Node
	for _, t := range figure.Terms {
		s := tucked
		if t.Name == "slack" {
			s = plain
		}
		r, err := sim.Draw(s)
		if err != nil {
			return nil, err
		}
		d, err := t.Draw(r.Plan, r.Folded.Shape, draw.Light())
		if err != nil {
			return nil, fmt.Errorf("the word %s: %w", t.Name, err)
		}
		out = append(out, doc.El("li", "tabindex=-1 id="+termID(t.Name), inline(d),
			doc.El("h3", "").Say(say.In(t.Label)), doc.El("p", "").Say(say.In(t.Says))))
	}
	return out, nil
}

// Explained is what a trade word means, and the id of its entry; "" where it is none.
func Explained(name string) (words, id string) {
	for _, t := range figure.Terms {
		if t.Name == name {
			return say.Text("%s: %s", say.In(t.Label), say.In(t.Says)), termID(t.Name)
		}
	}
	return "", ""
}

// inline is a drawing of lines as a part of the page, in the page's own colours. The
// words beside it say what it shows.
func inline(d draw.Drawing) doc.Node {
	pal := draw.Light()
	colours := map[color.NRGBA]string{pal.Ground: "ground", pal.Ink: "ink", pal.Rule: "rule", pal.Wash: "wash", pal.Madder: "madder", pal.Woad: "woad", pal.Walnut: "walnut"}
	paint := func(c color.NRGBA) string {
		if name := colours[c]; name != "" {
			return "var(--" + name + ")"
		}
		return "currentColor"
	}
	short := func(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }
	svg := doc.El("svg", "aria-hidden=true class=drawn").With("viewBox", "0 0 "+draw.Number(d.Width_mm)+" "+draw.Number(d.Height_mm))
	for _, it := range d.Items {
		p, ok := it.(draw.Path)
		if !ok {
			continue
		}
		var way strings.Builder
		for _, line := range p.Lines {
			for i, q := range line {
				way.WriteString(map[bool]string{true: "M", false: "L"}[i == 0] + short(q.X) + " " + short(q.Y))
			}
			if p.Closed {
				way.WriteString("Z")
			}
		}
		path := doc.El("path", "fill=none").With("d", way.String())
		if p.Closed && p.Fill.A > 0 {
			path = path.With("fill", paint(p.Fill))
		}
		if p.Stroke.A > 0 && p.Width_mm > 0 {
			path = path.With("stroke", paint(p.Stroke)).With("stroke-width", draw.Number(p.Width_mm))
		}
		if len(p.Dash_mm) == 2 {
			path = path.With("stroke-dasharray", draw.Number(p.Dash_mm[0])+" "+draw.Number(p.Dash_mm[1]))
		}
		svg.Nodes = append(svg.Nodes, path)
	}
	return svg
}
