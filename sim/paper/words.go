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
	return when(!finite(x), word.Name("–"), word.Say("%s", word.Number{Value: x, Decimals: n, Short: true}))
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
		return when(lo == hi, word.Say("%d min", hi), word.Say("%d to %d min", lo, hi))
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

// How folds, edges of the band, threads, parts of the body and units are called.
var (
	foldName  = map[scheme.Fold]word.Text{scheme.Crest: word.Say("top fold"), scheme.Trough: word.Say("bottom fold")}
	foldNames = map[scheme.Fold]word.Text{scheme.Crest: word.Say("top folds"), scheme.Trough: word.Say("bottom folds")}
	markName  = map[scheme.Fold]word.Text{scheme.Crest: word.Say("top"), scheme.Trough: word.Say("bottom")}
	edgeName  = map[scheme.Edge]word.Text{scheme.EdgeTop: word.Say("top edge"), scheme.EdgeBottom: word.Say("bottom edge")}
	along     = map[scheme.Along]word.Text{scheme.Warp: word.Say("warp"), scheme.Weft: word.Say("weft")}
	partWord  = map[scheme.Part]word.Text{scheme.Neck: word.Say("neck"), scheme.Wrist: word.Say("wrist")}
	unitWord  = map[scheme.Units]word.Text{scheme.Millimetres: word.Say("mm"), scheme.Centimetres: word.Say("cm"), scheme.Inches: word.Say("inches")}
)

func list(words []word.Text) word.Text {
	n := len(words)
	if n < 2 {
		return word.Join("", words...)
	}
	return word.Say("%s and %s", word.Join(", ", words[:n-1]...), words[n-1])
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// when is one of two texts.
func when(yes bool, this, otherwise word.Text) word.Text {
	if yes {
		return this
	}
	return otherwise
}
