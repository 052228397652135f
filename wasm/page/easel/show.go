package easel

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ruffwright/geom/portrait"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// sideIDs are the two pictures as the document names them.
var sideIDs = [2]string{"source", "wearer"}

// Nodes are the tools, and what is said beside the points, as they stand at first.
func (e *Easel) Nodes() (toolbar, entered []doc.Node) {
	for _, t := range tools {
		toolbar = append(toolbar, doc.El("button", "type=button data-do=easel aria-pressed=false id=easel-tool-"+string(t.kind)).
			With("data-with", "tool "+string(t.kind)).Say(say.Text(t.label)))
	}
	for _, c := range entries {
		id := controlID(c.key)
		entered = append(entered, doc.El("div", "class=field id="+id+"-row",
			doc.El("label", "for="+id).Say(say.Text(c.label)),
			doc.El("span", "class=entry", doc.El("input", "type=text inputmode=decimal autocomplete=off spellcheck=false id="+id).
				With("data-key", own+c.key).With("aria-describedby", id+"-wrong "+id+"-usual")),
			doc.El("p", "class=wrong id="+id+"-wrong"),
			doc.El("p", "class=aside id="+id+"-usual").Say(say.Text("Where nothing is typed: %s.", say.Text(c.usual)))))
	}
	for _, c := range choices {
		id := controlID(c.key)
		pick := doc.El("select", "id="+id).With("data-key", own+c.key)
		for _, o := range c.of {
			pick.Nodes = append(pick.Nodes, doc.El("option", "").With("value", o[0]).Say(say.Text(o[1])))
		}
		entered = append(entered, doc.El("div", "class=field data-wide", doc.El("label", "for="+id).Say(say.Text(c.label)), doc.El("span", "class=entry", pick)))
	}
	return toolbar, entered
}

func controlID(key string) string { return doc.Control(own + key) }

// Patches are what the easel shows just now.
func (e *Easel) Patches() []doc.Patch {
	var out doc.List
	out.Flag("to-easel", "hidden", !e.open)
	e.besides(&out)
	if !e.open {
		return out
	}
	b := &e.boards[e.on]
	for i, id := range sideIDs {
		out.Bool("easel-"+id, "aria-pressed", side(i) == e.on)
	}
	out.Text("easel-stands", e.stand())
	out.Flag("easel-work", "hidden", b.wide == 0)
	out.Bool("easel-clear", "aria-disabled", b.wide == 0)
	out.Bool("easel-undo", "aria-disabled", len(e.past) == 0)
	out.Bool("easel-redo", "aria-disabled", len(e.future) == 0)
	for _, t := range tools {
		id := "easel-tool-" + string(t.kind)
		out.Bool(id, "aria-pressed", t.kind == e.tool)
		out.Flag(id, "hidden", !slices.Contains(t.on, e.on) && !(t.kind == share && e.on == source))
	}
	out.Nodes("easel-list", e.rows())
	out.Nodes("easel-told", e.told())
	for _, c := range entries {
		id := controlID(c.key)
		out.Value(id, e.typed[c.key])
		out.Text(id+"-wrong", e.wrong[c.key])
		out.Flag(id, "aria-invalid", e.wrong[c.key] != "")
	}
	out.Flag(controlID("ruler")+"-row", "hidden", e.boards[wearer].wide == 0)
	return append(out, e.Moved()...)
}

// Moved are the patches of what moves under a hand: the picture, the lines, the lens.
func (e *Easel) Moved() []doc.Patch {
	var out doc.List
	out.Text("easel-hint", e.hint())
	out.Nodes("easel-lines", e.lines())
	b := &e.boards[e.on]
	view, lens := "", ""
	if b.wide > 0 && b.scale > 0 {
		view = fmt.Sprintf("%s %.6g %.6g %.6g %.6g", sideIDs[e.on], b.corner[0], b.corner[1], b.scale, b.times)
		if p, ok := e.heldAt(); ok && (e.hand.drags || e.hand.keyed) {
			at := b.seen(p)
			x, y := e.lensAt(at)
			lens = fmt.Sprintf("%.6g %.6g %.6g %.6g %.6g", p[0], p[1], lensTimes*b.scale, x, y)
		}
	}
	return append(out, doc.Patch{Op: doc.OpEasel, ID: "easel-canvas", Name: "view", Value: view}, doc.Patch{Op: doc.OpEasel, ID: "easel-lens", Name: "lens", Value: lens})
}

// The lens: how large it is, CSS pixels, and by how much nearer it shows.
const (
	lensSize  = 128
	lensTimes = 3
)

// lensAt is where the lens lies: above the finger, or below it, and on the pad.
func (e *Easel) lensAt(at spot) (x, y float64) {
	x = min(max(at.x-lensSize/2, 0), e.pad.x-lensSize)
	y = at.y - lensSize - 36
	if y < 0 {
		y = at.y + 36
	}
	return x, y
}

// stand says how it stands with the picture.
func (e *Easel) stand() string {
	switch {
	case e.bring.busy:
		return say.Text("Opening %s.", e.bring.name)
	case e.bring.why != "":
		return e.bring.why
	case e.boards[e.on].wide == 0 && e.on == source:
		return say.Text("Open the portrait: choose a file, drop it on the page, or paste it.")
	case e.boards[e.on].wide == 0:
		return say.Text("If you like, open a photograph of the wearer with a ruler beside the face.")
	}
	b := &e.boards[e.on]
	return say.Text("%s: %.0f × %.0f pixels.", b.name, b.wide, b.high)
}

