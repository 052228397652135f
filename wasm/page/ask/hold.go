package ask

import (
	"fmt"
	"math"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// Hold asks what would hold.
func (s *Ask) Hold(now_ms float64) []doc.Patch {
	if s.hold.wanted {
		return nil
	}
	s.hold = hold{wanted: true}
	if s.hands[0].stand == gone || s.halted {
		return s.Halt(now_ms) // the reader asks for it: that sets it to work again
	}
	return nil
}

// held takes the answer.
func (s *Ask) held(h wire.Held) {
	s.hold = hold{got: &h}
	s.Voice.Soon(s.holdWords())
}

// Holding are the changes of way n that holds and how it is sewn; false where there is
// none.
func (s *Ask) Holding(n int) (changes []check.Change, kind string, ok bool) {
	if s.hold.got == nil || n < 0 || n >= len(s.hold.got.Ways) {
		return nil, "", false
	}
	w := s.hold.got.Ways[n]
	return w.Changes, say.In(w.Kind.Text), true
}

// holdWords say how far the search is.
func (s *Ask) holdWords() string {
	switch h := &s.hold; {
	case !h.why.Empty():
		return say.Sentence(say.In(h.why))
	case h.got != nil && len(h.got.Ways) == 0:
		return say.Text("Nothing was found that holds, with this look and this cloth.")
	case h.got != nil:
		return say.Count(len(h.got.Ways), "One way holds.", "%s ways hold, the one with least cloth first.", say.Capital(say.Number(len(h.got.Ways))))
	case h.wanted && s.with(forHold) != nil:
		return say.Text("Looking for ways that hold: %d tried.", s.with(forHold).far.Cells)
	case h.wanted:
		return say.Text("It begins when the ruff is solved.")
	}
	return ""
}

// holdNodes list the ways that hold, with what each costs, and those that do not, folded.
func (s *Ask) holdNodes() []doc.Node {
	h := s.hold.got
	if h == nil {
		return nil
	}
	list := doc.El("ol", "class=ways")
	for i, w := range h.Ways {
		way := doc.El("li", "", doc.El("p", "class=sentence", doc.El("strong", "").Say(say.Text("Sewn to %s.", w.Kind.Text)), doc.Text(" "+s.costs(w))))
		if len(w.Notes) > 0 {
			notes := make([]string, len(w.Notes))
			for k, n := range w.Notes {
				notes[k] = say.Inside(say.In(n.Text))
			}
			way.Nodes = append(way.Nodes, doc.El("p", "class=aside").Say(say.Text("Worth knowing: %s.", say.Listed(notes))))
		}
		if len(w.Changes) == 0 {
			way.Nodes = append(way.Nodes, doc.El("p", "class=aside").Say(say.Text("That is the ruff as it is.")))
		} else {
			way.Nodes = append(way.Nodes, doc.El("p", "class=aside").Say(say.Text("It changes: %s.", s.changed(w.Changes))),
				doc.El("p", "class=acts", doc.El("button", fmt.Sprintf("type=button class=apply data-do=hold-take data-with=%d id=hold-take-%d", i, i)).
					Say(say.Text("Apply: %s", w.Kind.Text))))
		}
		list.Nodes = append(list.Nodes, way)
	}
	var out []doc.Node
	if len(list.Nodes) > 0 {
		out = append(out, list)
	}
	if len(h.Refused) > 0 {
		not := doc.El("ul", "")
		for _, r := range h.Refused {
			not.Nodes = append(not.Nodes, doc.El("li", "").Say(say.Text("Not %s: %s", r.Kind.Text, say.Sentence(say.In(r.Why[s.Want.Units].Text)))))
		}
		out = append(out, doc.El("details", "class=others id=hold-not", doc.El("summary", "").Say(say.Text("What does not hold")), not))
	}
	if len(h.Assumed) > 0 {
		out = append(out, doc.El("p", "class=aside").Say(say.Text("Taken for granted, as a new ruff has it: %s.", s.changed(h.Assumed))))
	}
	return out
}

// costs say what a way takes, and how it then hangs.
func (s *Ask) costs(w wire.HoldingWay) string {
	u := s.Want.Units
	starch := say.Text("no starch")
	if w.Starch_mm > 0 {
		starch = say.Text("starch to a bending length of %s", say.Length(w.Starch_mm, u))
	}
	return say.Text("Cloth %s, %s, %d to %d hours. It stands %s high and moves %s when the wearer bows.",
		say.Length(math.Ceil(w.Cloth_mm/10)*10, u), starch, int(math.Round(w.Least_h)), int(math.Round(w.Most_h)), say.Length(math.Round(2*w.Height_mm)/2, u), say.Length(w.Bow_mm, u))
}

// value is what a field holds, as it is said.
func (s *Ask) value(f scheme.Field, of scheme.Scheme) string {
	shown := f.Show(of, s.Want.Units)
	for _, c := range f.Choices {
		if c.Value == shown {
			return say.Text(c.Label)
		}
	}
	if unit := f.UnitIn(s.Want.Units); unit != "" {
		return say.Text("%s %s", shown, say.Text(unit))
	}
	return shown
}

// changed lists the fields that a way changes, with what they become.
func (s *Ask) changed(changes []check.Change) string {
	said := make([]string, 0, len(changes))
	for _, c := range changes {
		f, ok := scheme.Lookup(c.Key)
		if !ok {
			continue
		}
		var with scheme.Scheme
		if with.Set(c.Key, c.Value) != nil {
			continue
		}
		said = append(said, say.Text("%s: %s", say.Inside(say.Text(f.Label)), s.value(f, with)))
	}
	return strings.Join(said, "; ")
}
