package page

import (
	"slices"
	"strings"

	"ruffwright/wasm/doc"
)

// shown is what the document has, by patch.
type shown struct {
	values map[string]string
	nodes  map[string][]doc.Node
}

// lacks leaves out the patches that would change nothing and remembers the rest.
func (s *shown) lacks(lists ...[]doc.Patch) []doc.Patch {
	var out []doc.Patch
	for _, c := range slices.Concat(lists...) {
		key := string(c.Op) + " " + c.ID
		if c.Op == doc.OpAttr {
			key += " " + c.Name
		}
		if c.Op == doc.OpNodes {
			if was, ok := s.nodes[key]; ok && slices.EqualFunc(was, c.Nodes, doc.Node.Equal) {
				continue
			}
			s.nodes[key] = c.Nodes
			out = append(out, c)
			continue
		}
		now := c.Value
		if c.Gone {
			now = "\x00"
		}
		if was, ok := s.values[key]; ok && was == now {
			continue
		}
		s.values[key] = now
		out = append(out, c)
	}
	return out
}

// holds notes what a control holds: the reader put it there.
func (s *shown) holds(id, value string) { s.values[string(doc.OpValue)+" "+id] = value }

// forgets what the controls hold: a browser may have kept what was typed on an
// earlier visit.
func (s *shown) forgets() {
	for key := range s.values {
		if strings.HasPrefix(key, string(doc.OpValue)+" ") {
			delete(s.values, key)
		}
	}
}

// focus leads to the element id.
func focus(id string) []doc.Patch { return []doc.Patch{{Op: doc.OpFocus, ID: id}} }
