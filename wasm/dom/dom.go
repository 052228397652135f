// Package dom carries events and patches between the page's logic and the
// document. It alone imports syscall/js; its tests have a twin of the document,
// kept in memory.
package dom

import (
	"encoding/json"
	"fmt"

	"ruffwright/wasm/doc"
)

// encode writes patches as the loader reads them.
func encode(patches []doc.Patch) string {
	if len(patches) == 0 {
		return "[]"
	}
	text, err := json.Marshal(patches)
	if err != nil { // strings and numbers alone: it cannot
		return "[]"
	}
	return string(text)
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
