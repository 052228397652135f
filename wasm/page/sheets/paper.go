package sheets

import (
	"encoding/json"
	"slices"

	"ruffwright/wasm/doc"
)

// keptKey is the key of the device's storage under which the paper stands.
const keptKey = "ruffwright.paper"

// Recall takes the paper of the last visit; stored is an object of texts by key.
func (t *Sheets) Recall(stored string) {
	of := map[string]string{}
	if json.Unmarshal([]byte(stored), &of) != nil {
		return
	}
	t.stands = of[keptKey]
	if slices.Contains(papers, t.stands) {
		t.paper = t.stands
	}
}

// Stands notes what stands in the device's storage under a key. The paper of this page
// stays: another tab's is not taken, and is not written over before the next choice.
func (t *Sheets) Stands(key, text string) {
	if key == keptKey || key == "" {
		t.stands = text
	}
}

// Keep has the paper stored, if another one stands there.
func (t *Sheets) Keep() []doc.Patch {
	if t.paper == t.stands || t.stands == "" && t.paper == papers[0] {
		return nil
	}
	return []doc.Patch{{Op: doc.OpKeep, Name: keptKey, Value: t.paper, Was: t.stands}}
}
