package page

import (
	"slices"
	"strconv"

	"ruffwright/geom/scheme"
)

// show is what the document lacks of the page's state.
func (p *Page) show() []Patch {
	var all []Patch
	add := func(op Op, id, name, value string) {
		all = append(all, Patch{Op: op, ID: id, Name: name, Value: value})
	}
	flag := func(id, name string, on bool) {
		if on {
			add(OpAttr, id, name, "true")
		} else {
			all = append(all, Patch{Op: OpAttr, ID: id, Name: name, Gone: true})
		}
	}
	shown := p.scheme.Looked()
	for _, f := range fields() {
		id := control(f.Key)
		bad, isBad := p.wrong[f.Key]
		switch {
		case p.under == f.Key: // never change text that is being typed
		case isBad:
			add(OpValue, id, "", bad.text)
		default:
			add(OpValue, id, "", f.Show(shown, p.units))
		}
		flag(id, "aria-invalid", isBad)
		add(OpText, id+"-wrong", "", bad.why)
		add(OpText, id+"-decided", "", p.decided(f))
		add(OpText, id+"-unit", "", theirs(f.UnitIn(p.units)))
		add(OpText, id+"-range", "", p.rangeWords(f))
	}
	all = append(all, p.statePatches()...)
	add(OpText, "verdict", "", p.verdict())
	add(OpText, "notice", "", p.voice.notice)
	add(OpText, "description", "", p.Description())
	all = append(all,
		Patch{Op: OpNodes, ID: "findings", Nodes: p.findingNodes()},
		Patch{Op: OpNodes, ID: "numbers", Nodes: p.numberNodes()})
	all = append(all,
		Patch{Op: OpNodes, ID: "compare-acts", Nodes: p.pairActs()},
		Patch{Op: OpNodes, ID: "compare", Nodes: p.pairNodes()},
		Patch{Op: OpNodes, ID: "limits", Nodes: p.limitNodes()})
	add(OpText, "solving", "", p.solvingWords())
	add(OpAttr, "solver", "data-state", p.solvingState())
	halt, idle := p.haltWords()
	add(OpText, "halt", "", halt)
	add(OpAttr, "halt", "aria-disabled", strconv.FormatBool(idle))
	flag("stage", "data-two", p.compares())
	for _, pose := range poses {
		add(OpAttr, "pose-"+string(pose), "aria-pressed", strconv.FormatBool(pose == p.pose && p.has(pose)))
		add(OpAttr, "pose-"+string(pose), "aria-disabled", strconv.FormatBool(!p.has(pose)))
	}
	for _, v := range views {
		add(OpAttr, "view-"+string(v), "aria-pressed", strconv.FormatBool(v == p.view))
	}
	add(OpText, "view-help", "", p.viewHelp())
	all = append(all, p.proofPatches()...)
	all = append(all, p.colourPatches()...)
	all = append(all, p.foldPatches()...)
	all = append(all, p.lessonPatches()...)
	for _, u := range []scheme.Units{scheme.Millimetres, scheme.Centimetres, scheme.Inches} {
		add(OpAttr, "units-"+u.Symbol(), "aria-pressed", strconv.FormatBool(u == p.units))
	}
	p.sheetsShow(add, flag)
	for _, way := range []struct {
		id, what string
		steps    []step
	}{{"undo", "undo.what", p.past}, {"redo", "redo.what", p.future}} {
		label := word(way.id)
		if n := len(way.steps); n > 0 {
			label = word(way.what, "what", way.steps[n-1].what)
		}
		add(OpAttr, way.id, "aria-disabled", strconv.FormatBool(len(way.steps) == 0))
		add(OpAttr, way.id, "aria-label", label)
		add(OpAttr, way.id, "title", label)
	}
	return p.changes(append(all, p.keepPatches()...))
}

// changes leaves out the patches that would change nothing and remembers the
// rest.
func (p *Page) changes(all []Patch) []Patch {
	var out []Patch
	for _, c := range all {
		key := string(c.Op) + " " + c.ID
		if c.Op == OpAttr {
			key += " " + c.Name
		}
		now := c.Value
		if c.Gone {
			now = "\x00"
		}
		if c.Op == OpNodes {
			if was, ok := p.built[key]; ok && slices.EqualFunc(was, c.Nodes, Node.equal) {
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
