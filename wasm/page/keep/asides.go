package keep

import "ruffwright/wasm/page/work"

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
