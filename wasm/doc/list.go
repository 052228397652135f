package doc

import "strconv"

// List gathers patches. What writes one is never inlined: hundreds of calls with a
// patch's ten fields took 5 % of the page's program.
type List []Patch

// Text makes words the text of the element id.
func (l *List) Text(id, words string) { l.set(OpText, id, "", words) }

// Value makes value that of the control id.
func (l *List) Value(id, value string) { l.set(OpValue, id, "", value) }

// Attr gives the element id an attribute.
func (l *List) Attr(id, name, value string) { l.set(OpAttr, id, name, value) }

// Bool gives it an attribute that is "true" or "false".
func (l *List) Bool(id, name string, is bool) { l.set(OpAttr, id, name, strconv.FormatBool(is)) }

//go:noinline
func (l *List) set(op Op, id, name, value string) {
	*l = append(*l, Patch{Op: op, ID: id, Name: name, Value: value})
}

// Flag gives it an attribute that is "true", or takes it away.
//
//go:noinline
func (l *List) Flag(id, name string, on bool) {
	*l = append(*l, Patch{Op: OpAttr, ID: id, Name: name, Value: "true", Gone: !on})
}

// Nodes puts nodes into the element id.
//
//go:noinline
func (l *List) Nodes(id string, nodes []Node) {
	*l = append(*l, Patch{Op: OpNodes, ID: id, Nodes: nodes})
}
