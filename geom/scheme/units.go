package scheme

import (
	"math"
	"strconv"
	"strings"

	"ruffwright/geom/word"
)

// Units are the units of length at the edge, where people read and type. Inside
// everything is in mm.
type Units int

// The three units of length that a person may choose.
const (
	Millimetres Units = iota
	Centimetres
	Inches
)

// Symbol gives "mm", "cm" or "in".
func (u Units) Symbol() string {
	switch u {
	case Centimetres:
		return "cm"
	case Inches:
		return "in"
	}
	return "mm"
}

// String gives the symbol.
func (u Units) String() string { return u.Symbol() }

// ParseUnits reads "mm", "cm" or "in".
func ParseUnits(text string) (Units, error) {
	for _, u := range []Units{Millimetres, Centimetres, Inches} {
		if strings.TrimSpace(text) == u.Symbol() {
			return u, nil
		}
	}
	return Millimetres, Error{Field: "units", Value: word.Name(strconv.Quote(shorten(text, 40))), Why: word.Say("is not a unit of length offered here"), Allowed: word.Name("mm, cm, in")}
}

// ParseLength reads a length as people write it and gives mm. A bare number is
// in u. Accepted: 395 · 39,5 cm · 15 1/2" · 15-1/2 in · 15½″ · .5 in · 4 yd · 3.7 m,
// with a sign. The conversion is exact (rational) and rounded once, so that a
// text always gives the same float.
//
// Refused, with the reason: nothing, letters, two numbers, other units,
// exponents, NaN, Inf, and a comma before exactly three digits (1,400), which
// can be read two ways.
func ParseLength(text string, u Units) (mm float64, err error) {
	return parseQuantity(text, lengthWords, u.Symbol())
}

// Length gives mm in u with its symbol, for people to read: mm with up to two
// decimals, cm with one or two, inches as a fraction where the length is one of 1/2
// to 1/32 exactly, else with up to three decimals. It rounds; see Field.Set for why
// that never changes a scheme. What is not finite gives "–".
func Length(mm float64, u Units) word.Text {
	text := BareLength(mm, u)
	if text == "–" {
		return word.Name(text)
	}
	return word.Say("%s %s", word.Written(text), u.Symbol())
}

// FormatLength is Length in English.
func FormatLength(mm float64, u Units) string { return Length(mm, u).String() }

// Rounded is a length as it is said, mm: to 0.1 mm, from 100 mm on to half a millimetre, in
// inches to 1/32. No ruler shows more.
func Rounded(mm float64, u Units) float64 {
	step := 0.1
	switch {
	case u == Inches:
		step = 25.4 / 32
	case math.Abs(mm) >= 100:
		step = 0.5
	}
	return math.Round(mm/step)*step + 0 // no −0
}

// Minus gives a number that begins with a hyphen the sign, for people: in print
// they look unlike. ParseLength reads both.
func Minus(number string) string {
	if positive, ok := strings.CutPrefix(number, "-"); ok {
		return "−" + positive
	}
	return number
}

// BareLength is Length without the symbol, as a form's box shows it, with a
// hyphen for a minus: as it is typed.
func BareLength(mm float64, u Units) string {
	if math.IsNaN(mm) || math.IsInf(mm, 0) {
		return "–"
	}
	switch u {
	case Centimetres:
		return plainZero(strings.TrimSuffix(strconv.FormatFloat(mm/10, 'f', 2, 64), "0"))
	case Inches:
		return inches(mm)
	}
	return decimals(mm, 2)
}

// inches gives a whole number and a fraction, or a decimal number.
func inches(mm float64) string {
	const mmPerInch = 25.4
	// 1/32 in is 0.79 mm; a float in the scheme's ranges (to 50,000 mm) carries
	// an error of 1e-11 mm, so 1e-9 of a 32nd accepts what was typed as a
	// fraction and nothing that was not.
	in32 := mm / mmPerInch * 32
	whole := math.Round(in32)
	if math.Abs(in32-whole) > 1e-9*math.Max(1, math.Abs(whole)) || math.Abs(whole) > 1e12 {
		return decimals(mm/mmPerInch, 3)
	}
	n := int64(whole)
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	num, den := n%32, int64(32)
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	switch {
	case num == 0:
		return sign + strconv.FormatInt(n/32, 10)
	case n < 32:
		return sign + strconv.FormatInt(num, 10) + "/" + strconv.FormatInt(den, 10)
	}
	return sign + strconv.FormatInt(n/32, 10) + " " + strconv.FormatInt(num, 10) + "/" + strconv.FormatInt(den, 10)
}

// decimals gives at most n decimals, without needless zeros.
func decimals(v float64, n int) string {
	text := strconv.FormatFloat(v, 'f', n, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return plainZero(text)
}

// plainZero turns "-0" and "-0.0" into "0" and "0.0".
func plainZero(text string) string {
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// exact gives the shortest text that reads back as the same float; negative
// zero as 0.
func exact(v float64) string {
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
