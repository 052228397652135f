package paper

import (
	"math"
	"strconv"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// trim writes a number with at most n decimals and no zeros behind.
func trim(x float64, n int) word.Text {
	if !finite(x) {
		return word.Name("–")
	}
	return word.Say("%s", word.Number{Value: x, Decimals: n, Short: true})
}

// thousands writes a whole number with commas.
func thousands(n int) word.Text {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return word.Name(scheme.Minus(s))
}

// hours writes a range: "3 to 5 h", under 2 h in minutes.
func hours(r pattern.Range) word.Text {
	if r.Most <= 0 {
		return word.Name("–")
	}
	if r.Most < 2 {
		lo, hi := five(60*r.Least), five(60*r.Most)
		if lo == hi {
			return word.Say("%d min", hi)
		}
		return word.Say("%d to %d min", lo, hi)
	}
	show := func(h float64) word.Text {
		if h < 10 {
			return trim(math.Round(2*h)/2, 1)
		}
		return trim(math.Round(h), 0)
	}
	if a, b := show(r.Least), show(r.Most); a.String() != b.String() {
		return word.Say("%s to %s h", a, b)
	}
	return word.Say("%s h", show(r.Most))
}

// five rounds minutes to 5, at least 5.
func five(m float64) int { return max(5, 5*int(math.Round(m/5))) }

// foldName is how a fold is called on the sheets.
func foldName(f scheme.Fold) word.Text {
	if f == scheme.Crest {
		return word.Say("top fold")
	}
	return word.Say("bottom fold")
}

// foldNames is the plural.
func foldNames(f scheme.Fold) word.Text {
	if f == scheme.Crest {
		return word.Say("top folds")
	}
	return word.Say("bottom folds")
}

// edgeName is what a fold is sewn to.
func edgeName(e scheme.Edge) word.Text {
	switch e {
	case scheme.EdgeTop:
		return word.Say("top edge")
	case scheme.EdgeBottom:
		return word.Say("bottom edge")
	}
	return word.Say("not sewn")
}

// along names the threads of the cloth.
func along(a scheme.Along) word.Text {
	if a == scheme.Warp {
		return word.Say("warp")
	}
	return word.Say("weft")
}

// list joins words: "a, b and c".
func list(words []word.Text) word.Text {
	n := len(words)
	if n < 2 {
		return word.Join("", words...)
	}
	return word.Say("%s and %s", word.Join(", ", words[:n-1]...), words[n-1])
}

// partWord is the part of the body that it goes round.
func partWord(p scheme.Part) word.Text {
	if p == scheme.Wrist {
		return word.Say("wrist")
	}
	return word.Say("neck")
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
