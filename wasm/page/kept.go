package page

import (
	"fmt"
	"slices"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
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

// keptWords say whether the ruff at hand is saved; keptState is the same for
// the stylesheet.
func (p *Page) keptWords() (words, state string) {
	k := &p.keep
	switch {
	case k.stand == unasked:
		return say.Word("keep.will"), "none"
	case k.why != "":
		return say.Word("keep.not", "why", k.why), "not"
	case k.other != nil || k.otherWhy != "":
		return say.Word("keep.beside"), "beside"
	case p.state().old():
		return say.Word("keep.old"), "old"
	case p.guest:
		return say.Word("keep.link"), "none"
	case k.stands == "" || k.taken != k.stands:
		return say.Word("keep.will"), "none"
	}
	return say.Word("keep.saved"), "saved"
}

// offer is something that the reader may do about the news.
type offer struct{ do, with, label string }

// keepNews are what the reader must know about what is saved, and what may be
// done about it: the most pressing first, one at a time.
func (p *Page) keepNews() (words string, offers []offer) {
	k := &p.keep
	if words, offers = p.question(); words != "" {
		return words, offers
	}
	switch {
	case k.other != nil:
		return say.Word("news.other", "ruff", p.names(*k.other)),
			[]offer{{"other-take", "", say.Word("offer.othertake")}, {"other-leave", "", say.Word("offer.otherleave")}}
	case k.otherWhy != "":
		return say.Word("news.otherbad", "why", k.otherWhy), []offer{{"other-leave", "", say.Word("offer.otherleave")}}
	case p.guest && k.mine != nil && !same(k.mine.scheme, p.scheme):
		return say.Word("news.link", "ruff", p.names(*k.mine)),
			[]offer{{"own-back", "", say.Word("offer.back")}, {"link-take", "", say.Word("offer.on")}}
	case k.unread != "" && k.asides[k.unread].text != "":
		return say.Word("news.unread", "why", k.unwhy),
			[]offer{{"aside-save", k.unread, say.Word("offer.found")}, {"unread-leave", "", say.Word("offer.leave")}}
	case k.unread != "":
		return say.Word("news.stays", "why", k.unwhy), nil
	case k.restored:
		return say.Word("news.last", "ruff", p.names(p.atHand())), []offer{{"fresh", "", say.Word("offer.fresh")}}
	}
	return "", nil
}

// names tells one ruff from another in a few words.
func (p *Page) names(w work) string {
	s := w.scheme.Filled()
	words := say.Word("ruff."+string(s.Wearer.Part), "sets", s.Ruff.Sets,
		"depth", scheme.FormatLength(s.Ruff.Depth, p.units), "girth", scheme.FormatLength(s.Wearer.Girth, p.units))
	if s.Name != "" {
		words = say.Word("ruff.named", "name", s.Name, "ruff", words)
	}
	return words
}

// keepPatches show what is saved and what the reader may do about it.
func (p *Page) keepPatches() []doc.Patch {
	k := &p.keep
	words, state := p.keptWords()
	news, offers := p.keepNews()
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
			p.voice.first = told
		}
	}
	var buttons []doc.Node
	for _, o := range offers {
		buttons = append(buttons, doc.El("button", "type=button id="+o.do).With("data-do", o.do).With("data-with", o.with).Say(o.label))
	}
	list, n := p.asideNodes()
	hidden := doc.Patch{Op: doc.OpAttr, ID: "asides", Name: "hidden", Gone: n > 0}
	return []doc.Patch{
		{Op: doc.OpText, ID: "kept", Value: words}, {Op: doc.OpAttr, ID: "kept", Name: "data-state", Value: state},
		{Op: doc.OpAttr, ID: "kept", Name: "data-unsaved", Gone: state != "not" || !p.own || p.content() == k.filed},
		{Op: doc.OpAttr, ID: "news-box", Name: "data-state", Value: state},
		{Op: doc.OpText, ID: "news", Value: news}, {Op: doc.OpNodes, ID: "offers", Nodes: buttons},
		{Op: doc.OpNodes, ID: "asides-list", Nodes: list}, hidden,
		{Op: doc.OpText, ID: "asides-label", Value: p.asideLabel()},
	}
}

func (p *Page) asideLabel() string {
	return say.Word("aside", "n", len(p.keep.asides))
}

// asideNodes list what stands aside, the newest first, and how much that is.
func (p *Page) asideNodes() ([]doc.Node, int) {
	k := &p.keep
	keys := make([]string, 0, len(k.asides))
	for key := range k.asides {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b string) int {
		if d := k.asides[b].work.n - k.asides[a].work.n; d != 0 {
			return d
		}
		return strings.Compare(a, b)
	})
	var out []doc.Node
	for i, key := range keys {
		acts := doc.El("p", "class=acts")
		words := ""
		if a := k.asides[key]; a.why == "" {
			words = say.Sentence(p.names(a.work))
			acts.Nodes = append(acts.Nodes, p.asideButton("aside-take", i, key, say.Word("aside.take")))
		} else {
			words = say.Word("aside.bad", "why", a.why)
		}
		drop := say.Word("aside.drop")
		if k.doubt == key {
			drop = say.Word("aside.sure")
		}
		acts.Nodes = append(acts.Nodes, p.asideButton("aside-save", i, key, say.Word("aside.save")), p.asideButton("aside-drop", i, key, drop))
		out = append(out, doc.El("li", "", doc.El("p", "").Say(words), acts))
	}
	return out, len(keys)
}

func (p *Page) asideButton(do string, i int, key, label string) doc.Node {
	return doc.El("button", fmt.Sprintf("type=button id=%s-%d", do, i)).With("data-do", do).With("data-with", key).Say(label)
}
