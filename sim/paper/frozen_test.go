package paper

import (
	"fmt"
	"strings"
	"testing"

	"ruffwright/testdata/frozen"
)

// TestFrozen holds the sheets to what they were: each word and where it stands.
func TestFrozen(t *testing.T) {
	texts := map[string]string{}
	for _, c := range cases() {
		read, _ := readPDF(t, pdfOf(t, input(t, c.set, c.u)))
		for n, p := range read {
			var b strings.Builder
			for _, w := range p.words {
				fmt.Fprintf(&b, "%+v ", w)
			}
			fmt.Fprintf(&b, "%+v", p)
			texts[fmt.Sprintf("%s-%d", c.name, n+1)] = b.String()
		}
	}
	frozen.Hold(t, texts)
}
