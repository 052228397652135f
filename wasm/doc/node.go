package doc

import (
	"html"
	"maps"
	"slices"
	"strings"
)

// Node is an element, built in the document by a patch or written as HTML when
// the site is built: one form for both, so that what is there before the
// program loads is what the program would put there.
type Node struct {
	Tag   string            `json:"tag"`
	Attr  map[string]string `json:"attr,omitempty"`
	Text  string            `json:"text,omitempty"`
	Nodes []Node            `json:"nodes,omitempty"`
}

// El makes a node: attributes as "name=value", "name=" for an empty one.
func El(tag, attrs string, nodes ...Node) Node {
	n := Node{Tag: tag, Nodes: nodes}
	for _, pair := range strings.Fields(attrs) {
		name, value, _ := strings.Cut(pair, "=")
		n = n.With(name, value)
	}
	return n
}

// With adds an attribute, whose value may hold anything.
func (n Node) With(name, value string) Node {
	attr := make(map[string]string, len(n.Attr)+1)
	for k, v := range n.Attr {
		attr[k] = v
	}
	attr[name] = value
	n.Attr = attr
	return n
}

// Say sets the text before the node's children.
func (n Node) Say(text string) Node { n.Text = text; return n }

// Text is a span of plain words.
func Text(words string) Node { return Node{Tag: "span", Text: words} }

// WithNodes adds children.
func (n Node) WithNodes(nodes ...Node) Node {
	n.Nodes = append(append([]Node(nil), n.Nodes...), nodes...)
	return n
}

// Control is the id of a field's control; its neighbours add a suffix.
func Control(key string) string { return "f-" + strings.ReplaceAll(key, ".", "-") }

// Measured is the id of the place beside a field for the word that does not hold, of what was
// typed and what was measured.
func Measured(key string) string { return Control(key) + "-measured" }

// Equal reports whether two nodes build the same.
func (n Node) Equal(m Node) bool {
	return n.Tag == m.Tag && n.Text == m.Text && maps.Equal(n.Attr, m.Attr) && slices.EqualFunc(n.Nodes, m.Nodes, Node.Equal)
}

// void are the elements without an end.
var void = []string{"input", "br", "hr", "img", "source"}

// HTML writes nodes, every text and attribute escaped. Attributes come in the
// order of their names.
func HTML(nodes ...Node) string {
	var b strings.Builder
	for _, n := range nodes {
		n.html(&b)
	}
	return b.String()
}

func (n Node) html(b *strings.Builder) {
	b.WriteString("<" + n.Tag)
	names := make([]string, 0, len(n.Attr))
	for name := range n.Attr {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		b.WriteString(" " + name)
		if v := n.Attr[name]; v != "" {
			b.WriteString(`="` + html.EscapeString(v) + `"`)
		}
	}
	b.WriteString(">")
	if slices.Contains(void, n.Tag) {
		return
	}
	b.WriteString(html.EscapeString(n.Text))
	for _, child := range n.Nodes {
		child.html(b)
	}
	b.WriteString("</" + n.Tag + ">")
	if slices.Contains([]string{"p", "div", "li", "option", "tr", "fieldset", "details"}, n.Tag) {
		b.WriteString("\n")
	}
}
