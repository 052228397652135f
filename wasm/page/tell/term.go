package tell

import (
	"regexp"
	"slices"
	"strings"

	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// termID is the id of what a trade word means.
func termID(name string) string { return "word-" + name }

// termsIn are the trade words that stand in English labels and helps, in the order of
// their table.
func termsIn(texts ...string) (out []figure.Term) {
	text := strings.ToLower(strings.Join(texts, " "))
	for _, t := range figure.Terms {
		if slices.ContainsFunc(t.In, func(word string) bool {
			return regexp.MustCompile(`\b` + regexp.QuoteMeta(word) + `\b`).MatchString(text)
		}) {
			out = append(out, t)
		}
	}
	return out
}

// termButton asks what a trade word means.
func termButton(t figure.Term, where string) doc.Node {
	label := say.In(t.Label)
	return doc.El("button", "type=button class=term data-do=word id="+where+"-"+t.Name).With("data-with", t.Name).
		With("aria-label", say.Text("What does this word mean: %s", label)).Say(label)
}

// termsOf is a line that asks about the trade words in the labels and helps of fields;
// nil where there are none.
func termsOf(fields []scheme.Field, where string) []doc.Node {
	var texts []string
	for _, f := range fields {
		texts = append(texts, f.Label, f.Help)
	}
	terms := termsIn(texts...)
	if len(terms) == 0 {
		return nil
	}
	line := doc.El("p", "class=terms", doc.Text(say.Text("Words:")))
	for _, t := range terms {
		line = line.WithNodes(termButton(t, where))
	}
	return []doc.Node{line}
}

// termOf is the trade word that a line of the numbers begins with.
func termOf(label string) (figure.Term, bool) {
	for _, t := range figure.Terms {
		if is := say.In(t.Label); label == is || strings.HasPrefix(label, is+" ") {
			return t, true
		}
	}
	return figure.Term{}, false
}
