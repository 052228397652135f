package tell

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// decisive are the decisions that make a ruff: the part of the form that is open.
var decisive = []string{"wearer.girth", "wearer.ease", "ruff.sets", "ruff.depth", "ruff.height", "pleat.anchor", "cloth.name", "starch.bend"}

// measurable are the decisions that a picture can tell.
var measurable = []string{"ruff.depth", "ruff.height", "ruff.sets"}

// Form is the whole form for the page's state: what makes a ruff, then all else by
// subject, folded, in the order of the job.
func (t Tell) Form() []doc.Node {
	short := doc.El("fieldset", "class=short id=short", doc.El("legend", "class=hidden").Say(say.Text("What makes a ruff")))
	var makes []scheme.Field // without their helps: one line of words is enough there
	for _, key := range decisive {
		f, _ := scheme.Lookup(key)
		short.Nodes = append(short.Nodes, t.row(f))
		f.Help = ""
		makes = append(makes, f)
	}
	short.Nodes = append(short.Nodes, termsOf(makes, "short")...)
	out := []doc.Node{short}
	for _, g := range scheme.Groups() {
		fields := folded(g.Key)
		if len(fields) == 0 {
			continue
		}
		label := say.Text(g.Label)
		set := doc.El("fieldset", "", doc.El("legend", "class=hidden").Say(label))
		if g.Key == "look" {
			set.Nodes = append(set.Nodes, doc.El("p", "class=acts", doc.El("button", "type=button id=easel-open data-do=easel data-with=open").Say(say.Text("Measure a portrait"))))
		}
		for _, f := range fields {
			set.Nodes = append(set.Nodes, t.row(f))
		}
		set.Nodes = append(set.Nodes, termsOf(fields, "in-"+g.Key)...)
		words, _ := t.told(fields)
		out = append(out, doc.El("details", "class=group id=group-"+g.Key,
			doc.El("summary", "id=group-"+g.Key+"-label", doc.El("span", "class=subject").Say(label), doc.Text(" "), doc.El("span", "class=told id=told-"+g.Key).Say(words)),
			set))
	}
	return out
}

// folded are the fields of a group that stand in its folded part.
func folded(group string) (all []scheme.Field) {
	for _, f := range fieldTable {
		if f.Group == group && !slices.Contains(decisive, f.Key) {
			all = append(all, f)
		}
	}
	return all
}

// told is what the fields of a folded part stand at, for its summary: those that are
// often changed, and of the others those that are not as at first; or how many entries in
// it cannot be used.
func (t Tell) told(fields []scheme.Field) (words string, bad int) {
	shown, first := t.Scheme.Looked(), scheme.First()
	var list []string
	for _, f := range fields {
		if _, wrong := t.Wrong[f.Key]; wrong {
			bad++
		}
		if f.Kind == scheme.KindMarks || f.Rare && f.Show(shown, t.Units) == f.Show(first, t.Units) {
			continue
		}
		if words := t.standsAt(f, shown); words != "" {
			list = append(list, words)
		}
	}
	if bad > 0 {
		return say.Count(bad, "✕ one entry in it cannot be used", "✕ %s entries in it cannot be used", say.Number(bad)), bad
	}
	if len(list) == 0 {
		return say.Text("as at first"), 0
	}
	return strings.Join(list, ", "), 0
}

// standsAt is a field and its value in a few words.
func (t Tell) standsAt(f scheme.Field, s scheme.Scheme) string {
	value := f.Show(s, t.Units)
	switch f.Kind {
	case scheme.KindText: // the maker's own words may be long
		if value == "" {
			return say.Text("not named")
		}
		if f.Key != "name" {
			return say.Inside(say.Text(f.Label))
		}
		return say.Text("named")
	case scheme.KindChoice:
		for _, c := range f.Choices {
			if c.Value == value {
				value = say.Text(c.Label)
			}
		}
	default:
		if f.Zero != "" && f.Number(s) == 0 {
			value = say.Text(f.Zero)
		} else if unit := say.Text(f.UnitIn(t.Units)); unit != "" {
			value += " " + unit
		}
	}
	return say.Text("%s %s", say.Inside(say.Text(f.Label)), value)
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
	row := doc.El("div", "class=field id="+id+"-row").With("data-kind", string(f.Kind))
	for _, choice := range f.Choices {
		if utf8.RuneCountInString(say.Text(choice.Label)) > widestChoice {
			row = row.With("data-wide", "")
		}
	}
	row = row.WithNodes(
		doc.El("label", "for="+id).Say(say.Text(f.Label)),
		doc.El("span", "class=entry", stepped(f, c)...).WithNodes(doc.El("span", "class=unit id="+id+"-unit").Say(say.Text(f.UnitIn(t.Units)))))
	if slices.Contains(measurable, f.Key) {
		row = row.WithNodes(doc.El("p", "class=measured tabindex=-1 id="+doc.Measured(f.Key)))
	}
	return row.WithNodes(
		doc.El("p", "class=wrong id="+id+"-wrong"),
		doc.El("p", "class=decided id="+id+"-decided").Say(t.Decided(f)),
		doc.El("div", "class=tip",
			doc.El("p", "id="+id+"-help").Say(say.Text(f.Help)),
			doc.El("p", "",
				doc.El("span", "id="+id+"-range").Say(t.rangeWords(f)), doc.Text(" "),
				doc.El("span", "id="+id+"-changes").Say(say.Text("Changes: %s", say.Inside(say.Text(f.Changes)))))),
	)
}

// stepped is the control of a field; a number that makes a ruff stands between two
// buttons that a thumb can hit.
func stepped(f scheme.Field, control doc.Node) []doc.Node {
	if !slices.Contains(decisive, f.Key) || f.Kind == scheme.KindChoice {
		return []doc.Node{control}
	}
	step := func(way, sign, name string) doc.Node {
		return doc.El("button", "type=button class=step data-do=step id="+doc.Control(f.Key)+way).With("data-with", f.Key+" "+way).
			With("aria-label", say.Text(name, say.Text(f.Label))).Say(sign)
	}
	return []doc.Node{step("-1", "−", "Less: %s"), control, step("+1", "+", "More: %s")}
}

// Find shows the fields alone whose label, help or choices hold the words, with the parts
// of the form that they stand in unfolded; without words, all fields.
func (t Tell) Find(words string) []doc.Patch {
	var out doc.List
	words = strings.ToLower(strings.TrimSpace(words))
	within := map[string]bool{}
	found := 0
	for _, f := range fieldTable {
		text := say.Text(f.Label) + " " + say.Text(f.Help) + " " + say.Text(f.Changes)
		for _, c := range f.Choices {
			text += " " + say.Text(c.Label)
		}
		is := strings.Contains(strings.ToLower(text), words)
		if is {
			found++
			within[f.Group] = within[f.Group] || !slices.Contains(decisive, f.Key)
		}
		out.Flag(doc.Control(f.Key)+"-row", "hidden", !is)
	}
	for _, g := range scheme.Groups() {
		if len(folded(g.Key)) > 0 {
			out.Flag("group-"+g.Key, "open", words != "" && within[g.Key])
			out.Flag("group-"+g.Key, "hidden", words != "" && !within[g.Key])
		}
	}
	told := ""
	if words != "" {
		told = say.Count(found, "One decision speaks of it.", "%s decisions speak of it.", say.Capital(say.Number(found)))
	}
	out.Text("found", told)
	return out
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
