package page

import (
	"slices"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/check/compare"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// twinLabel is what the button of the first comparison says: how A is sewn, and
// the other way.
func (p *Page) twinLabel() string {
	this, other := "both", "top"
	if row := p.ruff.Plan.Row; row.OneEdge() {
		this, other = string(row.Edge()), "both"
	}
	return say.Word("twin", "this", say.Word("sewn."+this), "other", say.Word("sewn."+other))
}

// pairActs are the buttons of the comparison.
func (p *Page) pairActs() []doc.Node {
	button := func(id, key string) doc.Node {
		return doc.El("button", "type=button data-do="+id+" id="+id).Say(say.Word(key))
	}
	twin := doc.El("button", "type=button data-do=twin id=twin").Say(p.twinLabel())
	if !p.compares() {
		return []doc.Node{button("compare-keep", "compare.keep"), twin}
	}
	return []doc.Node{
		button("compare-swap", "compare.swap"), button("compare-keep", "compare.atob"), button("compare-back", "compare.btoa"),
		twin, button("compare-stop", "compare.stop"),
	}
}

// pairNodes are the comparison in a sentence and a table.
func (p *Page) pairNodes() []doc.Node {
	if !p.compares() {
		return nil
	}
	c := p.comparison()
	out := []doc.Node{doc.El("p", "class=verdict id=compare-sentence").Say(say.Theirs(c.Sentence))}
	cell := func(role, class string, words string) doc.Node {
		return doc.El("td", "role="+role+" class="+class).Say(words)
	}
	head := func(role, scope, words string) doc.Node {
		return doc.El("th", "scope="+scope+" role="+role).Say(words)
	}
	body := func(title string, rows []doc.Node) []doc.Node {
		if len(rows) == 0 {
			return nil
		}
		first := doc.El("tr", "role=row class=part", doc.El("th", "scope=rowgroup role=rowheader colspan=4").Say(title))
		return []doc.Node{doc.El("tbody", "role=rowgroup", append([]doc.Node{first}, rows...)...)}
	}
	row := func(label, a, b, differ, class string) doc.Node {
		return doc.El("tr", "role=row", head("rowheader", "row", label),
			cell("cell", class, a).With("data-of", "A"), cell("cell", class, b).With("data-of", "B"), cell("cell", "remark", differ))
	}
	var fields, troubles, measures []doc.Node
	for _, f := range c.Fields {
		fields = append(fields, row(say.Theirs(f.Field.Label), p.decision(f.Field, f.A), p.decision(f.Field, f.B), "", "figure"))
	}
	for _, t := range c.Troubles {
		troubles = append(troubles, row(say.Theirs(t.Title), found(t.A, t.PendingA), found(t.B, t.PendingB), "", "found"))
	}
	for _, m := range c.Measures {
		class := "figure"
		differ := say.Theirs(m.Difference)
		if m.Better != compare.Neither {
			differ = say.Word("compare.better", "difference", differ, "which", string(m.Better))
		}
		measures = append(measures, row(say.Theirs(m.Label), say.Theirs(m.A.Text), say.Theirs(m.B.Text), differ, class))
	}
	table := doc.El("table", "class=two role=table",
		doc.El("caption", "class=hidden").Say(say.Word("compare.caption")),
		doc.El("thead", "role=rowgroup", doc.El("tr", "role=row", doc.El("td", "role=cell").Say(""),
			named(head("columnheader", "col", say.Word("compare.a")).With("data-of", "A"), p.scheme.Name),
			named(head("columnheader", "col", say.Word("compare.b")).With("data-of", "B"), p.rival.scheme.Name),
			head("columnheader", "col", say.Word("compare.differ")))))
	table.Nodes = slices.Concat(table.Nodes, body(say.Word("compare.fields"), fields), body(say.Word("compare.troubles"), troubles), body(say.Word("compare.measures"), measures))
	return append(out, table)
}

// named adds the maker's own name of a ruff to its letter.
func named(head doc.Node, name string) doc.Node {
	if name != "" {
		head.Nodes = append(head.Nodes, doc.El("span", "class=remark translate=no").Say(" "+name))
	}
	return head
}

// decision is a value of a field as the form calls it.
func (p *Page) decision(f scheme.Field, value string) string {
	for _, c := range f.Choices {
		if c.Value == value {
			return say.Theirs(c.Label)
		}
	}
	return say.Theirs(value)
}

// found says what a finding comes to in one of the two.
func found(s check.Severity, pending bool) string {
	switch {
	case s != "":
		return signs[s] + " " + say.Word("found."+string(s))
	case pending:
		return say.Word("found.pending")
	}
	return say.Word("found.no")
}

// twoDrawn reports whether both are on the stage: the fold-through shows A's strip
// alone.
func (p *Page) twoDrawn() bool { return p.compares() && !p.folding() }

// pane is the part of the stage that one ruff has, in CSS pixels: all of it, or
// half. The two stand beside each other or, where their letters are then larger,
// one above the other; on a narrow stage always.
func (p *Page) pane() (width, height float64, stacked bool) {
	w, h := p.width(), p.height()
	if !p.twoDrawn() {
		return w, h, false
	}
	const gap = draw.Gutter * pixelsPerMM
	half, low := max(1, (w-gap)/2), max(1, (h-gap)/2)
	fits := func(w, h float64) float64 { return min(pixelsPerMM, w/leastSheet_mm, h/leastSheet_mm) }
	if w < narrow || fits(w, low) > fits(half, h) {
		return w, low, true
	}
	return half, h, false
}

// narrow is a stage on which two ruffs never stand side by side, CSS pixels.
const narrow = 480

// inPane is a place of the stage as a place of the ruff's own part of it.
func (p *Page) inPane(at place) place {
	w, h, stacked := p.pane()
	if stacked && at.y > p.height()/2 {
		at.y -= p.height() - h
	}
	if p.twoDrawn() && !stacked && at.x > p.width()/2 {
		at.x -= p.width() - w
	}
	return at
}

// pairNotes point at the finding in hand alone: others would take the room that two
// ruffs need, and set them at different places.
func (p *Page) pairNotes(i int) []figure.Note {
	switch {
	case p.hand == "":
		return nil
	case i == 0:
		return p.notesOf(p.findings)
	}
	return p.notesOf(p.rival.findings)
}

// both draws A and B on one camera, at one scale.
func (p *Page) both(opt figure.Options, stacked bool) (draw.Drawing, error) {
	ruffs := [2]*sim.Ruff{&p.ruff, &p.rival.side.Ruff}
	shapes := [2]pleat.Shape{p.shape(), p.posedOf(ruffs[1])}
	p.comparison() // B's findings come with it
	tones := p.tones(ruffs[0], ruffs[1])
	d := &p.pair // Beside copies what it takes: their memory serves again
	for i, letter := range []string{string(compare.First), string(compare.Second)} {
		if opt.Cells > 0 {
			opt.Cells = movingCells / 2
		}
		opt.Letter, opt.Tone = letter, tones[i]
		opt.Notes = p.pairNotes(i)
		opt.Again = &d[i]
		one, err := paintOf(p.view, &ruffs[i].Plan, shapes[i], opt)
		if err != nil {
			return one, err
		}
		d[i] = one
	}
	least := min(d[0].Scale, d[1].Scale)
	if p.view.Turned && opt.Zoom > 0 {
		least /= opt.Zoom
	}
	for i := range d {
		scale := d[i].Scale
		if p.view.Turned && opt.Zoom > 0 {
			scale /= opt.Zoom
		}
		if p.view.Strip || scale <= least*1.001 {
			continue
		}
		opt.Scale, opt.Letter, opt.Tone = least, d[i].Letter, tones[i]
		opt.Notes = p.pairNotes(i)
		opt.Again = &d[i]
		again, err := paintOf(p.view, &ruffs[i].Plan, shapes[i], opt)
		if err != nil {
			return again, err
		}
		d[i] = again
	}
	lens := draw.Lens(p.camera.Lens)
	if p.view.Turned {
		lens = draw.Lens{}
	}
	return draw.Beside(d[0], d[1], stacked, lens), nil
}
