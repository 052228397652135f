package figure

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// English words that were not put into the language of accents keep a plain vowel.
var (
	words = regexp.MustCompile(`\pL{3,}`)
	plain = regexp.MustCompile(`[aeiouyAEIOUY]`)
)

// TestLanguage draws every view in the language of accents: whatever is said on a
// sheet, in its title or its description has them, and no place of a template is
// left empty. The notes say numbers alone; their sentences are another room's.
func TestLanguage(t *testing.T) {
	t.Parallel()
	var notes []Note
	for i, sign := range []Sign{SignStop, SignMend, SignNote, SignCaution} {
		notes = append(notes, Note{Where: wheres[i], Text: word.Name(fmt.Sprint(i)), Sign: sign})
	}
	for _, d := range []int{0, 3, 6} {
		plan, shape := designs()[d].make(t)
		for _, tone := range append(tones(t, plan, shape), nil) {
			for _, v := range Views {
				for _, row := range []bool{false, v.Turned} {
					opt := Options{Language: word.Accented, Units: scheme.Inches, Notes: notes, Set: 1, Row: row, Tone: tone, Joins_mm: []float64{plan.Row[2].Place_mm}, Letter: "A"}
					a, err := v.Draw(plan, shape, opt)
					if err != nil {
						t.Fatal(err)
					}
					opt.Width_mm, opt.Height_mm, opt.Set, opt.Letter = 92, 80, plan.Crests, "B" // too small for all of it
					b, err := v.Draw(plan, shape, opt)
					if err != nil {
						t.Fatal(err)
					}
					both := draw.Beside(a, b, false, draw.Lens{})
					for _, said := range append(texts(both.Labels()), both.Title, both.Desc) {
						if strings.Contains(said, "%!") {
							t.Errorf("%s %s: %q", designs()[d].name, v.Name, said)
						}
						for _, w := range words.FindAllString(said, -1) {
							if plain.MatchString(w) {
								t.Errorf("%s %s: %q in %q is plain English", designs()[d].name, v.Name, w, said)
							}
						}
					}
				}
			}
		}
	}
	for _, v := range Views {
		for _, said := range []word.Text{v.Label, v.Shows, v.Tells} {
			if in := said.In(word.Accented); plain.MatchString(in) {
				t.Errorf("%s: %q is plain English", v.Name, in)
			}
		}
	}
}
