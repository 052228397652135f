package paper

import (
	"encoding/xml"
	"io"
	"maps"
	"slices"
	"strings"
	"testing"
	"unicode"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/paper/sheet"
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

// let gives the words that may stand plain: what a maker typed, and names of sources.
func let(in Input) map[string]bool {
	through := []string{in.Ruff.Plan.Scheme.Name, "katescornerofhist.blogspot.com/2018/06/a-new-ruffian.html", "evangelisch.de", "Sarpur"}
	out := map[string]bool{}
	for _, t := range through {
		maps.Copy(out, plainWords(t))
	}
	return out
}

// readable is all that somebody can read of an input in its language, by where it stands:
// the sheets' PDF, the SVGs of the pieces and of all views with the findings' notes.
func readable(t *testing.T, in Input) map[string]string {
	t.Helper()
	out := map[string]string{}
	read, _ := readPDF(t, pdfOf(t, in))
	for n, p := range read {
		for _, w := range p.words {
			out["sheet "+sheet.JoinLetters(n)] += w.text + " "
		}
	}
	pieces, err := Pieces(in)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pieces {
		out["piece "+p.Name] = p.Name + " " + lettersOf(t, p.SVG)
	}
	opt := figure.Options{Language: in.Language, Units: in.Units, Set: 2, Joins_mm: pattern.Joins(in.Ruff.Plan)}
	for _, f := range in.Findings {
		opt.Notes = append(opt.Notes, figure.Note{Where: string(f.Where), At: f.At, Text: f.Sentence, Sign: figure.Sign(f.Severity)})
	}
	for _, v := range figure.Views {
		d, err := v.Draw(in.Ruff.Plan, in.Ruff.Folded.Shape, opt)
		if err != nil {
			t.Fatal(err)
		}
		d.Items = slices.DeleteFunc(d.Items, func(it draw.Item) bool { _, cloth := it.(draw.Solid); return cloth }) // slow, and says nothing
		out["view "+v.Name] = lettersOf(t, d.SVG())
	}
	return out
}

// lettersOf is all character data of an SVG.
func lettersOf(t *testing.T, svg []byte) string {
	t.Helper()
	var out strings.Builder
	for dec := xml.NewDecoder(strings.NewReader(string(svg))); ; {
		token, err := dec.Token()
		if err == io.EOF {
			return out.String()
		}
		if err != nil {
			t.Fatal(err)
		}
		if text, ok := token.(xml.CharData); ok {
			out.Write(text)
			out.WriteByte(' ')
		}
	}
}

// TestAccented: every word that can be read comes from a template, for in a language
// whose templates have accents none is plain; and no place of a template is left over
// or empty.
func TestAccented(t *testing.T) {
	for _, c := range cases() {
		in := input(t, c.set, c.u)
		in.Language = word.Accented
		through, code := let(in), strings.ToLower(in.Ruff.Plan.Scheme.Code())
		for where, text := range readable(t, in) {
			if strings.Contains(text, "%!") {
				t.Errorf("%s, %s: %s", c.name, where, text)
			}
			for w := range plainWords(text) {
				if !through[w] && !strings.Contains(code, w) {
					t.Errorf("%s, %s: %q is in no language", c.name, where, w)
				}
			}
		}
	}
}

// TestSecondLanguage: another language is one table. What it has stands on the sheets,
// on the pieces and on the drawings in its words, order and decimal mark; for the rest
// the English stands.
func TestSecondLanguage(t *testing.T) {
	table := map[string]string{
		"Cloth: buy and cut":    "Keln: wesk ost rip",
		"**Mount** %s":          "%s **dof**",
		"strip %d":              "lenn %d",
		"wearer's left":         "fol-mir",
		"From above":            "Osk",
		"opening, at the front": "lukk, fol",
		"set %d":                "toor %d",
		"%s hook and eye":       "%s ham",
		"%s hooks and eyes":     "%s hamin",
	}
	in := input(t, []string{"wearer.girth", "402.5"}, scheme.Millimetres)
	in.Language = word.Language{
		Tag: "x-made-up", Point: ",",
		Say: func(template string) string { return table[template] },
		Count: func(one, many string, n int) string {
			if n > 3 { // this one has its plural from four on
				return table[many]
			}
			return table[one]
		},
	}
	all := ""
	for _, text := range readable(t, in) {
		all += text
	}
	for _, want := range []string{"Keln: wesk ost rip", "carries it.", "lenn 2", "fol-mir", "Osk", "lukk, fol", "toor 2", "2 ham", "402,5 mm", "Table of marks"} {
		if !strings.Contains(all, want) {
			t.Errorf("nowhere %q", want)
		}
	}
	for _, gone := range []string{"Cloth: buy and cut", "opening, at the front", "hooks and eyes", "402.5"} {
		if strings.Contains(all, gone) {
			t.Errorf("%q stands in the second language", gone)
		}
	}
}