// hint says what a press on the picture does.
func (e *Easel) hint() string {
	t := tools[toolOf(e.tool)]
	if m := e.half(); m != nil && m.kind == e.tool {
		return say.Text(t.where[len(m.at)])
	}
	return say.Text(t.where[0])
}

// lines are what is drawn over the picture: of each mark its line, its points and its name,
// the ellipse of the edge, and the cross of the keys.
func (e *Easel) lines() (out []doc.Node) {
	b := &e.boards[e.on]
	if b.wide == 0 || b.scale == 0 {
		return nil
	}
	path := func(class, d string) doc.Node { return doc.El("path", "class="+class).With("d", d) }
	if e.got != nil && e.on == source {
		d := through(b, e.got.Outline)
		out = append(out, path("halo", d), path("fitted", d))
	}
	for i := range e.marks {
		m := &e.marks[i]
		if m.on != e.on || len(m.at) == 0 {
			continue
		}
		if len(m.at) == 2 {
			d := through(b, m.at)
			out = append(out, path("halo", d), path("line", d))
		}
		for k, p := range m.at {
			class := "dot"
			if m.n == e.hand.mark && k == e.hand.end {
				class = "held"
			}
			at := b.seen(p)
			out = append(out, path(class, circle(at, map[string]float64{"dot": 4, "held": 7}[class])))
		}
		if m.kind != edge {
			at := b.seen(m.at[0])
			out = append(out, doc.El("text", "").With("x", decimal(at.x+9)).With("y", decimal(at.y-7)).Say(e.named(m)))
		}
	}
	if p, ok := e.heldAt(); ok && e.hand.keyed && e.hand.mark == 0 {
		at := b.seen(p)
		d := fmt.Sprintf("M%.1f %.1fh24M%.1f %.1fv24", at.x-12, at.y, at.x, at.y-12)
		out = append(out, path("halo", d), path("line", d))
	}
	return out
}

// plain is a place of a point as it is kept.
func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func decimal(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }

// through is a path through points of the picture.
func through(b *board, points []portrait.Point) string {
	var d strings.Builder
	for i, p := range points {
		at := b.seen(p)
		fmt.Fprintf(&d, "%s%.1f %.1f", map[bool]string{true: "M", false: "L"}[i == 0], at.x, at.y)
	}
	return d.String()
}

// circle is a path round a place of the pad.
func circle(at spot, r float64) string {
	return fmt.Sprintf("M%.1f %.1fa%g %g 0 1 0 %g 0a%g %g 0 1 0 %g 0z", at.x-r, at.y, r, r, 2*r, r, r, -2*r)
}

// rows are what is placed on the picture, with what may be typed of it.
func (e *Easel) rows() []doc.Node {
	all := doc.El("ul", "class=placed")
	folded := doc.El("ul", "class=placed")
	for i := range e.marks {
		m := &e.marks[i]
		switch {
		case m.on != e.on:
		case m.kind == edge:
			folded.Nodes = append(folded.Nodes, e.row(m))
		default:
			all.Nodes = append(all.Nodes, e.row(m))
		}
	}
	var out []doc.Node
	if len(all.Nodes) > 0 {
		out = append(out, all)
	}
	if n := len(folded.Nodes); n > 0 {
		out = append(out, doc.El("details", "class=group id=easel-edge",
			doc.El("summary", "id=easel-edge-label").Say(say.Count(n, "Outer edge: %d point", "Outer edge: %d points", n)), folded))
	}
	if len(out) == 0 && e.boards[e.on].wide > 0 {
		out = append(out, doc.El("p", "class=aside").Say(say.Text("Nothing so far.")))
	}
	return out
}

// row is one mark: its name and length, its points, its count, and a button that takes it
// away.
func (e *Easel) row(m *mark) doc.Node {
	name := e.named(m)
	n := strconv.Itoa(m.n)
	title := name
	if len(m.at) == 2 {
		x, y := m.at[1][0]-m.at[0][0], m.at[1][1]-m.at[0][1]
		title = say.Text("%s: %.0f px", name, hypot(x, y))
	}
	row := doc.El("li", "", doc.Text(title))
	enter := func(key, label, unit, value string) {
		id := controlID(key)
		if typed, has := e.typed[key]; has {
			value = typed
		}
		c := doc.El("input", "type=text autocomplete=off spellcheck=false id="+id).With("data-key", own+key).With("aria-label", label).With("value", value)
		if e.wrong[key] != "" {
			c = c.With("aria-invalid", "true").With("aria-describedby", id+"-wrong")
		}
		row.Nodes = append(row.Nodes, c)
		if unit != "" {
			row.Nodes = append(row.Nodes, doc.Text(unit))
		}
		if e.wrong[key] != "" {
			row.Nodes = append(row.Nodes, doc.El("p", "class=wrong id="+id+"-wrong").Say(e.wrong[key]))
		}
	}
	if m.counted() {
		enter("count-"+n, say.Text("%s: how many", name), say.Text("sets"), m.count)
	}
	if m.kind == share {
		enter("share-"+n, say.Text("%s: which share of the way round, 0.02 to 1", name), say.Text("of the way round"), m.share)
	}
	for k, p := range m.at {
		label := "%s: from, px right and down"
		switch {
		case m.kind == edge:
			label = "%s: px right and down"
		case k == 1:
			label = "%s: to, px right and down"
		}
		enter(fmt.Sprintf("at-%s-%d", n, k), say.Text(label, name), "", plain(p[0])+" "+plain(p[1]))
	}
	row.Nodes = append(row.Nodes, doc.El("button", "type=button data-do=easel id=easel-away-"+n).With("data-with", "away "+n).
		With("aria-label", say.Text("Take away: %s", name)).With("title", say.Text("Take away: %s", name)).Say("✕"))
	return row
}
