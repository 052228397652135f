package page

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"ruffwright/geom/scheme"
)

// control is the id of a field's control; its neighbours add a suffix.
func control(key string) string { return "f-" + strings.ReplaceAll(key, ".", "-") }

// Form is the whole form for the page's state, in the order of the job: a
// fieldset a group, seldom-used fields folded away at its end.
func (p *Page) form() []Node {
	var out []Node
	for _, g := range scheme.Groups() {
		var plain, rare []Node
		for _, f := range fields() {
			switch {
			case f.Group != g.Key:
			case f.Rare:
				rare = append(rare, p.row(f))
			default:
				plain = append(plain, p.row(f))
			}
		}
		if len(plain)+len(rare) == 0 {
			continue
		}
		set := el("fieldset", "class=group id=group-"+g.Key, el("legend", "").say(theirs(g.Label)))
		set.Nodes = append(set.Nodes, plain...)
		if len(rare) > 0 {
			fold := el("details", "class=rare id=rare-"+g.Key, el("summary", "id=rare-"+g.Key+"-label").say(rareLabel(len(rare), len(plain))))
			fold.Nodes = append(fold.Nodes, rare...)
			set.Nodes = append(set.Nodes, fold)
		}
		out = append(out, set)
	}
	return out
}

func rareLabel(rare, plain int) string {
	if plain > 0 {
		return word("form.more", "n", rare)
	}
	return word("form.rare", "n", rare)
}

// row is one field: label, control, unit, message, help.
func (p *Page) row(f scheme.Field) Node {
	id := control(f.Key)
	var c Node
	value := f.Show(p.scheme.Looked(), p.units)
	switch f.Kind {
	case scheme.KindChoice:
		c = el("select", "")
		for _, choice := range f.Choices {
			option := el("option", "").with("value", choice.Value).say(choice.Label)
			if choice.Value == value {
				option = option.with("selected", "")
			}
			c.Nodes = append(c.Nodes, option)
		}
	case scheme.KindMarks:
		c = el("textarea", "rows=3 spellcheck=false").say(value)
	case scheme.KindText:
		c = el("input", "type=text autocomplete=off").with("maxlength", strconv.Itoa(2*int(f.Max))).with("value", value)
	case scheme.KindCount:
		c = el("input", "type=text inputmode=numeric autocomplete=off spellcheck=false").with("value", value)
	default:
		c = el("input", "type=text inputmode=decimal autocomplete=off spellcheck=false").with("value", value)
	}
	c = c.with("id", id).with("data-key", f.Key).with("aria-describedby", id+"-unit "+id+"-wrong "+id+"-decided "+id+"-help "+id+"-range "+id+"-changes")
	help := el("p", "class=help id="+id+"-help").say(f.Help)
	row := el("div", "class=field").with("data-kind", string(f.Kind))
	for _, choice := range f.Choices {
		if utf8.RuneCountInString(choice.Label) > widestChoice {
			row = row.with("data-wide", "")
		}
	}
	return row.withNodes(
		el("label", "for="+id).say(f.Label),
		el("span", "class=entry", c, el("span", "class=unit id="+id+"-unit").say(theirs(f.UnitIn(p.units)))),
		el("p", "class=wrong id="+id+"-wrong"),
		el("p", "class=decided id="+id+"-decided").say(p.decided(f)),
		help,
		el("p", "class=range",
			el("span", "id="+id+"-range").say(p.rangeWords(f)), text(" "),
			el("span", "id="+id+"-changes").say(word("form.changes", "what", inside(f.Changes)))),
	)
}

// widestChoice is how many letters of a choice fit beside the field's label.
const widestChoice = 16

// withNodes adds children.
func (n Node) withNodes(nodes ...Node) Node {
	n.Nodes = append(append([]Node(nil), n.Nodes...), nodes...)
	return n
}

// rangeWords is what may stand in the field, and what 0 comes to just now.
func (p *Page) rangeWords(f scheme.Field) string {
	switch f.Kind {
	case scheme.KindChoice, scheme.KindText:
		return ""
	}
	words := theirs(f.For(p.scheme).Allowed(p.units).String())
	if f.Zero != "" && f.Number(p.scheme) == 0 {
		if now := p.planned(f); now != "" {
			words = word("form.now", "range", words, "value", now)
		}
	}
	return sentence(words)
}

// planned is what a field that stands at 0 comes to in the plan, in words.
func (p *Page) planned(f scheme.Field) string {
	plan := p.ruff.Plan
	var v float64
	switch f.Key {
	case "pleat.panel":
		v = plan.Panel_mm
	case "pleat.pitch":
		v = plan.Pitch_mm
	case "band.length":
		v = plan.Band_mm
	case "strip.have":
		v = plan.Strip_mm
	case "cloth.mass", "cloth.thickness", "cloth.bend_warp", "cloth.bend_weft":
		v = f.Number(plan.Scheme)
	default:
		return ""
	}
	if v <= 0 {
		return ""
	}
	if f.Kind == scheme.KindLength {
		return scheme.FormatLength(v, p.units)
	}
	return strconv.FormatFloat(v, 'g', 4, 64) + " " + theirs(f.Unit)
}
