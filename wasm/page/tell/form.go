package tell

import (
	"strconv"
	"unicode/utf8"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// Form is the whole form for the page's state, in the order of the job: a
// fieldset a group, seldom-used fields folded away at its end.
func (t Tell) Form() []doc.Node {
	var out []doc.Node
	for _, g := range scheme.Groups() {
		var plain, rare []doc.Node
		for _, f := range scheme.Fields() {
			switch {
			case f.Group != g.Key:
			case f.Rare:
				rare = append(rare, t.row(f))
			default:
				plain = append(plain, t.row(f))
			}
		}
		if len(plain)+len(rare) == 0 {
			continue
		}
		set := doc.El("fieldset", "class=group id=group-"+g.Key, doc.El("legend", "").Say(say.Text(g.Label)))
		set.Nodes = append(set.Nodes, plain...)
		if len(rare) > 0 {
			fold := doc.El("details", "class=rare id=rare-"+g.Key, doc.El("summary", "id=rare-"+g.Key+"-label").Say(rareLabel(len(rare), len(plain))))
			fold.Nodes = append(fold.Nodes, rare...)
			set.Nodes = append(set.Nodes, fold)
		}
		out = append(out, set)
	}
	return out
}

func rareLabel(rare, plain int) string {
	if plain > 0 {
		return say.Text("%d more, seldom changed", rare)
	}
	return say.Text("%d seldom changed", rare)
}

// row is one field: label, control, unit, message, help.
func (t Tell) row(f scheme.Field) doc.Node {
	id := doc.Control(f.Key)
	var c doc.Node
	value := f.Show(t.Scheme.Looked(), t.Units)
	switch f.Kind {
	case scheme.KindChoice:
		c = doc.El("select", "")
		for _, choice := range f.Choices {
			option := doc.El("option", "").With("value", choice.Value).Say(say.Text(choice.Label))
			if choice.Value == value {
				option = option.With("selected", "")
			}
			c.Nodes = append(c.Nodes, option)
		}
	case scheme.KindMarks:
		c = doc.El("textarea", "rows=3 spellcheck=false").Say(value)
	case scheme.KindText:
		c = doc.El("input", "type=text autocomplete=off").With("maxlength", strconv.Itoa(2*int(f.Max))).With("value", value)
	case scheme.KindCount:
		c = doc.El("input", "type=text inputmode=numeric autocomplete=off spellcheck=false").With("value", value)
	default:
		c = doc.El("input", "type=text inputmode=decimal autocomplete=off spellcheck=false").With("value", value)
	}
	c = c.With("id", id).With("data-key", f.Key).With("aria-describedby", id+"-unit "+id+"-wrong "+id+"-decided "+id+"-help "+id+"-range "+id+"-changes")
	help := doc.El("p", "class=help id="+id+"-help").Say(say.Text(f.Help))
	row := doc.El("div", "class=field").With("data-kind", string(f.Kind))
	for _, choice := range f.Choices {
		if utf8.RuneCountInString(say.Text(choice.Label)) > widestChoice {
			row = row.With("data-wide", "")
		}
	}
	return row.WithNodes(
		doc.El("label", "for="+id).Say(say.Text(f.Label)),
		doc.El("span", "class=entry", c, doc.El("span", "class=unit id="+id+"-unit").Say(say.Text(f.UnitIn(t.Units)))),
		doc.El("p", "class=wrong id="+id+"-wrong"),
		doc.El("p", "class=decided id="+id+"-decided").Say(t.Decided(f)),
		help,
		doc.El("p", "class=range",
			doc.El("span", "id="+id+"-range").Say(t.rangeWords(f)), doc.Text(" "),
			doc.El("span", "id="+id+"-changes").Say(say.Text("Changes: %s", say.Inside(say.Text(f.Changes))))),
	)
}

// widestChoice is how many letters of a choice fit beside the field's label.
const widestChoice = 16

// rangeWords is what may stand in the field, and what 0 comes to just now.
func (t Tell) rangeWords(f scheme.Field) string {
	switch f.Kind {
	case scheme.KindChoice, scheme.KindText:
		return ""
	}
	words := say.In(f.For(t.Scheme).Allowed(t.Units))
	if f.Zero != "" && f.Number(t.Scheme) == 0 {
		if now := t.planned(f); now != "" {
			words = say.Text("%s; now %s", words, now)
		}
	}
	return say.Sentence(words)
}

// planned is what a field that stands at 0 comes to in the plan, in words.
func (t Tell) planned(f scheme.Field) string {
	plan := t.Ruff.Plan
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
		return say.In(scheme.Length(v, t.Units))
	}
	return strconv.FormatFloat(v, 'g', 4, 64) + " " + say.Text(f.Unit)
}
