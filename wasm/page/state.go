package page

import (
	"slices"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// state is how what the page shows stands to what is typed. It is worked out in
// one place; verdict, picture, numbers, findings, comparison, Save, Link and
// sheets ask it. That the program has died no program can say: the loader does.
type state struct {
	kind    manner
	refused []refusal // entries that cannot be used, in the order of the form
	why     string    // where it cannot be solved
}

// refusal is an entry that cannot be used.
type refusal struct {
	field     scheme.Field
	text, why string
	used      string // what stands in its place, with its unit
}

// manner is what a state says first.
type manner string

const (
	asTyped manner = "typed"   // shown is what is typed, and as much as there is to know of it
	solving manner = "solving" // the same, and the solver works on it
	cannot  manner = "cannot"  // the same, and its cloth cannot be solved
	typing  manner = "typing"  // an entry cannot be used as far as it is typed: shown is the ruff before it
	lastOne manner = "last"    // entries cannot be used: shown is the last good ruff
)

// old reports that something else is shown than what is typed.
func (s state) old() bool { return s.kind == lastOne || s.kind == typing }

// state gives the state.
func (p *Page) state() state {
	s := state{kind: asTyped}
	for _, f := range say.Fields() {
		w, bad := p.wrong[f.Key]
		if !bad && len(p.wrong) == 0 && p.draft != nil && p.under == f.Key {
			w, bad = *p.draft, true
		}
		if bad {
			used := f.Show(p.scheme.Looked(), p.units)
			if unit := f.UnitIn(p.units); unit != "" {
				used += " " + say.Theirs(unit)
			}
			s.refused = append(s.refused, refusal{f, say.Brief(w.text), w.why, say.Brief(used)})
		}
	}
	if i := slices.IndexFunc(p.findings, func(f check.Finding) bool { return f.ID == cannotSolve }); i >= 0 {
		s.why = p.findings[i].Sentence
	} else if p.misfit != nil { // a finding that stops says the same in its own way
		s.why = say.Sentence(say.Told(p.misfit.Error()))
	} else if p.solver.none {
		s.why = say.Sentence(say.Told(p.solver.why))
	}
	switch {
	case len(p.wrong) > 0:
		s.kind = lastOne
	case len(s.refused) > 0:
		s.kind = typing
	case s.why != "":
		s.kind = cannot
	case p.busy():
		s.kind = solving
	}
	return s
}

// cannotSolve is the finding that the half set has no mechanics.
const cannotSolve = "cannot-solve"

// clears forgets the entries that cannot be used: the ruff at hand is another.
func (p *Page) clears() {
	p.wrong, p.draft, p.asks, p.ruled, p.ruledBy = map[string]wrong{}, nil, "", nil, ""
}

// entries names what cannot be used, and why.
func (s state) entries() string {
	var out []string
	for _, r := range s.refused {
		out = append(out, say.Word("entry.other", "field", r.field.Label, "why", r.why))
	}
	return strings.Join(out, " ")
}

// of says which ruff a panel is of, where it is not what is typed; else "".
func (s state) of() string {
	if !s.old() {
		return ""
	}
	var used []string
	for _, r := range s.refused {
		used = append(used, say.Word("state.used", "field", r.field.Label, "value", r.used))
	}
	return say.Word("state.of", "used", strings.Join(used, "; "))
}

// stateNodes are the banner beside the verdict: what is refused, with a way to
// it, or why the cloth cannot be solved. Nothing where all is as typed.
func (s state) stateNodes() []doc.Node {
	switch s.kind {
	case lastOne:
		list := doc.El("ul", "")
		for _, r := range s.refused {
			list.Nodes = append(list.Nodes, doc.El("li", "",
				doc.Text(say.Word("entry.other", "field", r.field.Label, "why", r.why)),
				goTo(r.field, "state-"+doc.Control(r.field.Key))))
		}
		return []doc.Node{doc.El("p", "", doc.El("span", "class=sign aria-hidden=true").Say("✕"), doc.El("strong", "").Say(say.Word("state.last"))), list}
	case cannot:
		return []doc.Node{doc.El("p", "", doc.El("span", "class=sign aria-hidden=true").Say("✕"), doc.El("strong", "").Say(say.Word("state.cannot")), doc.Text(s.why))}
	}
	return nil
}

// goTo is a button that leads to a field.
func goTo(f scheme.Field, id string) doc.Node {
	return doc.El("button", "type=button class=quiet data-do=goto id="+id).With("data-with", f.Key).Say(say.Word("state.goto", "field", f.Label))
}

// panels of the page that show the ruff; each says which one where it is not
// what is typed, in its own line.
var panels = []struct{ id, of string }{
	{"stage", "stage-of"}, {"to-findings", "findings-of"}, {"to-numbers", "numbers-of"}, {"to-compare", "compare-of"},
}

// statePatches show the state.
func (p *Page) statePatches() []doc.Patch {
	s := p.state()
	out := []doc.Patch{
		{Op: doc.OpNodes, ID: "state", Nodes: s.stateNodes()},
		{Op: doc.OpAttr, ID: "state", Name: "data-state", Value: string(s.kind)},
	}
	for _, panel := range panels {
		words := s.of()
		if panel.id == "stage" && words != "" { // the drawing has little room
			words = say.Word("state.ofstage")
		}
		if panel.of == "compare-of" && !p.compares() {
			words = ""
		}
		out = append(out, doc.Patch{Op: doc.OpText, ID: panel.of, Value: words},
			doc.Patch{Op: doc.OpAttr, ID: panel.id, Name: "data-old", Value: "true", Gone: words == ""})
	}
	for _, g := range scheme.Groups() { // a closed part of the form tells of the entries in it
		rare, bad := 0, 0
		plain := 0
		for _, f := range say.Fields() {
			switch {
			case f.Group != g.Key:
			case !f.Rare:
				plain++
			default:
				rare++
				if _, ok := p.wrong[f.Key]; ok {
					bad++
				}
			}
		}
		if rare == 0 {
			continue
		}
		words := rareLabel(rare, plain)
		if bad > 0 {
			words = say.Many("form.refused", bad, "fold", words)
		}
		out = append(out, doc.Patch{Op: doc.OpText, ID: "rare-" + g.Key + "-label", Value: words},
			doc.Patch{Op: doc.OpAttr, ID: "rare-" + g.Key, Name: "data-refused", Value: "true", Gone: bad == 0})
	}
	return out
}

// doubts asks before the last good ruff is given away in place of what is typed:
// it reports whether there is something to ask. what is save or share.
func (p *Page) doubts(what string) bool {
	if !p.state().old() {
		return false
	}
	p.asks = what
	return true
}

// question is what the page asks, and the answers: give the last good ruff away,
// or go to what is refused.
func (p *Page) question() (words string, offers []offer) {
	s := p.state()
	if p.asks == "" || !s.old() {
		return "", nil
	}
	return say.Word("ask."+p.asks, "entries", s.entries()), []offer{
		{p.asks + "-last", "", say.Word("ask." + p.asks + ".yes")},
		{"goto", s.refused[0].field.Key, say.Word("state.goto", "field", s.refused[0].field.Label)},
	}
}
