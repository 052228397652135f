// Package say holds all that the page says, in one table, and puts it into the
// page's language: words with their places filled, small numbers, lengths, and
// what comes from other tables and from errors below.
package say

import (
	"fmt"
	"html"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// Go says a key through Word and Many; index.html as {key}, in a text or an
// attribute. The labels of fields stand in geom/scheme's table, the sentences of
// findings in sim/check's; they come in through Fields, Finds and Theirs, nowhere
// else.
//
// A test reads the source: text in it that is not in the table fails, and so
// does a key that is missing, unused, or called with other places than it has.

// Long is the language of the tests: English with every letter of a vowel
// accented and two fifths longer, so that text which bypasses the table is seen,
// and so is a place that is too narrow for a translation. (BCP 47 keeps XA for
// private use.)
const Long = "en-XA"

// tongue is the page's language: English, or Long. It is set before New.
var tongue = "en"

// Speak sets the language of every page made from now on; one that the page
// does not know becomes English.
func Speak(lang string) {
	tongue = "en"
	if lang == Long {
		tongue = Long
	}
}

// Word is the text of a key of the table, its places filled: word("view.said",
// "view", label) for "View: {view}.". Numbers are given as ints or written
// already; a place may hold another word.
func Word(key string, places ...any) string {
	t, ok := words[key]
	if !ok {
		return "{" + key + "}"
	}
	t = Theirs(t)
	if len(places) == 0 {
		return t
	}
	var out strings.Builder
	for {
		before, rest, ok := strings.Cut(t, "{")
		out.WriteString(before)
		if !ok {
			return out.String()
		}
		name, after, closed := strings.Cut(rest, "}")
		at := 0
		for at+1 < len(places) && places[at] != name {
			at += 2
		}
		if !closed || at+1 >= len(places) {
			out.WriteString("{")
			t = rest
			continue
		}
		if text, ok := places[at+1].(string); ok {
			out.WriteString(text)
		} else {
			fmt.Fprint(&out, places[at+1])
		}
		t = after
	}
}

// Language is the page's language, as HTML names it.
func Language() string { return tongue }

// Fill puts the page's own words into a text of HTML: each {key} in it becomes
// the key's words, escaped. A key that is not in the table is an error.
func Fill(text string) (string, error) {
	var out strings.Builder
	for {
		before, rest, ok := strings.Cut(text, "{")
		out.WriteString(before)
		if !ok {
			return out.String(), nil
		}
		key, rest, ok := strings.Cut(rest, "}")
		if _, known := words[key]; !ok || !known {
			return "", fmt.Errorf("{%.40s}: there are no such words in the page's table", key)
		}
		out.WriteString(html.EscapeString(Word(key)))
		text = rest
	}
}

// Many is the text of key.one or key.many: {n} is the number in words, {N} the
// same at the head of a sentence.
func Many(key string, n int, places ...any) string {
	key += ".many"
	if n == 1 {
		key = strings.TrimSuffix(key, "many") + "one"
	}
	return Word(key, append(places, "n", Number(n), "N", Capital(Number(n)))...)
}

// Number is a small count in words.
func Number(n int) string {
	if names := strings.Fields(Word("numbers")); n >= 0 && n < len(names) {
		return names[n]
	}
	return fmt.Sprint(n)
}

// Theirs is text from another table, in the page's language: a field's, a
// finding's, a demo's, an error of what lies below.
func Theirs(text string) string {
	if tongue == Long {
		return long(text)
	}
	return text
}

// Told is an error of what lies below, as a person reads it: fields by their
// labels instead of their keys, numbers with no more decimals than anybody uses.
func Told(why string) string { return Theirs(rounded(labels().Replace(why))) }

// labels puts the fields' labels in the place of their keys. A key that is an
// ordinary word by itself ("name") stays.
var labels = sync.OnceValue(func() *strings.Replacer {
	all := scheme.Fields()
	slices.SortFunc(all, func(a, b scheme.Field) int { return len(b.Key) - len(a.Key) }) // strip.hem_turns before strip.hem
	var pairs []string
	for _, f := range all {
		if strings.Contains(f.Key, ".") {
			pairs = append(pairs, f.Key, Word("state.label", "field", f.Label))
		}
	}
	return strings.NewReplacer(pairs...)
})

// mostDecimals is how many decimals a number in an error keeps.
const mostDecimals = 3

// rounded shortens the numbers in a text that have more than mostDecimals.
func rounded(text string) string {
	var out strings.Builder
	for i := 0; i < len(text); {
		j := i
		for j < len(text) && (text[j] >= '0' && text[j] <= '9' || text[j] == '.' && j > i) {
			j++
		}
		whole, decimals, _ := strings.Cut(text[i:j], ".")
		switch v, err := strconv.ParseFloat(text[i:j], 64); {
		case j == i:
			out.WriteByte(text[i])
			j++
		case err == nil && whole != "" && len(decimals) > mostDecimals:
			out.WriteString(strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64))
		default:
			out.WriteString(text[i:j])
		}
		i = j
	}
	return out.String()
}

