// Package dom carries events and patches between the page's logic and the
// document. It alone imports syscall/js; its tests have a twin of the document,
// kept in memory.
package dom

import (
	"encoding/json"
	"fmt"

	"ruffwright/wasm/doc"
)

// sent is a patch as the loader reads it: its body is the one of that number, from 1,
// among those that come beside the text; 0 is none.
type sent struct {
	doc.Patch
	Body int `json:"body,omitempty"`
}

// encode writes patches as the loader reads them.
func encode(patches []doc.Patch) (text string, bodies [][]byte) {
	list := make([]sent, len(patches))
	for i, p := range patches {
		list[i].Patch = p
		if p.Body != nil {
			bodies = append(bodies, p.Body)
			list[i].Body = len(bodies)
		}
	}
	out, err := json.Marshal(list)
	if err != nil { // strings and numbers alone: it cannot
		return "[]", nil
	}
	return string(out), bodies
}

// guarded calls handle and turns a panic into an error, so that one fault in
// one event never stops the page unsaid.
func guarded(handle func(doc.Event) []doc.Patch, e doc.Event) (patches []doc.Patch, err error) {
	defer func() {
		if why := recover(); why != nil {
			patches, err = nil, fmt.Errorf("%s %s: %v", e.Kind, e.Name, why)
		}
	}()
	return handle(e), nil
}
