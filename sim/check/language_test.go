package check

import (
	"regexp"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
)

// plain finds a word of two English letters or more with a vowel: in a language
// whose vowels all have accents nothing of a template is such.
var plain = regexp.MustCompile(`[A-Za-z]*[aeiouyAEIOUY][A-Za-z]+`)

// inLanguages reports what a finding says that comes from no template, and places of
// templates that are left over or empty.
func inLanguages(t testing.TB, f Finding) {
	t.Helper()
	texts := []word.Text{f.Sentence}
	for _, m := range f.Remedies {
		texts = append(texts, m.Sentence)
		for _, tried := range []string{Trades, Fails} {
			m.Take(Outcome{Tried: tried, Then: 3.5, Brings: []string{"bow", "height"}})
			texts = append(texts, m.Outcome(f.Unit, scheme.Inches))
		}
	}
	for _, text := range texts {
		got := text.In(word.Accented)
		for _, w := range plain.FindAllString(got, -1) {
			if w != "in" { // inches
				t.Errorf("%s: %q is in no language: %s", f.ID, w, got)
			}
		}
		if strings.Contains(got, "%!") {
			t.Errorf("%s: %s", f.ID, text)
		}
	}
}

// TestAccented: every word of the findings of random schemes, as they are drawn, comes
// from a template. Each finding by itself is read where it is shown and mended.
func TestAccented(t *testing.T) {
	for seed := range uint64(150) {
		if r, err := sim.Draw(scheme.Random(seed)); err == nil {
			for _, f := range Find(r, scheme.Inches) {
				inLanguages(t, f)
			}
		}
	}
}