// Fields are the fields in the order of the form, their words in the page's
// language.
func Fields() []scheme.Field {
	all := scheme.Fields()
	if tongue == "en" {
		return all
	}
	for i := range all {
		f := &all[i]
		f.Label, f.Help, f.Changes, f.Zero = Theirs(f.Label), Theirs(f.Help), Theirs(f.Changes), Theirs(f.Zero)
		f.Choices = append([]scheme.Choice(nil), f.Choices...)
		for k := range f.Choices {
			f.Choices[k].Label = Theirs(f.Choices[k].Label)
		}
	}
	return all
}

// Finds are a ruff's findings, lengths in units, in the page's language.
func Finds(r sim.Ruff, units scheme.Units) []check.Finding {
	all := check.Find(r, units)
	for i := range all {
		f := &all[i]
		f.Sentence = word.Name(Theirs(f.Sentence.String()))
		for k := range f.Remedies {
			f.Remedies[k].Sentence = word.Name(Theirs(f.Remedies[k].Sentence.String()))
		}
	}
	return all
}

// Sentence begins with a capital and ends with a stop.
func Sentence(text string) string {
	text = Capital(strings.TrimSpace(text))
	if text != "" && !strings.ContainsAny(text[len(text)-1:], ".!?") {
		text += "."
	}
	return text
}

// Capital begins with a capital.
func Capital(text string) string {
	first := true
	return strings.Map(func(r rune) rune {
		if first {
			first = false
			return unicode.ToUpper(r)
		}
		return r
	}, text)
}

// mostNamed is how many things that stop a ruff, or are to mend, the verdict
// names; the findings name all.
const mostNamed = 3

// Listed is the first few of many things, divided by semicolons.
func Listed(things []string) string {
	if len(things) > mostNamed {
		return Word("verdict.others", "what", strings.Join(things[:mostNamed], "; "), "n", Number(len(things)-mostNamed))
	}
	return strings.Join(things, "; ")
}

// Inside is a title in the middle of a sentence.
func Inside(title string) string {
	first, n := utf8.DecodeRuneInString(title)
	return string(unicode.ToLower(first)) + title[n:]
}

// Title is a finding's few words.
func Title(id string) string {
	for _, r := range check.Table() {
		if r.ID == id {
			return Theirs(r.Title)
		}
	}
	return id
}

// Amount is a number of so many figures with its unit; below a ten-thousandth
// it is 0.
func Amount(x float64, unit string, figures int) string {
	text := strconv.FormatFloat(x, 'g', figures, 64)
	if math.Abs(x) < 1e-4 {
		text = "0"
	}
	text = scheme.Minus(text)
	if unit == "°" {
		return text + unit
	}
	return text + " " + Theirs(unit)
}

// Brief is a text with at most 24 letters.
func Brief(text string) string {
	if letters := []rune(text); len(letters) > 24 {
		return string(letters[:23]) + "…"
	}
	return text
}

// Length writes a length that was solved: to 0.1 mm, in inches to 1/32.
func Length(mm float64, units scheme.Units) string {
	step := 0.1
	if units == scheme.Inches {
		step = 25.4 / 32
	}
	return scheme.FormatLength(math.Round(mm/step)*step+0, units)
}

// Slope says which way an outer edge runs.
func Slope(deg float64) string {
	switch {
	case math.Abs(deg) < 0.5:
		return Word("slope.level")
	case deg > 0:
		return Word("slope.rises")
	}
	return Word("slope.falls")
}

// Slopes is the same as a part of a sentence.
func Slopes(deg float64) string {
	if math.Abs(deg) < 0.5 {
		return Word("slope.islevel")
	}
	return Slope(deg)
}

// accents are the vowels of Long.
var accents = map[rune]rune{'a': 'á', 'e': 'é', 'i': 'í', 'o': 'ó', 'u': 'ú', 'y': 'ý', 'A': 'Á', 'E': 'É', 'I': 'Í', 'O': 'Ó', 'U': 'Ú', 'Y': 'Ý'}

// long is text in Long. Places, and what is Long already, stay as they are.
func long(text string) string {
	var out strings.Builder
	in, n, place := 0, 0, false
	for _, r := range text {
		switch r {
		case '{':
			place = true
		case '}':
			place = false
		}
		a, vowel := accents[r]
		if place || !vowel {
			out.WriteRune(r)
			if !place {
				in, n = in+1, n+1
			}
			continue
		}
		in, n = in+1, n+1
		out.WriteRune(a)
		for more := unicode.ToLower(a); n*5 < in*7; n++ {
			out.WriteRune(more)
		}
	}
	return out.String()
}
