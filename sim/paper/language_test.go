package paper

import (
	"maps"
	"strings"
	"testing"
	"unicode"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/cloth"
)

// plainWords gives the words of three letters or more that hold a vowel without an
// accent, in small letters.
func plainWords(text string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }) {
		if len([]rune(w)) >= 3 && strings.ContainsAny(w, "aeiouyAEIOUY") {
			out[strings.ToLower(w)] = true
		}
	}
	return out
}

// let gives the words that may stand plain on the sheets: names, and what comes from
// rooms whose words are not Texts yet. A room that has Texts goes from this list.
func let(in Input) map[string]bool {
	through := []string{in.Ruff.Plan.Scheme.Name, in.Ruff.Plan.Scheme.Cloth.Name}
	for _, f := range in.Findings { // sim/check: sentences
		through = append(through, f.Sentence)
	}
	through = append(through, patternWords(in)...)
	through = append(through, clothWords()...)
	out := map[string]bool{}
	for _, t := range through {
		maps.Copy(out, plainWords(t))
	}
	return out
}

// patternWords are those of geom/pattern: names of pieces, seams and parts, the notes
// on hours.
func patternWords(in Input) []string {
	words := in.Pattern.Work().Notes
	for _, s := range in.Pattern.Work().Seams {
		words = append(words, s.Name, s.Stitch, s.Source)
	}
	for _, s := range in.Pattern.Swatches() {
		words = append(words, s.Name)
	}
	for _, q := range in.Pattern.Cut.Layout.Placed {
		words = append(words, q.Name)
	}
	for _, m := range in.Pattern.Band.Marks {
		words = append(words, m.Name)
	}
	for _, c := range in.Pattern.Band.Closures {
		words = append(words, c.Kind)
	}
	return words
}

// clothWords are those of sim/cloth: names of baths and sources of their figures.
func clothWords() []string {
	bath, _ := cloth.NewBath(scheme.Maize, 40, 1, 100)
	words := []string{bath.Starch.RangeSource}
	for _, s := range cloth.Strengths() {
		words = append(words, s.Name)
	}
	return words
}

// TestAccented: every word of the sheets comes from a template, for in a language
// whose templates have accents none is plain; and no place of a template is left
// over or empty.
func TestAccented(t *testing.T) {
	for _, c := range cases() {
		in := input(t, c.set, c.u)
		in.Language = word.Accented
		through, code := let(in), strings.ToLower(in.Ruff.Plan.Scheme.Code())
		read, _ := readPDF(t, pdfOf(t, in))
		for n, p := range read {
			var text strings.Builder
			for _, w := range p.words {
				text.WriteString(w.text + " ")
			}
			if said := text.String(); strings.Contains(said, "%!") {
				t.Errorf("%s, sheet %d: %s", c.name, n+1, said)
			}
			for w := range plainWords(text.String()) {
				if !through[w] && !strings.Contains(code, w) {
					t.Errorf("%s, sheet %d: %q is in no language", c.name, n+1, w)
				}
			}
		}
	}
}
