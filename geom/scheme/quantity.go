package scheme

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"ruffwright/geom/word"
)

// words are the names of units that one kind of quantity accepts, each with its
// size in the unit kept inside.
type words []struct {
	names []string
	size  ratio
}

var (
	one = ratio{1, 1}

	// The inch is 25.4 mm, the yard 36 in, by definition since 1959.
	lengthWords = words{
		{[]string{"mm", "millimetre", "millimetres", "millimeter", "millimeters"}, one},
		{[]string{"cm", "centimetre", "centimetres", "centimeter", "centimeters"}, ratio{10, 1}},
		{[]string{"m", "metre", "metres", "meter", "meters"}, ratio{1000, 1}},
		{[]string{"in", "in.", "inch", "inches", `"`, "″", "”", "''", "’’", "′′"}, ratio{127, 5}},
		{[]string{"yd", "yd.", "yard", "yards"}, ratio{4572, 5}},
	}
	// By the unit of the field. 1 oz/yd² = 28.349523125 g ÷ 0.83612736 m², both by
	// definition (33.906 g/m²).
	unitWords = map[string]words{
		"%": {{[]string{"%", "percent", "per cent"}, one}},
		"°": {{[]string{"°", "deg", "degree", "degrees"}, one}},
		"g/m²": {
			{[]string{"g/m²", "g/m2", "g/m^2", "gsm", "g per m²"}, one},
			{[]string{"oz/yd²", "oz/yd2", "oz/yd^2", "oz/sq yd"}, ratio{28349523125, 836127360}},
		},
		"g/L": {{[]string{"g/L", "g/l", "grams per litre"}, one}},
		"N/m": {{[]string{"N/m", "N per m", "newtons per metre"}, one}},
		"per cm": {
			{[]string{"per cm", "/cm"}, one},
			{[]string{"per inch", "per in", "/in", "/inch"}, ratio{50, 127}},
		},
		"sets": {{[]string{"sets", "set"}, one}},
	}
)

func (ws words) list() string {
	var out []string
	for _, w := range ws {
		out = append(out, w.names[0])
	}
	return strings.Join(out, ", ")
}

func (ws words) size(name string) (ratio, bool) {
	for _, w := range ws {
		for _, n := range w.names {
			if n == name {
				return w.size, true
			}
		}
	}
	return ratio{}, false
}

// maxQuantity caps the text of a number in bytes: the shortest exact text of
// any float64 without an exponent has fewer than 350.
const maxQuantity = 400

var fractions = map[rune]ratio{
	'½': {1, 2}, '¼': {1, 4}, '¾': {3, 4}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8},
}

// parseQuantity reads a number, perhaps with a fraction, and a unit's name. A
// bare number is in the unit named bare ("" where there is none).
func parseQuantity(text string, ws words, bare string) (float64, error) {
	fail := func(why string, with ...any) (float64, error) {
		return 0, Error{Value: quoted(text), Why: word.Say(why, with...)}
	}
	if len(text) > maxQuantity {
		return fail("is too long for a number")
	}
	rest := strings.TrimSpace(strings.ReplaceAll(text, "\u00a0", " "))
	if rest == "" {
		return 0, Error{Why: word.Say("nothing is written here; a number is wanted")}
	}
	negative := false
	for _, sign := range []string{"-", "−", "+"} {
		if cut, ok := strings.CutPrefix(rest, sign); ok {
			negative = sign != "+"
			rest = strings.TrimLeft(cut, " ")
			break
		}
	}
	number, rest, why := scanNumber(rest)
	if !why.Empty() {
		return 0, Error{Value: quoted(text), Why: why}
	}
	unit := strings.TrimSpace(rest)
	if unit == "" {
		unit = bare
	}
	size := one
	if unit != "" {
		var ok bool
		if size, ok = ws.size(unit); !ok {
			switch {
			case unit[0] == 'e' || unit[0] == 'E':
				return fail("has an exponent or a unit that is not known here; write the number out")
			case strings.ContainsAny(unit, "0123456789½¼¾⅛⅜⅝⅞"):
				return fail("holds more than one number")
			case len(ws) == 0:
				return fail("is a bare number with something after it")
			}
			return fail("has a unit that is not known here (%s)", ws.list())
		}
	}
	v := number.times(size)
	if math.IsInf(v, 0) {
		return fail("is too large")
	}
	if v == 0 { // no negative zero
		return 0, nil
	}
	if negative {
		v = -v
	}
	return v, nil
}

