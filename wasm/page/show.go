package page

import (
	"slices"
	"strconv"

	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// show is what the document lacks of the page's state.
func (p *Page) show() []doc.Patch {
	var all []doc.Patch
	add := func(op doc.Op, id, name, value string) {
		all = append(all, doc.Patch{Op: op, ID: id, Name: name, Value: value})
	}
	flag := func(id, name string, on bool) {
		if on {
			add(doc.OpAttr, id, name, "true")
		} else {
			all = append(all, doc.Patch{Op: doc.OpAttr, ID: id, Name: name, Gone: true})
		}
	}
	shown := p.scheme.Looked()
	for _, f := range say.Fields() {
		id := doc.Control(f.Key)
		bad, isBad := p.wrong[f.Key]
		switch {
		case p.under == f.Key: // never change text that is being typed
		case isBad:
			add(doc.OpValue, id, "", bad.text)
		default:
			add(doc.OpValue, id, "", f.Show(shown, p.units))
		}
		flag(id, "aria-invalid", isBad)
		add(doc.OpText, id+"-wrong", "", bad.why)
		add(doc.OpText, id+"-decided", "", p.decided(f))
		add(doc.OpText, id+"-unit", "", say.Theirs(f.UnitIn(p.units)))
		add(doc.OpText, id+"-range", "", p.rangeWords(f))
	}
	all = append(all, p.statePatches()...)
	add(doc.OpText, "verdict", "", p.verdict())
	add(doc.OpText, "notice", "", p.voice.notice)
	add(doc.OpText, "description", "", p.Description())
	all = append(all,
		doc.Patch{Op: doc.OpNodes, ID: "findings", Nodes: p.findingNodes()},
		doc.Patch{Op: doc.OpNodes, ID: "numbers", Nodes: p.numberNodes()})
	all = append(all,
		doc.Patch{Op: doc.OpNodes, ID: "compare-acts", Nodes: p.pairActs()},
		doc.Patch{Op: doc.OpNodes, ID: "compare", Nodes: p.pairNodes()},
		doc.Patch{Op: doc.OpNodes, ID: "limits", Nodes: p.limitNodes()})
	add(doc.OpText, "solving", "", p.solvingWords())
	add(doc.OpAttr, "solver", "data-state", p.solvingState())
	halt, idle := p.haltWords()
	add(doc.OpText, "halt", "", halt)
	add(doc.OpAttr, "halt", "aria-disabled", strconv.FormatBool(idle))
	flag("stage", "data-two", p.compares())
	for _, pose := range poses {
		add(doc.OpAttr, "pose-"+string(pose), "aria-pressed", strconv.FormatBool(pose == p.pose && p.has(pose)))
		add(doc.OpAttr, "pose-"+string(pose), "aria-disabled", strconv.FormatBool(!p.has(pose)))
	}
	for _, v := range figure.Views {
		add(doc.OpAttr, "view-"+v.Name, "aria-pressed", strconv.FormatBool(v == p.view))
	}
	add(doc.OpText, "view-help", "", p.viewHelp())
	all = append(all, p.proofPatches()...)
	all = append(all, p.colourPatches()...)
	all = append(all, p.foldPatches()...)
	all = append(all, p.lessonPatches()...)
	for _, u := range []scheme.Units{scheme.Millimetres, scheme.Centimetres, scheme.Inches} {
		add(doc.OpAttr, "units-"+u.Symbol(), "aria-pressed", strconv.FormatBool(u == p.units))
	}
	p.sheetsShow(add, flag)
	for _, way := range []struct {
		id, what string
		steps    []step
	}{{"undo", "undo.what", p.past}, {"redo", "redo.what", p.future}} {
		label := say.Word(way.id)
		if n := len(way.steps); n > 0 {
			label = say.Word(way.what, "what", way.steps[n-1].what)
		}
		add(doc.OpAttr, way.id, "aria-disabled", strconv.FormatBool(len(way.steps) == 0))
		add(doc.OpAttr, way.id, "aria-label", label)
		add(doc.OpAttr, way.id, "title", label)
	}
	return p.changes(append(all, p.keepPatches()...))
}

// changes leaves out the patches that would change nothing and remembers the
// rest.
func (p *Page) changes(all []doc.Patch) []doc.Patch {
	var out []doc.Patch
	for _, c := range all {
		key := string(c.Op) + " " + c.ID
		if c.Op == doc.OpAttr {
			key += " " + c.Name
		}
		now := c.Value
		if c.Gone {
			now = "\x00"
		}
		if c.Op == doc.OpNodes {
			if was, ok := p.built[key]; ok && slices.EqualFunc(was, c.Nodes, doc.Node.Equal) {
				continue
			}
			p.built[key] = c.Nodes
			out = append(out, c)
			continue
		}
		if was, ok := p.sent[key]; ok && was == now {
			continue
		}
		p.sent[key] = now
		out = append(out, c)
	}
	return out
}
