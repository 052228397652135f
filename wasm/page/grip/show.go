package grip

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

const (
	apart_px = 28 // two handles nearer than this: the second waits until it has the focus
	edge_px  = 10 // a handle that is pulled beyond the stage stays in sight
	row_px   = 36 // half of what a handle says takes, above and below
)

func id(key string) string { return "h-" + strings.ReplaceAll(key, ".", "-") }

// stand is what a handle is and says.
type stand struct {
	hidden    bool
	now, text string // its value: a number in its field's unit, and in words
	said      string // beside it
	x, y      float64
	near      bool // too near another to be pressed
	left, way string
	number    draw.Rect // CSS pixels; the zero box: it has none
	upright   bool
}

// stands is the handle of a field.
func (g *Grips) stands(key string, plan *pleat.Plan, units scheme.Units) (s stand) {
	f, _ := scheme.Lookup(key)
	v, ok := figure.Stands(*plan, key)
	s.now, s.text = strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64), valueWords(f, v, units)
	if g.limit.key == key && g.limit.why != "" {
		s.text = say.Text("%s. %s", s.text, g.limit.why)
	}
	s.said = say.Text("%s: %s", say.Text(f.Label), s.text)
	h, is := g.shown.handle(key)
	of := &g.shown
	if g.held == key && (h.Turn != 0 || !is) {
		h, is, of = g.base, true, &g.of
		h.At = g.base.Stands(v)
	}
	s.hidden = !ok || !is
	if s.hidden {
		return s
	}
	width, height := of.size()
	s.x, s.y = of.on(h.At)
	if g.held == key {
		s.x, s.y = min(max(s.x, edge_px), width-edge_px), min(max(s.y, edge_px), height-edge_px)
	}
	s.hidden = !(s.x >= 0 && s.y >= 0 && s.x <= width && s.y <= height)
	s.left, s.way = "right", "middle"
	if s.x > width/2 {
		s.left = "left"
	}
	switch {
	case s.y < row_px:
		s.way = "below"
	case s.y > height-row_px:
		s.way = "above"
	}
	s.upright = math.Abs(h.Along.Y) > math.Abs(h.Along.X)
	if h.Number != (draw.Rect{}) {
		s.number.Min.X, s.number.Min.Y = of.on(h.Number.Min)
		s.number.Max.X, s.number.Max.Y = of.on(h.Number.Max)
	}
	return s
}

// all are the handles in their order. Of two that lie too near each other the second
// cannot be pressed.
func (g *Grips) all(plan *pleat.Plan, units scheme.Units) []stand {
	out := make([]stand, len(figure.Handled))
	for i, key := range figure.Handled {
		s := g.stands(key, plan, units)
		for _, other := range out[:i] {
			s.near = s.near || !other.hidden && !other.near && math.Hypot(s.x-other.x, s.y-other.y) < apart_px
		}
		s.near = s.near && g.held != key
		out[i] = s
	}
	return out
}

// valueWords are a field's value with its unit.
func valueWords(f scheme.Field, v float64, units scheme.Units) string {
	switch f.Kind {
	case scheme.KindLength:
		return say.Length(v, units)
	case scheme.KindCount:
		return say.Count(int(v), "%d set", "%d sets", int(v))
	}
	return say.Amount(v, f.Unit, 3)
}

// Patches show the handles as they are now.
func (g *Grips) Patches(plan *pleat.Plan, units scheme.Units) []doc.Patch {
	var out doc.List
	for i, s := range g.all(plan, units) {
		key := figure.Handled[i]
		at, number := id(key), "n-"+strings.TrimPrefix(id(key), "h-")
		out.Flag(at, "hidden", s.hidden)
		out.Flag(number, "hidden", s.hidden || s.number == (draw.Rect{}))
		out.Attr(at, "aria-valuenow", s.now)
		out.Attr(at, "aria-valuetext", s.text)
		out.Text(at+"-said", s.said)
		if s.hidden {
			continue
		}
		out.Flag(at, "data-near", s.near)
		out.Attr(at, "data-side", s.left)
		out.Attr(at, "data-way", s.way)
		orientation := "horizontal"
		if s.upright {
			orientation = "vertical"
		}
		out.Attr(at, "aria-orientation", orientation)
		out = append(out, place(at, fmt.Sprintf("%.1f %.1f", s.x, s.y)))
		if n := s.number; n != (draw.Rect{}) {
			out = append(out, place(number, fmt.Sprintf("%.1f %.1f %.1f %.1f", (n.Min.X+n.Max.X)/2, (n.Min.Y+n.Max.Y)/2, n.Max.X-n.Min.X, n.Max.Y-n.Min.Y)))
		}
	}
	out.Flag("typing", "hidden", g.typing == "")
	out.Flag("type", "aria-invalid", g.wrong != "")
	out.Text("type-why", g.wrong)
	return out
}

