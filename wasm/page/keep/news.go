package keep

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/work"
)

// storageWords words a refusal of the browser by the name of its error.
func storageWords(name string) string {
	switch name {
	case "SecurityError", "TypeError", "ReferenceError":
		return say.Text("the browser lets this page store nothing. Save the ruff as a file before you leave.")
	case "QuotaExceededError", "NS_ERROR_DOM_QUOTA_REACHED":
		return say.Text("the storage of this page is full. Save the ruff as a file.")
	}
	return say.Text("the browser could not store it (%s). Save the ruff as a file.", name)
}

// Words say whether the ruff at hand is saved; state is the same for the
// stylesheet. s is how it stands to what is typed.
func (k *Keep) Words(w *work.Work, s work.State) (words, state string) {
	switch {
	case k.stand == unasked:
		return say.Text("Changes will be saved on this device."), "none"
	case k.why != "":
		return say.Text("Not saved: %s", k.why), "not"
	case k.other != nil || k.otherWhy != "":
		return say.Text("Set aside until you decide between the two tabs."), "beside"
	case s.Old():
		return say.Text("Not saved: what is typed cannot be used. The last good ruff is kept."), "old"
	case w.Guest:
		return say.Text("A link’s ruff: saved when you change it."), "none"
	case k.stands == "" || k.taken != k.stands:
		return say.Text("Changes will be saved on this device."), "none"
	}
	return say.Text("Saved on this device."), "saved"
}

// offer is something that the reader may do about the news.
type offer struct{ do, with, label string }

// news are what the reader must know about what is saved, and what may be done
// about it: the most pressing first, one at a time.
func (k *Keep) news(w *work.Work, s work.State) (words string, offers []offer) {
	switch {
	case w.Doubt != "" && s.Old(): // give the last good ruff away, or go to what is refused
		ask, yes := "What is typed cannot be used, so the file would hold the last good ruff in its place. %s", "Save the last good ruff"
		if w.Doubt == "share" {
			ask, yes = "What is typed cannot be used, so the link would lead to the last good ruff in its place. %s", "Copy a link to the last good ruff"
		}
		return say.Text(ask, s.Entries()), []offer{
			{w.Doubt + "-last", "", say.Text(yes)},
			{"goto", s.Refused[0].Field.Key, say.Text("Go to: %s", say.Text(s.Refused[0].Field.Label))},
		}
	case k.other != nil:
		return say.Text("Another tab has saved a different ruff on this device: %s. Yours is kept beside it; nothing is written over until you decide.", names(k.other.Held, w.Units)),
			[]offer{{"other-take", "", say.Text("Take the other tab’s ruff")}, {"other-leave", "", say.Text("Keep mine")}}
	case k.otherWhy != "":
		return say.Text("Another tab has saved something on this device that this page cannot read. %s Yours is kept beside it; nothing is written over until you decide.", k.otherWhy), []offer{{"other-leave", "", say.Text("Keep mine")}}
	case w.Guest && k.mine != nil && !work.Same(k.mine.Scheme, w.Scheme):
		return say.Text("This ruff came by a link. Your own work is kept: %s.", names(*k.mine, w.Units)),
			[]offer{{"own-back", "", say.Text("Back to your own work")}, {"link-take", "", say.Text("Go on with this one")}}
	case k.unread != "" && k.asides[k.unread].text != "":
		return say.Text("What was saved on this device cannot be read, so the page begins afresh. It is set aside as it was found. %s", k.unwhy),
			[]offer{{"aside-save", k.unread, say.Text("Save what was found as a file")}, {"unread-leave", "", say.Text("Leave it set aside")}}
	case k.unread != "":
		return say.Text("What was saved on this device cannot be read, so the page begins afresh. It stays where it is, and nothing is saved over it. %s", k.unwhy), nil
	case w.Restored:
		return say.Text("Your ruff from last time: %s.", names(w.Held(), w.Units)), []offer{{"fresh", "", say.Text("Start afresh")}}
	}
	return "", nil
}

// names tells one ruff from another in a few words, lengths in units.
func names(h work.Held, units scheme.Units) string {
	s := h.Scheme.Filled()
	sizes := "%d sets, %s deep, for a neck of %s"
	if s.Wearer.Part == scheme.Wrist {
		sizes = "%d sets, %s deep, for a wrist of %s"
	}
	words := say.Text(sizes, s.Ruff.Sets, scheme.Length(s.Ruff.Depth, units), scheme.Length(s.Wearer.Girth, units))
	if s.Name != "" {
		words = say.Text("“%s”, %s", s.Name, words)
	}
	return words
}

// Patches show what is saved and what the reader may do about it.
func (k *Keep) Patches(w *work.Work, s work.State) []doc.Patch {
	words, state := k.Words(w, s)
	news, offers := k.news(w, s)
	if state == "not" && k.stand != denied {
		offers = append(offers, offer{"keep-again", "", say.Text("Try to save again")})
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
	return say.Text("Set aside on this device: %d", len(k.asides))
}

// asideNodes list what stands aside, the newest first.
func (k *Keep) asideNodes(units scheme.Units) []doc.Node {
	keys := slices.SortedFunc(maps.Keys(k.asides), func(a, b string) int {
		return cmp.Or(k.asides[b].ruff.N-k.asides[a].ruff.N, strings.Compare(a, b))
	})
	var out []doc.Node
	for i, key := range keys {
		acts := doc.El("p", "class=acts")
		words := ""
		if a := k.asides[key]; a.why == "" {
			words = say.Sentence(names(a.ruff.Held, units))
			acts.Nodes = append(acts.Nodes, asideButton("aside-take", i, key, say.Text("Take it up again")))
		} else {
			words = say.Text("Cannot be read here. %s", a.why)
		}
		drop := say.Text("Throw it away")
		if k.doubt == key {
			drop = say.Text("Yes, throw it away for good")
		}
		acts.Nodes = append(acts.Nodes, asideButton("aside-save", i, key, say.Text("Save it as a file")), asideButton("aside-drop", i, key, drop))
		out = append(out, doc.El("li", "", doc.El("p", "").Say(words), acts))
	}
	return out
}

func asideButton(do string, i int, key, label string) doc.Node {
	return doc.El("button", fmt.Sprintf("type=button id=%s-%d", do, i)).With("data-do", do).With("data-with", key).Say(label)
}
