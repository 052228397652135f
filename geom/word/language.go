package word

import (
	"strings"
	"unicode"
)

// Language is how a text is put. Its functions are nil in English.
type Language struct {
	Tag string // of BCP 47: en, de, cy
	// Say gives the language's own template for an English one, "" where it has none:
	// then the English one stands. It has the same verbs; indexes may change their order.
	Say func(english string) string
	// Count gives the template for n things by the language's plural rules (CLDR,
	// Language Plural Rules), "" where it has none.
	Count func(one, many string, n int) string
	Point string                  // the decimal mark; "" is a point
	Key   func(key string) string // how a field's key is shown; nil: as it is
}

// English is the language of the templates.
var English = Language{Tag: "en"}

// Tagged is the language of a tag of BCP 47, English where there is none.
func Tagged(tag string) Language {
	for _, l := range []Language{Accented, Long} {
		if l.Tag == tag {
			return l
		}
	}
	return English
}

func (l Language) say(english string) string {
	if l.Say != nil {
		if own := l.Say(english); own != "" {
			return own
		}
	}
	return english
}

func (l Language) count(one, many string, n int) string {
	if l.Count != nil {
		if own := l.Count(one, many, n); own != "" {
			return own
		}
	}
	if n == 1 {
		return one
	}
	return many
}

// Accented and Long are the languages of the tests: English with its vowels
// accented, so that text which bypasses the templates is seen; Long is two fifths
// longer as well, so that a place too narrow for a translation is seen. BCP 47 keeps
// XA for private use.
var (
	Accented = madeUp("en-XA-short", 0)
	Long     = madeUp("en-XA", 7)
)

// madeUp is English with accents; of every five letters longer become so many.
func madeUp(tag string, longer int) Language {
	say := func(english string) string { return accented(english, longer) }
	return Language{Tag: tag, Say: say, Count: func(one, many string, n int) string { return say(English.count(one, many, n)) }}
}

var accents = map[rune]rune{'a': 'á', 'e': 'é', 'i': 'í', 'o': 'ó', 'u': 'ú', 'y': 'ý', 'A': 'Á', 'E': 'É', 'I': 'Í', 'O': 'Ó', 'U': 'Ú', 'Y': 'Ý'}

// accented gives a template its accents. Verbs (%s, %[2]d, %.1f) and places in braces
// stay as they are.
func accented(template string, longer int) string {
	var out strings.Builder
	in, n, place, verb := 0, 0, false, false
	for _, r := range template {
		switch r {
		case '{':
			place = true
		case '}':
			place = false
		case '%':
			verb = !verb // %% ends at once
			out.WriteRune(r)
			continue
		}
		if verb {
			out.WriteRune(r)
			verb = !unicode.IsLetter(r)
			continue
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
		for more := unicode.ToLower(a); n*5 < in*longer; n++ {
			out.WriteRune(more)
		}
	}
	return out.String()
}
