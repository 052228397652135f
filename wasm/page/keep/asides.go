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

// Do carries out a command about what is saved, if it is one.
func (k *Keep) Do(name, with string) {
	if name != "aside-drop" {
		k.doubt = ""
	}
	switch name {
	case "other-leave":
		k.other, k.otherWhy, k.content = nil, "", ""
	case "link-take":
		k.mine = nil
	case "keep-again":
		k.content = ""
	case "unread-leave":
		k.unread = ""
	case "aside-drop":
		k.drop(with)
	}
}

// drop throws away what stands aside under a key, when it is asked for the second
// time.
func (k *Keep) drop(key string) {
	if _, ok := k.asides[key]; !ok {
		return
	}
	if k.doubt != key {
		k.doubt = key
		return
	}
	k.doubt = ""
	if k.unread == key {
		k.unread = ""
	}
	k.queue = append(k.queue, k.put(key, ""))
}

// Other is what a command takes in the place of the ruff at hand: another tab's, the
// reader's own, what stands aside under the key with; nil: nothing.
func (k *Keep) Other(name, with string) *work.Held {
	k.doubt = ""
	switch {
	case name == "own-back":
		return k.mine
	case name == "other-take" && k.other != nil:
		return &k.other.Held
	case name == "aside-take":
		if a, ok := k.asides[with]; ok && a.why == "" {
			return &a.ruff.Held
		}
	}
	return nil
}

// Aside is what stands aside under a key: its text as it was found, and, where it
// can be read, the ruff.
func (k *Keep) Aside(key string) (text string, ruff *work.Held) {
	k.doubt = ""
	a := k.asides[key]
	if a.why == "" {
		ruff = &a.ruff.Held
	}
	return a.text, ruff
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
