package paper

import (
	"fmt"
	"strings"
	"testing"

	"ruffwright/testdata/frozen"
)

// TestFrozen holds the sheets to what they were: each word and where it stands, of
// cases as they are printed, of all else as it is laid out.
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
	for name, pages := range laidOut(t) {
		for _, p := range pages {
			text := fmt.Sprintf("%s %s %+v", p.Title, p.Holds, p.Items)
			for _, q := range p.Pictures {
				text += fmt.Sprint(" ", q.At, q.Drawing.Width_mm, q.Drawing.Height_mm)
			}
			texts[strings.ReplaceAll(name+"/"+p.Sheet, " ", "-")] += text
		}
	}
	frozen.Hold(t, texts)
}