func place(id, at string) doc.Patch { return doc.Patch{Op: doc.OpPlace, ID: id, Value: at} }

// Nodes are the handles as Patches leave them at first.
func (g *Grips) Nodes(plan *pleat.Plan, units scheme.Units) []doc.Node {
	var out []doc.Node
	for i, s := range g.all(plan, units) {
		key := figure.Handled[i]
		f, _ := scheme.Lookup(key)
		f = f.For(plan.Given)
		bound := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
		out = append(out,
			doc.El("div", "role=slider tabindex=0 class=grip id="+id(key)).With("data-handle", key).With("aria-label", say.Text(f.Label)).With("hidden", "true").
				With("aria-valuemin", bound(f.Min)).With("aria-valuemax", bound(f.Max)).With("aria-valuenow", s.now).With("aria-valuetext", s.text).
				WithNodes(doc.El("span", "class=knob"), doc.El("span", "class=said id="+id(key)+"-said").Say(s.said)),
			doc.El("div", "class=number aria-hidden=true id=n-"+strings.TrimPrefix(id(key), "h-")).With("data-number", key).With("hidden", "true"))
	}
	return append(out, doc.El("div", "class=typing id=typing").With("hidden", "true").WithNodes(
		doc.El("input", "type=text inputmode=decimal autocomplete=off spellcheck=false id=type aria-describedby=type-why").With("aria-label", say.Text("The measure")),
		doc.El("p", "id=type-why class=wrong role=alert")))
}

// Type opens the box in which the number of a field is typed, at its place.
func (g *Grips) Type(key string, s scheme.Scheme, plan *pleat.Plan, units scheme.Units) []doc.Patch {
	f, _ := scheme.Lookup(key)
	at := g.stands(key, plan, units)
	if at.hidden {
		return nil
	}
	g.typing, g.wrong = key, ""
	value := f.Show(s.Looked(), units)
	if f.Zero != "" && f.Number(s) == 0 {
		v, _ := figure.Stands(*plan, key)
		if value = strconv.FormatFloat(v, 'f', -1, 64); f.Kind == scheme.KindLength {
			value = scheme.BareLength(v, units)
		}
	}
	label := say.Text(f.Label)
	if unit := f.UnitIn(units); unit != "" {
		label = say.Text("%s, in %s", label, say.Text(unit))
	}
	x, y := at.x, at.y
	if n := at.number; n != (draw.Rect{}) {
		x, y = (n.Min.X+n.Max.X)/2, (n.Min.Y+n.Max.Y)/2
	}
	const half = 56 // of the box, CSS pixels
	width, height := g.shown.size()
	x, y = min(max(x, half), width-half), min(max(y, row_px), height-row_px)
	return []doc.Patch{
		{Op: doc.OpAttr, ID: "typing", Name: "hidden", Gone: true}, place("typing", fmt.Sprintf("%.1f %.1f", x, y)),
		{Op: doc.OpAttr, ID: "type", Name: "aria-label", Value: label}, {Op: doc.OpValue, ID: "type", Value: value}, {Op: doc.OpFocus, ID: "type"},
	}
}

// Typing is the key of the field whose number is being typed; "" none.
func (g *Grips) Typing() string { return g.typing }

// Wrong notes why what was typed cannot be used.
func (g *Grips) Wrong(why string) { g.wrong = why }

// Shut closes the box, and leads back to the handle where back is true.
func (g *Grips) Shut(back bool) (out []doc.Patch) {
	if g.typing != "" && back {
		out = []doc.Patch{{Op: doc.OpFocus, ID: id(g.typing)}}
	}
	g.typing, g.wrong = "", ""
	return out
}
