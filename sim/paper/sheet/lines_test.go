package sheet

import (
	"ruffwright/geom/word"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"ruffwright/geom/draw"
)

// TestWrap: no line is wider than it may be, no letter is lost, and a line ends only
// where the next word, or the next letter of a word too wide, has no room.
func TestWrap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-zA-Z,.]{1,14}`), 1, 30).Draw(t, "words")
		width := rapid.Float64Range(12, 80).Draw(t, "width")
		marked := ""
		for i, w := range words {
			marked += [...]string{"", "~~", "**"}[i%3] + w + [...]string{"", "~~", "**"}[i%3] + " "
		}
		const size = 3.3
		lines := new(Page).Wrap(draw.Upright, word.Name(marked), size, width)
		var all strings.Builder
		for n, l := range lines {
			if l.width(size) > width {
				t.Fatalf("line %d is %.2f wide, of %.2f", n, l.width(size), width)
			}
			end := 0.0
			for _, q := range l {
				if q.x < end-1e-9 {
					t.Fatalf("line %d: %q begins at %.2f, what stands before it ends at %.2f", n, q.text, q.x, end)
				}
				end = q.x + draw.TextWidth(q.text, size, q.face)
				all.WriteString(strings.ReplaceAll(q.text, " ", ""))
			}
			if n+1 < len(lines) {
				// The whole word, if the next line begins with one; it is broken only if it
				// is wider than a line, and then after its last letter that has room.
				next := lines[n+1][0]
				first, broken := begun(words, len(all.String()))
				room := width - l.width(size)
				if !broken {
					room -= draw.TextWidth(" ", size, next.face)
				}
				if draw.TextWidth(first, size, next.face) < room-1e-9 {
					t.Fatalf("%q would have fitted on line %d", first, n)
				}
			}
		}
		if want := strings.Join(words, ""); all.String() != want {
			t.Fatalf("%q was set as %q", want, all.String())
		}
	})
	// Faces without a space between them stay together; control characters are spaces.
	glued := new(Page).Wrap(draw.Upright, word.Name("**100**% of\tit"), 3, 100)
	if len(glued) != 1 || len(glued[0]) != 2 || glued[0][0].face != draw.Bold || glued[0][1].text != "% of it" || glued[0][1].x != draw.TextWidth("100", 3, draw.Bold) {
		t.Errorf("glued: %+v", glued)
	}
	if got := new(Page).Wrap(draw.Upright, word.Name("  "), 3, 100); got != nil {
		t.Errorf("of nothing: %+v", got)
	}
	// A name in bold letters keeps what stands for a mark elsewhere.
	if got := new(Page).Wrap(draw.Bold, word.Name("a**b"), 3, 100); len(got) != 1 || got[0][0].text != "a**b" {
		t.Errorf("a name: %+v", got)
	}
}

// begun is what comes after so many letters: the whole word that begins there, or the
// next letter of the one that is broken there.
func begun(words []string, letters int) (text string, broken bool) {
	for _, w := range words {
		switch {
		case letters == 0:
			return w, false
		case letters < len(w):
			return w[letters : letters+1], true
		}
		letters -= len(w)
	}
	return "", false
}
