package tell

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ruffwright/geom/word"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/ask"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// deed is something to do about the ruff, listed once and known by its number.
type deed struct {
	ask.Way
	number int    // from 1; 0: it is told where its one finding is
	does   string // command and what it goes with, of its button
	with   string
	of     []string // the findings that offer it
}

// ends reports that a deed ends the finding of that id, or makes a note of it.
func (d *deed) ends(id string) bool { return ask.Change{Effect: d.Effect}.Ends(id) }

// spoils reports that it brings what stops or is to mend.
func (d *deed) spoils() bool { return ask.Change{Effect: d.Effect}.Spoils() }

// deeds are all that there is to do: first the ways that leave least, then the other
// changes that concern more than one finding, both numbered; and those that concern one.
func (t Tell) deeds() (numbered, own []deed, sought bool) {
	ways, done := t.Ask.Ways()
	changes := t.Ask.Changes()
	for i, w := range ways {
		d := deed{Way: w, number: i + 1, does: "mend-take", with: fmt.Sprint(i)}
		if at := slices.IndexFunc(changes, w.Is); at >= 0 {
			d.of, d.Sentences = changes[at].Of, []word.Text{changes[at].Sentence} // its lengths are in the reader's units
		}
		numbered = append(numbered, d)
	}
	for _, c := range changes {
		if slices.ContainsFunc(ways, func(w ask.Way) bool { return w.Is(c) }) {
			continue
		}
		d := deed{Way: ask.Way{Sentences: []word.Text{c.Sentence}, Changes: c.Changes, Effect: c.Effect}, does: "apply", with: fmt.Sprintf("%s %d", c.Of[0], c.Number), of: c.Of}
		if done && c.Effect != nil && (len(c.Of) > 1 || len(c.Effect.Gone)+len(c.Effect.Quiet) > 1) {
			d.number = len(numbered) + 1
			numbered = append(numbered, d)
		} else {
			own = append(own, d)
		}
	}
	return numbered, own, done
}

// AdviceNodes are what to do: the fewest changes that leave nothing wrong, and below them
// other ways, each once.
func (t Tell) AdviceNodes() []doc.Node {
	if t.Veiled || !ask.Heavy(t.Findings) {
		return nil
	}
	numbered, _, sought := t.deeds()
	if !sought {
		words := say.Text("What to do is told when the ruff is solved.")
		if tried, of := t.Ask.Far(); t.Ask.Busy() && tried > 0 {
			words = say.Text("Looking for what to do: %d of %d changes tried.", tried, of)
		}
		return []doc.Node{doc.El("p", "class=aside").Say(words)}
	}
	ways, _ := t.Ask.Ways()
	if len(ways) == 0 {
		out := []doc.Node{doc.El("p", "class=sentence").Say(say.Text("No change that was tried makes it better without spoiling something else."))}
		return append(out, t.otherNodes(numbered)...)
	}
	lead := say.Text("Do this: ")
	if left := len(ways[0].Effect.Left); left > 0 {
		lead = say.Count(left, "Do this first (one thing is then still wrong): ", "Do this first (%s things are then still wrong): ", say.Number(left))
	}
	out := []doc.Node{doc.El("div", "class=way", t.deedNodes(&numbered[0], "advice", lead)...)}
	return append(out, t.otherNodes(numbered[1:])...)
}

// otherNodes are the other ways, folded.
func (t Tell) otherNodes(others []deed) []doc.Node {
	if len(others) == 0 {
		return nil
	}
	list := doc.El("ul", "class=ways")
	for i := range others {
		list.Nodes = append(list.Nodes, doc.El("li", "", t.deedNodes(&others[i], "advice", "")...))
	}
	return []doc.Node{doc.El("details", "class=others id=other-ways",
		doc.El("summary", "").Say(say.Count(len(others), "One other way", "%s other ways", say.Capital(say.Number(len(others))))), list)}
}

// deedNodes are what a deed is, what it does, and its button.
func (t Tell) deedNodes(d *deed, place, lead string) []doc.Node {
	said := make([]string, len(d.Sentences))
	for i, s := range d.Sentences {
		said[i] = say.In(s)
	}
	what := doc.El("p", "class=sentence", doc.El("strong", "").Say(lead), doc.Text(strings.Join(said, " ")))
	return []doc.Node{what, doc.El("div", "class=acts", t.button(d, place), doc.El("p", "class=tried", t.effect(d)...))}
}

