// Package say puts what the page says into the page's language: its own texts, those
// that come from the rooms below, and index.html's.
package say

import (
	"errors"
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/check"
)

// language is the page's. It is set before New.
var language = word.English

// Speak sets the language of every page made from now on by its tag.
func Speak(tag string) { language = word.Tagged(tag) }

// Language is the page's language. It shows fields by their labels.
func Language() word.Language {
	l := language
	l.Key = label
	return l
}

// In puts a text of the rooms below into the page's language.
func In(text word.Text) string { return text.In(Language()) }

// Text is a text of the page, as word.Say takes it, in the page's language. The
// labels and helps of fields and the titles of findings are templates without places.
func Text(english string, with ...any) string { return In(word.Say(english, with...)) }

// Count is Text for n things, as word.Count takes it.
func Count(n int, one, many string, with ...any) string {
	return In(word.Count(n, one, many, with...))
}

// label shows the key of a field, or of several with commas between them.
func label(keys string) string {
	all := strings.Split(keys, ", ")
	for i, key := range all {
		if f, ok := scheme.Lookup(key); ok {
			key = Text(f.Label)
		}
		all[i] = "“" + key + "”"
	}
	return strings.Join(all, ", ")
}

// Fill puts the page's words into a text of HTML: each {text} in it, which may have
// places in braces of its own, becomes the page's, escaped.
func Fill(text string) (string, error) {
	var out strings.Builder
	depth, from := 0, 0
	for i, r := range text {
		switch {
		case r == '{':
			if depth++; depth == 1 {
				out.WriteString(text[from:i])
				from = i + 1
			}
		case r == '}' && depth == 0:
			return "", fmt.Errorf("%.40s: a brace that opens nothing", text[i:])
		case r == '}':
			if depth--; depth == 0 {
				out.WriteString(html.EscapeString(Text(text[from:i])))
				from = i + 1
			}
		}
	}
	if depth > 0 {
		return "", fmt.Errorf("{%.40s: a brace that is not closed", text[from:])
	}
	return out.String() + text[from:], nil
}

// numbers are small counts in words.
var numbers = [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}

// Number is a small count in words.
func Number(n int) string {
	if n >= 0 && n < len(numbers) {
		return Text(numbers[n])
	}
	return strconv.Itoa(n)
}

// Why is what an error says, as a sentence.
func Why(err error) string { return Sentence(In(word.Of(err))) }

// mostFaults is how many faults of a scheme are told.
const mostFaults = 5

// Faults are what is wrong with a scheme or its document, a sentence each: the field,
// the value, what is allowed. The field own is not named: it is told beside it.
func Faults(err error, own string) string {
	var list scheme.Errors
	if one := (scheme.Error{}); errors.As(err, &one) {
		list = scheme.Errors{one}
	} else if !errors.As(err, &list) {
		return Why(err)
	}
	var lines []string
	for i, e := range list {
		if i == mostFaults {
			lines = append(lines, Text("And %d more.", len(list)-i))
			break
		}
		field := e.Field
		e.Field = ""
		line := In(e.Said())
		if f, ok := scheme.Lookup(field); ok && field != own {
			line = Text("%s: %s", Text(f.Label), line)
		} else if field != own && field != "" {
			line = Text("%s: %s", word.Key(field), line)
		}
		lines = append(lines, Sentence(line))
	}
	return strings.Join(lines, " ")
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
	first, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[n:]
}

// Inside is a title in the middle of a sentence.
func Inside(title string) string {
	first, n := utf8.DecodeRuneInString(title)
	return string(unicode.ToLower(first)) + title[n:]
}

// mostNamed is how many things that stop a ruff, or are to mend, the verdict
// names; the findings name all.
const mostNamed = 3

// Listed is the first few of many things, divided by semicolons.
func Listed(things []string) string {
	if more := len(things) - mostNamed; more > 0 {
		return Text("%s; and %s more", strings.Join(things[:mostNamed], "; "), Number(more))
	}
	return strings.Join(things, "; ")
}

// Title is a finding's few words.
func Title(id string) string {
	for _, r := range check.Table() {
		if r.ID == id {
			return Text(r.Title)
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
	if unit == "°" {
		return Text("%s°", word.Written(text))
	}
	return Text("%s %s", word.Written(text), Text(unit))
}

// Brief is a text with at most 24 letters.
func Brief(text string) string {
	if letters := []rune(text); len(letters) > 24 {
		return string(letters[:23]) + "…"
	}
	return text
}

// Length writes a length that was solved (scheme.Rounded).
func Length(mm float64, units scheme.Units) string {
	return In(scheme.Length(scheme.Rounded(mm, units), units))
}

// Slope says which way an outer edge runs.
func Slope(deg float64) string {
	switch {
	case math.Abs(deg) < 0.5:
		return Text("level")
	case deg > 0:
		return Text("rises outward")
	}
	return Text("falls outward")
}

// Slopes is the same as a part of a sentence.
func Slopes(deg float64) string {
	if math.Abs(deg) < 0.5 {
		return Text("is level")
	}
	return Slope(deg)
}
