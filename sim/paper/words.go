package paper

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
)

// trim writes a number with at most n decimals and no zeros behind.
func trim(x float64, n int) string {
	if !finite(x) {
		return "–"
	}
	s := strconv.FormatFloat(x, 'f', n, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return scheme.Minus(s)
}

// thousands writes a whole number with commas.
func thousands(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return scheme.Minus(s)
}

// plural is "1 set", "2 sets".
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return thousands(n) + " " + many
}

// hours writes a range: "3 to 5 h", under 2 h in minutes.
func hours(r pattern.Range) string {
	if r.Most <= 0 {
		return "–"
	}
	if r.Most < 2 {
		lo, hi := five(60*r.Least), five(60*r.Most)
		if lo == hi {
			return fmt.Sprintf("%d min", hi)
		}
		return fmt.Sprintf("%d to %d min", lo, hi)
	}
	show := func(h float64) string {
		if h < 10 {
			return trim(math.Round(2*h)/2, 1)
		}
		return trim(math.Round(h), 0)
	}
	if a, b := show(r.Least), show(r.Most); a != b {
		return a + " to " + b + " h"
	}
	return show(r.Most) + " h"
}

// five rounds minutes to 5, at least 5.
func five(m float64) int { return max(5, 5*int(math.Round(m/5))) }

// foldName is how a fold is called on the sheets.
func foldName(f scheme.Fold) string {
	if f == scheme.Crest {
		return "top fold"
	}
	return "bottom fold"
}

// foldNames is the plural.
func foldNames(f scheme.Fold) string { return foldName(f) + "s" }

// edgeName is what a fold is sewn to.
func edgeName(e scheme.Edge) string {
	switch e {
	case scheme.EdgeTop:
		return "top edge"
	case scheme.EdgeBottom:
		return "bottom edge"
	}
	return "not sewn"
}

// list joins words: "a, b and c".
func list(words []string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// partWord is the part of the body that it goes round.
func partWord(p scheme.Part) string {
	if p == scheme.Wrist {
		return "wrist"
	}
	return "neck"
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