// scanNumber reads `15`, `15.5`, `15,5`, `1/4`, `15 1/2`, `15-1/2`, `15½` from the
// start of text and gives what follows. why is empty where it could.
func scanNumber(text string) (v amount, rest string, why word.Text) {
	fail := func(why string, with ...any) (amount, string, word.Text) { return amount{}, "", word.Say(why, with...) }
	whole, rest := digits(text)
	if strings.HasPrefix(rest, "/") && whole != "" {
		return fraction(whole, rest[1:])
	}
	decimal := ""
	if len(rest) > 0 && (rest[0] == '.' || rest[0] == ',') {
		mark := rest[0]
		decimal, rest = digits(rest[1:])
		switch {
		case decimal == "":
			return fail("has a decimal mark with no digit after it")
		case len(rest) > 0 && (rest[0] == '.' || rest[0] == ','):
			return fail("has two decimal marks; write it without marks for thousands")
		case mark == ',' && len(decimal) == 3 && whole != "" && len(whole) <= 3 && whole[0] != '0':
			return fail("can be read two ways; write %s or %s", whole+decimal, whole+"."+decimal)
		}
	}
	switch {
	case decimal != "":
		return amount{whole: whole, decimal: decimal}, rest, why
	case whole == "":
		if part, after, ok := vulgar(rest); ok {
			return amount{part: part}, after, why
		}
		return fail("is not a number")
	}
	return mixed(whole, rest)
}

// vulgar reads a fraction that is one sign, as ½.
func vulgar(text string) (part ratio, rest string, ok bool) {
	r, size := utf8.DecodeRuneInString(text)
	part, ok = fractions[r]
	return part, text[size:], ok
}

// mixed reads what may follow a whole number: ` 1/2`, `-1/2`, `½`, ` ½`, or nothing.
func mixed(whole, text string) (v amount, rest string, why word.Text) {
	next := strings.TrimLeft(text, " ")
	if part, after, ok := vulgar(next); ok {
		return amount{whole: whole, part: part}, after, why
	}
	above, after := digits(strings.TrimPrefix(next, "-"))
	if above == "" || !strings.HasPrefix(after, "/") || next == text && next[0] != '-' {
		return amount{whole: whole}, text, why
	}
	if v, rest, why = fraction(above, after[1:]); !why.Empty() {
		return amount{}, "", why
	}
	if v.part.over >= v.part.under {
		return amount{}, "", word.Say("has a fraction of one or more after a whole number")
	}
	v.whole = whole
	return v, rest, why
}

// fraction reads the denominator and what follows it.
func fraction(above, text string) (v amount, rest string, why word.Text) {
	unread := word.Say("has a fraction that cannot be read")
	below, rest := digits(text)
	if below == "" || len(below) > 4 || len(above) > 6 || strings.Trim(below, "0") == "" {
		return amount{}, "", unread
	}
	if strings.HasPrefix(rest, "/") || strings.HasPrefix(rest, ".") || strings.HasPrefix(rest, ",") {
		return amount{}, "", unread
	}
	over, err := strconv.ParseUint(above, 10, 64)
	under, err2 := strconv.ParseUint(below, 10, 64)
	if err != nil || err2 != nil {
		return amount{}, "", unread
	}
	return amount{part: ratio{over, under}}, rest, why
}

// digits splits the decimal digits off the front of text.
func digits(text string) (front, rest string) {
	i := 0
	for i < len(text) && text[i] >= '0' && text[i] <= '9' {
		i++
	}
	return text[:i], text[i:]
}

// quoted gives hostile text fit for an error.
func quoted(text string) word.Text { return word.Name("“" + shorten(text, 40) + "”") }