// button makes the changes of a deed. One that spoils something is only tried.
func (t Tell) button(d *deed, place string) doc.Node {
	label, all := say.Text("Apply"), say.In(d.Sentences[0])
	if d.spoils() || d.Effect == nil {
		label = say.Text("Try")
	}
	if d.number > 0 {
		label = say.Text("%s %d", label, d.number)
	}
	return doc.El("button", "type=button class=apply data-do="+d.does+" id="+strings.ReplaceAll(place+"-"+d.does+"-"+d.with, " ", "-")).
		With("data-with", d.with).With("aria-label", say.Text("%s: %s", label, all)).Say(label)
}

// effect says what a deed does: what is gone, what is left, what is new, and what the ruff
// then takes.
func (t Tell) effect(d *deed) []doc.Node {
	e := d.Effect
	if e == nil {
		return nil
	}
	var out []doc.Node
	list := func(class, words string, ids []string) {
		if len(ids) > 0 {
			titles := make([]string, len(ids))
			for i, id := range ids {
				titles[i] = say.Inside(say.Title(id))
			}
			out = append(out, doc.El("span", "class="+class).Say(say.Text(words, strings.Join(titles, "; "))), doc.Text(" "))
		}
	}
	list("new", "New: %s.", e.New)
	list("gone", "Gone: %s.", slices.Concat(e.Gone, e.Quiet))
	list("left", "Milder: %s.", e.Eased)
	list("left", "Left: %s.", slices.DeleteFunc(slices.Clone(e.Left), func(id string) bool { return slices.Contains(e.Eased, id) }))
	if len(e.Left)+len(e.New) == 0 && len(e.Gone) > 0 {
		out = append(out, doc.Text(say.Text("Nothing is left to stop for or to mend.")+" "))
	}
	if now := t.Ask.Now(); now != nil {
		out = append(out, doc.Text(t.price(*now, e.Then)))
	}
	return out
}

// price says what changes of what the ruff takes and how it hangs, each with what it is
// now, and what does not.
func (t Tell) price(now, then wire.Price) string {
	length := func(mm float64) string { return say.Length(math.Round(2*mm)/2, t.Units) }
	cloth := func(p wire.Price) string { return say.Length(math.Ceil(p.Cloth_mm/10)*10, t.Units) }
	starch := func(p wire.Price) string {
		if p.Starch_mm == 0 {
			return say.Text("none")
		}
		return say.Length(p.Starch_mm, t.Units)
	}
	hours := func(p wire.Price) string {
		return say.Text("%d to %d hours", int(math.Round(p.Least_h)), int(math.Round(p.Most_h)))
	}
	var becomes, stays []string
	for _, row := range []struct{ name, says, now, then string }{
		{say.Text("height"), "height %s (now %s)", length(now.Height_mm), length(then.Height_mm)},
		{say.Text("droop"), "droop %s (now %s)", length(now.Droop_mm), length(then.Droop_mm)},
		{say.Text("bow"), "moves %s when the wearer bows (now %s)", length(now.Bow_mm), length(then.Bow_mm)},
		{say.Text("cloth"), "cloth %s (now %s)", cloth(now), cloth(then)},
		{say.Text("starch"), "starched to a bending length of %s (now %s)", starch(now), starch(then)},
		{say.Text("work"), "work %s (now %s)", hours(now), hours(then)},
	} {
		if row.now == row.then {
			stays = append(stays, row.name)
		} else {
			becomes = append(becomes, say.Text(row.says, row.then, row.now))
		}
	}
	words := ""
	if len(becomes) > 0 {
		words = say.Sentence(say.Capital(strings.Join(becomes, "; ")))
	}
	if len(stays) > 0 {
		words = strings.TrimSpace(say.Text("%s As now: %s.", words, strings.Join(stays, ", ")))
	}
	return words
}

// best is what ends a finding and spoils least; nil where nothing does.
func best(f check.Finding, all []deed) *deed {
	for _, spoiling := range []bool{false, true} {
		for i := range all {
			if d := &all[i]; d.ends(f.ID) && d.spoils() == spoiling {
				return d
			}
		}
	}
	return nil
}
