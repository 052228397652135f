package keep

import (
	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/work"
)

// storageWords words a refusal of the browser by the name of its error.
func storageWords(name string) string {
	switch name {
	case "SecurityError", "TypeError", "ReferenceError":
		return say.Word("keep.denied")
	case "QuotaExceededError", "NS_ERROR_DOM_QUOTA_REACHED":
		return say.Word("keep.full")
	}
	return say.Word("keep.error", "name", name)
}

// Words say whether the ruff at hand is saved; state is the same for the
// stylesheet. s is how it stands to what is typed.
func (k *Keep) Words(w *work.Work, s work.State) (words, state string) {
	switch {
	case k.stand == unasked:
		return say.Word("keep.will"), "none"
	case k.why != "":
		return say.Word("keep.not", "why", k.why), "not"
	case k.other != nil || k.otherWhy != "":
		return say.Word("keep.beside"), "beside"
	case s.Old():
		return say.Word("keep.old"), "old"
	case w.Guest:
		return say.Word("keep.link"), "none"
	case k.stands == "" || k.taken != k.stands:
		return say.Word("keep.will"), "none"
	}
	return say.Word("keep.saved"), "saved"
}

// offer is something that the reader may do about the news.
type offer struct{ do, with, label string }

// news are what the reader must know about what is saved, and what may be done
// about it: the most pressing first, one at a time.
func (k *Keep) news(w *work.Work, s work.State) (words string, offers []offer) {
	switch {
	case w.Doubt != "" && s.Old(): // give the last good ruff away, or go to what is refused
		return say.Word("ask."+w.Doubt, "entries", s.Entries()), []offer{
			{w.Doubt + "-last", "", say.Word("ask." + w.Doubt + ".yes")},
			{"goto", s.Refused[0].Field.Key, say.Word("state.goto", "field", s.Refused[0].Field.Label)},
		}
	case k.other != nil:
		return say.Word("news.other", "ruff", names(k.other.Held, w.Units)),
			[]offer{{"other-take", "", say.Word("offer.othertake")}, {"other-leave", "", say.Word("offer.otherleave")}}
	case k.otherWhy != "":
		return say.Word("news.otherbad", "why", k.otherWhy), []offer{{"other-leave", "", say.Word("offer.otherleave")}}
	case w.Guest && k.mine != nil && !work.Same(k.mine.Scheme, w.Scheme):
		return say.Word("news.link", "ruff", names(*k.mine, w.Units)),
			[]offer{{"own-back", "", say.Word("offer.back")}, {"link-take", "", say.Word("offer.on")}}
	case k.unread != "" && k.asides[k.unread].text != "":
		return say.Word("news.unread", "why", k.unwhy),
			[]offer{{"aside-save", k.unread, say.Word("offer.found")}, {"unread-leave", "", say.Word("offer.leave")}}
	case k.unread != "":
		return say.Word("news.stays", "why", k.unwhy), nil
	case w.Restored:
		return say.Word("news.last", "ruff", names(w.Held(), w.Units)), []offer{{"fresh", "", say.Word("offer.fresh")}}
	}
	return "", nil
}

// names tells one ruff from another in a few words, lengths in units.
func names(h work.Held, units scheme.Units) string {
	s := h.Scheme.Filled()
	words := say.Word("ruff."+string(s.Wearer.Part), "sets", s.Ruff.Sets,
		"depth", scheme.FormatLength(s.Ruff.Depth, units), "girth", scheme.FormatLength(s.Wearer.Girth, units))
	if s.Name != "" {
		words = say.Word("ruff.named", "name", s.Name, "ruff", words)
	}
	return words
}

// Patches show what is saved and what the reader may do about it.
func (k *Keep) Patches(w *work.Work, s work.State) []doc.Patch {
	words, state := k.Words(w, s)
	news, offers := k.news(w, s)
	if state == "not" {
		offers = append(offers, offer{"keep-again", "", say.Word("offer.again")})
	}
	if state == "not" && k.stand == denied {
		offers = offers[:len(offers)-1]
	}
	told := news
	if state == "not" && news == "" {
		told = words
	}
	if told != k.told {
		k.told = told
		if told != "" {
			k.Voice.First(told)
		}
	}
	var buttons []doc.Node
	for _, o := range offers {
		buttons = append(buttons, doc.El("button", "type=button id="+o.do).With("data-do", o.do).With("data-with", o.with).Say(o.label))
	}
	list := k.asideNodes(w.Units)
	var out doc.List
	out.Text("kept", words)
	out.Attr("kept", "data-state", state)
	out = append(out, doc.Patch{Op: doc.OpAttr, ID: "kept", Name: "data-unsaved", Gone: state != "not" || !w.Own || content(w.Held()) == k.filed})
	out.Attr("news-box", "data-state", state)
	out.Text("news", news)
	out.Nodes("offers", buttons)
	out.Nodes("asides-list", list)
	out = append(out, doc.Patch{Op: doc.OpAttr, ID: "asides", Name: "hidden", Gone: len(list) > 0})
	out.Text("asides-label", k.AsideLabel())
	return out
}

// AsideLabel says how many ruffs stand aside.
func (k *Keep) AsideLabel() string {
	return say.Word("aside", "n", len(k.asides))
}
